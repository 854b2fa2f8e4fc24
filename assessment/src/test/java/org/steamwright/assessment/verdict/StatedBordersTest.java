package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phase.Kind;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedBorder.End;
import org.steamwright.assessment.cycle.StatedPhases;

/** The good run of a ruler: plateau 400 to 640 s, exhaust to 697 s, drying to 1000 s, declared with 240 s of drying. */
class StatedBordersTest {

    private static StatedBorder border(Kind kind, End end, double at) {
        return new StatedBorder(kind, end, at, "Kim Sample (invented)", "seen on the gauge");
    }

    private static RunEvaluation evaluate(StatedBorder... borders) {
        return Assessment.evaluate(
                SyntheticRun.good().build().withStatedBorders(List.of(borders)),
                TestSet.strict().build());
    }

    private static StatedPhases stated(StatedBorder... borders) {
        return evaluate(borders).phases().flatMap(Phases::stated).orElseThrow();
    }

    @Test
    void drying_is_judged_by_the_stated_border_with_both_figures_author_and_reason() {
        Finding finding = evaluate(border(Kind.DRYING, End.TO, 900)).finding(CriterionId.DRYING_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(203);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.sentence())
                .isEqualTo(
                        "Drying lasted 203.0 s by the stated border and 303.0 s as found; the cycle was declared with"
                                + " 240 s. The end of drying was stated at 15:00 by Kim Sample (invented), found at 16:40:"
                                + " seen on the gauge. By the border as found it would have been long enough.");
    }

    @Test
    void a_fail_that_becomes_a_pass_says_so() {
        RunEvaluation evaluation = Assessment.evaluate(
                SyntheticRun.good()
                        .set("P", 850, 1000, SyntheticRun.AMBIENT)
                        .build()
                        .withStatedBorders(List.of(border(Kind.DRYING, End.TO, 1000))),
                TestSet.strict().build());
        Finding finding = evaluation.finding(CriterionId.DRYING_TIME);
        assertThat(finding.outcome()).isEqualTo(Outcome.PASS);
        assertThat(finding.sentence()).contains("By the border as found it would have been too short.");
    }

    @Test
    void evacuations_outside_of_the_stated_air_removal_do_not_count() {
        Finding finding = evaluate(border(Kind.AIR_REMOVAL, End.FROM, 130)).finding(CriterionId.AIR_REMOVAL_PULSES);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(2);
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.sentence())
                .startsWith("2 of 3 declared evacuations reached 20.00 kPa or deeper by the stated border, 3 as found;")
                .endsWith("found at 0:22: seen on the gauge.");
    }

    @Test
    void found_phases_stay_and_the_stated_ones_stand_beside_them() {
        RunEvaluation with = evaluate(border(Kind.EXHAUST, End.TO, 720));
        assertThat(with.phases().orElseThrow().phases())
                .isEqualTo(evaluate().phases().orElseThrow().phases());
        assertThat(with.phases().flatMap(Phases::stated).orElseThrow().phases())
                .contains(new Phase(Kind.EXHAUST, 640, 720), new Phase(Kind.DRYING, 720, 1000))
                .hasSameSizeAs(with.phases().orElseThrow().phases());
        assertThat(evaluate().phases().orElseThrow().stated()).isEmpty();
    }

    @Test
    void a_border_of_two_phases_is_one() {
        Finding finding = evaluate(border(Kind.EXHAUST, End.TO, 720)).finding(CriterionId.DRYING_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(280);
        assertThat(finding.sentence()).contains("The end of exhaust was stated at 12:00");
    }

    @Test
    void both_sides_of_a_border_may_be_stated_apart() {
        StatedPhases stated = stated(border(Kind.EXHAUST, End.TO, 690), border(Kind.DRYING, End.FROM, 710));
        assertThat(stated.find(Kind.EXHAUST)).contains(new Phase(Kind.EXHAUST, 640, 690));
        assertThat(stated.find(Kind.DRYING)).contains(new Phase(Kind.DRYING, 710, 1000));
        assertThat(stated(border(Kind.EXHAUST, End.TO, 710), border(Kind.DRYING, End.FROM, 690))
                        .refusal())
                .contains("drying would begin at 690.000 s, before exhaust ends at 710.000 s");
    }

    @Test
    void the_plateau_stays_where_it_is() {
        assertThat(stated(border(Kind.HEATING, End.TO, 390)).find(Kind.PLATEAU))
                .contains(new Phase(Kind.PLATEAU, 400, 640));
        assertThat(stated(border(Kind.HEATING, End.TO, 401)).refusal())
                .contains("plateau would begin at 400.000 s, before heating ends at 401.000 s");
        assertThat(stated(border(Kind.EXHAUST, End.FROM, 639)).refusal()).isPresent();
        assertThatThrownBy(() -> border(Kind.PLATEAU, End.TO, 700))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("begin and end of the plateau are found in the samples and can't be stated");
    }

    @Test
    void a_conditioning_step_that_was_not_found_divides_the_heating() {
        StatedPhases stated = stated(border(Kind.CONDITIONING, End.FROM, 300), border(Kind.CONDITIONING, End.TO, 330));
        assertThat(stated.phases())
                .contains(
                        new Phase(Kind.HEATING, 265, 300),
                        new Phase(Kind.CONDITIONING, 300, 330),
                        new Phase(Kind.HEATING, 330, 400));
        assertThat(stated(border(Kind.CONDITIONING, End.FROM, 300)).refusal())
                .contains("no conditioning was found, so both its begin and its end have to be stated");
    }

    @Test
    void borders_that_can_not_stand_are_left_aside_and_the_finding_says_so() {
        RunEvaluation evaluation = evaluate(border(Kind.DRYING, End.TO, 5000));
        Finding finding = evaluation.finding(CriterionId.DRYING_TIME);
        assertThat(finding.measured().orElseThrow().value()).isEqualTo(303);
        assertThat(finding.sentence())
                .endsWith(
                        "A stated border was left aside, because the end of drying is stated at 5000.000 s, outside of"
                                + " the recording, which goes from 0.000 s to 1200.000 s.");
        assertThat(stated(border(Kind.DRYING, End.TO, 900), border(Kind.DRYING, End.TO, 910))
                        .refusal())
                .contains("the end of drying is stated twice");
    }

    @Test
    void nobody_states_a_border_without_name_and_reason() {
        assertThatThrownBy(() -> new StatedBorder(Kind.DRYING, End.TO, 900, " ", "seen"))
                .hasMessage("a stated border needs the name of who states it, and a reason");
        assertThatThrownBy(() -> new StatedBorder(Kind.DRYING, End.TO, 900, "Kim", ""))
                .hasMessage("a stated border needs the name of who states it, and a reason");
        assertThatThrownBy(() -> new StatedBorder(Kind.DRYING, End.TO, Double.NaN, "Kim", "seen"))
                .hasMessage("a border at NaN s");
    }
}
