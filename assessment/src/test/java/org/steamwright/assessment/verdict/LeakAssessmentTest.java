package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.steamwright.assessment.TestSet.atLeast;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/** A leak test drawn with a ruler: pumped to 5 kPa at 100 s, 0.2 kPa while settling, then a steady rise. */
class LeakAssessmentTest {

    static SyntheticRun leak(double perMinute) {
        SyntheticRun run = SyntheticRun.good().kind(TestKind.LEAK);
        for (int i = 0; i < SyntheticRun.SAMPLES; i++) {
            double kilopascal = i < 20
                    ? SyntheticRun.AMBIENT
                    : i <= 100
                            ? 5 + (SyntheticRun.AMBIENT - 5) * (100 - i) / 80.0
                            : i <= 400
                                    ? 5 + 0.2 * (i - 100) / 300.0
                                    : i <= 1010 ? 5.2 + perMinute * (i - 400) / 60.0 : SyntheticRun.AMBIENT;
            run.set("P", i, i, kilopascal);
        }
        return run;
    }

    static Finding finding(SyntheticRun run, CriterionId id) {
        return run.judgedBy(TestSet.strict().build()).finding(id);
    }

    @Test
    void a_tight_chamber_passes() {
        RunEvaluation evaluation = leak(0.09).judgedBy(TestSet.strict().build());
        assertThat(evaluation.verdict().isPass())
                .as(evaluation.verdict().cause())
                .isTrue();
        LeakTest test = evaluation.leakTest().orElseThrow();
        assertThat(test.isolationSeconds()).isEqualTo(100);
        assertThat(test.settledSeconds()).isEqualTo(400);
        assertThat(test.endSeconds()).isEqualTo(1000);
        assertThat(test.isDeclared()).isFalse();
        assertThat(test.rate().kilopascalPerMinute()).as("check value 93").isCloseTo(0.09, within(1e-9));
        assertThat(evaluation.findings()).hasSize(11);
        assertThat(evaluation.hints()).isEmpty();
        assertThat(evaluation.guardedVerdict().isPass()).isTrue();
        assertThat(evaluation.finding(CriterionId.LEAK_RATE).sentence())
                .isEqualTo("The pressure rose from 5.20 kPa to 6.10 kPa in 600.0 s: 0.090 kPa per minute.");
    }

    @ParameterizedTest(name = "{0} kPa/min: {1}")
    @CsvSource({
        "0.13, PASS, check value 94: the limit itself",
        "0.131, FAIL, check value 95",
    })
    void the_rate_is_held_against_its_limit(double rate, Outcome expected, String why) {
        Finding finding = finding(leak(rate), CriterionId.LEAK_RATE);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(rate, within(1e-9));
    }

    @Test
    void a_leak_gives_a_hint_and_a_fail() {
        RunEvaluation evaluation = leak(0.3).judgedBy(TestSet.strict().build());
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
        assertThat(evaluation.hints())
                .extracting(Hint::pattern)
                .containsExactly("The pressure rose too fast under vacuum.");
    }

    @Test
    void the_doubt_of_a_rate_is_the_resolution_of_two_readings() {
        Finding finding = finding(leak(0.09).resolution(0.1), CriterionId.LEAK_RATE);
        double doubt = 2 * Math.sqrt(2) * 0.05 / Math.sqrt(3) / 10;
        assertThat(finding.measured().orElseThrow().high()).isCloseTo(0.09 + doubt, within(1e-9));
    }

