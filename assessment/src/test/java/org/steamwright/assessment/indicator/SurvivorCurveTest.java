package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.statistics.distribution.TDistribution;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.indicator.SurvivorCurve.Count;
import org.steamwright.assessment.indicator.SurvivorCurve.Line;
import org.steamwright.assessment.indicator.SurvivorCurve.Shape;

class SurvivorCurveTest {

    private static SurvivorCurve curve(int repeats, double scatter, long seed, DoubleUnaryOperator decades) {
        Random random = new Random(seed);
        List<Count> counts = new ArrayList<>();
        for (double t = 0; t <= 10; t += 1) {
            for (int k = 0; k < repeats; k++) {
                counts.add(new Count(t, decades.applyAsDouble(t) + scatter * random.nextGaussian()));
            }
        }
        return new SurvivorCurve(counts);
    }

    @Test
    void finds_the_line_it_was_made_from() {
        Line line = curve(1, 0, 1, t -> 6 - t / 1.8).line();
        assertThat(line.minutes().value()).isCloseTo(1.8, within(1e-12));
        assertThat(line.startDecades()).isCloseTo(6, within(1e-12));
        assertThat(line.residual()).isCloseTo(0, within(1e-12));
        assertThat(line.degreesOfFreedom()).isEqualTo(9);
        assertThat(line.shape()).isEqualTo(Shape.STRAIGHT);
        assertThat(curve(1, 0, 1, t -> 6 - t / 1.8).lineFrom(6).minutes().value())
                .isCloseTo(1.8, within(1e-12));
    }

    @Test
    void slope_and_interval_agree_with_a_library() {
        SurvivorCurve curve = curve(2, 0.2, 2, t -> 6 - t / 1.8);
        SimpleRegression free = new SimpleRegression(true);
        SimpleRegression through = new SimpleRegression(false);
        curve.counts().forEach(c -> {
            free.addData(c.minutes(), c.decades());
            through.addData(c.minutes(), c.decades() - 6);
        });
        double t = TDistribution.of(20).inverseCumulativeProbability(0.975);
        Line line = curve.line();
        assertThat(line.minutes().value()).isCloseTo(-1 / free.getSlope(), within(1e-10));
        assertThat(line.minutes().low()).isCloseTo(1 / (-free.getSlope() + t * free.getSlopeStdErr()), within(1e-9));
        assertThat(line.minutes().high()).isCloseTo(1 / (-free.getSlope() - t * free.getSlopeStdErr()), within(1e-9));
        assertThat(line.residual()).isCloseTo(Math.sqrt(free.getMeanSquareError()), within(1e-10));
        assertThat(curve.lineFrom(6).minutes().value()).isCloseTo(-1 / through.getSlope(), within(1e-10));
        double t21 = TDistribution.of(21).inverseCumulativeProbability(0.975);
        assertThat(curve.lineFrom(6).minutes().high())
                .isCloseTo(1 / (-through.getSlope() - t21 * through.getSlopeStdErr()), within(1e-9));
    }

    @Test
    void bend_agrees_with_a_library() {
        SurvivorCurve curve = curve(2, 0.2, 3, t -> 6 - t / 2.5 - 0.02 * t * t);
        OLSMultipleLinearRegression library = new OLSMultipleLinearRegression();
        double[] y = curve.counts().stream().mapToDouble(Count::decades).toArray();
        double[][] x = curve.counts().stream()
                .map(c -> new double[] {c.minutes(), c.minutes() * c.minutes()})
                .toArray(double[][]::new);
        library.newSampleData(y, x);
        double ratio =
                library.estimateRegressionParameters()[2] / library.estimateRegressionParametersStandardErrors()[2];
        assertThat(curve.line().bendProbability())
                .isCloseTo(2 * TDistribution.of(19).survivalProbability(Math.abs(ratio)), within(1e-9));
        assertThat(curve.line().shape()).isEqualTo(Shape.SHOULDER);
    }

