package org.steamwright.assessment.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.trace.Quantity;

class PhaseFinderTest {

    static Phases phases(SyntheticRun run) {
        return run.judgedBy(TestSet.strict().build()).phases().orElseThrow();
    }

    @Test
    void a_whole_cycle_is_divided_at_real_samples() {
        Phases phases = phases(SyntheticRun.good());
        assertThat(phases.phases())
                .extracting(Phase::kind)
                .containsExactly(
                        Phase.Kind.AIR_REMOVAL,
                        Phase.Kind.HEATING,
                        Phase.Kind.PLATEAU,
                        Phase.Kind.EXHAUST,
                        Phase.Kind.DRYING);
        assertThat(phases.phases().get(0).fromSeconds())
                .as("3 kPa below ambient")
                .isEqualTo(22);
        assertThat(phases.phases().get(0).toSeconds()).as("third depth").isEqualTo(20 + 2 * 93 + 59);
        assertThat(phases.phases().get(1).toSeconds()).isEqualTo(400);
        assertThat(phases.phases().get(2).toSeconds()).isEqualTo(640);
        assertThat(phases.phases().get(3).toSeconds())
                .isEqualTo(phases.phases().get(4).fromSeconds());
    }

    @Test
    void pulses_have_depth_and_height_with_their_moments() {
        Phases phases = phases(SyntheticRun.good());
        assertThat(phases.pulses()).hasSize(3);
        Pulse first = phases.pulses().get(0);
        assertThat(first.depthSeconds()).isEqualTo(79);
        assertThat(first.height()).isCloseTo(SyntheticRun.AMBIENT, within(3.0));
        assertThat(first.heightSeconds()).isBetween(110.0, 114.0);
        assertThat(phases.pulses().get(2).heightSeconds())
                .as("the last one rises into the plateau")
                .isEqualTo(400);
    }

    @Test
    void ripple_below_the_threshold_is_no_pulse() {
        SyntheticRun run = SyntheticRun.good();
        for (int i = 30; i < 70; i += 2) {
            run.set("P", i, i, SyntheticRun.pressure(i) + 14.0);
        }
        assertThat(phases(run).pulses()).hasSize(3);
    }

    @Test
    void positive_pulses_between_high_troughs_do_not_count_as_evacuations() {
        SyntheticRun run = SyntheticRun.good();
        run.set("P", 20, 299, 180);
        run.set("P", 100, 120, 130).set("P", 200, 220, 130);
        var evaluation = run.judgedBy(TestSet.strict().build());
        assertThat(evaluation.phases().orElseThrow().pulses()).hasSizeGreaterThanOrEqualTo(2);
        assertThat(evaluation
                        .finding(CriterionId.AIR_REMOVAL_PULSES)
                        .measured()
                        .orElseThrow()
                        .value())
                .isZero();
    }

    @Test
    void without_pressure_the_temperature_tells_the_phases() {
        SyntheticRun run = SyntheticRun.good().without("P");
        run.set("R", 100, 140, 90).set("R", 200, 240, 90);
        Phases phases = phases(run);
        assertThat(phases.foundFrom()).isEqualTo(Quantity.TEMPERATURE);
        assertThat(phases.pulses()).extracting(Pulse::depth).containsExactly(60.0, 60.0);
        assertThat(phases.pulses()).extracting(Pulse::quantity).containsOnly(Quantity.TEMPERATURE);
        assertThat(phases.find(Phase.Kind.EXHAUST).orElseThrow().toSeconds())
                .as("105 °C")
                .isEqualTo(695);
        assertThat(phases.find(Phase.Kind.DRYING).orElseThrow().toSeconds()).isEqualTo(1200);
    }

    @Test
    void a_cycle_without_evacuation_has_no_air_removal() {
        SyntheticRun run = SyntheticRun.good().set("P", 0, 299, SyntheticRun.AMBIENT);
        Phases phases = phases(run);
        assertThat(phases.find(Phase.Kind.AIR_REMOVAL)).isEmpty();
        assertThat(phases.pulses()).isEmpty();
        assertThat(phases.find(Phase.Kind.HEATING).orElseThrow().fromSeconds()).isZero();
    }

    @Test
    void without_a_plateau_there_is_heating_up_to_the_hottest_moment() {
        Phases phases = phases(SyntheticRun.good().map("R", x -> Math.min(x, 130)));
        assertThat(phases.find(Phase.Kind.PLATEAU)).isEmpty();
        assertThat(phases.find(Phase.Kind.DRYING)).isEmpty();
        assertThat(phases.find(Phase.Kind.HEATING)).isPresent();
    }

    @Test
    void a_short_stop_on_the_way_up_is_no_conditioning_and_a_long_one_is() {
        SyntheticRun shortStop = SyntheticRun.good().set("R", 330, 348, 121);
        assertThat(phases(shortStop).find(Phase.Kind.CONDITIONING)).isEmpty();
        SyntheticRun longStop = SyntheticRun.good().set("R", 330, 360, 121);
        Phase conditioning = phases(longStop).find(Phase.Kind.CONDITIONING).orElseThrow();
        assertThat(conditioning.fromSeconds()).isEqualTo(330);
        assertThat(conditioning.toSeconds()).isBetween(360.0, 366.0);
        SyntheticRun near = SyntheticRun.good().set("R", 360, 399, 131.5);
        assertThat(phases(near).find(Phase.Kind.CONDITIONING))
                .as("too near to the band")
                .isEmpty();
        SyntheticRun cold = SyntheticRun.good();
        assertThat(phases(cold).find(Phase.Kind.CONDITIONING))
                .as("60 °C is no steam")
                .isEmpty();
    }

    @Test
    void a_slow_ramp_is_no_row_of_conditioning_steps() {
        SyntheticRun run = SyntheticRun.good().without("P");
        for (int i = 0; i < 400; i++) {
            run.set("R", i, i, 120 + 13.9 * i / 400.0);
        }
        assertThat(phases(run).phases())
                .extracting(Phase::kind)
                .containsExactly(Phase.Kind.HEATING, Phase.Kind.PLATEAU, Phase.Kind.EXHAUST, Phase.Kind.DRYING);
    }

    @Test
    void a_ramp_that_levels_off_towards_the_plateau_is_no_conditioning() {
        SyntheticRun run = SyntheticRun.good().without("P");
        for (int i = 0; i < 400; i++) {
            run.set("R", i, i, 133.9 - 70 * Math.exp(-i / 60.0));
        }
        assertThat(phases(run).find(Phase.Kind.CONDITIONING)).isEmpty();
    }

    @Test
    void a_recording_that_ends_in_the_exhaust_has_no_drying() {
        Phases phases = phases(SyntheticRun.good().cutAfter(660));
        assertThat(phases.find(Phase.Kind.EXHAUST).orElseThrow().toSeconds()).isEqualTo(660);
        assertThat(phases.find(Phase.Kind.DRYING)).isEmpty();
    }

    @Test
    void drying_without_vacuum_lasts_to_the_end() {
        SyntheticRun run = SyntheticRun.good().set("P", 701, 1200, SyntheticRun.AMBIENT);
        assertThat(phases(run).find(Phase.Kind.DRYING).orElseThrow().toSeconds())
                .isEqualTo(1200);
        assertThat(Optional.of(Phase.Kind.DRYING.words())).contains("drying");
    }
}
