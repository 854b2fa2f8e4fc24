package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.LongFunction;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.propagation.LinearPropagation;
import org.steamwright.assessment.propagation.Measurand;
import org.steamwright.assessment.propagation.MonteCarloPropagation;
import org.steamwright.assessment.propagation.PropagatedFigure;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.simulator.Instrumentation;
import org.steamwright.simulator.PlateauTruth;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;
import org.steamwright.simulator.Surroundings;
import org.steamwright.simulator.Truth;

/**
 * How often the stated 95 % intervals hold the truth, on simulated runs whose measurement errors are drawn from the budget
 * that is declared: error of the certificate, drift, noise, rounding, barometer.
 *
 * <p>The truth is the physical one: the temperature of each sensor's own body and the pressure in the chamber, without any
 * error of the instrument. Times are those of the continuous signal, extremes those at the sampled moments of the stretch
 * that was read.
 */
class IntervalCampaignTest {

    private static final double STEP = 1e-9;

    /** Covered and all, by figure. */
    private static final class Tally {
        private final Map<Measurand, LongAdder> all = new EnumMap<>(Measurand.class);
        private final Map<Measurand, LongAdder> covered = new EnumMap<>(Measurand.class);
        private final Map<Measurand, LongAdder> below = new EnumMap<>(Measurand.class);

        Tally() {
            for (Measurand measurand : Measurand.values()) {
                all.put(measurand, new LongAdder());
                covered.put(measurand, new LongAdder());
                below.put(measurand, new LongAdder());
            }
        }

        private static void count(Map<Measurand, LongAdder> adders, Measurand measurand) {
            Optional.ofNullable(adders.get(measurand)).orElseThrow().increment();
        }

        private static long sum(Map<Measurand, LongAdder> adders, Measurand measurand) {
            return Optional.ofNullable(adders.get(measurand)).orElseThrow().sum();
        }

        void add(PropagatedFigure figure, double truth) {
            count(all, figure.measurand());
            if (truth < figure.low() - STEP) {
                count(below, figure.measurand());
            } else if (truth <= figure.high() + STEP) {
                count(covered, figure.measurand());
            }
        }

        double share(Measurand measurand) {
            return (double) sum(covered, measurand) / sum(all, measurand);
        }

        long all(Measurand measurand) {
            return sum(all, measurand);
        }

        void print(String title) {
            StringBuilder text = new StringBuilder(title).append(System.lineSeparator());
            for (Measurand measurand : Measurand.values()) {
                if (all(measurand) > 0) {
                    text.append("  %-22s %6d figures, %5.2f %% covered, %5.2f %% truly below, %5.2f %% truly above"
                                    .formatted(
                                            measurand,
                                            all(measurand),
                                            100 * share(measurand),
                                            100.0 * sum(below, measurand) / all(measurand),
                                            100
                                                    - 100 * share(measurand)
                                                    - 100.0 * sum(below, measurand) / all(measurand)))
                            .append(System.lineSeparator());
                }
            }
            System.out.println(text);
        }
    }

    private static int runs() {
        return Integer.getInteger("campaign.interval.runs", 400);
    }

    @Test
    void the_law_of_propagation_states_intervals_that_hold_the_truth() {
        check(run(seed -> LinearPropagation.INSTANCE, runs()), "Law of propagation", runs());
    }

    @Test
    void drawing_states_intervals_that_hold_the_truth() {
        int trials = Integer.getInteger("campaign.interval.trials", 400);
        check(run(seed -> new MonteCarloPropagation(seed, trials), runs()), "Monte Carlo", runs());
    }

    /** From 93 to 97 of a hundred; in a short campaign with room for chance, three standard deviations of a count. */
    private static void check(Tally tally, String title, int runs) {
        tally.print(title + ", " + runs + " runs of each kind");
        for (Measurand measurand : Measurand.values()) {
            double chance = 3 * Math.sqrt(0.95 * 0.05 / tally.all(measurand));
            double room = tally.all(measurand) >= 10_000 ? 0 : chance;
            assertThat(tally.share(measurand))
                    .as("%s: %s figures", measurand, tally.all(measurand))
                    .isBetween(0.93 - room, 0.97 + room);
        }
    }

