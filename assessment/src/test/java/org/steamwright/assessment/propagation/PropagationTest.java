package org.steamwright.assessment.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.assessment.verdict.RunEvaluation;

/** Both ways of propagation, from their parts to whole runs. */
class PropagationTest {

    private static final Band BAND = new Band(134, 138);

    // intervals

    @ParameterizedTest
    @CsvSource({"-8.9", "-3", "-1.959963984540054", "-0.4", "0", "1", "2.5", "8.9"})
    void the_normal_curve_is_that_of_a_library(double z) {
        assertThat(CoverageInterval.probabilityBelow(z))
                .isCloseTo(new NormalDistribution().cumulativeProbability(z), within(1e-13));
        assertThat(CoverageInterval.probabilityBelow(-10)).isZero();
        assertThat(CoverageInterval.probabilityBelow(10)).isEqualTo(1);
    }

    @ParameterizedTest(name = "judged {0}: from {1} to {2}")
    @CsvSource({
        "10, 8.040036, 11.959964, inside: symmetrical",
        "8.1, 8.040036, 11.959964, just inside",
        "7, 7, 11.959964, below the lower end",
        "20, 8.040036, 20, above the upper end",
    })
    void an_interval_is_symmetrical_in_probability_and_reaches_as_far_as_to_the_judged_value(
            double value, double low, double high, String why) {
        CoverageInterval interval = CoverageInterval.normal(value, 10, 1);
        assertThat(interval.low()).as(why).isCloseTo(low, within(1e-5));
        assertThat(interval.high()).as(why).isCloseTo(high, within(1e-5));
    }

    @Test
    void without_doubt_the_interval_reaches_from_estimate_to_judged_value() {
        assertThat(CoverageInterval.normal(9, 10, 0)).isEqualTo(new CoverageInterval(9, 10));
        assertThat(CoverageInterval.normal(11, 10, 0)).isEqualTo(new CoverageInterval(10, 11));
        assertThat(new CoverageInterval(-2, -1).notNegative()).isEqualTo(new CoverageInterval(0, 0));
        assertThat(new CoverageInterval(1, 2).mirrored()).isEqualTo(new CoverageInterval(-2, -1));
        assertThat(new CoverageInterval(1, 2).lowered(0.5)).isEqualTo(new CoverageInterval(0.5, 2));
    }

    @Test
    void the_largest_of_two_equal_estimates_lies_above_each() {
        CoverageInterval interval = CoverageInterval.largest(10.5, new double[] {10, 10}, new double[] {1, 1});
        NormalDistribution law = new NormalDistribution(10, 1);
        assertThat(Math.pow(law.cumulativeProbability(interval.low()), 2)).isCloseTo(0.025, within(1e-9));
        assertThat(Math.pow(law.cumulativeProbability(interval.high()), 2)).isCloseTo(0.975, within(1e-9));
        CoverageInterval below = CoverageInterval.largest(0, new double[] {10, 10}, new double[] {1, 1});
        assertThat(below.low()).isZero();
        assertThat(below.high()).isEqualTo(interval.high());
        CoverageInterval above = CoverageInterval.largest(30, new double[] {10, 10}, new double[] {1, 1});
        assertThat(above.high()).isEqualTo(30);
        assertThat(above.low()).isEqualTo(interval.low());
    }

    @Test
    void draws_are_cut_at_equal_tails_unless_the_judged_value_lies_outside() {
        double[] sorted = new double[1000];
        for (int i = 0; i < sorted.length; i++) {
            sorted[i] = i;
        }
        assertThat(CoverageInterval.ofDraws(500, sorted)).isEqualTo(new CoverageInterval(25, 975));
        assertThat(CoverageInterval.ofDraws(-5, sorted)).isEqualTo(new CoverageInterval(-5, 975));
        assertThat(CoverageInterval.ofDraws(2000, sorted)).isEqualTo(new CoverageInterval(25, 2000));
    }

    /** Means of the largest of n standard normal variables: 1/√π for two, 1.53875 for ten (Harter 1961, from memory). */
    @Test
    void noise_lifts_the_largest_of_equal_peaks_by_the_mean_of_an_order_statistic() {
        assertThat(new Extremum(0, 1, 5, 0.2, List.of(5.0)).lift()).isCloseTo(0, within(1e-6));
        assertThat(new Extremum(0, 1, 5, 0.2, List.of(5.0, 5.0)).lift())
                .isCloseTo(0.2 / Math.sqrt(Math.PI), within(1e-5));
        assertThat(new Extremum(0, 1, 5, 1, Collections.nCopies(10, 5.0)).lift())
                .isCloseTo(1.53875, within(1e-4));
        assertThat(new Extremum(0, 1, 5, 0.2, List.of(5.0, 4.1)).lift())
                .as("a peak far below changes next to nothing")
                .isBetween(0.0, 0.001);
        assertThat(new Extremum(0, 1, 5, 0, List.of(5.0, 5.0)).lift()).isZero();
    }

