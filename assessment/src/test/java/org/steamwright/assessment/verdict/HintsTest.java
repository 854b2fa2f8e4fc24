package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;

class HintsTest {

    static final String AIR = "The challenge pack arrived late and stayed colder than saturated steam.";
    static final String SLOW = "Some points reached temperature late, without staying cold.";
    static final String EVACUATION = "Evacuations are missing or not deep enough.";
    static final String ONE_SIDE = "All points lie on the same side of the theoretical temperature.";
    static final String SUPERHEAT = "A point was hotter than saturated steam of that pressure.";
    static final String COLD = "A point was colder than saturated steam of that pressure.";
    static final String APART = "One place stayed apart from the others.";
    static final String UNSTEADY = "The plateau was not steady inside its band.";
    static final String SHORT = "The holding time came out short.";
    static final String CLOCKS = "A load point reached temperature long before the reference point.";
    static final String DOOR = "The pressure does not fit the open door.";

    static List<String> patterns(SyntheticRun run, TestSet set) {
        return run.judgedBy(set.build()).hints().stream().map(Hint::pattern).toList();
    }

    static List<String> patterns(SyntheticRun run) {
        return patterns(run, TestSet.strict());
    }

    /** A pack that comes so many seconds late and then stands at a temperature. */
    static SyntheticRun latePack(int seconds, double celsius) {
        return SyntheticRun.good().set("C", 400, 399 + seconds, 133).set("C", 400 + seconds, 640, celsius);
    }

