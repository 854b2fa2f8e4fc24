package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.steamwright.assessment.TestSet.atMost;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.RunEvidence;
import org.steamwright.assessment.criteria.TemperatureSpread;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.PlateauFinder;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.lethality.LethalityTerms;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/** The edges of the rules: a sample, a second or a tenth either side of where they turn. */
class RuleEdgesTest {

    static RunEvaluation evaluate(SyntheticRun run) {
        return run.judgedBy(TestSet.strict().build());
    }

    static Finding finding(SyntheticRun run, CriterionId id) {
        return evaluate(run).finding(id);
    }

    @Test
    void what_the_evidence_can_not_carry_stays_invalid_under_every_rule() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().axis(TimeAxis.regular(SyntheticRun.SAMPLES, 3)));
        assertThat(evaluation.finding(CriterionId.SAMPLING_INTERVAL).judgement())
                .isPresent();
        assertThat(evaluation.simpleVerdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.guardedVerdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    // begin and end of the recording

    @ParameterizedTest(name = "begins at {0} °C: {1}")
    @CsvSource({"99.9, PASS", "100, INVALID"})
    void a_recording_begins_before_there_is_steam(double begin, Outcome expected) {
        SyntheticRun run = SyntheticRun.good().set("R", 0, 0, begin).set("R", 1, 399, 120);
        assertThat(finding(run, CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(expected);
    }

    @ParameterizedTest(name = "ends at {0} °C: {1}")
    @CsvSource({"132.99, PASS", "133, INVALID"})
    void a_recording_ends_below_the_release(double end, Outcome expected) {
        SyntheticRun run = SyntheticRun.good().set("R", 641, 1200, end);
        assertThat(finding(run, CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(expected);
    }

    @ParameterizedTest(name = "without plateau, ends {0} K below the highest: {1}")
    @CsvSource({"5, PASS", "4.9, INVALID"})
    void a_recording_without_plateau_ends_five_kelvin_below_its_highest(double below, Outcome expected) {
        SyntheticRun run = SyntheticRun.good().map("R", x -> Math.min(x, 130)).set("R", 641, 1200, 130 - below);
        assertThat(finding(run, CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(expected);
    }

    @ParameterizedTest(name = "without plateau, at most {0} °C: {1}")
    @CsvSource({"100, PASS", "100.1, INVALID"})
    void a_recording_that_never_saw_steam_may_end_at_its_hottest(double highest, Outcome expected) {
        SyntheticRun run = SyntheticRun.good().map("R", x -> highest);
        assertThat(finding(run, CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(expected);
    }

    @Test
    void the_last_value_that_is_there_tells_the_end() {
        SyntheticRun run = SyntheticRun.good().map("R", x -> Math.min(x, 130)).set("R", 1190, 1200, Double.NaN);
        assertThat(finding(run, CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.PASS);
    }

    // drying

    static SyntheticRun drying(int seconds) {
        return SyntheticRun.good()
                .cycle(new CycleDefinition(
                        "134",
                        CycleType.B,
                        Temperature.ofCelsius(134),
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.empty(),
                        Optional.of(Duration.ofSeconds(seconds))));
    }

    @Test
    void drying_that_is_cut_by_the_end_of_the_recording_is_not_failed() {
        assertThat(finding(drying(500), CriterionId.DRYING_TIME).outcome()).isEqualTo(Outcome.FAIL);
        Finding cut = finding(drying(500).cutAfter(900), CriterionId.DRYING_TIME);
        assertThat(cut.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(cut.sentence()).endsWith("The recording ends before the drying does.");
        assertThat(finding(drying(500).cutAfter(1001), CriterionId.DRYING_TIME).outcome())
                .as("one sample after the vacuum was broken")
                .isEqualTo(Outcome.INVALID);
        assertThat(finding(drying(500).cutAfter(1002), CriterionId.DRYING_TIME).outcome())
                .as("two samples after it")
                .isEqualTo(Outcome.FAIL);
        assertThat(finding(drying(200).cutAfter(900), CriterionId.DRYING_TIME).outcome())
                .as("long enough up to there")
                .isEqualTo(Outcome.PASS);
    }

    // evacuations

    @Test
    void without_a_declared_depth_an_evacuation_goes_below_four_fifths_of_ambient() {
        CycleDefinition cycle = new CycleDefinition(
                "134",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.empty(),
                OptionalInt.of(3),
                Optional.empty(),
                Optional.empty());
        double limit = 0.8 * SyntheticRun.AMBIENT;
        Finding enough = finding(
                SyntheticRun.good().cycle(cycle).map("P", p -> Math.max(p, limit - 0.01)),
                CriterionId.AIR_REMOVAL_PULSES);
        assertThat(enough.measured().orElseThrow().value()).isEqualTo(3);
        Finding shallow = finding(
                SyntheticRun.good().cycle(cycle).map("P", p -> Math.max(p, limit + 0.6)),
                CriterionId.AIR_REMOVAL_PULSES);
        assertThat(shallow.measured().orElseThrow().value()).isZero();
        assertThat(shallow.measured().orElseThrow().high())
                .as("beyond U = 0.5 kPa")
                .isZero();
        assertThat(enough.evidence().toSeconds()).hasValue(400);
        assertThat(enough.evidence().channels()).containsExactly("P");
    }

    @Test
    void the_depth_itself_is_deep_enough() {
        SyntheticRun run =
                SyntheticRun.good().instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0, 0, 100, 400));
        Finding finding = finding(run.map("P", p -> p < 20 ? Math.max(p, 20) : p), CriterionId.AIR_REMOVAL_PULSES);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(3);
        assertThat(finding.sentence()).contains("the shallowest stopped at 20.00 kPa");
    }

    @Test
    void a_cycle_declared_without_evacuation_is_not_asked() {
        CycleDefinition cycle = new CycleDefinition(
                "134",
                CycleType.N,
                Temperature.ofCelsius(134),
                Optional.empty(),
                OptionalInt.of(0),
                Optional.empty(),
                Optional.empty());
        assertThat(finding(SyntheticRun.good().cycle(cycle), CriterionId.AIR_REMOVAL_PULSES)
                        .isDeciding())
                .isFalse();
    }

    // pressure that is not what it was declared

    @Test
    void a_pressure_of_unknown_kind_can_not_end_a_holding_time() {
        SyntheticRun run = SyntheticRun.good()
                .map("P", p -> p - SyntheticRun.AMBIENT)
                .instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0.5, -110, 0, 300));
        RunEvaluation evaluation =
                run.judgedBy(TestSet.strict().theoreticalInBand().build());
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .as("120 °C by a gauge pressure taken as absolute")
                .isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.EQUILIBRATION_TIME).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @ParameterizedTest(name = "first {0}, last {1}: {2}")
    @CsvSource({
        "101.3, 0, INVALID, one end reads like gauge",
        "0, 101.3, INVALID, the other end does",
        "101.3, 60, FAIL, one end fits",
        "60, 101.3, FAIL, the other end fits",
        "60, 60, INVALID, neither end fits",
    })
    void a_hold_ended_by_the_theoretical_temperature_fails_only_with_a_trusted_pressure(
            double first, double last, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good().set("P", 0, 0, first).set("P", 1001, 1200, last);
        run.set("P", 500, 640, IapwsR797.INSTANCE.kilopascalAt(133.5));
        RunEvaluation evaluation =
                run.judgedBy(TestSet.strict().theoreticalInBand().build());
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .as(why)
                .isEqualTo(expected);
    }

    // several channels, several axes

    static RunEvidence evidence(CorrectedChannel... channels) {
        Band band = new Band(134, 138);
        CorrectedTrace corrected =
                new CorrectedTrace(SyntheticRun.good().build().trace(), List.of(channels));
        var plateau = new PlateauFinder(channels[0], List.of(channels), band).find();
        return new RunEvidence(
                CycleDefinition.of("134", CycleType.B, 134),
                Optional.empty(),
                corrected,
                List.of(channels),
                channels[0],
                true,
                band,
                plateau,
                plateau,
                plateau,
                Double.NaN,
                new Phases(Quantity.PRESSURE, List.of(), List.of()),
                101.3,
                0.1,
                "test",
                Clocks.ONE);
    }

    static CorrectedChannel channel(String name, TimeAxis axis, double... celsius) {
        return CorrectedSamples.of(name, ChannelRole.LOAD, axis, celsius);
    }

    @Test
    void points_are_compared_at_every_sample_of_every_logger() {
        CorrectedChannel first = channel("A", TimeAxis.ofSeconds(0, 1, 2, 3, 4), 120, 135, 135, 135, 135);
        CorrectedChannel second = channel("B", TimeAxis.ofSeconds(0.5, 1.5, 2.5, 3.5), 135, 135, 137, 135);
        RunEvidence evidence = evidence(first, second);
        assertThat(evidence.instants(new Stretch(1, 3))).containsExactly(1, 1.5, 2, 2.5, 3);
        Requirement asked = new Requirement(
                CriterionId.TEMPERATURE_SPREAD,
                Use.DECIDES,
                Optional.of(atMost(2, Unit.KELVIN)),
                DecisionRule.SIMPLE,
                TestSet.SOURCE);
        Finding spread = new TemperatureSpread().judge(evidence, asked);
        assertThat(spread.measured().orElseThrow().value())
                .as("seen at the other logger's moment")
                .isEqualTo(2);
        assertThat(spread.evidence().atSeconds()).hasValue(2.5);
        assertThat(spread.evidence().channels()).containsExactly("A", "B");
    }

    @Test
    void points_of_one_logger_are_compared_at_its_own_samples() {
        TimeAxis axis = TimeAxis.ofSeconds(0, 2, 4, 6);
        RunEvidence evidence = evidence(channel("A", axis, 120, 135, 135, 120), channel("B", axis, 120, 135, 135, 120));
        assertThat(evidence.instants(new Stretch(1, 5))).containsExactly(2, 4);
        assertThat(evidence.instants(new Stretch(2.5, 3))).isEmpty();
        assertThat(evidence.longestInterval()).isEqualTo(2);
    }

    @Test
    void values_between_samples_lie_on_the_line_between_them() {
        CorrectedChannel channel = channel("A", TimeAxis.ofSeconds(10, 14, 18), 100, 108, 140);
        assertThat(channel.valueAt(11)).isEqualTo(102);
        assertThat(channel.valueAt(15)).isEqualTo(116);
        assertThat(channel.valueAt(17)).isEqualTo(132);
    }

    @Test
    void the_theoretical_temperature_is_not_a_measured_point() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(TestSet.strict().theoreticalInBand().build());
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).evidence().channels())
                .containsExactly("R", "L", "C", "theoretical");
        assertThat(evaluation.lethalityChannels()).containsExactly("R", "L", "C");
    }

    @Test
    void no_pressure_beside_the_temperatures_is_invalid() {
        SyntheticRun run = SyntheticRun.good().set("P", 400, 640, Double.NaN);
        Finding finding = finding(run, CriterionId.SATURATION_DIFFERENCE);
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence()).isEqualTo("No pressure was recorded at the moments of the temperatures.");
        assertThat(finding.evidence().fromSeconds()).hasValue(400);
        assertThat(finding.evidence().toSeconds()).hasValue(640);
    }

    @Test
    void of_equal_differences_the_first_moment_is_named() {
        SyntheticRun run = SyntheticRun.good()
                .set("L", 500, 502, 133.0 + 2.5)
                .set("P", 1050, 1051, 150)
                .set("P", 1060, 1061, 150);
        RunEvaluation evaluation = evaluate(run);
        assertThat(evaluation.finding(CriterionId.TEMPERATURE_SPREAD).evidence().atSeconds())
                .hasValue(500);
        assertThat(evaluation
                        .finding(CriterionId.SATURATION_DIFFERENCE)
                        .evidence()
                        .atSeconds())
                .hasValue(500);
        assertThat(evaluation.steam().orElseThrow().hottestSeconds()).isEqualTo(500);
        assertThat(evaluation.steam().orElseThrow().hottestChannel()).isEqualTo("L");
    }

    @Test
    void a_pressure_change_is_taken_between_the_nearest_samples_two_seconds_apart() {
        SyntheticRun run = SyntheticRun.good().set("P", 1050, 1050, 201.3).set("P", 1051, 1200, 301.3);
        Finding finding = finding(run, CriterionId.PRESSURE_CHANGE_RATE);
        assertThat(finding.measured().orElseThrow().value())
                .as("200 kPa in two seconds")
                .isCloseTo(6000, within(1e-6));
        assertThat(finding.evidence().atSeconds()).hasValue(1051);
        SyntheticRun coarse =
                SyntheticRun.good().set("P", 1051, 1200, 301.3).axis(TimeAxis.regular(SyntheticRun.SAMPLES, 2.5));
        assertThat(finding(coarse, CriterionId.PRESSURE_CHANGE_RATE)
                        .measured()
                        .orElseThrow()
                        .value())
                .as("the step of 200 kPa within one interval of 2.5 s")
                .isCloseTo(200 / 2.5 * 60, within(1e-6));
    }

    @Test
    void a_single_pressure_has_no_rate() {
        RunEvaluation evaluation =
                SyntheticRun.good().keep(500, 501).judgedBy(TestSet.strict().build());
        assertThat(evaluation.finding(CriterionId.PRESSURE_CHANGE_RATE).outcome())
                .isEqualTo(Outcome.NOT_ASSESSED);
    }

    // instruments

    @Test
    void the_pressure_channel_needs_a_certificate_too() {
        Finding finding = finding(SyntheticRun.good().withoutInstrument("P"), CriterionId.CALIBRATION_VALID);
        assertThat(finding.sentence()).startsWith("No instrument is named for channel P");
        assertThat(finding(SyntheticRun.good(), CriterionId.CALIBRATION_VALID)
                        .evidence()
                        .channels())
                .containsExactly("R", "L", "C", "P");
    }

    @Test
    void the_uncertainty_of_a_gauge_is_taken_at_the_gauge_reading() {
        // 304 kPa absolute are 203 kPa gauge: between the points of 200 and 250, not above them
        ReferenceInstrument instrument = new ReferenceInstrument(
                "P",
                "invented",
                Quantity.PRESSURE,
                -200,
                400,
                Optional.of(new CalibrationCertificate(
                        "G-1",
                        "invented",
                        LocalDate.parse("2026-01-01"),
                        LocalDate.parse("2026-12-31"),
                        List.of(
                                new CalibrationPoint(-110, -110, 0.2, 2),
                                new CalibrationPoint(200, 200, 0.4, 2),
                                new CalibrationPoint(250, 250, 0.4, 2),
                                new CalibrationPoint(400, 400, 2.0, 2)))),
                List.of());
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .map("P", p -> p - SyntheticRun.AMBIENT)
                .gauge()
                .instrument("P", instrument));
        double certificate = evaluation
                .corrected()
                .pressure()
                .orElseThrow()
                .budget()
                .orElseThrow()
                .contributions()
                .get(0)
                .standardUncertainty();
        assertThat(certificate).isCloseTo(0.2, within(1e-12));
        assertThat(evaluation
                        .corrected()
                        .pressure()
                        .orElseThrow()
                        .budget()
                        .orElseThrow()
                        .unit())
                .isEqualTo("kPa");
        assertThat(evaluation
                        .corrected()
                        .channels()
                        .get(0)
                        .budget()
                        .orElseThrow()
                        .unit())
                .isEqualTo("K");
    }

    @Test
    void moments_of_a_run_count_from_its_first_sample() {
        ReferenceInstrument instrument = SyntheticRun.instrument(
                "L", Quantity.TEMPERATURE, "2026-03-02", "2026-12-31", 0, 0.2, 0, 100, 121, 134, 140);
        SyntheticRun run = SyntheticRun.good()
                .instrument("L", instrument)
                .start(Optional.of(Instant.parse("2026-03-01T23:59:59Z")));
        assertThat(finding(run, CriterionId.CALIBRATION_VALID).outcome())
                .as("the first sample lies a second before the day of calibration")
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void a_dip_of_one_sample_at_the_edges_of_the_steady_stretch_is_inside_it() {
        SyntheticRun run = SyntheticRun.good().set("L", 411, 411, 133.9).set("L", 629, 629, 133.9);
        assertThat(evaluate(run).plateau().orElseThrow().dips()).hasSize(2);
    }

    @Test
    void lethality_is_counted_in_the_terms_of_the_run() {
        TestRun usual = SyntheticRun.good().build();
        TestRun own = new TestRun(
                usual.id(),
                usual.kind(),
                usual.cycle(),
                usual.trace(),
                usual.instruments(),
                usual.ambient(),
                usual.leakPeriods(),
                new LethalityTerms(134.5, 6, 400));
        RunEvaluation evaluation = Assessment.evaluate(own, TestSet.strict().build());
        assertThat(evaluation.lethality().get(0).referenceCelsius()).isEqualTo(134.5);
        assertThat(evaluation.lethality().get(0).z()).isEqualTo(6);
        assertThat(evaluation.lethality().get(0).fromSeconds()).isEqualTo(400);
        assertThat(evaluation.lethality().get(0).minutes())
                .as("240 s at the reference temperature and some of the way down")
                .isBetween(4.0, 4.4);
        assertThat(Assessment.evaluate(usual, TestSet.strict().build())
                        .lethality()
                        .get(0)
                        .fromSeconds())
                .isZero();
        assertThatThrownBy(() -> new LethalityTerms(121, 0, 0)).hasMessageContaining("not a lethality");
        assertThatThrownBy(() -> new LethalityTerms(Double.NaN, 10, 0)).hasMessageContaining("not a lethality");
        assertThatThrownBy(() -> new LethalityTerms(121, 10, Double.NaN)).hasMessageContaining("not a lethality");
    }

    @ParameterizedTest(name = "{0} shows {1}: {2}")
    @CsvSource({
        "L, 160.0, PASS",
        "L, 160.01, INVALID",
        "L, 0.0, PASS",
        "L, -0.01, INVALID",
        "P, 600.0, PASS",
        "P, 600.01, INVALID"
    })
    void what_no_steriliser_reaches_is_impossible_and_the_end_of_the_possible_is_not(
            String channel, double value, Outcome expected) {
        assertThat(finding(SyntheticRun.good().set(channel, 500, 500, value), CriterionId.SENSORS_ALIVE)
                        .outcome())
                .isEqualTo(expected);
    }
}
