package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;

/**
 * By drawing: the errors of all points are drawn together many times, and the run is found again without them.
 *
 * <p>In each trial the plateau is looked for by the very finder that finds it in the readings. What the finder cannot see,
 * noise at a boundary and what is left of it in an extreme, is drawn on top.
 *
 * @param seed the same seed gives the same intervals everywhere
 * @param trials number of draws, at least 100
 * @source JCGM 101:2008, clauses 5 to 7; with a fixed number of trials (7.2) and the numerical tolerance told (7.9)
 */
public record MonteCarloPropagation(long seed, int trials) implements Propagation {

    /** Usual number of trials. */
    public static final int USUAL_TRIALS = 10_000;

    private static final int LEAST_TRIALS = 100;
    private static final int BATCHES = 10;

    public MonteCarloPropagation {
        if (trials < LEAST_TRIALS) {
            throw new IllegalArgumentException("at least %s trials, found %s".formatted(LEAST_TRIALS, trials));
        }
    }

    @Override
    public String title() {
        return "Monte Carlo (JCGM 101), %s trials, seed %s".formatted(trials, seed);
    }

    @Override
    public List<PropagatedFigure> propagate(RunEvaluation evaluation) {
        return evaluation.run().kind() == TestKind.LEAK ? leak(evaluation) : new Thermometric(evaluation).figures();
    }

    private List<PropagatedFigure> leak(RunEvaluation evaluation) {
        Optional<Budget> budget = LinearPropagation.changeBudget(evaluation);
        if (evaluation.leakTest().isEmpty() || budget.isEmpty()) {
            return List.of();
        }
        double value = evaluation.leakTest().get().rate().kilopascalPerMinute();
        Draws draws = new Draws(seed);
        double[] truths = new double[trials];
        for (int trial = 0; trial < trials; trial++) {
            double error = 0;
            for (Contribution line : budget.get().contributions()) {
                error += line.standardUncertainty() * ErrorModel.standardized(line, draws);
            }
            truths[trial] = value - error;
        }
        return List.of(figure(Measurand.LEAK_RATE, "", value, truths, 0));
    }

    private static PropagatedFigure figure(
            Measurand measurand, String channel, double value, double[] truths, double excess) {
        double[] lows = new double[BATCHES];
        double[] highs = new double[BATCHES];
        int size = truths.length / BATCHES;
        for (int batch = 0; batch < BATCHES; batch++) {
            double[] part = Arrays.copyOfRange(truths, batch * size, (batch + 1) * size);
            Arrays.sort(part);
            CoverageInterval interval = CoverageInterval.ofDraws(value, part);
            lows[batch] = interval.low();
            highs[batch] = interval.high();
        }
        double[] sorted = truths.clone();
        Arrays.sort(sorted);
        CoverageInterval interval = CoverageInterval.ofDraws(value, sorted).lowered(excess);
        if (measurand != Measurand.LEAK_RATE) {
            interval = interval.notNegative();
        }
        double tolerance = Math.max(error(lows), error(highs));
        return new PropagatedFigure(measurand, channel, value, interval.low(), interval.high(), tolerance);
    }

    /** Twice the standard deviation of the mean of the batches; 0 where an end is infinite. */
    private static double error(double[] ends) {
        double mean = Arrays.stream(ends).average().orElseThrow();
        double sum = 0;
        for (double end : ends) {
            sum += (end - mean) * (end - mean);
        }
        double error = 2 * Math.sqrt(sum / (ends.length - 1) / ends.length);
        return Double.isFinite(error) ? error : 0;
    }

    /** One run in work. */
    private final class Thermometric {
        private final RunEvaluation evaluation;
        private final Readings readings;
        private final JudgedValues values;
        private final Draws draws = new Draws(seed);
        private final Map<Measurand, double[]> truths = new LinkedHashMap<>();
        private final Map<Measurand, Double> excesses = new LinkedHashMap<>();
        private final Map<Measurand, Double> lifts = new LinkedHashMap<>();
        private final List<List<Extremum>> extremes = new ArrayList<>();

        Thermometric(RunEvaluation evaluation) {
            this.evaluation = evaluation;
            readings = new Readings(evaluation);
            values = new JudgedValues(evaluation, readings);
        }

