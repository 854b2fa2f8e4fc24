package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/** The second evaluation on runs that can be followed with a finger on the list of numbers. */
class SlowEvaluationTest {

    private static final TimeAxis AXIS = TimeAxis.regular(400, 1);

    @Test
    void a_dip_ends_the_stretch_and_stretches_are_not_added() {
        double[] load = step(109, 305, 135);
        load[200] = 133.9;
        SlowEvaluation slow = evaluate(new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0, AXIS, step(100, 305, 135))
                .temperature("load", ChannelRole.LOAD, 0, AXIS, load));
        assertThat(slow.plateau().get(0).holding)
                .as("201 to 304 is longer than 109 to 199")
                .containsExactly(201.0, 304.0);
        assertThat(figure(slow, CriterionId.MINIMUM_HOLDING_TIME)).isEqualTo(103);
        assertThat(figure(slow, CriterionId.LOWEST_TEMPERATURE)).isEqualTo(133.9);
        assertThat(outcome(slow, CriterionId.LOWEST_TEMPERATURE)).isEqualTo(Outcome.FAIL);
        assertThat(figure(slow, CriterionId.EQUILIBRATION_TIME)).isEqualTo(9);
    }

    @Test
    void a_missing_value_and_a_gap_end_the_stretch() {
        double[] load = step(100, 305, 135);
        load[150] = Double.NaN;
        double[] seconds = AXIS.toSeconds();
        for (int i = 260; i < seconds.length; i++) {
            seconds[i] += 5;
        }
        SlowEvaluation slow = evaluate(new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0, AXIS, step(100, 305, 135))
                .temperature("load", ChannelRole.LOAD, 0, TimeAxis.ofSeconds(seconds), load));
        assertThat(slow.plateau().get(0).holding).containsExactly(151.0, 259.0);
    }

    @Test
    void doubt_shortens_the_stretch_of_the_lowered_points() {
        double[] load = step(109, 305, 135);
        load[109] = 134.2;
        load[304] = 134.2;
        SlowEvaluation slow = evaluate(new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0.3, AXIS, step(100, 305, 135))
                .temperature("load", ChannelRole.LOAD, 0.3, AXIS, load));
        SlowFinding holding = slow.findings().get(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(holding.figure()).isEqualTo(195);
        assertThat(holding.low()).isEqualTo(193);
        assertThat(holding.high()).isEqualTo(195);
    }

    @Test
    void a_certificate_moves_the_reading() {
        List<CalibrationPoint> points =
                List.of(new CalibrationPoint(100.5, 100, 0.1, 2), new CalibrationPoint(140.1, 140, 0.1, 2));
        SlowEvaluation slow = evaluate(new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, points, List.of(), AXIS, step(100, 305, 135)));
        assertThat(figure(slow, CriterionId.HIGHEST_TEMPERATURE))
                .as("correction 0.5 at 100 and 0.1 at 140 is 0.15 at 135")
                .isCloseTo(135.15, within(1e-12));
        assertThat(slow.findings().get(CriterionId.HIGHEST_TEMPERATURE).high())
                .as("0.05 of the laboratory, 0.2/√3 of the line, k = 2")
                .isCloseTo(135.15 + 2 * Math.sqrt(0.05 * 0.05 + 0.2 * 0.2 / 3), within(1e-12));
    }

    @Test
    void pressure_read_as_gauge_gives_the_boiling_temperature() {
        double[] kilopascal = new double[400];
        for (int i = 0; i < 400; i++) {
            kilopascal[i] = i >= 100 && i < 305 ? 202.874 + 9 : 0;
        }
        SlowEvaluation slow = evaluate(new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0, AXIS, step(100, 305, 135))
                .pressure("p", PressureReference.GAUGE, 0, AXIS, kilopascal));
        assertThat(figure(slow, CriterionId.SATURATION_DIFFERENCE))
                .as("313.2 kPa boil at 135.00 °C, check value 14; the wiggle is a tenth below")
                .isCloseTo(0.1, within(0.001));
    }

    static double[] step(int from, int until, double celsius) {
        double[] values = new double[400];
        for (int i = 0; i < values.length; i++) {
            // a wiggle of a tenth, or the sensor would count as stuck
            values[i] = i >= from && i < until ? celsius - (i % 7 == 0 ? 0.1 : 0) : 120;
        }
        return values;
    }

    private static double figure(SlowEvaluation slow, CriterionId id) {
        return slow.findings().get(id).figure();
    }

    private static Outcome outcome(SlowEvaluation slow, CriterionId id) {
        return slow.findings().get(id).outcome();
    }

    private static SlowEvaluation evaluate(InventedRun run) {
        CriteriaSet set = InventedSets.allDeciding(
                DecisionRule.SIMPLE, IapwsR797.INSTANCE, true, 134, 180, Optional.of(4.0), InventedSets.ANSWERED);
        return new SlowEvaluation(run.build(), set);
    }
}