    // boundaries

    private static CorrectedChannel channel(double... celsius) {
        return CorrectedSamples.of("T", ChannelRole.LOAD, TimeAxis.regular(celsius.length, 1), celsius);
    }

    @Test
    void a_straight_flank_is_crossed_where_the_line_crosses() {
        CorrectedChannel rising = channel(132.75, 133.25, 133.75, 134.25, 134.75, 135.25);
        Edge edge = Edge.arrival(3, rising, BAND, 5);
        assertThat(edge.point()).isEqualTo(3);
        assertThat(edge.seconds()).isCloseTo(2.5, within(1e-9));
        assertThat(edge.secondsPerKelvin())
                .as("0.5 K/s: a kelvin lower is two seconds later")
                .isEqualTo(2);
        assertThat(edge.lineSeconds()).isZero();
        assertThat(edge.noiseSeconds()).isCloseTo(2 * Math.sqrt(0.5), within(1e-9));
        assertThat(edge.random(0.1)).isCloseTo(0.2 * Math.sqrt(0.5), within(1e-9));
        CorrectedChannel falling = channel(135.25, 134.75, 134.25, 133.75, 133.25);
        Edge end = Edge.departure(0, falling, BAND, 0);
        assertThat(end.seconds()).isCloseTo(2.5, within(1e-9));
        assertThat(end.secondsPerKelvin())
                .as("a kelvin lower leaves two seconds sooner")
                .isEqualTo(-2);
    }

    @Test
    void a_sudden_fall_may_have_begun_anywhere_in_the_step() {
        // flat at 135, then 3 K/s: from the chord at 1/1.5 to the fall drawn backwards
        Edge edge = Edge.departure(0, channel(135, 135, 135, 133.5, 130.5, 127.5), BAND, 1);
        double chord = 2 + 1 / 1.5;
        double backwards = 3 - 0.5 / 3;
        assertThat(edge.seconds()).isCloseTo((chord + backwards) / 2, within(1e-9));
        assertThat(edge.lineSeconds()).isCloseTo((backwards - chord) / 2 / Math.sqrt(3), within(1e-9));
    }

    @Test
    void a_signal_that_bends_the_other_way_crosses_before_its_chord() {
        // leaving ever more slowly: 136, 134.5, 133.5, 133.0 lies below its chord
        Edge edge = Edge.departure(0, channel(136, 134.5, 133.5, 133.0), BAND, 0);
        double chord = 1.5;
        double drawnOn = 1 + 0.5 / 1.5;
        double backwards = 2 - 0.5 / 0.5;
        assertThat(backwards).isLessThan(drawnOn);
        assertThat(edge.seconds()).isCloseTo((chord + drawnOn) / 2, within(1e-9));
    }

    @Test
    void the_upper_limit_is_a_boundary_too() {
        Edge out = Edge.departure(0, channel(137, 137.5, 138.5, 139.5), BAND, 0);
        assertThat(out.seconds()).isCloseTo(1.5, within(0.2));
        assertThat(out.secondsPerKelvin()).as("a kelvin lower leaves later").isPositive();
    }

    @Test
    void without_a_sample_on_the_other_side_the_sample_itself_is_the_boundary() {
        assertThat(Edge.arrival(0, channel(135, 135), BAND, 1)).isEqualTo(new Edge(0, 0, 0, 0, 0));
        assertThat(Edge.departure(0, channel(135, 135), BAND, 0)).isEqualTo(new Edge(0, 1, 0, 0, 0));
        assertThat(Edge.arrival(0, channel(Double.NaN, 135, 135), BAND, 2).seconds())
                .isEqualTo(1);
        assertThat(Edge.arrival(0, channel(130, 130), BAND, 1).secondsPerKelvin())
                .isZero();
    }

    // smoothing

