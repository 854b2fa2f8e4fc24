package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.visit.Visit;

/** Whatever is done to a good file, the answer is a visit or a list of problems that say what to do. */
class VisitFolderRobustnessTest {

    private static final List<String> RUBBISH = List.of("", "x", "[]", "{x: y}", "-1", "null", "1e99", "*load");

    @TempDir
    Path folder;

    @Test
    void survives_any_value_at_any_key() throws IOException {
        VisitFixture fixture = Examples.full(folder);
        List<String> lines = Examples.get("full").lines().toList();
        int refused = 0;
        for (int i = 0; i < lines.size(); i++) {
            int colon = lines.get(i).indexOf(": ");
            if (colon < 0) {
                continue;
            }
            for (String value : RUBBISH) {
                List<String> changed = new ArrayList<>(lines);
                changed.set(i, lines.get(i).substring(0, colon + 2) + value);
                refused += outcome(fixture, String.join("\n", changed)) ? 0 : 1;
            }
        }
        assertThat(refused).as("most rubbish is refused").isGreaterThan(500);
    }

    @Test
    void survives_any_missing_line_and_any_cut() throws IOException {
        VisitFixture fixture = Examples.full(folder);
        String text = Examples.get("full");
        List<String> lines = text.lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            List<String> changed = new ArrayList<>(lines);
            changed.remove(i);
            outcome(fixture, String.join("\n", changed));
            if (i % 4 == 0) {
                outcome(fixture, String.join("\n", lines.subList(0, i)));
            }
        }
    }

    @Test
    void survives_random_bytes() throws IOException {
        VisitFixture fixture = Examples.full(folder);
        byte[] good = Examples.get("full").getBytes(StandardCharsets.UTF_8);
        Random random = new Random(20260302);
        for (int i = 0; i < 150; i++) {
            byte[] bytes = good.clone();
            for (int k = 0; k < 1 + i % 3; k++) {
                bytes[random.nextInt(bytes.length)] =
                        (byte) (i % 2 == 0 ? random.nextInt(256) : 32 + random.nextInt(95));
            }
            outcome(fixture.file(VisitFolder.FILE_NAME, bytes));
        }
    }

    private static boolean outcome(VisitFixture fixture, String yaml) throws IOException {
        return outcome(fixture.yaml(yaml));
    }

    /** Whether a visit came out; fails if anything but a visit or problems with a remedy did. */
    private static boolean outcome(VisitFixture fixture) throws IOException {
        try {
            Visit visit = fixture.read();
            assertThat(visit.runs()).isNotEmpty();
            return true;
        } catch (VisitFolderException e) {
            assertThat(e.problems()).isNotEmpty();
            Set<String> ids = new TreeSet<>();
            for (Mistake mistake : Mistake.values()) {
                ids.add(mistake.id());
            }
            for (Problem problem : e.problems()) {
                assertThat(problem.id()).isIn(ids);
                // what is wrong with a certificate's own file is told in the words of its reader
                assertThat(problem.text()).matches("(?s)(found |CERTIFICATE-[0-9]{3} ).*");
                assertThat(problem.file()).isEqualTo("visit.yaml");
            }
            return false;
        }
    }
}