        List<PropagatedFigure> figures() {
            for (Measurand measurand : Measurand.values()) {
                if (values.of(measurand).isPresent()) {
                    truths.put(measurand, new double[trials]);
                }
            }
            Optional<Plateau> plateau = readings.plateau();
            extremes.add(plateau.flatMap(Plateau::together)
                    .map(stretch -> Extremum.lowest(readings, stretch))
                    .orElse(List.of()));
            Optional<List<Smoothed>> smoothed = readings.holding().map(stretch -> Extremum.smoothed(readings, stretch));
            extremes.add(smoothed.map(all -> Extremum.spread(readings, all)).orElse(List.of()));
            extremes.add(
                    smoothed.map(all -> Extremum.againstTheory(readings, all)).orElse(List.of()));
            lift(Measurand.TEMPERATURE_SPREAD, extremes.get(1));
            lift(Measurand.SATURATION_DIFFERENCE, extremes.get(2));
            ErrorModel model = new ErrorModel(readings.points().stream()
                    .map(point -> point.budget().orElse(Budget.of("", "K", List.of())))
                    .toList());
            double[][] lethality = new double
                    [Math.min(readings.measured(), evaluation.lethality().size())][trials];
            for (int trial = 0; trial < trials; trial++) {
                double[] errors = model.draw(draws);
                if (plateau.isPresent()) {
                    times(trial, errors);
                    set(Measurand.LOWEST_TEMPERATURE, trial, -largest(extremes.get(0), errors));
                    difference(Measurand.TEMPERATURE_SPREAD, trial, extremes.get(1), errors);
                    difference(Measurand.SATURATION_DIFFERENCE, trial, extremes.get(2), errors);
                }
                for (int i = 0; i < lethality.length; i++) {
                    Lethality read = evaluation.lethality().get(i);
                    lethality[i][trial] = read.minutes() * StrictMath.pow(10, -errors[i] / read.z());
                }
            }
            List<PropagatedFigure> figures = new ArrayList<>();
            truths.forEach((measurand, draw) ->
                    figures.add(figure(measurand, "", values.of(measurand).orElseThrow(), draw, excess(measurand))));
            for (int i = 0; i < lethality.length; i++) {
                figures.add(figure(
                        Measurand.LETHALITY,
                        evaluation.lethalityChannels().get(i),
                        evaluation.lethality().get(i).minutes(),
                        lethality[i],
                        0));
            }
            return List.copyOf(figures);
        }

        /**
         * The difference that reads largest, without its errors; and by how much the largest of all then lies above it on the
         * average: by about so much the reading may lie above the truth.
         */
        private void difference(Measurand measurand, int trial, List<Extremum> all, double[] errors) {
            if (!all.isEmpty()) {
                Extremum top = LargestOf.top(all);
                double truth = top.truth(errors) + top.noise() * draws.normal();
                set(measurand, trial, truth);
                excesses.merge(measurand, (largest(all, errors) - top.value()) / trials, Double::sum);
            }
        }

        private void lift(Measurand measurand, List<Extremum> all) {
            if (!all.isEmpty()) {
                lifts.put(measurand, LargestOf.top(all).lift());
            }
        }

        private double excess(Measurand measurand) {
            return excesses.getOrDefault(measurand, 0.0) + lifts.getOrDefault(measurand, 0.0);
        }

        private void set(Measurand measurand, int trial, double truth) {
            double[] draw = truths.get(measurand);
            if (draw != null) {
                draw[trial] = truth;
            }
        }

        private double largest(List<Extremum> extremums, double[] errors) {
            double best = Double.NEGATIVE_INFINITY;
            double noise = 0;
            for (Extremum one : extremums) {
                double truth = one.truth(errors);
                if (truth > best) {
                    best = truth;
                    noise = one.noise();
                }
            }
            return best + noise * draws.normal();
        }

        private void times(int trial, double[] errors) {
            List<CorrectedChannel> truth = new ArrayList<>();
            for (int i = 0; i < readings.size(); i++) {
                truth.add(readings.point(i).shifted(-errors[i]));
            }
            Optional<Plateau> plateau = readings.plateau(truth);
            if (plateau.isEmpty()) {
                set(Measurand.HOLDING_TIME, trial, 0);
                set(Measurand.EQUILIBRATION_TIME, trial, Double.POSITIVE_INFINITY);
                set(Measurand.PENETRATION_TIME, trial, Double.POSITIVE_INFINITY);
                return;
            }
            Boundaries boundaries = Boundaries.of(plateau.get(), truth, readings);
            double holding = boundaries.from().isPresent() && boundaries.to().isPresent()
                    ? moment(boundaries.to().get()) - moment(boundaries.from().get())
                    : 0;
            set(Measurand.HOLDING_TIME, trial, Math.max(0, holding));
            double reached = moment(boundaries.reached());
            set(Measurand.EQUILIBRATION_TIME, trial, delay(boundaries.arrivals(), reached));
            set(Measurand.PENETRATION_TIME, trial, delay(boundaries.packs(), reached));
        }

        private double moment(Edge edge) {
            return edge.seconds() + edge.random(readings.noise(edge.point())) * draws.normal();
        }

        /** From the reference point to the last of some arrivals; infinite if there is none. */
        private double delay(List<Edge> arrivals, double reached) {
            if (arrivals.isEmpty()) {
                return Double.POSITIVE_INFINITY;
            }
            Edge last = arrivals.get(0);
            for (Edge arrival : arrivals) {
                last = arrival.seconds() > last.seconds() ? arrival : last;
            }
            return last.point() == readings.reference() ? 0 : Math.max(0, moment(last) - reached);
        }
    }
}
