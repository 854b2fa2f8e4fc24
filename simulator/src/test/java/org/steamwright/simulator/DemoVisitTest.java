package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.verdict.TestKind;

class DemoVisitTest {

    @Test
    void writes_a_folder_whose_recordings_say_that_they_are_simulated(@TempDir Path parent) throws IOException {
        Path visit = DemoVisit.write(parent.resolve("demo"));
        assertThat(visit).hasFileName("visit.yaml").exists();
        assertThat(Files.readString(visit))
                .startsWith("# Steamwright demo visit")
                .contains("Example Dental Practice");
        try (Stream<Path> recordings = Files.list(parent.resolve("demo/recordings"))) {
            List<Path> found = recordings.toList();
            assertThat(found)
                    .as("one of each run, and one of the second logger")
                    .hasSize(15);
            for (Path recording : found) {
                assertThat(Files.readAllLines(recording).get(0)).isEqualTo(LoggerFile.MARK);
            }
        }
    }

    @Test
    void writing_again_changes_nothing_and_puts_missing_recordings_back(@TempDir Path folder) throws IOException {
        DemoVisit.write(folder);
        Path recording = folder.resolve("recordings/03-a-empty.csv");
        byte[] before = Files.readAllBytes(recording);
        Files.delete(recording);
        Files.writeString(folder.resolve("report.txt"), "of the user");
        DemoVisit.write(folder);
        assertThat(Files.readAllBytes(recording)).isEqualTo(before);
        assertThat(folder.resolve("report.txt")).hasContent("of the user");
    }

    @Test
    void refuses_a_folder_that_holds_something_else(@TempDir Path folder) throws IOException {
        Files.writeString(folder.resolve("notes.txt"), "mine");
        assertThatThrownBy(() -> DemoVisit.write(folder))
                .isInstanceOf(FileAlreadyExistsException.class)
                .hasMessageContaining("not empty");
        assertThat(folder.resolve("visit.yaml")).doesNotExist();
        assertThatThrownBy(() -> DemoVisit.write(folder.resolve("notes.txt"))).hasMessageContaining("is a file");
    }

    @Test
    void refuses_to_touch_a_visit_that_was_changed(@TempDir Path folder) throws IOException {
        Path visit = DemoVisit.write(folder);
        Files.writeString(visit, "steamwright-visit: 1\n");
        assertThatThrownBy(() -> DemoVisit.write(folder)).hasMessageContaining("differs from the demo");
        assertThat(visit).hasContent("steamwright-visit: 1");
    }

    @Test
    void makes_the_same_bytes_every_time() {
        Map<String, byte[]> first = DemoVisit.files();
        Map<String, byte[]> second = DemoVisit.files();
        assertThat(second.keySet()).containsExactlyElementsOf(first.keySet());
        first.forEach((name, bytes) -> assertThat(second.get(name)).isEqualTo(bytes));
        assertThat(new String(second.get("visit.yaml"), StandardCharsets.UTF_8)).doesNotContain("\r");
    }

    @Test
    void shows_a_good_steriliser_and_one_that_leaves_air_in_the_challenge_pack() {
        List<DemoRun> runs = DemoRun.all();
        assertThat(runs)
                .filteredOn(run -> kind(run) == TestKind.LEAK)
                .hasSize(6)
                .allSatisfy(run -> assertThat(run.simulated()
                                .truth()
                                .riseKilopascalPerMinute()
                                .orElseThrow())
                        .isBetween(0.0, 0.1));
        assertThat(runs)
                .filteredOn(run -> kind(run) != TestKind.LEAK && run.number() != 13)
                .hasSize(7)
                .allSatisfy(run -> assertThat(
                                run.simulated().truth().physicalPlateau(4).holdingSeconds())
                        .isGreaterThan(195));
        DemoRun failing = runs.get(12);
        PlateauTruth plateau = failing.simulated().truth().physicalPlateau(4);
        assertThat(plateau.penetrationSeconds("T5").orElseThrow()).isGreaterThan(60);
        assertThat(plateau.holdingSeconds()).isBetween(60.0, 150.0);
        double late = failing.simulated().truth().exhaustSeconds().orElseThrow() - 2;
        assertThat(failing.simulated().truth().celsiusAt("T5", late))
                .isLessThan(failing.simulated().truth().celsiusAt("T1", late) - 0.4);
    }

    private static TestKind kind(DemoRun run) {
        return run.simulated().scenario().kind();
    }
}