    private static Tally run(LongFunction<Propagation> propagation, int runs) {
        Tally tally = new Tally();
        new Campaign("intervals").forEachSeed(runs, seed -> {
            thermometric(seed, propagation.apply(seed), tally);
            leak(seed, propagation.apply(seed), tally);
        });
        return tally;
    }

    /** The technician's barometer is off by up to 0.1 kPa, as its half-width says. */
    private static Scenario withRealBarometer(Scenario scenario, long seed) {
        double ambient = scenario.surroundings().ambientKilopascal();
        double off = 0.1 * (2 * Campaign.random(seed, 1).nextDouble() - 1);
        return scenario.withSurroundings(new Surroundings(ambient, Ambient.barometer(ambient + off)));
    }

    /**
     * A simulated run whose laboratories err as their certificates say: normally, with half of U as standard deviation. (The
     * simulator's own laboratories never err by more than U, which no certificate promises.)
     */
    private static SimulatedRun simulated(Scenario scenario, long seed) {
        Instrumentation i = scenario.instrumentation();
        return Simulation.run(
                withRealBarometer(scenario, seed)
                        .withInstrumentation(new Instrumentation(
                                i.noiseKelvin(),
                                i.noiseKilopascal(),
                                i.decimalsKelvin(),
                                i.decimalsKilopascal(),
                                i.errorKelvin(),
                                0,
                                i.driftKelvin(),
                                i.errorKilopascal(),
                                0,
                                i.driftKilopascal())),
                seed);
    }

    private static TestRun withLaboratoryErrors(SimulatedRun simulated, Scenario scenario, long seed) {
        Random random = Campaign.random(seed, 2);
        TestRun run = simulated.testRun();
        for (ReferenceInstrument instrument : List.copyOf(new TreeMap<>(run.instruments()).values())) {
            double expanded = instrument.quantity() == Quantity.TEMPERATURE
                    ? scenario.instrumentation().certificateKelvin()
                    : scenario.instrumentation().certificateKilopascal();
            double error = expanded / 2 * random.nextGaussian();
            CalibrationCertificate exact = instrument.certificate().orElseThrow();
            List<CalibrationPoint> points = exact.points().stream()
                    .map(point -> new CalibrationPoint(point.reference(), point.indicated() + error, expanded, 2))
                    .toList();
            run = run.withInstrument(new ReferenceInstrument(
                    instrument.id(),
                    instrument.description(),
                    instrument.quantity(),
                    instrument.rangeLow(),
                    instrument.rangeHigh(),
                    Optional.of(new CalibrationCertificate(
                            exact.number(), exact.laboratory(), exact.calibratedOn(), exact.dueOn(), points)),
                    instrument.contributions()));
        }
        return run;
    }

    private static CriteriaSet set(double celsius) {
        return InventedSets.allDeciding(
                DecisionRule.GUARDED,
                IapwsR797.INSTANCE,
                false,
                celsius,
                180,
                Optional.empty(),
                List.of(CriterionId.MINIMUM_HOLDING_TIME, CriterionId.LEAK_RATE));
    }

    private static void leak(long seed, Propagation propagation, Tally tally) {
        Scenario scenario = Scenarios.randomGoodLeakTest(seed);
        SimulatedRun simulated = simulated(scenario, seed);
        RunEvaluation evaluation = Assessment.evaluate(withLaboratoryErrors(simulated, scenario, seed), set(134));
        evaluation.leakTest().ifPresent(test -> {
            Truth truth = simulated.truth();
            double rise = truth.kilopascalAt(test.endSeconds()) - truth.kilopascalAt(test.settledSeconds());
            for (PropagatedFigure figure : propagation.propagate(evaluation)) {
                tally.add(figure, 60 * rise / test.measuringPeriodSeconds());
            }
        });
    }

