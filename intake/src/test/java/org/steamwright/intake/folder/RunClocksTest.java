package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.ClockOffset.Method;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.TestRun;

class RunClocksTest {

    static final String TWO = """
            steamwright-visit: 1
            date: 2026-03-02
            zone: UTC
            criteria-set: au-as5369
            sterilizers:
              - serial: SN-0417
                cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]
            instruments:
              - {id: TL-1, measures: temperature}
              - {id: TL-2, measures: temperature, clock: CLOCK-OF-TL-2}
            runs:
              - kind: empty-chamber
                recording:
                  - {file: one.csv, clock: CLOCK-OF-ONE}
                  - {file: two.csv, clock: CLOCK-OF-TWO}
                channels:
                  one.csv/T1: {role: reference-point, instrument: TL-1}
                  two.csv/T1: {role: load, name: T2, instrument: TL-2}
                  P: pressure
            """;

    static VisitFixture fixture(Path folder, String one, String two, String ofInstrument) {
        String yaml = TWO;
        yaml = one.isEmpty() ? yaml.replace(", clock: CLOCK-OF-ONE", "") : yaml.replace("CLOCK-OF-ONE", one);
        yaml = two.isEmpty() ? yaml.replace(", clock: CLOCK-OF-TWO", "") : yaml.replace("CLOCK-OF-TWO", two);
        yaml = ofInstrument.isEmpty()
                ? yaml.replace(", clock: CLOCK-OF-TL-2", "")
                : yaml.replace("CLOCK-OF-TL-2", ofInstrument);
        return new VisitFixture(folder)
                .yaml(yaml)
                .file("one.csv", VisitFixture.stamped("2026-03-02", 9, "T1 [°C],P [kPa abs]", 134.2, 310.0))
                .file(
                        "two.csv",
                        VisitFixture.stamped("2026-03-02", 9, "T1 [°C]", 134.1).replace(" 09:00:", " 09:01:"));
    }

    static TestRun read(VisitFixture fixture) throws IOException, VisitFolderException {
        return fixture.read().runs().get(0).test();
    }

    static double begin(TestRun run, String channel) {
        return run.trace().channels().stream()
                .filter(one -> one.name().equals(channel))
                .findFirst()
                .orElseThrow()
                .axis()
                .first();
    }

    @Test
    void a_clock_check_moves_the_recording_and_is_kept(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(
                folder,
                "reference",
                "{before: {logger: \"08:00:58\", reference: \"08:00:00\"}, after: {logger: \"10:00:58\", reference: \"10:00:00\"}, by: Kim Sample}",
                ""));
        assertThat(begin(run, "T2") - begin(run, "T1"))
                .as("60 s stamped, 58 s fast")
                .isEqualTo(2.0);
        Clocks clocks = run.clocks();
        ClockOffset offset = clocks.find("T2").orElseThrow().offset().orElseThrow();
        assertThat(offset.secondsAtStart()).isEqualTo(-58);
        assertThat(offset.halfWidth()).isEqualTo(1.5);
        assertThat(offset.author()).isEqualTo("Kim Sample");
        assertThat(clocks.find("T2").orElseThrow().stamped()).contains(Instant.parse("2026-03-02T09:01:00Z"));
        assertThat(clocks.find("T2").orElseThrow().aligned()).contains(Instant.parse("2026-03-02T09:00:02Z"));
        assertThat(run.trace().remarks()).extracting(Remark::id).doesNotContain("VISIT-051");
    }

    @Test
    void an_instrument_tells_the_clock_of_its_recordings(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(
                folder, "reference", "", "{before: {logger: \"08:01\", reference: \"08:00\"}, by: Kim Sample}"));
        ClockOffset offset = run.clocks().find("T2").orElseThrow().offset().orElseThrow();
        assertThat(offset.secondsAtStart()).isEqualTo(-60);
        assertThat(offset.halfWidth()).as("minutes only, and an hour ago").isGreaterThan(60);
    }

    @Test
    void a_stated_offset_names_its_author_and_reason(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(
                folder,
                "reference",
                "{offset: -1 min, half-width: 2 s, by: Kim Sample, because: both displays photographed}",
                ""));
        ClockOffset offset = run.clocks().find("T2").orElseThrow().offset().orElseThrow();
        assertThat(offset.method()).isEqualTo(Method.STATED);
        assertThat(offset.words()).isEqualTo("both displays photographed");
        assertThat(begin(run, "T2")).isEqualTo(begin(run, "T1"));
    }

    @Test
    void one_logger_with_two_files_has_one_clock(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(folder, "", "{same-as: one.csv}", ""));
        assertThat(run.clocks().halfWidthBetween("T1", "T2")).isZero();
        assertThat(begin(run, "T2")).as("its stamps stay").isEqualTo(60);
    }

    @Test
    void nothing_is_moved_that_nobody_asked_to_move(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(folder, "", "", ""));
        assertThat(begin(run, "T2")).isEqualTo(60);
        assertThat(run.clocks().halfWidthBetween("T1", "T2")).isInfinite();
        assertThat(run.trace().remarks())
                .filteredOn(remark -> remark.id().equals("VISIT-051"))
                .singleElement()
                .extracting(Remark::where)
                .isEqualTo("one.csv, two.csv");
    }

    @Test
    void a_load_sensor_alone_can_not_witness_an_event(@TempDir Path folder) throws Exception {
        TestRun run = read(fixture(folder, "", "{event: air-removal, by: Kim Sample}", ""));
        assertThat(begin(run, "T2")).as("left on its own stamps").isEqualTo(60);
        assertThat(run.trace().remarks())
                .filteredOn(remark -> remark.id().equals("VISIT-060"))
                .singleElement()
                .extracting(Remark::text)
                .asString()
                .contains("may not be taken away", "approach to the plateau is never used");
        assertThat(run.clocks().find("T2").orElseThrow().offset()).isEmpty();
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "{by: Kim}|no way to compare",
                "{event: air-removal, offset: 1 s, half-width: 1 s, by: K, because: x}|more than one way",
                "{event: air-removal}|found no \"by\"",
                "{offset: 1 s, by: K, because: x}|found no \"half-width\"",
                "{event: door}|expected one of air-removal",
                "{same-as: three.csv}|another recording of this run",
                "{before: {logger: soon, reference: \"08:00:00\"}}|expected what the clock showed",
                "{before: {logger: \"09:00:00\", reference: \"09:00:00\"}, after: {logger: \"08:00:00\", reference: \"08:00:00\"}}|no later than the one before",
                "mine|expected reference",
            })
    void says_what_is_wrong_with_a_statement(String clock, String part, @TempDir Path folder) {
        List<String> problems = fixture(folder, "reference", clock, "").problems();
        assertThat(problems).anyMatch(problem -> problem.contains(part) && problem.contains("line"));
    }

    @Test
    void the_recording_with_the_reference_point_is_where_events_count_from(@TempDir Path folder) {
        assertThat(fixture(folder, "{event: air-removal, by: K}", "", "").problems())
                .anyMatch(problem -> problem.contains("VISIT-040") && problem.contains("put on its clock"));
    }

    @Test
    void roles_stay_with_their_channels(@TempDir Path folder) throws Exception {
        Trace trace = read(fixture(folder, "reference", "{offset: -1 min, half-width: 1 s, by: K, because: x}", ""))
                .trace();
        assertThat(trace.find(ChannelRole.REFERENCE_POINT).orElseThrow().name()).isEqualTo("T1");
        assertThat(trace.start()).contains(Instant.parse("2026-03-02T09:00:00Z"));
    }
}
