package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.visit.Visit;

/** What was done with the instruments on the day of the visit, for those of the visit and of its register alike. */
class InstrumentChecksTest {

    private static final String CERTIFICATE =
            "certificate: {number: K-1, laboratory: Lab (invented), calibrated-on: 2026-02-10, due-on: 2027-02-10, U: 0.06 K, k: 2, points: [[0 °C, 0.1 °C], [134 °C, 134.1 °C]]}";

    @TempDir
    Path folder;

    private VisitFixture visit(String checks) {
        return VisitFixture.tenLines(folder)
                .file(
                        "instruments.yaml",
                        "steamwright-instruments: 1\ninstruments: [{id: TL-2, measures: temperature, " + CERTIFICATE
                                + "}]\n")
                .replace(
                        "criteria-set:",
                        "date: 2026-03-02\nregister: instruments.yaml\ninstruments: [{id: TL-1, measures: temperature, "
                                + CERTIFICATE + "}, {id: PL-1, measures: pressure}]\ninstrument-checks:\n" + checks
                                + "criteria-set:")
                .replace("T1: reference-point", "T1: {role: reference-point, instrument: TL-1}")
                .replace("T2: free-chamber", "T2: {role: free-chamber, instrument: TL-2}");
    }

    private static String one(String id, String more) {
        return "  - {instrument: " + id + ", " + more + "}\n";
    }

    @Test
    void checks_go_to_the_instrument_of_the_visit_and_of_the_register_with_the_day_of_the_visit() throws Exception {
        Visit visit = visit(one(
                                "TL-1",
                                "checks: [{when: before, method: melting ice, reference: 0 °C, indicated: 0.12 °C, tolerance: ±0.2 K}, {when: after, on: 2026-03-03, against: RT-1, by: Kim Sample (invented), reference: 121 °C, indicated: 121.2 °C}]")
                        + one("TL-2", "checks: [{when: after, reference: 0 °C, indicated: 0.1 °C, tolerance: ±0.2 K}]")
                        + one("PL-1", "checks: [{when: after, reference: 101.2 kPa, indicated: 1013 mbar}]"))
                .read();
        ReferenceInstrument first = visit.instruments().get("TL-1");
        assertThat(first.history().checks())
                .containsExactly(
                        new FieldCheck(
                                LocalDate.of(2026, 3, 2),
                                Moment.BEFORE,
                                "melting ice",
                                List.of(new FieldCheck.Pair(0, 0.12)),
                                0.2),
                        new FieldCheck(
                                LocalDate.of(2026, 3, 3),
                                Moment.AFTER,
                                "",
                                List.of(new FieldCheck.Pair(121, 121.2)),
                                Optional.empty(),
                                "RT-1",
                                "Kim Sample (invented)"));
        assertThat(first.on(LocalDate.of(2026, 3, 2))
                        .certificate()
                        .orElseThrow()
                        .number())
                .as("its certificate stays the one in force")
                .isEqualTo("K-1");
        assertThat(visit.instruments().get("TL-2").history().checks()).hasSize(1);
        assertThat(visit.instruments().get("PL-1").history().checks().get(0).pairs())
                .containsExactly(new FieldCheck.Pair(101.2, 101.3));
        assertThat(visit.runs()
                        .get(0)
                        .test()
                        .instruments()
                        .get("TL-2")
                        .history()
                        .checks())
                .as("the runs are judged with it")
                .hasSize(1);
    }

    @Test
    void the_clock_of_an_instrument_of_the_register_is_that_of_its_recordings() throws Exception {
        Visit visit = visit(
                        one(
                                "TL-2",
                                "clock: {before: {logger: \"08:00:02\", reference: \"08:00:00\"}, after: {logger: \"10:00:02\", reference: \"10:00:00\"}, by: Kim Sample}"))
                .read();
        ClockOffset offset = visit.runs()
                .get(0)
                .test()
                .clocks()
                .find("T2")
                .orElseThrow()
                .offset()
                .orElseThrow();
        assertThat(offset.secondsAtStart()).isEqualTo(-2);
        assertThat(offset.author()).isEqualTo("Kim Sample");
    }

