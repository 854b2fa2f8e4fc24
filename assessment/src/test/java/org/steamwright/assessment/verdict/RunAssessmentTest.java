package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.steamwright.assessment.TestSet.atLeast;
import static org.steamwright.assessment.TestSet.atMost;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.FourWords;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Plateau.StretchEnd.Reason;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.steam.ShortFormula;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

class RunAssessmentTest {

    static RunEvaluation evaluate(SyntheticRun run) {
        return run.judgedBy(TestSet.strict().build());
    }

    static Finding finding(SyntheticRun run, CriterionId id) {
        return evaluate(run).finding(id);
    }

    @Test
    void a_good_run_passes_and_every_deciding_finding_says_why() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good());
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.PASS);
        assertThat(evaluation.verdict().cause()).isEqualTo("All 17 deciding criteria are met.");
        assertThat(evaluation.verdict().deciding()).isEmpty();
        assertThat(evaluation.hints()).isEmpty();
        assertThat(evaluation.findings()).hasSize(19).allSatisfy(finding -> {
            if (finding.isDeciding()) {
                assertThat(finding.outcome()).as(finding.sentence()).isEqualTo(Outcome.PASS);
            }
        });
        assertThat(evaluation.simpleVerdict().isPass()).isTrue();
        assertThat(evaluation.guardedVerdict().isPass()).isTrue();
    }

    @Test
    void findings_come_in_the_order_of_the_criteria_and_none_is_left_out() {
        assertThat(evaluate(SyntheticRun.good()).findings())
                .extracting(Finding::id)
                .containsExactly(
                        CriterionId.RECORDING_COMPLETE,
                        CriterionId.SAMPLING_INTERVAL,
                        CriterionId.SENSORS_ALIVE,
                        CriterionId.CALIBRATION_VALID,
                        CriterionId.CALIBRATION_RANGE,
                        CriterionId.FIELD_CHECK_AFTER,
                        CriterionId.PRESSURE_KIND,
                        CriterionId.AIR_REMOVAL_PULSES,
                        CriterionId.MINIMUM_HOLDING_TIME,
                        CriterionId.LOWEST_TEMPERATURE,
                        CriterionId.HIGHEST_TEMPERATURE,
                        CriterionId.EQUILIBRATION_TIME,
                        CriterionId.PENETRATION_TIME,
                        CriterionId.TEMPERATURE_SPREAD,
                        CriterionId.TEMPERATURE_FLUCTUATION,
                        CriterionId.SATURATION_DIFFERENCE,
                        CriterionId.FREE_CHAMBER_EXCESS,
                        CriterionId.PRESSURE_CHANGE_RATE,
                        CriterionId.DRYING_TIME);
    }

    @Test
    void a_criterion_the_set_does_not_ask_is_not_assessed_and_does_not_count() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(
                        TestSet.strict().remove(CriterionId.TEMPERATURE_SPREAD).build());
        Finding finding = evaluation.finding(CriterionId.TEMPERATURE_SPREAD);
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.use()).isEqualTo(Use.OFF);
        assertThat(finding.sentence()).isEqualTo("Not assessed: the criteria set does not ask for it.");
        assertThat(evaluation.verdict().isPass()).isTrue();
    }

    @Test
    void a_reported_criterion_is_measured_but_neither_judged_nor_counted() {
        RunEvaluation evaluation = SyntheticRun.good()
                .map("L", x -> x + 3)
                .judgedBy(TestSet.strict()
                        .use(CriterionId.TEMPERATURE_SPREAD, Use.REPORTS)
                        .use(CriterionId.SATURATION_DIFFERENCE, Use.REPORTS)
                        .build());
        Finding finding = evaluation.finding(CriterionId.TEMPERATURE_SPREAD);
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(3, within(1e-9));
        assertThat(finding.judgement()).isEmpty();
        assertThat(evaluation.verdict().isPass()).isTrue();
    }

    @Test
    void an_advising_criterion_is_judged_but_does_not_count() {
        RunEvaluation evaluation = SyntheticRun.good()
                .map("L", x -> x + 3)
                .judgedBy(TestSet.strict()
                        .use(CriterionId.TEMPERATURE_SPREAD, Use.ADVISES)
                        .use(CriterionId.SATURATION_DIFFERENCE, Use.ADVISES)
                        .build());
        assertThat(evaluation.finding(CriterionId.TEMPERATURE_SPREAD).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(evaluation.verdict().isPass()).isTrue();
    }

    // holding time

    @ParameterizedTest(name = "last second {0}: {1}")
    @CsvSource({
        "640, 240, PASS, four minutes",
        "580, 180, PASS, exactly three minutes: the limit itself is acceptable",
        "579, 179, FAIL, a second short is short",
        "400, 0, FAIL, reached and lost at once",
    })
    void holding_time_runs_from_the_first_to_the_last_sample_inside(
            int last, double held, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good();
        if (last < SyntheticRun.LAST) {
            run.set("L", last + 1, SyntheticRun.LAST, 130);
        }
        Finding finding = finding(run, CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().value()).as(why).isEqualTo(held);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
        assertThat(finding.evidence().fromSeconds()).hasValue(400);
        assertThat(finding.evidence().toSeconds()).hasValue(last);
    }

    @Test
    void holding_time_ends_at_the_first_dip_even_if_it_recovers() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 520, 522, 133.9));
        Finding holding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(holding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(holding.measured().orElseThrow().value())
                .as("400 to 519 is longer than 523 to 640")
                .isEqualTo(119);
        assertThat(holding.sentence())
                .isEqualTo("Every point stood inside the band for only 119.0 s without a break; 180 s are required."
                        + " Channel L fell to 133.90 °C at 8:40 and recovered; two stretches are never added up.");
        assertThat(evaluation.plateau().orElseThrow().dips()).hasSize(1);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
    }

    @Test
    void of_two_stretches_the_longer_counts_even_if_it_comes_later() {
        Finding finding = finding(SyntheticRun.good().set("L", 450, 450, 133.99), CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(189);
        assertThat(finding.evidence().fromSeconds()).hasValue(451);
    }

    @Test
    void rising_above_the_band_breaks_the_holding_time_too() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 500, 501, 138.1));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.FAIL);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .endsWith("Channel L rose above the band at 8:20.");
        assertThat(evaluation.plateau().orElseThrow().holdingEnd().reason()).isEqualTo(Reason.BELOW);
        assertThat(evaluation
                        .plateau()
                        .orElseThrow()
                        .breakBefore()
                        .orElseThrow()
                        .reason())
                .isEqualTo(Reason.ABOVE);
        Finding highest = evaluation.finding(CriterionId.HIGHEST_TEMPERATURE);
        assertThat(highest.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(highest.sentence())
                .isEqualTo(
                        "The highest reading of the plateau was 138.10 °C, channel L at 8:20; the band ends at 138 °C.");
    }

    @Test
    void the_upper_limit_itself_is_inside_the_band() {
        RunEvaluation evaluation =
                evaluate(SyntheticRun.good().set("L", 500, 500, 138).set("R", 500, 500, 137));
        assertThat(evaluation.finding(CriterionId.HIGHEST_TEMPERATURE).outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(evaluation.plateau().orElseThrow().holdingSeconds()).isEqualTo(240);
    }

    @Test
    void without_an_upper_limit_the_highest_temperature_is_only_reported() {
        RunEvaluation evaluation = SyntheticRun.good()
                .set("L", 500, 501, 139)
                .judgedBy(TestSet.strict().bandWidth(Optional.empty()).build());
        Finding highest = evaluation.finding(CriterionId.HIGHEST_TEMPERATURE);
        assertThat(highest.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.verdict().isPass())
                .as("a set that says it decides and states no limit leaves the question open")
                .isFalse();
        assertThat(highest.measured().orElseThrow().value()).isEqualTo(139);
        assertThat(evaluation.plateau().orElseThrow().holdingSeconds()).isEqualTo(240);
    }

    @Test
    void a_longer_declared_holding_time_is_the_one_that_counts() {
        CycleDefinition longer = new CycleDefinition(
                "long 134",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.of(Duration.ofMillis(240_500)),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty());
        Finding finding = finding(SyntheticRun.good().cycle(longer), CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.limit().orElseThrow().value()).isEqualTo(240.5);
        assertThat(finding.limit().orElseThrow().source().document())
                .isEqualTo("cycle 'long 134' as declared for this visit");
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_declared_holding_time_that_is_not_longer_leaves_the_set_in_force() {
        CycleDefinition same = new CycleDefinition(
                "134",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.of(Duration.ofSeconds(180)),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty());
        assertThat(finding(SyntheticRun.good().cycle(same), CriterionId.MINIMUM_HOLDING_TIME)
                        .limit()
                        .orElseThrow()
                        .source())
                .isEqualTo(TestSet.SOURCE);
    }

    @Test
    void without_any_holding_time_nothing_passes() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(TestSet.strict().holdingTime(Optional.empty()).build());
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .contains("134 °C");
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void a_holding_time_is_found_three_times() {
        // L stands 0.1 K above the limit for the first 40 s: inside as read, outside when lowered by 0.2 K
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 400, 439, 134.1));
        assertThat(evaluation.plateau().orElseThrow().holdingSeconds()).isEqualTo(240);
        assertThat(evaluation.plateauLowered().orElseThrow().holdingSeconds()).isEqualTo(200);
        assertThat(evaluation.plateauRaised().orElseThrow().holdingSeconds()).isEqualTo(240);
        Finding finding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().low()).isEqualTo(200);
        assertThat(finding.measured().orElseThrow().high()).isEqualTo(240);
    }

    @Test
    void under_the_guarded_rule_a_holding_time_within_its_doubt_is_undecided_and_the_run_invalid() {
        SyntheticRun run = SyntheticRun.good().set("L", 400, 470, 134.1);
        RunEvaluation evaluation = run.judgedBy(TestSet.strict()
                .rule(CriterionId.MINIMUM_HOLDING_TIME, DecisionRule.GUARDED)
                .build());
        Finding finding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().low()).isEqualTo(169);
        assertThat(finding.outcome()).isEqualTo(Outcome.UNDECIDED);
        assertThat(finding.judgement().orElseThrow().words()).isEqualTo(FourWords.CONDITIONAL_PASS);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.verdict().deciding()).extracting(Finding::id).contains(CriterionId.MINIMUM_HOLDING_TIME);
        String open =
                "Every point stood inside the band for 240.0 s without a break; 180 s are required. Under doubt the"
                        + " holding time lies between 169.0 s and 240.0 s; the shorter one decides and is too short, which leaves it"
                        + " undecided.";
        assertThat(finding.sentence()).isEqualTo(open);
        assertThat(evaluation.verdict().cause()).contains(open);
        assertThat(evaluate(run).verdict().cause())
                .as("the simple rule decides")
                .doesNotContain("undecided");
        assertThat(evaluate(run).guardedVerdict().cause()).as("said once").containsOnlyOnce(open);
        assertThat(evaluation.simpleVerdict().outcome()).as("shown beside it").isEqualTo(RunOutcome.PASS);
        assertThat(evaluate(run).guardedVerdict().outcome())
                .as("and the other way")
                .isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void no_plateau_is_a_fail_that_names_the_highest_reading() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().map("R", x -> Math.min(x, 133.5)));
        Finding finding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.sentence())
                .isEqualTo(
                        "The reference measurement point never reached 134 °C; its highest reading was 133.50 °C at 6:40.");
        assertThat(evaluation.plateau()).isEmpty();
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
        assertThat(evaluation.finding(CriterionId.CALIBRATION_RANGE).isDeciding())
                .isFalse();
        for (CriterionId id : List.of(
                CriterionId.LOWEST_TEMPERATURE,
                CriterionId.HIGHEST_TEMPERATURE,
                CriterionId.EQUILIBRATION_TIME,
                CriterionId.PENETRATION_TIME,
                CriterionId.TEMPERATURE_SPREAD,
                CriterionId.TEMPERATURE_FLUCTUATION,
                CriterionId.SATURATION_DIFFERENCE,
                CriterionId.DRYING_TIME)) {
            assertThat(evaluation.finding(id).outcome()).as(id.word()).isEqualTo(Outcome.NOT_ASSESSED);
            assertThat(evaluation.finding(id).isDeciding()).as(id.word()).isTrue();
        }
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.PASS);
    }

    @Test
    void points_that_are_never_together_inside_hold_nothing() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().map("L", x -> Math.min(x, 133.9)));
        Finding holding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(holding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(holding.sentence()).endsWith("Channel L never reached it.");
        assertThat(holding.measured().orElseThrow().value()).isZero();
        Finding equilibration = evaluation.finding(CriterionId.EQUILIBRATION_TIME);
        assertThat(equilibration.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(equilibration.sentence()).isEqualTo("Channel L never reached 134 °C during the plateau.");
        assertThat(evaluation.finding(CriterionId.LOWEST_TEMPERATURE).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
    }

    // gaps, missing values, ends

    @Test
    void a_gap_inside_the_hold_makes_the_run_invalid_not_failed() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().gap(500, 560));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .endsWith(
                        "Samples of channel R are missing before 9:20. What was not recorded, or not by a sensor that can be"
                                + " trusted, may have been inside the band, which leaves it open.");
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).sentence())
                .contains("Channel R has no sample between 8:20 and 9:20.");
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void a_gap_outside_the_plateau_does_no_harm() {
        assertThat(evaluate(SyntheticRun.good().gap(800, 860)).verdict().isPass())
                .isTrue();
    }

    @Test
    void missing_values_in_the_plateau_make_the_run_invalid() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 500, 502, Double.NaN));
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).sentence())
                .isEqualTo("Channel L has no value in 3 of 241 samples of the plateau, first at 8:20.");
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .contains("Channel L has no value at 8:20.");
    }

    @Test
    void a_recording_that_ends_in_the_hold_is_invalid() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().cutAfter(500));
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).sentence())
                .isEqualTo("The recording ends at 8:20 while the chamber is still at sterilisation temperature."
                        + " Record until the end of the cycle.");
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .endsWith(
                        "The recording ends at 8:20 while all points still stood in the band. What was not recorded, or not by"
                                + " a sensor that can be trusted, may have been inside the band, which leaves it open.");
    }

    @Test
    void a_hold_that_is_short_even_with_the_gap_filled_is_a_fail() {
        Finding finding =
                finding(SyntheticRun.good().set("L", 560, 640, 133.5).gap(500, 510), CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.outcome()).as("159 s at the very best").isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_recording_that_ends_in_a_long_enough_hold_is_still_incomplete() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().cutAfter(639));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.verdict().isPass()).isFalse();
    }

    @Test
    void a_recording_that_begins_at_temperature_is_invalid() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().keep(400, 1200));
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).sentence())
                .startsWith("The recording begins at sterilisation temperature");
    }

    @Test
    void a_stuck_sensor_shows_though_the_walls_warm_the_others_again_at_the_end() {
        int last = SyntheticRun.SAMPLES - 1;
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .set("L", 450, last, 134.8)
                .set("R", last - 20, last, 131.0)
                .set("C", last - 20, last, 131.0));
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.verdict().isPass()).isFalse();
    }

    @Test
    void a_recording_that_begins_in_the_heating_is_invalid_though_the_plateau_is_whole() {
        RunEvaluation late = evaluate(SyntheticRun.good().keep(300, 1200));
        assertThat(late.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(late.finding(CriterionId.RECORDING_COMPLETE).sentence())
                .contains("with the chamber already at 100.00 °C");
        assertThat(evaluate(SyntheticRun.good().keep(299, 1200))
                        .finding(CriterionId.RECORDING_COMPLETE)
                        .outcome())
                .isEqualTo(Outcome.PASS);
    }

    @ParameterizedTest(name = "ends at {0} °C: {1}")
    @CsvSource({"126.4, PASS", "128.6, INVALID"})
    void a_recording_without_plateau_is_complete_only_if_it_cooled_by_more_than_five_kelvin(
            double end, Outcome expected) {
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .map("R", x -> Math.min(x, 133.5))
                .cutAfter(700)
                .set("R", 700, 700, end));
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(expected);
    }

    @Test
    void a_recording_that_never_got_hot_is_complete() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().map("R", x -> 60));
        assertThat(evaluation.finding(CriterionId.RECORDING_COMPLETE).outcome()).isEqualTo(Outcome.PASS);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
    }

    @ParameterizedTest(name = "interval {0} s: {1}")
    @CsvSource({"2.5, PASS", "2.500001, INVALID"})
    void too_coarse_sampling_makes_the_run_invalid(double interval, Outcome expected) {
        Finding finding = finding(
                SyntheticRun.good().axis(TimeAxis.regular(SyntheticRun.SAMPLES, interval)),
                CriterionId.SAMPLING_INTERVAL);
        assertThat(finding.outcome()).isEqualTo(expected);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(interval, within(1e-6));
    }

    @Test
    void without_a_longest_interval_sampling_is_not_assessed() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(TestSet.strict()
                        .withoutLimit(CriterionId.SAMPLING_INTERVAL)
                        .build());
        assertThat(evaluation.finding(CriterionId.SAMPLING_INTERVAL).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    // dips

    @Test
    void a_dip_counts_even_if_the_rest_of_the_hold_is_long_enough() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 610, 611, 133.8));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.PASS);
        Finding lowest = evaluation.finding(CriterionId.LOWEST_TEMPERATURE);
        assertThat(lowest.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(lowest.sentence())
                .isEqualTo(
                        "A point dipped: the lowest reading was 133.80 °C, channel L at 10:10; 134 °C are required.");
        assertThat(lowest.evidence().atSeconds()).hasValue(610);
    }

    @Test
    void flicker_at_arrival_is_no_dip() {
        RunEvaluation evaluation =
                evaluate(SyntheticRun.good().set("L", 403, 403, 133.95).set("L", 405, 405, 133.95));
        assertThat(evaluation.finding(CriterionId.LOWEST_TEMPERATURE).outcome()).isEqualTo(Outcome.PASS);
        assertThat(evaluation.plateau().orElseThrow().together().orElseThrow().fromSeconds())
                .isEqualTo(406);
        assertThat(evaluation.plateau().orElseThrow().equilibratedSeconds()).contains(400.0);
    }

    @ParameterizedTest(name = "steady for {0} s: {1}")
    @CsvSource({"10, FAIL, ten seconds are steady", "9, PASS, nine are not"})
    void a_stretch_is_steady_from_ten_seconds(int seconds, Outcome expected, String why) {
        Finding lowest = finding(
                SyntheticRun.good().set("L", 401 + seconds, 401 + seconds, 133.9), CriterionId.LOWEST_TEMPERATURE);
        assertThat(lowest.outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void the_lowest_temperature_is_looked_for_again_with_lowered_points() {
        Finding lowest = finding(SyntheticRun.good().set("L", 500, 501, 134.1), CriterionId.LOWEST_TEMPERATURE);
        assertThat(lowest.outcome()).isEqualTo(Outcome.PASS);
        assertThat(lowest.measured().orElseThrow().value()).isEqualTo(134.1);
        assertThat(lowest.measured().orElseThrow().low()).isCloseTo(133.9, within(1e-9));
        assertThat(lowest.measured().orElseThrow().high()).isCloseTo(134.3, within(1e-9));
        assertThat(lowest.judgement().orElseThrow().guarded()).isEqualTo(Outcome.UNDECIDED);
        Finding guarded = SyntheticRun.good()
                .set("L", 500, 501, 134.1)
                .judgedBy(TestSet.strict()
                        .rule(CriterionId.LOWEST_TEMPERATURE, DecisionRule.GUARDED)
                        .build())
                .finding(CriterionId.LOWEST_TEMPERATURE);
        assertThat(guarded.outcome()).isEqualTo(Outcome.UNDECIDED);
        assertThat(guarded.sentence())
                .endsWith(
                        "Under doubt the figure lies between 133.90 °C and 134.30 °C; the lower end decides and misses"
                                + " the limit, which leaves it undecided.");
    }

    @Test
    void no_open_finding_that_decides_reads_like_a_pass() {
        for (CriterionId id : CriterionId.values()) {
            TestSet set = TestSet.strict().rule(id, DecisionRule.GUARDED);
            for (Finding finding : SyntheticRun.good()
                    .set("L", 400, 470, 134.1)
                    .judgedBy(set.build())
                    .findings()) {
                if (finding.outcome() == Outcome.UNDECIDED) {
                    assertThat(finding.sentence()).as(id + "").endsWith("which leaves it undecided.");
                } else {
                    assertThat(finding.sentence()).as(id + "").doesNotContain("undecided");
                }
            }
        }
    }

    // arrival

    @ParameterizedTest(name = "{0} s late: {1}")
    @CsvSource({"15, PASS, the limit itself", "16, FAIL, one more"})
    void equilibration_time_counts_from_the_reference_point_to_the_last_one(int late, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good().set("L", 400, 399 + late, 133.0);
        RunEvaluation evaluation = evaluate(run);
        Finding finding = evaluation.finding(CriterionId.EQUILIBRATION_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(late);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
        assertThat(finding.evidence().channels()).containsExactly("L");
        assertThat(finding.evidence().atSeconds()).hasValue(400 + late);
        assertThat(finding.measured().orElseThrow().low()).isEqualTo(late - 1);
        assertThat(finding.measured().orElseThrow().high()).isEqualTo(late + 1);
        assertThat(finding.sentence())
                .isEqualTo(
                        "Every point stood at temperature %d.0 s after the reference measurement point; channel L came last."
                                .formatted(late));
    }

    @ParameterizedTest(name = "every {0} s, {1} samples late: {2}, {3}")
    @CsvSource({
        "2.5,  6, PASS,    a sixth of the limit tells 15 s from 17.5 s",
        "2.5,  7, FAIL,    and the other way round",
        "3,    5, INVALID, more than a sixth: 15 s may be up to 18 s",
        "3,    4, PASS,    12 s may be up to 15 s",
        "10,   0, PASS,    in the same ten seconds is within 15 s",
        "10,   1, INVALID, may be 20 s",
        "10,   2, INVALID, may be 10 s",
        "10,   3, FAIL,    20 s at least",
        "20,   0, INVALID, nobody looked for longer than the limit",
    })
    void samples_too_far_apart_for_the_limit_prove_no_equilibration(
            double step, int samples, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good().axis(TimeAxis.regular(SyntheticRun.SAMPLES, step));
        if (samples > 0) {
            run.set("L", 400, 399 + samples, 133.0);
        }
        Finding finding = run.judgedBy(
                        TestSet.strict().remove(CriterionId.SAMPLING_INTERVAL).build())
                .finding(CriterionId.EQUILIBRATION_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(step * samples);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
        if (expected == Outcome.INVALID) {
            assertThat(finding.sentence())
                    .endsWith("The samples are %.1f s apart, too far for a limit of 15 s, and leave it open."
                            .formatted(step));
        }
    }

    @ParameterizedTest(name = "every {0} s, {1} samples: {2}, {3}")
    @CsvSource({
        "30, 7, PASS,    180 s in six intervals",
        "30, 6, FAIL,    150 s",
        "31, 7, INVALID, 186 s with 31 s in which nobody looked",
        "31, 5, INVALID, 124 s may be up to 186 s",
        "31, 4, FAIL,    93 s may be up to 155 s",
    })
    void samples_too_far_apart_for_the_limit_prove_no_holding_time(
            double step, int samples, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good()
                .axis(TimeAxis.regular(SyntheticRun.SAMPLES, step))
                .set("R", 400 + samples, 1200, 60);
        Finding finding = run.judgedBy(TestSet.strict().build()).finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(step * (samples - 1));
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void a_load_that_leads_has_no_equilibration_time() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 390, 399, 134.2));
        Finding finding = evaluation.finding(CriterionId.EQUILIBRATION_TIME);
        assertThat(finding.measured().orElseThrow().value()).isZero();
        assertThat(finding.measured().orElseThrow().low()).isZero();
        assertThat(finding.sentence())
                .isEqualTo("Every point was at temperature when the reference measurement point reached it.");
        assertThat(evaluation
                        .plateau()
                        .orElseThrow()
                        .findCrossing("L")
                        .orElseThrow()
                        .sampleSeconds())
                .isEqualTo(390);
    }

    @Test
    void without_a_limit_the_equilibration_time_is_reported() {
        RunEvaluation evaluation = SyntheticRun.good()
                .set("L", 400, 450, 133)
                .judgedBy(TestSet.strict()
                        .withoutLimit(CriterionId.EQUILIBRATION_TIME)
                        .build());
        Finding finding = evaluation.finding(CriterionId.EQUILIBRATION_TIME);
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.printedMeasured()).isEqualTo("51.0 s");
        assertThat(evaluation.verdict().isPass()).isFalse();
    }

    @ParameterizedTest(name = "{0} s late: {1}")
    @CsvSource({"20, PASS", "21, FAIL"})
    void penetration_time_is_that_of_the_challenge_pack(int late, Outcome expected) {
        Finding finding = finding(
                SyntheticRun.good().set("C", 400, 399 + late, 133.0).set("L", 400, 430, 133.0),
                CriterionId.PENETRATION_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(late);
        assertThat(finding.outcome()).isEqualTo(expected);
        assertThat(finding.evidence().channels()).containsExactly("C");
        assertThat(finding.sentence())
                .isEqualTo("The challenge pack (channel C) reached 134 °C %d.0 s after the reference measurement point."
                        .formatted(late));
    }

    @Test
    void of_two_packs_the_slower_counts() {
        Finding finding = finding(
                SyntheticRun.good()
                        .temperature("D", ChannelRole.CHALLENGE_PACK)
                        .set("C", 400, 404, 133.0)
                        .set("D", 400, 407, 133.0),
                CriterionId.PENETRATION_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(8);
        assertThat(finding.evidence().channels()).containsExactly("D");
    }

    @Test
    void a_pack_that_never_arrives_fails_and_one_that_leads_needs_no_time() {
        Finding never = finding(SyntheticRun.good().map("C", x -> Math.min(x, 133)), CriterionId.PENETRATION_TIME);
        assertThat(never.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(never.sentence())
                .isEqualTo("The challenge pack (channel C) never reached 134 °C during the plateau.");
        Finding leads = finding(SyntheticRun.good().set("C", 395, 399, 134.1), CriterionId.PENETRATION_TIME);
        assertThat(leads.outcome()).isEqualTo(Outcome.PASS);
        assertThat(leads.measured().orElseThrow().value()).isZero();
        assertThat(leads.sentence())
                .isEqualTo("The challenge pack (channel C) was there with or before the reference measurement point.");
    }

    @Test
    void without_a_pack_the_penetration_time_does_not_arise() {
        Finding finding = finding(SyntheticRun.good().without("C"), CriterionId.PENETRATION_TIME);
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.isDeciding()).isFalse();
    }

    @Test
    void without_a_channel_at_the_reference_point_times_are_not_assessed_and_nothing_passes() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().role("R", ChannelRole.FREE_CHAMBER));
        assertThat(evaluation.finding(CriterionId.EQUILIBRATION_TIME).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.PENETRATION_TIME).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    // spread, fluctuation, saturation

    @ParameterizedTest(name = "{0} K apart: {1}")
    @CsvSource({"2.0, PASS", "2.001, FAIL"})
    void spread_is_the_largest_difference_at_one_instant(double apart, Outcome expected) {
        Finding finding = finding(
                SyntheticRun.good().set("L", 520, 520, 134.5 + apart).set("C", 600, 600, 136),
                CriterionId.TEMPERATURE_SPREAD);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(apart, within(1e-9));
        assertThat(finding.outcome()).isEqualTo(expected);
        assertThat(finding.evidence().atSeconds()).hasValue(520);
        assertThat(finding.evidence().channels()).containsExactly("R", "L");
        double doubt = Math.sqrt(2) * 0.2;
        assertThat(finding.measured().orElseThrow().high()).isCloseTo(apart + doubt, within(1e-9));
    }

    @Test
    void differences_outside_the_holding_time_are_no_spread() {
        assertThat(finding(
                                SyntheticRun.good().set("L", 300, 399, 100).set("L", 650, 900, 20),
                                CriterionId.TEMPERATURE_SPREAD)
                        .measured()
                        .orElseThrow()
                        .value())
                .isZero();
    }

    @Test
    void a_single_point_has_no_spread_to_judge() {
        Finding finding = finding(SyntheticRun.good().without("L").without("C"), CriterionId.TEMPERATURE_SPREAD);
        assertThat(finding.isDeciding()).isFalse();
        assertThat(finding.sentence()).isEqualTo("Not assessed: a single point has no spread.");
    }

    @Test
    void fluctuation_is_the_largest_distance_from_the_own_mean() {
        // 241 samples, one of them 1.2050 K higher: the mean rises by 0.0050 K
        Finding finding =
                finding(SyntheticRun.good().set("L", 500, 500, 134.5 + 1.205), CriterionId.TEMPERATURE_FLUCTUATION);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(1.2, within(1e-9));
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.evidence().channels()).containsExactly("L");
        assertThat(finding.evidence().atSeconds()).hasValue(500);
        assertThat(finding.sentence()).isEqualTo("Channel L moved most: 1.20 K from its mean of 134.50 °C, at 8:20.");
    }

    @Test
    void the_doubt_of_a_fluctuation_is_the_resolution_alone() {
        Finding finding = finding(SyntheticRun.good().resolution(0.1), CriterionId.TEMPERATURE_FLUCTUATION);
        assertThat(finding.measured().orElseThrow().high()).isCloseTo(2 * 0.05 / Math.sqrt(3), within(1e-9));
    }

    @ParameterizedTest(name = "{0} K from theory: {1}")
    @CsvSource({"-1.99, PASS, colder", "-2.01, FAIL, colder", "1.99, PASS, hotter", "2.01, FAIL, hotter"})
    void measured_is_held_against_theoretical_both_ways(double difference, Outcome expected, String word) {
        SyntheticRun run = SyntheticRun.good();
        double theory = SyntheticRun.PLATEAU - difference;
        run.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(theory));
        Finding finding = finding(run, CriterionId.SATURATION_DIFFERENCE);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(Math.abs(difference), within(1e-4));
        assertThat(finding.outcome()).isEqualTo(expected);
        assertThat(finding.sentence()).contains(word);
    }

    @Test
    void residual_air_follows_from_the_deficit() {
        // check value 57: 5 % air at 304.199 kPa stands at 132.25 °C; here the steam is 135 °C and a place 1.5 K colder
        SyntheticRun run = SyntheticRun.good().set("L", 400, 640, 134.1);
        run.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(135.6));
        RunEvaluation evaluation = evaluate(run);
        double air = 100 * (1 - IapwsR797.INSTANCE.kilopascalAt(134.1) / IapwsR797.INSTANCE.kilopascalAt(135.6));
        assertThat(evaluation.steam().orElseThrow().residualAirPercent()).isCloseTo(air, within(0.01));
        assertThat(evaluation.steam().orElseThrow().coldestChannel()).isEqualTo("L");
        assertThat(evaluation.steam().orElseThrow().coldestDifference()).isCloseTo(-1.5, within(1e-3));
    }

    @Test
    void the_formula_of_the_set_makes_the_theoretical_temperature() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(TestSet.strict().curve(ShortFormula.INSTANCE).build());
        assertThat(evaluation
                        .finding(CriterionId.SATURATION_DIFFERENCE)
                        .measured()
                        .orElseThrow()
                        .value())
                .as("check value 39: the short formula reads 0.128 K high at 134 °C")
                .isCloseTo(0.128, within(0.002));
        assertThat(evaluation.finding(CriterionId.SATURATION_DIFFERENCE).sentence())
                .contains("short-formula");
    }

    @Test
    void the_theoretical_temperature_stands_in_the_band_only_if_the_set_says_so() {
        SyntheticRun run = SyntheticRun.good();
        run.set("P", 500, 502, IapwsR797.INSTANCE.kilopascalAt(133.8));
        assertThat(run.judgedBy(TestSet.strict().build())
                        .plateau()
                        .orElseThrow()
                        .holdingSeconds())
                .isEqualTo(240);
        RunEvaluation evaluation =
                run.judgedBy(TestSet.strict().theoreticalInBand().build());
        assertThat(evaluation.plateau().orElseThrow().holdingSeconds()).isEqualTo(137);
        assertThat(evaluation.finding(CriterionId.LOWEST_TEMPERATURE).evidence().channels())
                .containsExactly("theoretical");
        assertThat(evaluation
                        .finding(CriterionId.HIGHEST_TEMPERATURE)
                        .evidence()
                        .channels())
                .as("only measured points")
                .containsExactly("R");
    }

    @Test
    void without_pressure_what_needs_it_is_not_assessed_and_a_deciding_question_stays_open() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().without("P"));
        assertThat(evaluation.finding(CriterionId.SATURATION_DIFFERENCE).outcome())
                .isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.PRESSURE_CHANGE_RATE).outcome())
                .isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.AIR_REMOVAL_PULSES).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.finding(CriterionId.PRESSURE_KIND).isDeciding()).isFalse();
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.steam()).isEmpty();
        assertThat(evaluation.phases().orElseThrow().foundFrom()).isEqualTo(Quantity.TEMPERATURE);
    }

    // free chamber, pressure change, drying, pulses

    @Test
    void the_free_chamber_may_stand_higher_in_the_first_minute_if_the_set_says_so() {
        TestSet set = TestSet.strict().secondLimit(CriterionId.FREE_CHAMBER_EXCESS, atMost(3, Unit.KELVIN));
        SyntheticRun early =
                SyntheticRun.good().temperature("F", ChannelRole.FREE_CHAMBER).set("F", 460, 460, 137.4);
        Finding allowed = early.judgedBy(set.build()).finding(CriterionId.FREE_CHAMBER_EXCESS);
        assertThat(allowed.measured().orElseThrow().value()).isCloseTo(1.9, within(1e-9));
        assertThat(allowed.outcome()).isEqualTo(Outcome.PASS);
        assertThat(allowed.sentence())
                .isEqualTo("Channel F stood 2.90 K above the reference measurement point at 7:40, in the first minute,"
                        + " where 1.00 K more are allowed.");
        SyntheticRun late =
                SyntheticRun.good().temperature("F", ChannelRole.FREE_CHAMBER).set("F", 461, 461, 137.4);
        Finding tooHigh = late.judgedBy(set.build()).finding(CriterionId.FREE_CHAMBER_EXCESS);
        assertThat(tooHigh.measured().orElseThrow().value()).isCloseTo(2.9, within(1e-9));
        assertThat(tooHigh.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(tooHigh.sentence())
                .isEqualTo("Channel F stood 2.90 K above the reference measurement point at 7:41.");
    }

    @Test
    void without_a_free_channel_its_excess_does_not_arise() {
        assertThat(finding(SyntheticRun.good(), CriterionId.FREE_CHAMBER_EXCESS).isDeciding())
                .isFalse();
    }

    @Test
    void the_fastest_pressure_change_is_taken_over_two_seconds() {
        // 200 kPa in one sample of one second: over two seconds 100 kPa/s
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .set("P", 1050, 1059, SyntheticRun.AMBIENT + 200)
                .resolution(0.1));
        Finding finding = evaluation.finding(CriterionId.PRESSURE_CHANGE_RATE);
        assertThat(finding.measured().orElseThrow().value()).isCloseTo(6000, within(1e-6));
        assertThat(finding.outcome()).isEqualTo(Outcome.PASS);
        assertThat(finding.evidence().atSeconds()).hasValue(1050);
        assertThat(finding.measured().orElseThrow().high()).isCloseTo(6003, within(1e-6));
        Finding faster = finding(
                SyntheticRun.good().set("P", 1050, 1059, SyntheticRun.AMBIENT + 200.1),
                CriterionId.PRESSURE_CHANGE_RATE);
        assertThat(faster.outcome()).isEqualTo(Outcome.FAIL);
    }

    @ParameterizedTest(name = "declared {0} s: {1}")
    @CsvSource({"300, PASS", "301, FAIL"})
    void drying_lasts_until_the_vacuum_is_broken(long declared, Outcome expected) {
        CycleDefinition cycle = new CycleDefinition(
                "134",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.empty(),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.of(Duration.ofSeconds(declared + 3)));
        RunEvaluation evaluation = evaluate(SyntheticRun.good().cycle(cycle));
        Phase drying = evaluation.phases().orElseThrow().find(Phase.Kind.DRYING).orElseThrow();
        assertThat(drying.toSeconds()).isEqualTo(1000);
        assertThat(drying.fromSeconds())
                .as("first sample below ambient + 10 kPa")
                .isEqualTo(697);
        assertThat(evaluation.finding(CriterionId.DRYING_TIME).outcome()).isEqualTo(expected);
        assertThat(evaluation.finding(CriterionId.AIR_REMOVAL_PULSES).isDeciding())
                .isFalse();
    }

    @Test
    void undeclared_drying_does_not_arise() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().cycle(CycleDefinition.of("134", CycleType.B, 134)));
        assertThat(evaluation.finding(CriterionId.DRYING_TIME).isDeciding()).isFalse();
        assertThat(evaluation.verdict().isPass()).isTrue();
    }

    @Test
    void evacuations_are_counted_with_their_depth() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good());
        assertThat(evaluation.phases().orElseThrow().pulses()).hasSize(3).allSatisfy(pulse -> {
            assertThat(pulse.depth()).isCloseTo(15, within(0.01));
            assertThat(pulse.quantity()).isEqualTo(Quantity.PRESSURE);
        });
        Finding finding = evaluation.finding(CriterionId.AIR_REMOVAL_PULSES);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(3);
        assertThat(finding.outcome()).isEqualTo(Outcome.PASS);
        assertThat(finding.sentence())
                .isEqualTo(
                        "3 of 3 declared evacuations reached 20.00 kPa or deeper; the shallowest stopped at 15.00 kPa.");
    }

    @Test
    void a_shallow_evacuation_does_not_count() {
        Finding finding = finding(
                SyntheticRun.good().map("P", p -> p < 20 ? Math.max(p, 20.1) : p), CriterionId.AIR_REMOVAL_PULSES);
        assertThat(finding.measured().orElseThrow().value()).isZero();
        assertThat(finding.measured().orElseThrow().high())
                .as("within U = 0.5 kPa of the depth")
                .isEqualTo(3);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_missing_evacuation_is_missed() {
        Finding finding =
                finding(SyntheticRun.good().set("P", 20, 112, SyntheticRun.AMBIENT), CriterionId.AIR_REMOVAL_PULSES);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(2);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
    }

    // instruments

    @Test
    void corrections_come_before_everything_else() {
        // reads 0.7 K too high: 134.5 indicated are 133.8
        ReferenceInstrument instrument = SyntheticRun.instrument(
                "L", Quantity.TEMPERATURE, "2026-01-01", "2026-12-31", 0.7, 0.2, 0, 100, 121, 134, 140);
        RunEvaluation evaluation = evaluate(SyntheticRun.good().instrument("L", instrument));
        assertThat(evaluation.plateau().orElseThrow().latecomers()).containsExactly("L");
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
    }

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({
        "2025-03-03, 2026-03-02, PASS, due on the very day: that whole day is good",
        "2025-03-02, 2026-03-01, INVALID, expired the day before",
        "2026-03-02, 2027-03-01, PASS, calibrated on the very day",
        "2026-03-03, 2027-03-02, INVALID, calibrated only afterwards",
    })
    void a_certificate_has_to_cover_the_last_sample(String on, String due, Outcome expected, String why) {
        ReferenceInstrument instrument =
                SyntheticRun.instrument("L", Quantity.TEMPERATURE, on, due, 0, 0.2, 0, 100, 121, 134, 140);
        RunEvaluation evaluation = evaluate(SyntheticRun.good().instrument("L", instrument));
        assertThat(evaluation.finding(CriterionId.CALIBRATION_VALID).outcome())
                .as(why)
                .isEqualTo(expected);
        assertThat(evaluation.verdict().isPass()).as(why).isEqualTo(expected == Outcome.PASS);
    }

    @Test
    void a_run_across_midnight_needs_a_certificate_for_both_days() {
        ReferenceInstrument instrument = SyntheticRun.instrument(
                "L", Quantity.TEMPERATURE, "2025-03-03", "2026-03-02", 0, 0.2, 0, 100, 121, 134, 140);
        Finding finding = finding(
                SyntheticRun.good()
                        .instrument("L", instrument)
                        .start(Optional.of(Instant.parse("2026-03-02T23:50:00Z"))),
                CriterionId.CALIBRATION_VALID);
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence())
                .isEqualTo(
                        "Certificate CERT-L of instrument L (channel L) runs from 2025-03-03 to 2026-03-02; the run ended on 2026-03-03.");
    }

    @Test
    void an_unknown_instrument_an_uncalibrated_one_and_an_undated_run_are_invalid() {
        assertThat(finding(SyntheticRun.good().withoutInstrument("L"), CriterionId.CALIBRATION_VALID)
                        .sentence())
                .isEqualTo("No instrument is named for channel L, so nothing is known about its calibration.");
        ReferenceInstrument bare =
                new ReferenceInstrument("L", "invented", Quantity.TEMPERATURE, 0, 200, Optional.empty(), List.of());
        assertThat(finding(SyntheticRun.good().instrument("L", bare), CriterionId.CALIBRATION_VALID)
                        .sentence())
                .isEqualTo("Instrument L (channel L) has no calibration certificate.");
        Finding undated = finding(SyntheticRun.good().start(Optional.empty()), CriterionId.CALIBRATION_VALID);
        assertThat(undated.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(undated.sentence()).startsWith("The recording carries no date");
        RunEvaluation evaluation = evaluate(SyntheticRun.good().withoutInstrument("L"));
        assertThat(evaluation.finding(CriterionId.CALIBRATION_RANGE).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @ParameterizedTest(name = "calibrated up to {0} °C: {1}")
    @CsvSource({"134.5, PASS", "134.4, INVALID"})
    void readings_of_the_plateau_lie_in_the_calibrated_range(double highest, Outcome expected) {
        ReferenceInstrument instrument = SyntheticRun.instrument("L", Quantity.TEMPERATURE, 0.2, 0, 100, highest);
        Finding finding = finding(SyntheticRun.good().instrument("L", instrument), CriterionId.CALIBRATION_RANGE);
        assertThat(finding.outcome()).isEqualTo(expected);
        if (expected == Outcome.INVALID) {
            assertThat(finding.sentence())
                    .isEqualTo(
                            "Channel L showed 134.50 °C at 6:40, outside the range 0.00 to 134.40 °C that certificate CERT-L covers.");
        }
    }

    @Test
    void pressures_of_the_holding_time_lie_in_the_calibrated_range() {
        ReferenceInstrument instrument = SyntheticRun.instrument("P", Quantity.PRESSURE, 0.5, 0, 300);
        assertThat(finding(SyntheticRun.good().instrument("P", instrument), CriterionId.CALIBRATION_RANGE)
                        .outcome())
                .isEqualTo(Outcome.INVALID);
    }

    // sensors

    @Test
    void a_stuck_sensor_is_named_and_decides_nothing() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("L", 350, 1200, 121));
        Finding alive = evaluation.finding(CriterionId.SENSORS_ALIVE);
        assertThat(alive.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(alive.sentence())
                .isEqualTo("Channel L stands still at 121.00 °C from 5:50 to 20:00 while others move.");
        assertThat(evaluation.finding(CriterionId.EQUILIBRATION_TIME).outcome())
                .as("a dead sensor is no fault of the sterilizer")
                .isEqualTo(Outcome.INVALID);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @Test
    void a_steady_plateau_is_not_stuck() {
        assertThat(finding(SyntheticRun.good(), CriterionId.SENSORS_ALIVE).outcome())
                .isEqualTo(Outcome.PASS);
    }

    @ParameterizedTest(name = "still for {0} s: {1}")
    @CsvSource({"60, INVALID", "59, PASS"})
    void a_value_is_stuck_from_one_minute(int seconds, Outcome expected) {
        // still there 20 s after the others have left
        SyntheticRun run =
                SyntheticRun.good().set("L", 661 - seconds, 661, 134.2).set("L", 661, 661, 122);
        run.set("L", 660 - seconds, 660 - seconds, 134.2);
        assertThat(finding(run, CriterionId.SENSORS_ALIVE).outcome()).isEqualTo(expected);
    }

    @Test
    void a_sensor_at_the_end_of_its_range_is_named() {
        ReferenceInstrument exact = SyntheticRun.instrument("L", Quantity.TEMPERATURE, 0.2, 0, 100, 140);
        ReferenceInstrument limited = new ReferenceInstrument(
                "L", "invented", Quantity.TEMPERATURE, 0, 134.5, exact.certificate(), List.of());
        Finding finding = finding(SyntheticRun.good().instrument("L", limited), CriterionId.SENSORS_ALIVE);
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence()).isEqualTo("Channel L stands at the end of its range, 134.5 °C, at 6:40.");
    }

    @ParameterizedTest(name = "{0} at {1}: {2}")
    @CsvSource({
        "L, 160.1, INVALID, open circuit at the upper end",
        "L, 159.9, PASS, hot but possible",
        "L, -0.1, INVALID, frozen",
        "P, 600.1, INVALID, no benchtop sterilizer",
    })
    void impossible_values_are_named(String channel, double value, Outcome expected, String why) {
        Finding finding = SyntheticRun.good()
                .instrument("L", SyntheticRun.instrument("L", Quantity.TEMPERATURE, 0.2, -10, 200))
                .set(channel, 500, 500, value)
                .judgedBy(TestSet.strict().build())
                .finding(CriterionId.SENSORS_ALIVE);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void a_dead_pressure_takes_the_theoretical_temperature_with_it() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("P", 500, 500, 700));
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).evidence().channels())
                .containsExactly("P");
        assertThat(evaluation.finding(CriterionId.SATURATION_DIFFERENCE).outcome())
                .isEqualTo(Outcome.INVALID);
    }

    // gauge and absolute

    @Test
    void a_gauge_channel_is_made_absolute_with_the_barometer() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .map("P", p -> p - SyntheticRun.AMBIENT)
                .gauge()
                .instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0.5, -110, 0, 300)));
        assertThat(evaluation.verdict().isPass())
                .as(evaluation.verdict().cause())
                .isTrue();
        assertThat(evaluation.corrected().pressure().orElseThrow().at(0)).isCloseTo(SyntheticRun.AMBIENT, within(1e-9));
    }

    @Test
    void gauge_declared_as_absolute_is_caught_at_the_open_door() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good()
                .map("P", p -> p - SyntheticRun.AMBIENT)
                .instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0.5, -110, 0, 300)));
        Finding finding = evaluation.finding(CriterionId.PRESSURE_KIND);
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence())
                .startsWith("Channel P is declared absolute, but with the open door it reads as if it were gauge.");
        assertThat(evaluation.finding(CriterionId.SATURATION_DIFFERENCE).outcome())
                .isNotEqualTo(Outcome.PASS);
        assertThat(evaluation.verdict().isPass()).isFalse();
    }

    @Test
    void absolute_declared_as_gauge_is_caught_at_the_open_door() {
        Finding finding = finding(SyntheticRun.good().gauge(), CriterionId.PRESSURE_KIND);
        assertThat(finding.sentence())
                .startsWith("Channel P is declared gauge, but with the open door it reads as if it were absolute.");
    }

    @Test
    void one_end_with_an_open_door_is_enough_and_none_is_not() {
        SyntheticRun before = SyntheticRun.good().set("P", 1001, 1200, 60);
        assertThat(finding(before, CriterionId.PRESSURE_KIND).outcome()).isEqualTo(Outcome.PASS);
        SyntheticRun after = SyntheticRun.good().set("P", 0, 0, 60);
        assertThat(finding(after, CriterionId.PRESSURE_KIND).outcome()).isEqualTo(Outcome.PASS);
        SyntheticRun neither = SyntheticRun.good().set("P", 0, 0, 60).set("P", 1001, 1200, 60);
        assertThat(finding(neither, CriterionId.PRESSURE_KIND).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding(neither, CriterionId.PRESSURE_KIND).sentence())
                .contains("Record some seconds with the door open.");
    }

    @ParameterizedTest(name = "first and last reading {0} kPa above ambient: {1}")
    @CsvSource({"2.0, PASS, 1.5 + 0.1 + U 0.5 kPa are allowed", "2.2, INVALID, more are not"})
    void about_ambient_has_an_edge(double above, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good()
                .set("P", 0, 0, SyntheticRun.AMBIENT + above)
                .set("P", 1001, 1200, SyntheticRun.AMBIENT + above);
        assertThat(finding(run, CriterionId.PRESSURE_KIND).outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void an_unknown_ambient_pressure_is_said_and_leaves_more_room() {
        Finding finding = finding(SyntheticRun.good().ambient(Ambient.unknown()), CriterionId.PRESSURE_KIND);
        assertThat(finding.outcome()).isEqualTo(Outcome.PASS);
        assertThat(finding.sentence()).contains("not stated, sea level taken");
    }

    // shapes that must not fool it

    @Test
    void a_conditioning_step_and_a_positive_pulse_are_no_plateau() {
        SyntheticRun run = SyntheticRun.good();
        for (String name : List.of("R", "L", "C")) {
            // a pulse that touches the band for eight seconds, then conditioning at 121 °C for a minute
            run.set(name, 302, 310, 134.3).set(name, 311, 320, 110).set(name, 321, 385, 121);
        }
        run.set("P", 302, 310, 307).set("P", 311, 320, 143).set("P", 321, 385, IapwsR797.INSTANCE.kilopascalAt(121));
        RunEvaluation evaluation = evaluate(run);
        assertThat(evaluation.plateau().orElseThrow().reachedSeconds()).isEqualTo(400);
        assertThat(evaluation.plateau().orElseThrow().holdingSeconds()).isEqualTo(240);
        assertThat(evaluation.phases().orElseThrow().phases())
                .extracting(Phase::kind)
                .containsExactly(
                        Phase.Kind.AIR_REMOVAL,
                        Phase.Kind.HEATING,
                        Phase.Kind.CONDITIONING,
                        Phase.Kind.HEATING,
                        Phase.Kind.PLATEAU,
                        Phase.Kind.EXHAUST,
                        Phase.Kind.DRYING);
    }

    @Test
    void a_reference_point_that_falls_less_than_a_kelvin_below_stays_in_its_plateau() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("R", 500, 500, 133.0));
        assertThat(evaluation.plateau().orElseThrow().reachedSeconds()).isEqualTo(400);
        assertThat(evaluation.plateau().orElseThrow().endSeconds()).isEqualTo(640);
        RunEvaluation left = evaluate(SyntheticRun.good().set("R", 500, 500, 132.99));
        assertThat(left.plateau().orElseThrow().reachedSeconds())
                .as("the longer of the two")
                .isEqualTo(501);
    }

    @Test
    void loggers_that_sample_at_other_moments_need_no_interpolation() {
        assertThat(evaluate(SyntheticRun.good()).plateau().orElseThrow().crossings())
                .hasSize(3);
    }

    @Test
    void lethality_never_makes_a_pass_out_of_a_fail() {
        SyntheticRun run = SyntheticRun.good().set("L", 560, 640, 133.9);
        RunEvaluation evaluation = evaluate(run);
        assertThat(evaluation.lethality().get(1).minutes()).as("splendid").isGreaterThan(60);
        assertThat(evaluation.lethality().get(1).referenceCelsius()).isEqualTo(121.1);
        assertThat(evaluation.lethality().get(1).z()).isEqualTo(10);
        assertThat(evaluation.lethalityChannels()).containsExactly("R", "L", "C");
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
    }

    @Test
    void statistics_cover_the_holding_time_of_every_channel() {
        RunEvaluation evaluation =
                evaluate(SyntheticRun.good().set("L", 500, 500, 135.5).set("L", 510, 510, 134.25));
        assertThat(evaluation.statistics()).extracting("channel").containsExactly("R", "L", "C", "P", "theoretical");
        var load = evaluation.statistics().get(1);
        assertThat(load.samples()).isEqualTo(241);
        assertThat(load.minimum()).isEqualTo(134.25);
        assertThat(load.minimumSeconds()).isEqualTo(510);
        assertThat(load.maximum()).isEqualTo(135.5);
        assertThat(load.maximumSeconds()).isEqualTo(500);
        assertThat(load.mean()).isCloseTo(134.5 + 0.75 / 241, within(1e-9));
        assertThat(load.fluctuation()).isCloseTo(1 - 0.75 / 241, within(1e-9));
        assertThat(load.fluctuationSeconds()).isEqualTo(500);
    }

    @Test
    void a_run_without_a_chamber_temperature_is_refused() {
        SyntheticRun run = SyntheticRun.good().without("R").without("L").without("C");
        assertThatThrownBy(() -> evaluate(run))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("run run has no temperature channel in the chamber");
    }

    @Test
    void a_set_in_which_nothing_decides_gives_no_verdict() {
        TestSet set = TestSet.strict();
        for (CriterionId id : CriterionId.values()) {
            set.use(id, Use.REPORTS);
        }
        assertThatThrownBy(() -> SyntheticRun.good().judgedBy(set.build())).hasMessageContaining("nothing decides");
    }

    @ParameterizedTest
    @EnumSource(names = {"FAIL", "INVALID", "UNDECIDED", "AWAITED", "NOT_ASSESSED"})
    void only_a_pass_passes(Outcome outcome) {
        Finding good = finding(SyntheticRun.good(), CriterionId.TEMPERATURE_SPREAD);
        Finding other = good.revised(outcome, "made for this test");
        RunVerdict verdict = Verdicts.of(List.of(good, other), Finding::outcome);
        assertThat(verdict.outcome()).isEqualTo(outcome == Outcome.FAIL ? RunOutcome.FAIL : RunOutcome.INVALID);
        assertThat(verdict.deciding()).containsExactly(other);
        assertThat(verdict.cause()).isEqualTo("made for this test");
    }

    @Test
    void a_fail_outweighs_what_is_open() {
        Finding good = finding(SyntheticRun.good(), CriterionId.TEMPERATURE_SPREAD);
        Finding open = good.revised(Outcome.INVALID, "open");
        Finding failed = good.revised(Outcome.FAIL, "failed");
        assertThat(Verdicts.of(List.of(open, failed), Finding::outcome).outcome())
                .isEqualTo(RunOutcome.FAIL);
    }

    @Test
    void every_fault_that_was_planted_is_named_by_its_own_criterion_alone() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("C", 400, 430, 133.0));
        assertThat(evaluation.verdict().deciding())
                .extracting(Finding::id)
                .containsExactlyInAnyOrderElementsOf(
                        Set.of(CriterionId.EQUILIBRATION_TIME, CriterionId.PENETRATION_TIME));
        assertThat(evaluation.hints().get(0).pattern())
                .isEqualTo("Some points reached temperature late, without staying cold.");
    }

    @Test
    void the_holding_limit_of_the_set_may_be_met_to_the_sample() {
        RunEvaluation evaluation = SyntheticRun.good()
                .judgedBy(TestSet.strict()
                        .holdingTime(Optional.of(atLeast(240, Unit.SECONDS)))
                        .build());
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).margin())
                .hasValue(0);
    }

    @Test
    void a_hold_that_is_short_because_a_point_came_late_names_that_point() {
        RunEvaluation evaluation =
                evaluate(SyntheticRun.good().set("L", 400, 480, 133).set("C", 400, 500, 133));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence())
                .isEqualTo(
                        "Every point stood inside the band for only 139.0 s without a break; 180 s are required. All points"
                                + " stood together only from 8:21 on: channel C came last, 101.0 s after the reference measurement point.");
    }

    @ParameterizedTest(name = "{0} s late: {1}")
    @CsvSource({"15, false", "16, true"})
    void lateness_is_the_reason_beyond_fifteen_seconds(int late, boolean isReason) {
        RunEvaluation evaluation = SyntheticRun.good()
                .set("L", 400, 399 + late, 133)
                .judgedBy(TestSet.strict()
                        .holdingTime(Optional.of(atLeast(300, Unit.SECONDS)))
                        .build());
        String sentence = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).sentence();
        assertThat(sentence.endsWith("after the reference measurement point.")).isEqualTo(isReason);
        assertThat(sentence.endsWith("Channel R left it first, at 10:41.")).isEqualTo(!isReason);
    }

    @Test
    void a_late_point_that_also_left_early_is_told_as_leaving() {
        Finding finding = finding(
                SyntheticRun.good().set("L", 400, 430, 133).set("C", 600, 640, 133.5),
                CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.sentence()).endsWith("Channel C left it first, at 10:00.");
    }

    @Test
    void the_place_of_a_holding_time_is_the_stretch_and_the_channel_that_ended_it() {
        Finding finding = finding(SyntheticRun.good().set("L", 560, 640, 130), CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.evidence().channels()).containsExactly("L");
        assertThat(finding.evidence().fromSeconds()).hasValue(400);
        assertThat(finding.evidence().toSeconds()).hasValue(559);
        Finding never = finding(SyntheticRun.good().map("L", x -> Math.min(x, 133)), CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(never.evidence().channels()).containsExactly("R", "L", "C");
    }

    @Test
    void points_that_take_turns_were_never_together() {
        SyntheticRun run = SyntheticRun.good().set("L", 520, 640, 133).set("C", 400, 519, 133);
        Finding holding = finding(run, CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(holding.sentence()).endsWith("The points were never inside the band together.");
        Finding equilibration = finding(run, CriterionId.EQUILIBRATION_TIME);
        assertThat(equilibration.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(equilibration.sentence()).isEqualTo("The points never stood at 134 °C together.");
    }

    @Test
    void a_raised_reference_that_would_reach_the_band_leaves_a_conditional_fail() {
        RunEvaluation evaluation = SyntheticRun.good()
                .map("R", x -> Math.min(x, 133.9))
                .judgedBy(TestSet.strict().build());
        Finding finding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(finding.measured().orElseThrow().high()).isEqualTo(240);
        assertThat(finding.judgement().orElseThrow().words()).isEqualTo(FourWords.CONDITIONAL_FAIL);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_stuck_reference_leaves_every_hold_possible() {
        RunEvaluation evaluation =
                evaluate(SyntheticRun.good().set("R", 450, 1200, 134.8).set("L", 520, 521, 133));
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).sentence())
                .contains("Channel R stands still at 134.80 °C");
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void a_channel_without_a_sample_in_the_plateau_is_named() {
        SyntheticRun run = SyntheticRun.good();
        run.set("L", 400, 640, Double.NaN);
        Finding finding = finding(run, CriterionId.SENSORS_ALIVE);
        assertThat(finding.sentence())
                .isEqualTo("Channel L has no value in 241 of 241 samples of the plateau, first at 6:40.");
        assertThat(finding.evidence().channels()).containsExactly("L");
    }

    @ParameterizedTest(name = "gap from {0} to {1}: {2}")
    @CsvSource({
        "390, 400, INVALID, ends with the first sample of the plateau",
        "389, 399, PASS, ends before it",
        "640, 650, INVALID, begins with its last sample",
        "641, 651, PASS, begins after it",
    })
    void a_gap_counts_if_it_touches_the_plateau(int after, int before, Outcome expected, String why) {
        assertThat(finding(SyntheticRun.good().gap(after, before), CriterionId.SENSORS_ALIVE)
                        .outcome())
                .as(why)
                .isEqualTo(expected);
    }

    @ParameterizedTest(name = "others fall by {0} K: {1}")
    @CsvSource({"5.0, PASS", "5.1, INVALID"})
    void a_still_value_is_stuck_only_if_the_others_moved_by_more_than_five_kelvin(double fall, Outcome expected) {
        SyntheticRun run = SyntheticRun.good().set("L", 560, 1200, 134.8);
        for (String name : List.of("R", "C")) {
            run.set(name, 641, 1200, 134.5 - fall);
        }
        assertThat(finding(run, CriterionId.SENSORS_ALIVE).outcome()).isEqualTo(expected);
    }

    @Test
    void half_of_the_others_is_not_enough_to_call_a_value_stuck() {
        SyntheticRun run = SyntheticRun.good()
                .without("P")
                .set("L", 560, 1200, 134.8)
                .set("R", 641, 1200, 131)
                .set("C", 641, 1200, 120);
        assertThat(finding(run, CriterionId.SENSORS_ALIVE).outcome()).isEqualTo(Outcome.PASS);
    }

    @Test
    void the_theoretical_temperature_is_a_witness_that_a_point_stands_still() {
        SyntheticRun run = SyntheticRun.good()
                .set("L", 560, 1200, 134.8)
                .set("R", 641, 1200, 131)
                .set("C", 641, 1200, 120);
        assertThat(finding(run, CriterionId.SENSORS_ALIVE).evidence().channels())
                .as("two of three have fallen")
                .containsExactly("L");
    }

    @ParameterizedTest(name = "still from {0} s: {1}")
    @CsvSource({"390, INVALID, ten seconds before the plateau", "391, PASS, nine seconds before"})
    void a_value_that_was_there_before_the_plateau_and_to_its_end_is_stuck(int from, Outcome expected, String why) {
        SyntheticRun run = SyntheticRun.good()
                .set("L", from, 640, 134.8)
                .set("R", 380, 399, 128)
                .set("C", 380, 399, 128);
        run.set("L", from - 1, from - 1, 120);
        assertThat(finding(run, CriterionId.SENSORS_ALIVE).outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void a_stuck_pressure_is_named_too() {
        RunEvaluation evaluation = evaluate(SyntheticRun.good().set("P", 500, 1100, 313));
        assertThat(evaluation.finding(CriterionId.SENSORS_ALIVE).sentence())
                .isEqualTo("Channel P stands still at 313.00 kPa from 8:20 to 18:20 while others move.");
    }

    @Test
    void words_of_constants_are_those_of_the_trade() {
        assertThat(TestKind.LEAK.words()).isEqualTo("air leakage");
        assertThat(TestKind.LOADED.qualification()).isEqualTo("PQ");
        assertThat(TestKind.EMPTY_CHAMBER.qualification()).isEqualTo("OQ");
        assertThat(RunOutcome.INVALID.words()).isEqualTo("invalid");
        assertThat(Outcome.NOT_ASSESSED.words()).isEqualTo("not assessed");
        assertThat(FourWords.CONDITIONAL_PASS.words()).isEqualTo("conditional pass");
        assertThat(DecisionRule.FOUR_WORDS.word()).isEqualTo("four-words");
        assertThat(Use.REPORTS.word()).isEqualTo("reports");
        assertThat(CriterionId.LEAK_RATE).hasToString("leak-rate");
        assertThat(CriterionId.LEAK_RATE.title()).isEqualTo("Leak rate");
        assertThat(CriterionId.LEAK_RATE.word()).isEqualTo("leak-rate");
        assertThat(Unit.CELSIUS.decimals()).isEqualTo(1);
        assertThat(TestSet.SOURCE.provenance().words()).isEqualTo("set by the user");
        assertThat(Phase.Kind.EXHAUST.words()).isEqualTo("exhaust");
        assertThat(TestSet.strict().build().identity()).isEqualTo("test 1 (000000000000)");
    }

    @Test
    void a_temperature_outside_what_steam_sterilises_at_is_refused() {
        assertThatThrownBy(() -> CycleDefinition.of("x", CycleType.B, 99.9)).hasMessageContaining("100 to 150");
        assertThatThrownBy(() -> CycleDefinition.of("x", CycleType.B, 150.1)).hasMessageContaining("100 to 150");
        assertThat(CycleDefinition.of("x", CycleType.B, 100)
                        .sterilizingTemperature()
                        .celsius())
                .isEqualTo(100);
        assertThat(CycleDefinition.of("x", CycleType.B, 150)
                        .sterilizingTemperature()
                        .celsius())
                .isEqualTo(150);
        assertThat(TestSet.strict().build().findCycle(134.0049)).isPresent();
        assertThat(TestSet.strict().build().findCycle(134.006)).isEmpty();
    }
}
