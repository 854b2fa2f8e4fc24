package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The demo made to look real, so that it can be signed, as only a test may. */
final class DemoRecord {

    static final String SECRET = "open sesame 1\n";

    private DemoRecord() {}

    /** Takes the mark of invented recordings away. */
    static void makeReal(Path visit) throws IOException {
        List<Path> recordings;
        try (Stream<Path> all = Files.list(visit.resolve("recordings"))) {
            recordings = all.toList();
        }
        for (Path recording : recordings) {
            List<String> lines = Files.readAllLines(recording);
            Files.write(recording, lines.subList(1, lines.size()));
        }
    }

    /** Name of who made the visit. */
    static String technician(Path visit) throws IOException {
        return Files.readAllLines(visit.resolve("visit.yaml")).stream()
                .dropWhile(line -> !line.startsWith("people:"))
                .filter(line -> line.contains("name:"))
                .map(line -> line.replaceAll(".*name: *", "")
                        .replaceAll("[,}].*", "")
                        .replaceAll("[\"']", "")
                        .strip())
                .findFirst()
                .orElseThrow();
    }

    /** Gives the technician a key. */
    static void key(Session session, String record, String technician) {
        Session.Said said = session.answered(SECRET, "key", record, "--by", technician);
        assertThat(said.status()).as(said.err()).isEqualTo(ExitStatus.PASS);
    }
}
