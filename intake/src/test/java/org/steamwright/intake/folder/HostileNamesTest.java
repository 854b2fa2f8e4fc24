package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.PathNames;

/** Names in the fields of a visit file that try to lead out of its folder: none is opened. */
class HostileNamesTest {

    private static final int NAMES = 1_000;
    private static final int RUNS_PER_VISIT = 25;

    @TempDir
    Path root;

    @Test
    void a_thousand_names_open_nothing_outside_the_folder() throws IOException {
        Path visit = Files.createDirectories(root.resolve("a/b/visit"));
        String recording = VisitFixture.stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310.0);
        Path outside = Files.writeString(root.resolve("outside.csv"), recording);
        for (Path place : List.of(root.resolve("a"), root.resolve("a/b"), root.resolve("a/b/outside"))) {
            Files.createDirectories(place);
            Files.writeString(place.resolve("outside.csv"), recording);
        }
        Files.createSymbolicLink(visit.resolve("link-to-outside.csv"), outside);
        Files.createSymbolicLink(visit.resolve("link-to-folder"), root);
        VisitFixture fixture = VisitFixture.tenLines(visit);
        List<String> names = PathNames.of(NAMES, outside.toString(), 20261125);
        List<Path> before = everything();
        int refusedByName = 0;
        for (int from = 0; from < NAMES; from += RUNS_PER_VISIT) {
            List<String> some = names.subList(from, from + RUNS_PER_VISIT);
            List<String> problems = problems(fixture, some);
            if (problems.get(0).startsWith("VISIT-003")) {
                for (String name : some) {
                    refusedByName += refused(name, 1, problems(fixture, List.of(name)));
                }
            } else {
                for (int i = 0; i < some.size(); i++) {
                    refusedByName += refused(some.get(i), i + 1, problems);
                }
            }
        }
        assertThat(everything()).as("nothing was written").isEqualTo(before);
        assertThat(refusedByName).as("names that YAML can hold").isGreaterThan(900);
    }

    private static List<String> problems(VisitFixture fixture, List<String> names) {
        StringBuilder yaml = new StringBuilder(
                        VisitFixture.TEN_LINES.substring(0, VisitFixture.TEN_LINES.indexOf("runs:")))
                .append("runs:\n");
        for (String name : names) {
            yaml.append("  - kind: empty-chamber\n    recording: ")
                    .append(quoted(name))
                    .append("\n    channels: {T1: reference-point, T2: free-chamber, P: pressure}\n");
        }
        return fixture.yaml(yaml.toString()).problems();
    }

    /** One if the run was refused for its recording, none if YAML could not hold the name. */
    private static int refused(String name, int run, List<String> problems) {
        if (problems.get(0).startsWith("VISIT-003")) {
            return 0;
        }
        assertThat(problems).as(name).anyMatch(problem -> problem.contains("runs[" + run + "]"));
        assertThat(problems).as("no reading of the file outside").noneMatch(problem -> problem.contains("134."));
        return 1;
    }

    private List<Path> everything() throws IOException {
        try (Stream<Path> all = Files.walk(root)) {
            return all.sorted().toList();
        }
    }

    /** A text as YAML has it between quotation marks; what it cannot hold is left as it is. */
    private static String quoted(String name) {
        StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            if (c == '"' || c == '\\') {
                quoted.append('\\').append(c);
            } else if (c < ' '
                    || c == '\u007f'
                    || c == '\u0085'
                    || (c >= '\u2028' && c <= '\u2029')
                    || c >= '\uFEFF'
                    || c == '\u200B') {
                quoted.append(String.format(Locale.ROOT, "\\u%04X", (int) c));
            } else {
                quoted.append(c);
            }
        }
        return quoted.append('"').toString();
    }
}
