package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.plausibility.Oddity.Kind;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

class OdditiesTest {

    static RunEvaluation judged(SyntheticRun run) {
        return run.judgedBy(TestSet.strict().build());
    }

    @Test
    void a_good_run_shows_none() {
        assertThat(judged(SyntheticRun.good()).oddities()).isEmpty();
    }

    @Test
    void a_counter_that_ran_over_spoils_its_channel() {
        // 65,536 steps of 0.001 K: 65.536 K lower from one sample on, back in the chamber's range soon
        RunEvaluation evaluation =
                judged(SyntheticRun.good().resolution(0.001).set("L", 900, 900, SyntheticRun.celsius(899) + 65.536));
        assertThat(evaluation.oddities())
                .filteredOn(oddity -> oddity.kind() == Kind.INTEGER_WRAP)
                .singleElement()
                .satisfies(oddity -> {
                    assertThat(oddity.channels()).containsExactly("L");
                    assertThat(oddity.fromSeconds()).isEqualTo(899);
                    assertThat(oddity.sentence()).contains("65536 steps");
                });
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.AIR_REMOVAL_PULSES).outcome())
                .as("the pressure is another channel")
                .isEqualTo(Outcome.PASS);
    }

    @Test
    void a_spoilt_channel_passes_nothing_even_if_nobody_asks_for_living_sensors() {
        RunEvaluation evaluation = SyntheticRun.good()
                .map("P", kilopascal -> kilopascal * 10)
                .judgedBy(TestSet.strict()
                        .use(CriterionId.SENSORS_ALIVE, Use.OFF)
                        .use(CriterionId.PRESSURE_KIND, Use.OFF)
                        .build());
        assertThat(evaluation.oddities()).extracting(Oddity::kind).contains(Kind.TEN_TIMES_OFF);
        for (CriterionId id :
                List.of(CriterionId.SATURATION_DIFFERENCE, CriterionId.PRESSURE_CHANGE_RATE, CriterionId.DRYING_TIME)) {
            assertThat(evaluation.finding(id).outcome()).as(id.word()).isNotEqualTo(Outcome.PASS);
        }
        assertThat(evaluation.verdict().outcome()).isNotEqualTo(RunOutcome.PASS);
    }

    @Test
    void a_fail_that_other_channels_show_is_not_argued_away() {
        RunEvaluation evaluation = judged(
                SyntheticRun.good().map("P", kilopascal -> kilopascal * 10).set("C", 500, 505, 132));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .isEqualTo(Outcome.FAIL);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
    }

    @Test
    void a_spike_is_named_and_changes_no_finding() {
        RunEvaluation evaluation = judged(SyntheticRun.good().set("L", 500, 500, 129));
        assertThat(evaluation.oddities())
                .filteredOn(oddity -> oddity.kind() == Kind.SPIKE)
                .singleElement()
                .satisfies(oddity -> assertThat(oddity.sentence())
                        .isEqualTo("Channel L shows 129.00 °C for a single sample between 134.50 °C and 134.50 °C."));
        assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                .as("a dip that is seen ends the holding time")
                .isEqualTo(Outcome.FAIL);
    }

    @Test
    void a_point_hotter_than_steam_alone_among_others_may_touch_the_wall() {
        RunEvaluation evaluation = judged(SyntheticRun.good().set("L", SyntheticRun.REACHED, SyntheticRun.LAST, 136.5));
        assertThat(evaluation.oddities()).extracting(Oddity::kind).contains(Kind.HOT_WALL);
    }

    @Test
    void an_oddity_names_its_channel() {
        assertThatThrownBy(() -> new Oddity(Kind.SPIKE, List.of(), 0, 0, "x"))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Oddity(Kind.SPIKE, List.of("T1"), 0, 0, " "))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
