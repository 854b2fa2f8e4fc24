package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;

/**
 * By the law of propagation: the doubt of each reading times how much the figure moves with it.
 *
 * <p>Of a boundary in time that is one over the slope at the crossing. Right as long as the trace is about straight over the
 * doubt; where it is flat near a limit, drawing tells more.
 *
 * @source JCGM 100:2008, 5.1 and 5.2
 */
public final class LinearPropagation implements Propagation {

    /** The only one; it has nothing to choose. */
    public static final LinearPropagation INSTANCE = new LinearPropagation();

    private static final double LN_10 = StrictMath.log(10);
    private static final double QUANTILE = 1.959963984540054;

    private LinearPropagation() {}

    @Override
    public String title() {
        return "law of propagation (JCGM 100)";
    }

    @Override
    public List<PropagatedFigure> propagate(RunEvaluation evaluation) {
        return evaluation.run().kind() == TestKind.LEAK ? leak(evaluation) : new Thermometric(evaluation).figures();
    }

    private static List<PropagatedFigure> leak(RunEvaluation evaluation) {
        Optional<Budget> budget = changeBudget(evaluation);
        if (evaluation.leakTest().isEmpty() || budget.isEmpty()) {
            return List.of();
        }
        double value = evaluation.leakTest().get().rate().kilopascalPerMinute();
        CoverageInterval interval =
                CoverageInterval.normal(value, value, budget.get().combined());
        return List.of(new PropagatedFigure(Measurand.LEAK_RATE, "", value, interval.low(), interval.high(), 0));
    }

    /** The budget of the rise; empty if no rate was found. */
    static Optional<Budget> changeBudget(RunEvaluation evaluation) {
        return evaluation.findings().stream()
                .filter(finding -> finding.id() == CriterionId.LEAK_RATE)
                .findFirst()
                .flatMap(Finding::measured)
                .flatMap(Figure::budget);
    }

    /** One run in work. */
    private static final class Thermometric {
        private final RunEvaluation evaluation;
        private final Readings readings;
        private final JudgedValues values;
        private final List<PropagatedFigure> figures = new ArrayList<>();

        Thermometric(RunEvaluation evaluation) {
            this.evaluation = evaluation;
            readings = new Readings(evaluation);
            values = new JudgedValues(evaluation, readings);
        }

        List<PropagatedFigure> figures() {
            if (readings.plateau().isPresent()) {
                Plateau plateau = readings.plateau().get();
                Boundaries boundaries = Boundaries.of(plateau, readings.points(), readings);
                holding(boundaries);
                delay(Measurand.EQUILIBRATION_TIME, boundaries.arrivals(), boundaries.reached());
                delay(Measurand.PENETRATION_TIME, boundaries.packs(), boundaries.reached());
                plateau.together().ifPresent(this::lowest);
                readings.holding()
                        .map(stretch -> Extremum.smoothed(readings, stretch))
                        .ifPresent(smoothed -> {
                            extreme(Measurand.TEMPERATURE_SPREAD, Extremum.spread(readings, smoothed));
                            extreme(Measurand.SATURATION_DIFFERENCE, Extremum.againstTheory(readings, smoothed));
                        });
            }
            for (int i = 0;
                    i < Math.min(readings.measured(), evaluation.lethality().size());
                    i++) {
                lethality(i);
            }
            return List.copyOf(figures);
        }

        private void add(Measurand measurand, double value, CoverageInterval interval) {
            figures.add(new PropagatedFigure(measurand, "", value, interval.low(), interval.high(), 0));
        }

        private void holding(Boundaries boundaries) {
            Optional<Double> value = values.of(Measurand.HOLDING_TIME);
            if (value.isEmpty()
                    || boundaries.from().isEmpty()
                    || boundaries.to().isEmpty()) {
                return;
            }
            Edge from = boundaries.from().get();
            Edge to = boundaries.to().get();
            add(
                    Measurand.HOLDING_TIME,
                    value.get(),
                    CoverageInterval.normal(value.get(), to.seconds() - from.seconds(), standard(from, to))
                            .notNegative());
        }

        /** Standard uncertainty of the time between two boundaries. */
        private double standard(Edge from, Edge to) {
            double a = from.secondsPerKelvin();
            double b = to.secondsPerKelvin();
            double variance = a * a * readings.covariance(from.point(), from.point())
                    + b * b * readings.covariance(to.point(), to.point())
                    - 2 * a * b * readings.covariance(from.point(), to.point());
            double random =
                    StrictMath.hypot(from.random(readings.noise(from.point())), to.random(readings.noise(to.point())));
            return Math.sqrt(Math.max(0, variance) + random * random);
        }

        /** The time from the reference point to the last of some arrivals; the worst end of any of them. */
        private void delay(Measurand measurand, List<Edge> arrivals, Edge reached) {
            Optional<Double> value = values.of(measurand);
            if (value.isEmpty() || arrivals.isEmpty()) {
                return;
            }
            Edge last = arrivals.get(0);
            double high = 0;
            for (Edge arrival : arrivals) {
                last = arrival.seconds() > last.seconds() ? arrival : last;
                high = Math.max(high, arrival.seconds() - reached.seconds() + QUANTILE * between(reached, arrival));
            }
            CoverageInterval own = CoverageInterval.normal(
                            value.get(), Math.max(0, last.seconds() - reached.seconds()), between(reached, last))
                    .notNegative();
            add(
                    measurand,
                    value.get(),
                    new CoverageInterval(
                            own.low(), last.point() == reached.point() ? Math.max(own.high(), high) : own.high()));
        }

        private double between(Edge reached, Edge arrival) {
            return reached.point() == arrival.point() ? 0 : standard(reached, arrival);
        }

        /** The lowest of all points stands near the limit, where others stand too: each may be the lowest in truth. */
        private void lowest(Stretch together) {
            List<Extremum> all = Extremum.lowest(readings, together);
            double[] estimates = new double[all.size()];
            double[] standards = new double[all.size()];
            for (int i = 0; i < estimates.length; i++) {
                estimates[i] = all.get(i).value();
                standards[i] = all.get(i).standard(readings);
            }
            values.of(Measurand.LOWEST_TEMPERATURE)
                    .ifPresent(value -> add(
                            Measurand.LOWEST_TEMPERATURE,
                            value,
                            CoverageInterval.largest(-value, estimates, standards)
                                    .mirrored()));
        }

        /**
         * The largest of several nearly equal differences may read too large by about as much as their doubt would make it
         * larger still: the lower end is lowered by that.
         */
        private void extreme(Measurand measurand, List<Extremum> all) {
            Optional<Double> value = values.of(measurand);
            if (value.isPresent() && !all.isEmpty()) {
                Extremum top = LargestOf.top(all);
                add(
                        measurand,
                        value.get(),
                        CoverageInterval.normal(value.get(), top.value(), top.standard(readings))
                                .lowered(LargestOf.mean(all, readings) - top.value() + top.lift())
                                .notNegative());
            }
        }

        /** dF/F = ln 10/z · dT; noise averages out. */
        private void lethality(int number) {
            Lethality lethality = evaluation.lethality().get(number);
            double standard = Math.sqrt(readings.covariance(number, number));
            double minutes = lethality.minutes();
            CoverageInterval interval =
                    CoverageInterval.normal(minutes, minutes, minutes * LN_10 / lethality.z() * standard);
            figures.add(new PropagatedFigure(
                    Measurand.LETHALITY,
                    evaluation.lethalityChannels().get(number),
                    minutes,
                    interval.low(),
                    interval.high(),
                    0));
        }
    }
}