    @Test
    void names_a_shoulder_a_tail_and_a_misfit() {
        assertThat(curve(1, 0.1, 4, t -> t < 3 ? 6 : 6 - (t - 3)).line().shape())
                .isEqualTo(Shape.SHOULDER);
        assertThat(curve(1, 0.1, 5, t -> t < 5 ? 6 - t : 1 - 0.1 * (t - 5))
                        .line()
                        .shape())
                .isEqualTo(Shape.TAIL);
        Line waves = curve(3, 0.05, 6, t -> 6 - t / 2 + 0.4 * Math.sin(2 * t)).line();
        assertThat(waves.bendProbability()).isGreaterThan(0.05);
        assertThat(waves.misfitProbability()).isLessThan(0.001);
        assertThat(waves.shape()).isEqualTo(Shape.MISFIT);
        assertThat(curve(1, 0, 1, t -> 6 - 0.05 * t * t).line().bendProbability())
                .isZero();
    }

    @Test
    void misfit_by_hand() {
        // means 5.1, 4.0, 2.0, pure error 4 · 0.1²; line of the means: slope −1.55, start 5.25
        SurvivorCurve curve = new SurvivorCurve(List.of(
                new Count(0, 5.0),
                new Count(0, 5.2),
                new Count(1, 4.0),
                new Count(1, 4.0),
                new Count(2, 1.9),
                new Count(2, 2.1)));
        Line line = curve.line();
        assertThat(line.minutes().value()).isCloseTo(1 / 1.55, within(1e-12));
        // lack of fit 2 · (0.15² + 0.3² + 0.15²) = 0.27 on 1; pure 0.04 on 3; F = 20.25; P = 0.0205 (t² with 3 degrees)
        assertThat(line.misfitProbability()).isCloseTo(2 * TDistribution.of(3).survivalProbability(4.5), within(1e-12));
    }

    @Test
    void flags_straight_curves_about_as_seldom_as_it_says() {
        int flagged = 0;
        for (int i = 0; i < 1000; i++) {
            Shape shape = curve(1, 0.3, 1000 + i, t -> 6 - t / 2).line().shape();
            flagged += shape == Shape.STRAIGHT ? 0 : 1;
        }
        assertThat(flagged / 1000.0).isBetween(0.03, 0.07);
    }

    @Test
    void interval_holds_the_truth_about_as_often_as_it_says() {
        int held = 0;
        for (int i = 0; i < 1000; i++) {
            held += curve(1, 0.3, 5000 + i, t -> 6 - t / 2).line().minutes().contains(2) ? 1 : 0;
        }
        assertThat(held / 1000.0).isBetween(0.93, 0.97);
    }

    @Test
    void two_times_cannot_tell_a_bend_and_a_faint_fall_has_no_upper_end() {
        SurvivorCurve two = new SurvivorCurve(List.of(new Count(0, 6), new Count(0, 6.1), new Count(1, 6.02)));
        Line line = two.line();
        assertThat(line.shape()).isEqualTo(Shape.NOT_TOLD);
        assertThat(line.bendProbability()).isNaN();
        assertThat(line.minutes().high()).isInfinite();
    }

    @Test
    void refuses_what_has_no_line() {
        assertThatThrownBy(() -> new SurvivorCurve(List.of(new Count(0, 6), new Count(1, 5))))
                .hasMessage("a survivor curve needs three counts at two times at least");
        assertThatThrownBy(() -> new SurvivorCurve(List.of(new Count(1, 6), new Count(1, 5), new Count(1, 4))))
                .hasMessage("a survivor curve needs three counts at two times at least");
        assertThatThrownBy(() -> curve(1, 0, 1, t -> 6 + t).line())
                .hasMessageStartingWith("the counts do not fall (1.0");
        assertThatThrownBy(() -> new Count(1, Double.NEGATIVE_INFINITY))
                .hasMessage("a count of -Infinity decades after 1.0 min; a count of none has no logarithm");
    }
}
