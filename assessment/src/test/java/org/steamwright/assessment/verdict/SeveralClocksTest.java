package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/** Reference point R and pressure P on one logger, load L and challenge pack C on another. */
class SeveralClocksTest {

    static final Instant START = Instant.parse("2026-03-02T00:00:00Z");

    static TestRun with(TestRun run, Optional<ClockOffset> first, Optional<ClockOffset> second) {
        Clocks clocks = new Clocks(
                "a.csv",
                List.of(
                        new RecordingClock("a.csv", "a.csv", List.of("R", "P"), Optional.of(START), first, ""),
                        new RecordingClock("b.csv", "b.csv", List.of("L", "C"), Optional.of(START), second, "")));
        return new TestRun(
                run.id(),
                run.kind(),
                run.cycle(),
                run.trace(),
                run.instruments(),
                run.ambient(),
                run.leakPeriods(),
                run.lethality(),
                clocks);
    }

    static TestRun within(TestRun run, double halfWidth) {
        return with(
                run,
                Optional.of(ClockOffset.reference()),
                Optional.of(ClockOffset.stated(0, halfWidth, "K. Sample", "read together")));
    }

    static TestRun neverCompared(TestRun run) {
        return with(run, Optional.empty(), Optional.empty());
    }

    static SyntheticRun good() {
        return SyntheticRun.good();
    }

    /** The pack stands below the band so many seconds longer than the reference point. */
    static SyntheticRun packLate(int seconds) {
        return good().set("C", SyntheticRun.REACHED, SyntheticRun.REACHED + seconds - 1, 130);
    }

    static Finding finding(TestRun run, CriterionId id) {
        return Assessment.evaluate(run, TestSet.strict().build()).finding(id);
    }