    private static void thermometric(long seed, Propagation propagation, Tally tally) {
        Scenario scenario = Scenarios.randomGood(seed);
        SimulatedRun simulated = simulated(scenario, seed);
        double celsius = simulated.testRun().cycle().sterilizingTemperature().celsius();
        RunEvaluation evaluation = Assessment.evaluate(withLaboratoryErrors(simulated, scenario, seed), set(celsius));
        for (PropagatedFigure figure : propagation.propagate(evaluation)) {
            truth(figure, simulated, evaluation).ifPresent(truth -> tally.add(figure, truth));
        }
    }

    private static Optional<Double> truth(PropagatedFigure figure, SimulatedRun simulated, RunEvaluation evaluation) {
        Truth truth = simulated.truth();
        PlateauTruth plateau = truth.physicalPlateau(Double.POSITIVE_INFINITY);
        List<CorrectedChannel> points = evaluation.corrected().measuredInChamber();
        Optional<Stretch> holding = evaluation.plateau().flatMap(Plateau::holding);
        Optional<Stretch> together = evaluation.plateau().flatMap(Plateau::together);
        return switch (figure.measurand()) {
            case HOLDING_TIME -> Optional.of(plateau.holdingSeconds());
            // where nothing comes after the reference point there is nothing to hold
            case EQUILIBRATION_TIME -> plateau.equilibrationSeconds().filter(seconds -> points.size() > 1);
            case PENETRATION_TIME ->
                points.stream()
                        .filter(point -> point.role() == ChannelRole.CHALLENGE_PACK)
                        .findFirst()
                        .flatMap(pack -> plateau.penetrationSeconds(pack.name()))
                        .map(seconds -> Math.max(0, seconds));
            case LOWEST_TEMPERATURE -> together.map(stretch -> lowest(truth, points, stretch));
            case TEMPERATURE_SPREAD ->
                holding.filter(stretch -> points.size() > 1).map(stretch -> spread(truth, points, stretch));
            case SATURATION_DIFFERENCE -> holding.map(stretch -> againstTheory(truth, points, stretch));
            case LETHALITY -> {
                Lethality read = evaluation
                        .lethality()
                        .get(evaluation.lethalityChannels().indexOf(figure.channel()));
                yield Optional.of(truth.lethalityMinutes(
                        figure.channel(), read.referenceCelsius(), read.z(), read.fromSeconds(), read.toSeconds()));
            }
            case LEAK_RATE -> Optional.empty();
        };
    }

    private static List<Double> moments(List<CorrectedChannel> points, Stretch stretch) {
        List<Double> moments = new ArrayList<>();
        for (CorrectedChannel point : points) {
            for (int i = 0; i < point.size(); i++) {
                if (stretch.contains(point.axis().at(i))) {
                    moments.add(point.axis().at(i));
                }
            }
        }
        return moments;
    }

    private static double lowest(Truth truth, List<CorrectedChannel> points, Stretch stretch) {
        double lowest = Double.POSITIVE_INFINITY;
        for (CorrectedChannel point : points) {
            for (double moment : moments(List.of(point), stretch)) {
                lowest = Math.min(lowest, truth.celsiusAt(point.name(), moment));
            }
        }
        return lowest;
    }

    private static double spread(Truth truth, List<CorrectedChannel> points, Stretch stretch) {
        double widest = 0;
        for (double moment : moments(points, stretch)) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (CorrectedChannel point : points) {
                low = Math.min(low, truth.celsiusAt(point.name(), moment));
                high = Math.max(high, truth.celsiusAt(point.name(), moment));
            }
            widest = Math.max(widest, high - low);
        }
        return widest;
    }

    private static double againstTheory(Truth truth, List<CorrectedChannel> points, Stretch stretch) {
        double largest = 0;
        for (CorrectedChannel point : points) {
            for (double moment : moments(List.of(point), stretch)) {
                double theory = IapwsR797.INSTANCE.celsiusAt(truth.kilopascalAt(moment));
                largest = Math.max(largest, Math.abs(truth.celsiusAt(point.name(), moment) - theory));
            }
        }
        return largest;
    }
}
