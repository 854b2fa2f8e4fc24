package org.steamwright.filing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visits;

/** The visits of the invented year as if they were real, and what follows from them, each worked out once. */
final class YearVisits {

    private static final Map<String, AssessedVisit> ASSESSED = new ConcurrentHashMap<>();

    private YearVisits() {}

    /** Writes them without the mark of simulated recordings. */
    static void write(Path year) throws IOException {
        for (Path visit : DemoVisit.writeYear(year)) {
            try (Stream<Path> all = Files.list(visit.resolve("recordings"))) {
                for (Path recording : all.toList()) {
                    List<String> lines = Files.readAllLines(recording);
                    Files.write(recording, lines.subList(1, lines.size()));
                }
            }
        }
    }

    /** One of them with everything that follows. */
    static AssessedVisit assessed(String name) {
        return ASSESSED.computeIfAbsent(name, YearVisits::assess);
    }

    private static AssessedVisit assess(String name) {
        try {
            Path year = Files.createTempDirectory("year");
            try {
                write(year);
                return Visits.assess(VisitFolder.read(year.resolve(name), new Presets()));
            } finally {
                try (Stream<Path> all = Files.walk(year)) {
                    all.sorted(Comparator.reverseOrder())
                            .forEach(one -> one.toFile().delete());
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (VisitFolderException e) {
            throw new IllegalStateException(e);
        }
    }
}