    @Test
    void a_clock_of_the_register_is_of_another_day_and_gives_way() throws Exception {
        VisitFixture fixture = visit(one("TL-2", "clock: {before: {logger: \"08:00:02\", reference: \"08:00:00\"}}"));
        fixture.file(
                "instruments.yaml",
                "steamwright-instruments: 1\ninstruments: [{id: TL-2, measures: temperature, clock: {before: {logger: \"08:00:50\", reference: \"08:00:00\"}}}]\n");
        assertThat(fixture.read()
                        .runs()
                        .get(0)
                        .test()
                        .clocks()
                        .find("T2")
                        .orElseThrow()
                        .offset()
                        .orElseThrow()
                        .secondsAtStart())
                .isEqualTo(-2);
    }

    @Test
    void a_pressure_counts_from_what_its_instrument_says_where_nobody_else_does() throws Exception {
        VisitFixture open = VisitFixture.tenLines(folder)
                .file(
                        "run-1.csv",
                        VisitFixture.stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa]", 134.2, 134.1, 310.0))
                .replace("P: pressure", "P: {role: pressure, instrument: PL-1}")
                .replace(
                        "criteria-set:",
                        "instruments: [{id: PL-1, measures: pressure, pressure-reference: absolute}]\ncriteria-set:");
        assertThat(open.read().runs().get(0).test().trace().channels())
                .filteredOn(channel -> channel.name().equals("P"))
                .extracting(Channel::reference)
                .containsExactly(Optional.of(PressureReference.ABSOLUTE));
        assertThat(open.replace(", pressure-reference: absolute", "").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-028");
        assertThat(open.replace("measures: pressure", "measures: temperature, pressure-reference: gauge")
                        .problems())
                .anyMatch(
                        problem -> problem.startsWith(
                                "VISIT-017 visit.yaml, line 3, instruments[1].pressure-reference: found a pressure-reference at an instrument for temperatures"));
    }

    @Test
    void what_is_wrong_is_told_with_its_remedy() {
        assertThat(visit(one("TL-3", "checks: [{when: after, reference: 0 °C, indicated: 0 °C}]"))
                        .problems())
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-120 visit.yaml, line 7, instrument-checks[1].instrument: found a check of \"TL-3\", expected an instrument of the visit or of its register. They are TL-2, TL-1, PL-1. Did you mean");
        assertThat(visit(one("TL-1", "checks: []") + one("TL-1", "checks: []")).problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-020 visit.yaml, line 8, instrument-checks[2].instrument");
        assertThat(visit(one("TL-1", "checks: [{when: after, reference: 0 °C}]"))
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-008 visit.yaml, line 7, instrument-checks[1].checks[1]: found no \"indicated\"");
        assertThat(visit(one("TL-1", "checks: [{when: after, reference: 1 bar, indicated: 0 °C}]"))
                        .problems())
                .as("a temperature has no pressure")
                .hasSize(1);
        String clock = "clock: {before: {logger: \"08:00\", reference: \"08:00\"}}";
        assertThat(visit(one("TL-1", clock))
                        .replace(
                                "{id: TL-1, measures: temperature, ",
                                "{id: TL-1, measures: temperature, " + clock + ", ")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-121 visit.yaml, line 7, instrument-checks[1].clock");
        assertThat(visit(one("TL-1", "checks: [{when: after, reference: 0 °C, indicated: 0 °C}]"))
                        .replace("date: 2026-03-02\n", "")
                        .problems())
                .as("without a day of the visit the check has to say its own")
                .singleElement()
                .asString()
                .startsWith("VISIT-008 visit.yaml, line 6, instrument-checks[1].checks[1]: found no \"on\"");
    }
}