    @Test
    void a_parabola_is_kept_and_noise_is_taken_out() {
        double[] values = new double[21];
        for (int i = 0; i < values.length; i++) {
            values[i] = 134 + 0.01 * i - 0.002 * i * i;
        }
        Smoothed smoothed = Smoothed.of(channel(values), new Stretch(0, 20), 0.1);
        for (int i = 0; i < values.length; i++) {
            assertThat(smoothed.at(i)).isCloseTo(values[i], within(1e-9));
        }
        assertThat(smoothed.leverageAt(10))
                .as("59/231, the middle of a quadratic smoother over nine points (from memory)")
                .isCloseTo(59.0 / 231, within(1e-12));
        assertThat(smoothed.leverageAt(0)).isBetween(0.5, 1.0);
        assertThat(smoothed.size()).isEqualTo(21);
        assertThat(smoothed.valueAt(3.5, 0)).isCloseTo((values[3] + values[4]) / 2, within(1e-9));
        assertThat(smoothed.valueAt(-0.1, 0)).isNaN();
        assertThat(smoothed.valueAt(20.1, 30)).isNaN();
        assertThat(smoothed.nearest(3.4)).isEqualTo(3);
        assertThat(smoothed.nearest(3.6)).isEqualTo(4);
        assertThat(smoothed.nearest(99)).isEqualTo(20);
        assertThat(smoothed.nearest(5)).isEqualTo(5);
    }

    @Test
    void what_moves_too_fast_for_a_parabola_is_kept_as_read() {
        double[] values = {134, 134, 134, 134, 134, 131, 134, 134, 134, 134, 134};
        Smoothed smoothed = Smoothed.of(channel(values), new Stretch(0, 10), 0.02);
        assertThat(smoothed.at(5)).as("a dip is no noise").isEqualTo(131);
        assertThat(smoothed.leverageAt(5)).isEqualTo(1);
        double[] short4 = {134, 134.1, 133.9, 134};
        assertThat(Smoothed.of(channel(short4), new Stretch(0, 3), 1).at(1)).isEqualTo(134.1);
        double[] missing = {134, Double.NaN, 134, 134, 134, 134, 134};
        assertThat(Smoothed.of(channel(missing), new Stretch(0, 6), 1).size()).isEqualTo(6);
    }

    // draws

    @Test
    void random_numbers_are_those_of_the_published_generator() {
        Draws draws = new Draws(1234567);
        for (long bits : new long[] {6457827717110365317L, 3203168211198807973L}) {
            assertThat(draws.uniform())
                    .as("row 345: first numbers for seed 1234567, from memory")
                    .isEqualTo((bits >>> 11) * 0x1.0p-53);
        }
    }

    @ParameterizedTest(name = "{0}, {1} degrees of freedom: standard deviation {2}")
    @CsvSource({
        "NORMAL, Infinity, 1",
        "RECTANGULAR, Infinity, 1",
        "TRIANGULAR, Infinity, 1",
        "ARCSINE, Infinity, 1",
        "STANDARD, 12, 1.0954",
        "STANDARD, 5, 1.2910",
    })
    void draws_have_the_spread_of_their_distribution(Distribution distribution, double freedom, double expected) {
        double divisor = distribution == Distribution.NORMAL ? 2 : 1;
        Contribution line = new Contribution("x", 1, distribution, divisor, 1, freedom, "test");
        Draws draws = new Draws(7);
        double sum = 0;
        double squares = 0;
        int count = 200_000;
        for (int i = 0; i < count; i++) {
            double draw = ErrorModel.standardized(line, draws);
            sum += draw;
            squares += draw * draw;
        }
        assertThat(sum / count).isCloseTo(0, within(0.01));
        assertThat(Math.sqrt(squares / count))
                .as("Student's variable spreads by √(ν/(ν − 2))")
                .isCloseTo(expected, within(0.02));
    }

    @Test
    void errors_are_shared_as_far_as_the_budgets_say() {
        Budget a = Budget.of(
                "a",
                "K",
                List.of(
                        Contribution.standard("own", 0.3, Double.POSITIVE_INFINITY, ""),
                        Contribution.standard("common", 0.4, Double.POSITIVE_INFINITY, "")
                                .shared(new Correlation("g", 0.5)),
                        Contribution.standard("noise", 9, Double.POSITIVE_INFINITY, "")
                                .perReading()));
        Budget b = Budget.of(
                "b",
                "K",
                List.of(Contribution.standard("common", 0.2, Double.POSITIVE_INFINITY, "")
                        .withSensitivity(-1)
                        .shared(Correlation.full("g"))));
        ErrorModel model = new ErrorModel(List.of(a, b));
        Draws draws = new Draws(3);
        double aa = 0;
        double bb = 0;
        double ab = 0;
        int count = 100_000;
        for (int i = 0; i < count; i++) {
            double[] errors = model.draw(draws);
            aa += errors[0] * errors[0] / count;
            bb += errors[1] * errors[1] / count;
            ab += errors[0] * errors[1] / count;
        }
        assertThat(aa).isCloseTo(0.25, within(0.005));
        assertThat(bb).isCloseTo(0.04, within(0.001));
        assertThat(ab).isCloseTo(-Math.sqrt(0.5) * 0.4 * 0.2, within(0.002));
        assertThat(a.covariance(b)).as("by the formula").isCloseTo(-Math.sqrt(0.5) * 0.4 * 0.2, within(1e-12));
        assertThat(a.systematic()).isCloseTo(0.5, within(1e-12));
    }