    static Stream<Arguments> patterns_and_their_hints() {
        SyntheticRun hot = SyntheticRun.good();
        hot.set("L", 500, 510, 137.4);
        SyntheticRun cold = SyntheticRun.good();
        for (String name : List.of("R", "L", "C")) {
            cold.map(name, x -> x == SyntheticRun.PLATEAU ? 136.5 : x);
        }
        cold.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(136.4)).set("L", 400, 640, 134.3);
        SyntheticRun offset = SyntheticRun.good();
        offset.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(132.0));
        SyntheticRun below = SyntheticRun.good();
        below.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(137.0));
        return Stream.of(
                Arguments.of(latePack(30, 134.5), List.of(SLOW), "late but as warm as the others"),
                Arguments.of(latePack(61, 133.4), List.of(AIR), "never arrives and is cold"),
                Arguments.of(SyntheticRun.good().set("L", 400, 430, 133), List.of(SLOW), "a load that comes late"),
                Arguments.of(
                        SyntheticRun.good().set("P", 20, 112, SyntheticRun.AMBIENT),
                        List.of(EVACUATION),
                        "one evacuation missing"),
                Arguments.of(
                        latePack(30, 134.5).set("P", 20, 112, SyntheticRun.AMBIENT),
                        List.of(AIR, EVACUATION),
                        "late, and an evacuation is missing"),
                Arguments.of(hot, List.of(SUPERHEAT, APART, UNSTEADY), "one hot point"),
                Arguments.of(cold, List.of(COLD, APART), "one cold point"),
                Arguments.of(offset, List.of(ONE_SIDE), "all 2.5 K above theory"),
                Arguments.of(below, List.of(ONE_SIDE), "all 2.5 K below theory"),
                Arguments.of(
                        SyntheticRun.good().set("L", 500, 500, 136.8),
                        List.of(SUPERHEAT, APART, UNSTEADY),
                        "one spike of 2.3 K"),
                Arguments.of(SyntheticRun.good().set("L", 560, 640, 130), List.of(SHORT), "left early"),
                Arguments.of(
                        SyntheticRun.good().set("P", 0, 0, 60).set("P", 1001, 1200, 60),
                        List.of(DOOR),
                        "door never open"));
    }

    @ParameterizedTest(name = "{2}: {1}")
    @MethodSource
    void patterns_and_their_hints(SyntheticRun run, List<String> expected, String why) {
        assertThat(patterns(run)).as(why).containsExactlyElementsOf(expected);
    }

    @Test
    void a_pack_that_is_only_reported_late_still_gives_its_hint() {
        TestSet set = TestSet.strict()
                .use(CriterionId.PENETRATION_TIME, Use.REPORTS)
                .use(CriterionId.EQUILIBRATION_TIME, Use.REPORTS);
        SyntheticRun run = latePack(120, 134.5);
        assertThat(patterns(run, set)).as("the short hold is the pack's doing").containsExactly(SLOW);
        SyntheticRun cold = latePack(120, 134.5);
        cold.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(135.6));
        assertThat(patterns(cold, set)).containsExactly(AIR);
    }

    @ParameterizedTest(name = "pack {0} s late: {1}")
    @CsvSource({"15, false", "16, true"})
    void a_pack_is_late_beyond_fifteen_seconds(int seconds, boolean isLate) {
        TestSet set = TestSet.strict()
                .use(CriterionId.PENETRATION_TIME, Use.REPORTS)
                .use(CriterionId.EQUILIBRATION_TIME, Use.REPORTS);
        SyntheticRun run = latePack(seconds, 134.5).set("P", 20, 112, SyntheticRun.AMBIENT);
        assertThat(patterns(run, set)).isEqualTo(isLate ? List.of(AIR, EVACUATION) : List.of(EVACUATION));
    }

    @ParameterizedTest(name = "load {0} s ahead: {1}")
    @CsvSource({"5, false", "6, true"})
    void a_load_that_leads_by_more_than_five_seconds_points_at_the_clocks(int seconds, boolean isHinted) {
        SyntheticRun run =
                SyntheticRun.good().set("L", 400 - seconds, 399, 134.5).set("P", 20, 112, SyntheticRun.AMBIENT);
        assertThat(patterns(run)).isEqualTo(isHinted ? List.of(EVACUATION, CLOCKS) : List.of(EVACUATION));
        SyntheticRun pack =
                SyntheticRun.good().set("C", 400 - seconds, 399, 134.5).set("P", 20, 112, SyntheticRun.AMBIENT);
        assertThat(patterns(pack)).isEqualTo(isHinted ? List.of(EVACUATION, CLOCKS) : List.of(EVACUATION));
    }

    @Test
    void a_free_chamber_that_leads_is_no_clock_trouble() {
        SyntheticRun run = SyntheticRun.good()
                .role("L", ChannelRole.FREE_CHAMBER)
                .set("L", 380, 399, 134.5)
                .set("P", 20, 112, SyntheticRun.AMBIENT);
        assertThat(patterns(run)).containsExactly(EVACUATION);
    }

    @Test
    void without_a_reference_point_or_a_plateau_nobody_leads() {
        SyntheticRun undeclared =
                SyntheticRun.good().role("R", ChannelRole.FREE_CHAMBER).set("L", 380, 399, 134.5);
        assertThat(patterns(undeclared)).isEmpty();
        assertThat(patterns(SyntheticRun.good().map("R", x -> Math.min(x, 133))))
                .containsExactly(SHORT);
    }

    @ParameterizedTest(name = "pack {0} K below theory: {1}")
    @CsvSource({"0.99, false", "1.01, true"})
    void a_late_pack_is_cold_from_one_kelvin(double kelvin, boolean isCold) {
        SyntheticRun run = latePack(30, 134.5);
        run.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(134.5 + kelvin));
        assertThat(patterns(run)).containsExactly(isCold ? AIR : SLOW);
    }

    @Test
    void a_single_point_can_not_be_on_one_side() {
        SyntheticRun hot = SyntheticRun.good().without("L").without("C");
        hot.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(132.0));
        assertThat(patterns(hot)).containsExactly(SUPERHEAT);
        SyntheticRun cold = SyntheticRun.good().without("L").without("C");
        cold.set("P", 400, 640, IapwsR797.INSTANCE.kilopascalAt(137.0));
        assertThat(patterns(cold)).containsExactly(COLD);
    }

    @Test
    void an_undecided_question_gets_its_hint_too() {
        TestSet set = TestSet.strict()
                .rule(CriterionId.HIGHEST_TEMPERATURE, DecisionRule.GUARDED)
                .limit(CriterionId.TEMPERATURE_SPREAD, TestSet.atMost(9, Unit.KELVIN))
                .limit(CriterionId.SATURATION_DIFFERENCE, TestSet.atMost(9, Unit.KELVIN))
                .limit(CriterionId.TEMPERATURE_FLUCTUATION, TestSet.atMost(9, Unit.KELVIN));
        assertThat(patterns(SyntheticRun.good().set("L", 500, 500, 137.9), set)).containsExactly(UNSTEADY);
    }

    @Test
    void every_hint_says_what_to_look_at_and_how_to_tell() {
        List<Hint> hints = latePack(61, 133.4)
                .set("P", 20, 112, SyntheticRun.AMBIENT)
                .judgedBy(TestSet.strict().build())
                .hints();
        assertThat(hints).allSatisfy(hint -> {
            assertThat(hint.likelyCauses()).isNotBlank();
            assertThat(hint.nextCheck()).isNotBlank();
        });
    }
}
