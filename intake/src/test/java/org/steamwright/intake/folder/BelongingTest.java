package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.visit.Visit;

class BelongingTest {

    static Map<String, String> hashes(Path folder) {
        Map<String, String> hashes = new TreeMap<>();
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                hashes.put(folder.relativize(file).toString(), FileBytes.sha256(Files.readAllBytes(file)));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return hashes;
    }

    static Remark only(Visit visit, String id) {
        List<Remark> found = visit.remarks().stream()
                .filter(remark -> remark.id().equals(id))
                .toList();
        assertThat(found).hasSize(1);
        assertThat(found.get(0).rank()).isEqualTo(Rank.DOUBT);
        return found.get(0);
    }

    @Test
    void reading_leaves_every_byte_and_adds_none(@TempDir Path folder) throws Exception {
        Examples.full(folder);
        Map<String, String> before = hashes(folder);
        Visit visit = VisitFolder.read(folder, VisitFixture.SETS);
        assertThat(hashes(folder)).isEqualTo(before);
        visit.runs()
                .forEach(run -> run.test()
                        .trace()
                        .files()
                        .forEach(file -> assertThat(before.values()).contains(file.sha256())));
    }

    @Test
    void a_recording_of_an_earlier_visit_is_noticed(@TempDir Path folder, @TempDir Path earlier) throws Exception {
        VisitFixture.tenLines(folder);
        Files.createDirectories(earlier.resolve("2025"));
        Files.copy(folder.resolve("run-1.csv"), earlier.resolve("2025/old.csv"));
        Visit visit = VisitFolder.read(folder, VisitFixture.SETS, List.of(earlier));
        assertThat(only(visit, "VISIT-062").text()).contains("2025/old.csv");
        assertThat(only(visit, "VISIT-062").where()).isEqualTo("runs[1], run-1.csv");
        assertThat(VisitFolder.read(folder, VisitFixture.SETS, List.of(folder)).remarks())
                .as("the visit itself is not its own past")
                .isEmpty();
    }

    @Test
    void a_result_in_the_folder_tells_of_earlier_recordings(@TempDir Path folder) throws Exception {
        VisitFixture fixture = VisitFixture.tenLines(folder);
        String hash = FileBytes.sha256(Files.readAllBytes(folder.resolve("run-1.csv")));
        fixture.file("2025-result.json", "{\"inputs\": [{\"file\": \"x.csv\", \"sha256\" : \"" + hash + "\"}]}")
                .replace("runs:", "earlier: 2025-result.json\nruns:");
        assertThat(only(fixture.read(), "VISIT-062").text()).contains("2025-result.json");
    }

    @Test
    void one_instrument_is_not_in_two_runs_at_once(@TempDir Path folder) throws Exception {
        VisitFixture fixture = VisitFixture.tenLines(folder)
                .file(
                        "run-2.csv",
                        VisitFixture.stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.3, 134.1, 310.0))
                .replace("runs:", "instruments: [{id: TL-1, measures: temperature}]\nruns:")
                .replace("T1: reference-point", "T1: {role: reference-point, instrument: TL-1}");
        String yaml = Files.readString(folder.resolve("visit.yaml"));
        int runs = yaml.indexOf("  - kind:");
        fixture.yaml(yaml + yaml.substring(runs).replace("run-1.csv", "run-2.csv"));
        assertThat(only(fixture.read(), "VISIT-064").text()).contains("TL-1");
    }

    @Test
    void a_serial_number_of_another_instrument_is_noticed(@TempDir Path folder) throws Exception {
        VisitFixture fixture = VisitFixture.tenLines(folder)
                .file(
                        "run-1.csv",
                        "Serial number: A-4711\n"
                                + VisitFixture.stamped(
                                        "2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310.0))
                .replace(
                        "runs:",
                        "instruments: [{id: TL-1, measures: temperature, description: logger B-1000},"
                                + " {id: TL-2, measures: temperature, description: logger A-4711}]\nruns:")
                .replace("T1: reference-point", "T1: {role: reference-point, instrument: TL-1}");
        assertThat(only(fixture.read(), "VISIT-063").text()).contains("A-4711, which is TL-2", "assigned to TL-1");
        fixture.replace("instrument: TL-1}", "instrument: TL-2}");
        assertThat(fixture.read().remarks()).isEmpty();
    }

    @Test
    void a_stated_serial_number_is_held_against_the_one_in_the_file(@TempDir Path folder) throws Exception {
        VisitFixture fixture = VisitFixture.tenLines(folder)
                .file(
                        "run-1.csv",
                        "Serial number: A-4711\nMachine serial: SN-0417\n"
                                + VisitFixture.stamped(
                                        "2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310.0))
                .replace(
                        "runs:",
                        "instruments: [{id: TL-1, measures: temperature, serial: B-1000},"
                                + " {id: TL-2, measures: temperature, serial: a-4711}]\nruns:")
                .replace("T1: reference-point", "T1: {role: reference-point, instrument: TL-1}");
        assertThat(fixture.problems())
                .singleElement()
                .asString()
                .contains("VISIT-065", "serial number A-4711, which is TL-2 in run-1.csv", "expected B-1000 (TL-1)");
        fixture.replace("instrument: TL-1}", "instrument: TL-2}");
        assertThat(fixture.read().remarks()).singleElement().satisfies(remark -> {
            assertThat(remark.id()).isEqualTo("VISIT-066");
            assertThat(remark.text()).contains("a-4711 (TL-2)");
        });
        fixture.replace("serial: a-4711", "serial: SN-0417");
        assertThat(fixture.problems())
                .as("the number of the sterilizer is no logger's")
                .singleElement()
                .asString()
                .contains("A-4711 in run-1.csv", "expected SN-0417 (TL-2)");
    }

    @Test
    void a_run_of_another_day_stands_out_without_a_date_of_the_visit(@TempDir Path folder) throws Exception {
        VisitFixture fixture = VisitFixture.tenLines(folder);
        String yaml = Files.readString(folder.resolve("visit.yaml"));
        String run = yaml.substring(yaml.indexOf("  - kind:"));
        for (int i = 2; i <= 3; i++) {
            fixture.file(
                    "run-" + i + ".csv",
                    VisitFixture.stamped(
                            i == 2 ? "2026-03-02" : "2025-03-03",
                            9 + i,
                            "T1 [°C],T2 [°C],P [kPa abs]",
                            134.2,
                            134.1,
                            310.0));
            yaml += run.replace("run-1.csv", "run-" + i + ".csv");
        }
        fixture.yaml(yaml);
        assertThat(only(fixture.read(), "VISIT-055").where()).isEqualTo("runs[3]");
    }
}