    @Test
    void a_good_run_on_compared_clocks_passes() {
        RunEvaluation evaluation = Assessment.evaluate(
                within(good().build(), 1.5), TestSet.strict().build());
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.PASS);
        assertThat(evaluation
                        .finding(CriterionId.EQUILIBRATION_TIME)
                        .measured()
                        .orElseThrow()
                        .high())
                .as("one interval and the doubt of the clocks")
                .isEqualTo(2.5);
        assertThat(evaluation
                        .finding(CriterionId.MINIMUM_HOLDING_TIME)
                        .measured()
                        .orElseThrow()
                        .basis())
                .contains("1.5 s for the clocks");
    }

    @ParameterizedTest
    @EnumSource(
            value = CriterionId.class,
            names = {
                "MINIMUM_HOLDING_TIME",
                "EQUILIBRATION_TIME",
                "PENETRATION_TIME",
                "TEMPERATURE_SPREAD",
                "HIGHEST_TEMPERATURE",
                "LOWEST_TEMPERATURE",
                "TEMPERATURE_FLUCTUATION",
                "SATURATION_DIFFERENCE"
            })
    void clocks_that_nobody_compared_let_nothing_pass_that_needs_them(CriterionId id) {
        for (DecisionRule rule : DecisionRule.values()) {
            CriteriaSet set = TestSet.strict().rule(id, rule).build();
            Finding finding =
                    Assessment.evaluate(neverCompared(good().build()), set).finding(id);
            assertThat(finding.outcome()).as(rule.name()).isEqualTo(Outcome.INVALID);
            assertThat(finding.sentence()).as(rule.name()).containsAnyOf("never compared", "not compared well enough");
        }
    }

    @Test
    void what_one_logger_answers_alone_is_answered_on_any_clock() {
        RunEvaluation evaluation = Assessment.evaluate(
                neverCompared(good().build()), TestSet.strict().build());
        assertThat(evaluation.finding(CriterionId.AIR_REMOVAL_PULSES).outcome()).isEqualTo(Outcome.PASS);
        assertThat(evaluation.finding(CriterionId.PRESSURE_CHANGE_RATE).outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(evaluation.finding(CriterionId.DRYING_TIME).outcome()).isEqualTo(Outcome.PASS);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.simpleVerdict().outcome()).isEqualTo(RunOutcome.INVALID);
    }

    @ParameterizedTest(name = "pack late by {0} s, clocks within {1} s: {2}")
    @CsvSource({
        "10, 1.5, PASS, 10 and 1.5 s stay within 20 s",
        "18, 1.5, PASS, just so",
        "19, 1.5, INVALID, 20.5 s would be too late",
        "21, 1.5, INVALID, 19.5 s would be in time",
        "22, 1.5, FAIL, too late whichever way the clocks are off",
        "60, 30, FAIL, a long delay needs no good clock",
        "5, 30, INVALID, a bad clock can not show a short one",
    })
    void the_clocks_decide_nothing_that_they_can_not_show(int late, double halfWidth, Outcome expected, String why) {
        Finding finding = finding(within(packLate(late).build(), halfWidth), CriterionId.PENETRATION_TIME);
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
        assertThat(finding.measured().orElseThrow().value()).as(why).isEqualTo(late);
    }

    @Test
    void a_short_hold_that_one_logger_shows_alone_fails_on_any_clock() {
        SyntheticRun dip = good().set("C", 500, 505, 132);
        assertThat(finding(neverCompared(dip.build()), CriterionId.MINIMUM_HOLDING_TIME)
                        .outcome())
                .isEqualTo(Outcome.FAIL);
        SyntheticRun ofReference = good().set("R", 500, 505, 133.5);
        assertThat(finding(neverCompared(ofReference.build()), CriterionId.MINIMUM_HOLDING_TIME)
                        .outcome())
                .isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_pack_that_never_got_hot_fails_on_any_clock() {
        SyntheticRun cold = good().map("C", celsius -> Math.min(celsius, 130));
        assertThat(finding(neverCompared(cold.build()), CriterionId.PENETRATION_TIME)
                        .outcome())
                .isEqualTo(Outcome.FAIL);
        assertThat(finding(neverCompared(cold.build()), CriterionId.EQUILIBRATION_TIME)
                        .outcome())
                .isEqualTo(Outcome.FAIL);
        assertThat(finding(neverCompared(cold.build()), CriterionId.MINIMUM_HOLDING_TIME)
                        .outcome())
                .isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_holding_time_is_worth_less_by_the_doubt_of_the_clocks() {
        // 241 samples held: 240 s, of which 180 are required
        assertThat(finding(within(good().build(), 59), CriterionId.MINIMUM_HOLDING_TIME)
                        .outcome())
                .isEqualTo(Outcome.PASS);
        assertThat(finding(within(good().build(), 61), CriterionId.MINIMUM_HOLDING_TIME)
                        .outcome())
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void a_spread_in_a_moving_moment_carries_the_clocks() {
        // both points swing up and down together; a clock that is off by four seconds sets them against each other
        SyntheticRun swinging = good();
        for (int i = SyntheticRun.REACHED + 10; i < SyntheticRun.LAST - 10; i++) {
            double value = SyntheticRun.PLATEAU + (i / 4 % 2 == 0 ? 0.4 : -0.4);
            swinging.set("R", i, i, value).set("C", i, i, value);
        }
        Finding tight = finding(within(swinging.build(), 0), CriterionId.TEMPERATURE_SPREAD);
        Finding loose = finding(within(swinging.build(), 4), CriterionId.TEMPERATURE_SPREAD);
        assertThat(loose.measured().orElseThrow().value())
                .isEqualTo(tight.measured().orElseThrow().value());
        assertThat(loose.measured().orElseThrow().high())
                .isCloseTo(tight.measured().orElseThrow().high() + 0.4, Offset.offset(1e-9));
    }

    @Test
    void the_ends_of_the_stretch_are_not_compared_with_what_lies_outside_it() {
        Finding tight = finding(within(good().build(), 0), CriterionId.SATURATION_DIFFERENCE);
        Finding loose = finding(within(good().build(), 5), CriterionId.SATURATION_DIFFERENCE);
        assertThat(loose.measured().orElseThrow().high())
                .isEqualTo(tight.measured().orElseThrow().high());
    }

    @Test
    void moving_a_clock_shows_what_would_have_been() {
        TestRun run = within(packLate(10).build(), 0);
        TestRun later = run.withClockMoved("b.csv", 15);
        assertThat(finding(later, CriterionId.PENETRATION_TIME)
                        .measured()
                        .orElseThrow()
                        .value())
                .isEqualTo(25);
        assertThat(finding(run.withClockMoved("b.csv", -10), CriterionId.PENETRATION_TIME)
                        .measured()
                        .orElseThrow()
                        .value())
                .isZero();
        assertThatThrownBy(() -> run.withClockMoved("c.csv", 1)).hasMessageContaining("c.csv");
    }
}
