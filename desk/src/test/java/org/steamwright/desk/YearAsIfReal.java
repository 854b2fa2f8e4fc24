package org.steamwright.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.steamwright.simulator.DemoVisit;

/** The invented year without the line that says so in each recording: nobody may sign what is known to be simulated. */
public final class YearAsIfReal {

    private YearAsIfReal() {}

    /** Writes the visits below that folder. */
    public static void write(Path folder) throws IOException {
        for (Path visit : DemoVisit.writeYear(folder)) {
            try (Stream<Path> all = Files.list(visit.resolve("recordings"))) {
                for (Path recording : all.toList()) {
                    List<String> lines = Files.readAllLines(recording);
                    Files.write(recording, lines.subList(1, lines.size()));
                }
            }
        }
    }
}