    // whole runs

    /** A pack that comes slowly and leaves slowly, 0.1 K/s either way, with a doubt of U = 0.2 K. */
    private static SyntheticRun slow(double expanded) {
        SyntheticRun run = SyntheticRun.good();
        for (int second = 400; second < 415; second++) {
            run.set("L", second, second, 133.45 + 0.1 * (second - 400));
        }
        for (int second = 620; second <= 640; second++) {
            run.set("L", second, second, 134.55 - 0.1 * (second - 620));
        }
        for (String name : List.of("R", "L", "C")) {
            run.instrument(name, SyntheticRun.instrument(name, Quantity.TEMPERATURE, expanded, 0, 100, 150));
        }
        return run;
    }

    private static RunEvaluation evaluate(SyntheticRun run) {
        return run.judgedBy(TestSet.strict().build());
    }

    private static PropagatedFigure figure(List<PropagatedFigure> figures, Measurand measurand) {
        return figures.stream()
                .filter(figure -> figure.measurand() == measurand)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void holding_time_moves_with_the_slope_at_both_ends() {
        PropagatedFigure holding =
                figure(LinearPropagation.INSTANCE.propagate(evaluate(slow(0.2))), Measurand.HOLDING_TIME);
        // in at 405.5 (first sample 406), out at 625.5 (last sample 625); u = 0.1 K moves each end by 1 s, together by
        // 2 s
        assertThat(holding.value()).isEqualTo(219);
        double middle = (holding.low() + holding.high()) / 2;
        assertThat(middle).isCloseTo(220, within(0.05));
        assertThat(holding.high() - middle).isCloseTo(1.96 * 2, within(0.05));
        assertThat(holding.channel()).isEmpty();
        assertThat(holding.tolerance()).isZero();
        assertThat(holding.covers(220)).isTrue();
        assertThat(holding.covers(holding.high() + 1)).isFalse();
    }

    @Test
    void both_ways_agree_where_the_trace_is_straight() {
        RunEvaluation evaluation = evaluate(slow(0.2));
        List<PropagatedFigure> linear = LinearPropagation.INSTANCE.propagate(evaluation);
        List<PropagatedFigure> drawn = new MonteCarloPropagation(5, 10_000).propagate(evaluation);
        assertThat(drawn)
                .extracting(PropagatedFigure::measurand)
                .containsExactlyElementsOf(
                        linear.stream().map(PropagatedFigure::measurand).toList());
        for (int i = 0; i < linear.size(); i++) {
            double width = linear.get(i).high() - linear.get(i).low();
            assertThat(drawn.get(i).value()).isEqualTo(linear.get(i).value());
            assertThat(drawn.get(i).channel()).isEqualTo(linear.get(i).channel());
            if (linear.get(i).measurand() == Measurand.EQUILIBRATION_TIME) {
                // the reference point jumps in one step: where in it nobody knows, which is no normal law
                continue;
            }
            assertThat(drawn.get(i).low())
                    .as("%s", linear.get(i))
                    .isCloseTo(linear.get(i).low(), within(0.08 * width + 1e-9));
            assertThat(drawn.get(i).high())
                    .as("%s", linear.get(i))
                    .isCloseTo(linear.get(i).high(), within(0.08 * width + 1e-9));
        }
    }

    @Test
    void the_same_seed_draws_the_same_and_another_seed_within_the_tolerance() {
        RunEvaluation evaluation = evaluate(slow(0.2));
        MonteCarloPropagation one = new MonteCarloPropagation(1, 2000);
        assertThat(one.propagate(evaluation)).isEqualTo(new MonteCarloPropagation(1, 2000).propagate(evaluation));
        PropagatedFigure first = figure(one.propagate(evaluation), Measurand.LETHALITY);
        PropagatedFigure second = figure(new MonteCarloPropagation(2, 2000).propagate(evaluation), Measurand.LETHALITY);
        assertThat(first).isNotEqualTo(second);
        assertThat(first.tolerance()).isPositive();
        assertThat(first.low()).isCloseTo(second.low(), within(4 * first.tolerance()));
        assertThat(one.title()).isEqualTo("Monte Carlo (JCGM 101), 2000 trials, seed 1");
        assertThatThrownBy(() -> new MonteCarloPropagation(1, 99)).hasMessage("at least 100 trials, found 99");
        assertThat(new MonteCarloPropagation(1, 100).trials()).isEqualTo(100);
    }

    @Test
    void a_plateau_near_the_limit_is_no_matter_of_slopes() {
        SyntheticRun run = slow(0.4);
        run.set("L", 415, 619, 134.1);
        RunEvaluation evaluation = evaluate(run);
        PropagatedFigure drawn =
                figure(new MonteCarloPropagation(1, 2000).propagate(evaluation), Measurand.HOLDING_TIME);
        assertThat(drawn.low())
                .as("in every third draw the pack is above the limit for some seconds at its begin only")
                .isLessThan(20);
        assertThat(drawn.high()).isGreaterThan(200);
        assertThat(evaluation.plateauLowered().orElseThrow().holdingSeconds())
                .as("and the plateau of lowered points, which the guarded rule takes, says so too")
                .isLessThan(20);
    }

    @Test
    void a_shared_error_leaves_the_spread_alone() {
        double alone = width(Measurand.TEMPERATURE_SPREAD, slow(0.2));
        SyntheticRun shared = slow(0.2);
        for (String name : List.of("R", "L", "C")) {
            ReferenceInstrument exact = SyntheticRun.instrument(name, Quantity.TEMPERATURE, 0.2, 0, 100, 150);
            shared.instrument(
                    name,
                    new ReferenceInstrument(
                            name,
                            "invented",
                            exact.quantity(),
                            exact.rangeLow(),
                            exact.rangeHigh(),
                            exact.certificate(),
                            List.of(Contribution.expanded("reference", 1, 2, "")
                                    .shared(Correlation.full("reference")))));
        }
        assertThat(width(Measurand.TEMPERATURE_SPREAD, shared)).isCloseTo(alone, within(1e-9));
        assertThat(width(Measurand.LOWEST_TEMPERATURE, shared))
                .isGreaterThan(4 * width(Measurand.LOWEST_TEMPERATURE, slow(0.2)));
    }

    private static double width(Measurand measurand, SyntheticRun run) {
        PropagatedFigure figure = figure(LinearPropagation.INSTANCE.propagate(evaluate(run)), measurand);
        return figure.high() - figure.low();
    }

    @Test
    void a_run_without_a_plateau_has_only_its_lethality() {
        SyntheticRun run = SyntheticRun.good();
        for (String name : List.of("R", "L", "C")) {
            run.set(name, 0, 1200, 130);
        }
        RunEvaluation evaluation = evaluate(run);
        assertThat(evaluation.plateau()).isEqualTo(Optional.empty());
        for (Propagation propagation : List.of(LinearPropagation.INSTANCE, new MonteCarloPropagation(1, 100))) {
            assertThat(propagation.propagate(evaluation))
                    .extracting(PropagatedFigure::measurand)
                    .containsOnly(Measurand.LETHALITY);
        }
    }

    @Test
    void lethality_moves_by_a_share_of_the_doubt() {
        PropagatedFigure lethality =
                figure(LinearPropagation.INSTANCE.propagate(evaluate(slow(0.2))), Measurand.LETHALITY);
        assertThat((lethality.high() - lethality.low()) / 2 / lethality.value())
                .as("1.96 · 0.1 K · ln 10 / 10 K")
                .isCloseTo(1.96 * 0.1 * Math.log(10) / 10, within(1e-4));
    }

    @Test
    void a_figure_lies_in_its_own_interval() {
        assertThatThrownBy(() -> new PropagatedFigure(Measurand.LEAK_RATE, "", 2, 0, 1, 0))
                .hasMessage("LEAK_RATE: 2.0 does not lie in [0.0, 1.0]");
        assertThat(Measurand.HOLDING_TIME.words()).isEqualTo("holding time");
        assertThat(Measurand.LEAK_RATE.unit()).isEqualTo("kPa/min");
        assertThat(Measurand.LEAK_RATE.decimals()).isEqualTo(4);
        assertThat(LinearPropagation.INSTANCE.title()).isEqualTo("law of propagation (JCGM 100)");
    }
}