    @Test
    void a_wet_chamber_shows_while_settling() {
        SyntheticRun run = leak(0.05);
        for (int i = 101; i <= 1010; i++) {
            run.set("P", i, i, i <= 400 ? 5 + 2.4 * (i - 100) / 300.0 : 7.4 + 0.05 * (i - 400) / 60.0);
        }
        RunEvaluation evaluation = run.judgedBy(TestSet.strict().build());
        Finding settling = evaluation.finding(CriterionId.LEAK_SETTLING);
        assertThat(settling.measured().orElseThrow().value()).isCloseTo(2.4, within(1e-9));
        assertThat(settling.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(evaluation.hints().get(0).likelyCauses()).startsWith("water left in a chamber");
    }

    @Test
    void the_pump_has_to_go_deep_enough() {
        assertThat(finding(leak(0.09), CriterionId.LEAK_START_PRESSURE)
                        .measured()
                        .orElseThrow()
                        .value())
                .isEqualTo(5);
        SyntheticRun shallow = leak(0.09).map("P", p -> p < 100 ? p + 2.1 : p);
        assertThat(finding(shallow, CriterionId.LEAK_START_PRESSURE).outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void air_let_in_early_ends_the_measuring_and_makes_the_test_invalid() {
        RunEvaluation evaluation = leak(0.09)
                .set("P", 900, 1200, SyntheticRun.AMBIENT)
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation.leakTest().orElseThrow().endSeconds()).isEqualTo(890);
        assertThat(evaluation.finding(CriterionId.LEAK_PERIOD).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void a_recording_that_stops_while_settling_is_incomplete() {
        RunEvaluation evaluation =
                leak(0.09).cutAfter(350).judgedBy(TestSet.strict().build());
        assertThat(evaluation.leakTest()).isEmpty();
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.INVALID);
        for (CriterionId id : new CriterionId[] {
            CriterionId.LEAK_RATE, CriterionId.LEAK_START_PRESSURE, CriterionId.LEAK_SETTLING, CriterionId.LEAK_PERIOD
        }) {
            assertThat(evaluation.finding(id).outcome()).as(id.word()).isEqualTo(Outcome.NOT_ASSESSED);
            assertThat(evaluation.finding(id).isDeciding()).as(id.word()).isTrue();
        }
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void declared_periods_are_taken_at_the_next_sample() {
        RunEvaluation evaluation = leak(0.09)
                .leakPeriods(new LeakPeriods(110, 410.5, 1009.5))
                .judgedBy(TestSet.strict().build());
        LeakTest test = evaluation.leakTest().orElseThrow();
        assertThat(test.settledSeconds()).isEqualTo(411);
        assertThat(test.endSeconds()).isEqualTo(1010);
        assertThat(test.isDeclared()).isTrue();
        assertThat(evaluation.finding(CriterionId.LEAK_PERIOD).sentence())
                .isEqualTo("Settled for 301.0 s, then measured for 599.0 s, as declared.");
        RunEvaluation beyond = leak(0.09)
                .leakPeriods(new LeakPeriods(110, 410, 1300))
                .judgedBy(TestSet.strict().build());
        assertThat(beyond.leakTest()).isEmpty();
        RunEvaluation reversed = leak(0.09)
                .leakPeriods(new LeakPeriods(500, 410, 1000))
                .judgedBy(TestSet.strict().build());
        assertThat(reversed.leakTest()).isEmpty();
    }

    @Test
    void settling_has_a_limit_of_its_own() {
        TestSet set = TestSet.strict().secondLimit(CriterionId.LEAK_PERIOD, atLeast(300, Unit.SECONDS));
        assertThat(leak(0.09)
                        .judgedBy(set.build())
                        .finding(CriterionId.LEAK_PERIOD)
                        .outcome())
                .isEqualTo(Outcome.PASS);
        Finding hasty = leak(0.09)
                .leakPeriods(new LeakPeriods(110, 409, 1005))
                .judgedBy(set.build())
                .finding(CriterionId.LEAK_PERIOD);
        assertThat(hasty.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(hasty.sentence()).endsWith("Settling has to last 300 s at least.");
    }

    @Test
    void a_missing_pressure_or_a_gap_makes_the_test_invalid() {
        assertThat(finding(leak(0.09).set("P", 700, 700, Double.NaN), CriterionId.SENSORS_ALIVE)
                        .outcome())
                .isEqualTo(Outcome.INVALID);
        Finding gap = finding(leak(0.09).gap(700, 720), CriterionId.SENSORS_ALIVE);
        assertThat(gap.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(gap.sentence()).isEqualTo("Channel P has no value at 12:00.");
        assertThat(finding(leak(0.09).gap(40, 60), CriterionId.SENSORS_ALIVE).outcome())
                .as("before the test")
                .isEqualTo(Outcome.PASS);
        RunEvaluation missing = leak(0.09)
                .set("P", 400, 400, Double.NaN)
                .judgedBy(TestSet.strict().build());
        assertThat(missing.leakTest()).as("no pressure after settling").isEmpty();
    }

    @Test
    void the_calibrated_range_reaches_down_to_the_vacuum() {
        SyntheticRun run =
                leak(0.09).instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0.1, 6, 100, 400));
        assertThat(finding(run, CriterionId.CALIBRATION_RANGE).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding(leak(0.09), CriterionId.CALIBRATION_RANGE).outcome()).isEqualTo(Outcome.PASS);
    }

    @Test
    void the_temperature_corrected_rate_stands_beside_it() {
        RunEvaluation evaluation = leak(0.09)
                .map("R", x -> 60)
                .set("R", 1000, 1000, 50)
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation
                        .leakTest()
                        .orElseThrow()
                        .temperatureCorrectedRate()
                        .orElseThrow()
                        .kilopascalPerMinute())
                .as("check value 96")
                .isCloseTo(0.1089, within(0.0002));
        RunEvaluation without = leak(0.09)
                .without("R")
                .without("L")
                .without("C")
                .judgedBy(TestSet.strict().build());
        assertThat(without.leakTest().orElseThrow().temperatureCorrectedRate()).isEmpty();
        assertThat(without.verdict().isPass()).isTrue();
    }

    @Test
    void without_limits_everything_is_open() {
        TestSet set = TestSet.strict();
        for (CriterionId id : CriterionId.values()) {
            set.withoutLimit(id);
        }
        RunEvaluation evaluation = leak(0.09).judgedBy(set.build());
        assertThat(evaluation.finding(CriterionId.LEAK_RATE).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.LEAK_RATE).measured()).isPresent();
        assertThat(evaluation.finding(CriterionId.LEAK_PERIOD).measured()).isPresent();
        assertThat(evaluation.finding(CriterionId.LEAK_SETTLING).measured()).isPresent();
        assertThat(evaluation.finding(CriterionId.LEAK_START_PRESSURE).measured())
                .isPresent();
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void a_leak_test_without_pressure_is_refused() {
        assertThatThrownBy(
                        () -> leak(0.09).without("P").judgedBy(TestSet.strict().build()))
                .hasMessage("run run is a leak test without a pressure channel");
    }

    @Test
    void ambient_pressures_say_where_they_come_from() {
        assertThat(Ambient.of(Optional.of(100.0), Optional.of(500.0)).basis()).isEqualTo(Ambient.Basis.BAROMETER);
        assertThat(Ambient.of(Optional.empty(), Optional.of(500.0)).basis()).isEqualTo(Ambient.Basis.ALTITUDE);
        assertThat(Ambient.of(Optional.empty(), Optional.empty()).basis()).isEqualTo(Ambient.Basis.UNKNOWN);
        assertThat(Ambient.barometer(100).halfWidthKilopascal()).isEqualTo(0.1);
        assertThat(Ambient.ofAltitude(0).halfWidthKilopascal()).isEqualTo(3);
        assertThat(Ambient.unknown().halfWidthKilopascal()).isEqualTo(12);
        assertThat(Ambient.ofAltitude(1000).pressure().kilopascal())
                .as("check value 51")
                .isCloseTo(89.875, within(0.02));
        assertThat(Ambient.ofAltitude(5000).note()).isEqualTo("altitude 5000 m");
        assertThatThrownBy(() -> Ambient.ofAltitude(5001)).hasMessageContaining("outside −500 to 5000 m");
        assertThatThrownBy(() -> Ambient.ofAltitude(-501)).hasMessageContaining("outside −500 to 5000 m");
    }
}
