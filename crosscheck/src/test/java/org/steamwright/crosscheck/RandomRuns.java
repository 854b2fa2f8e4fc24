package org.steamwright.crosscheck;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.steam.ShortFormula;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;
import org.steamwright.assessment.verdict.TestRun;

/**
 * Nasty runs by seed: readings that flicker at the limit, dips, spikes, missing values, gaps, second loggers with a clock
 * of their own, plateaus before the plateau, recordings cut short. Physics is not asked for; that is the simulator's.
 */
final class RandomRuns {

    private static final double[] STERILIZING = {121, 126, 134};
    private static final double[] INTERVALS = {0.5, 1, 1, 1, 2, 2.5, 3};

    private final Random random;
    private final double sterilizing;
    private final double interval;
    private final double resolution;
    private final int length;
    private final double[] base;

    private RandomRuns(long seed) {
        random = Campaign.random(seed, 1);
        sterilizing = STERILIZING[random.nextInt(STERILIZING.length)];
        interval = INTERVALS[random.nextInt(INTERVALS.length)];
        resolution = random.nextInt(3) == 0 ? 0.1 : random.nextInt(2) == 0 ? 0.01 : 0;
        length = 80 + random.nextInt(200);
        base = base();
    }

    /** The run of that seed. */
    static TestRun run(long seed) {
        return new RandomRuns(seed).run();
    }

    /** A criteria set that fits the run of that seed, with limits close to what the run shows. */
    static CriteriaSet set(long seed, TestRun run, List<CriterionId> deciding) {
        Random random = Campaign.random(seed, 2);
        DecisionRule rule = DecisionRule.values()[random.nextInt(3)];
        SaturationCurve curve = random.nextBoolean() ? IapwsR797.INSTANCE : ShortFormula.INSTANCE;
        double step = run.trace().channels().get(0).axis().interval();
        double holding = step * (10 + random.nextInt(120));
        Optional<Double> width = switch (random.nextInt(4)) {
            case 0 -> Optional.empty();
            case 1 -> Optional.of(2.0);
            default -> Optional.of(random.nextBoolean() ? 3.0 : 4.0);
        };
        return InventedSets.allDeciding(
                rule,
                curve,
                random.nextBoolean(),
                run.cycle().sterilizingTemperature().celsius(),
                holding,
                width,
                deciding);
    }

    /** What every point follows: warming, perhaps a plateau before, the plateau, cooling; perhaps cut at either end. */
    private double[] base() {
        double[] celsius = new double[length];
        int from = 10 + random.nextInt(25);
        int until = from + 20 + random.nextInt(Math.max(1, length - from - 30));
        double over = random.nextInt(4) == 0 ? 0.05 : 0.2 + 2.5 * random.nextDouble();
        double ripple = random.nextInt(3) == 0 ? 0 : random.nextDouble();
        for (int i = 0; i < length; i++) {
            double plateau = sterilizing + over + ripple * Math.sin(i / 3.0);
            if (i < from) {
                celsius[i] = plateau - 3.0 * (from - i);
            } else if (i < until) {
                celsius[i] = plateau;
            } else {
                celsius[i] = plateau - 4.0 * (i - until + 1);
            }
        }
        if (random.nextInt(4) == 0) {
            int at = from + random.nextInt(until - from);
            double depth = over + (random.nextBoolean() ? 0.5 : 1.5) + 0.2 * random.nextDouble();
            int width = 1 + random.nextInt(6);
            for (int i = at; i < Math.min(length, at + width); i++) {
                celsius[i] -= depth;
            }
        }
        if (random.nextInt(5) == 0) {
            for (int i = 3; i < 3 + random.nextInt(6); i++) {
                celsius[i] = sterilizing + 0.5;
            }
        }
        if (random.nextInt(10) == 0) {
            for (int i = 0; i < length; i++) {
                celsius[i] = Math.max(celsius[i], sterilizing + 0.1 - (i < 5 && random.nextBoolean() ? 3 : 0));
            }
        }
        if (random.nextInt(30) == 0) {
            for (int i = 0; i < length; i++) {
                celsius[i] -= 10;
            }
        }
        return celsius;
    }

    private TestRun run() {
        InventedRun run = new InventedRun().sterilizingAt(sterilizing).ambient(95 + 8 * random.nextDouble());
        TimeAxis first = axis(interval, 0);
        TimeAxis second = random.nextInt(3) == 0
                ? axis(INTERVALS[random.nextInt(INTERVALS.length)], random.nextDouble() * 2)
                : first;
        addTemperature(run, "reference", ChannelRole.REFERENCE_POINT, first, 0);
        int loads = random.nextInt(4);
        for (int i = 0; i < loads; i++) {
            ChannelRole role = i == 0 && random.nextBoolean() ? ChannelRole.FREE_CHAMBER : ChannelRole.LOAD;
            addTemperature(run, "load " + i, role, random.nextBoolean() ? first : second, random.nextInt(8));
        }
        if (random.nextInt(3) == 0) {
            addTemperature(run, "pack", ChannelRole.CHALLENGE_PACK, second, random.nextInt(20));
        }
        if (random.nextInt(3) != 0) {
            addPressure(run, random.nextBoolean() ? first : second);
        }
        return run.build();
    }

    private TimeAxis axis(double step, double offset) {
        int samples = (int) (length * interval / step);
        double[] seconds = new double[samples];
        double gapAt = random.nextInt(5) == 0 ? random.nextInt(samples) : -1;
        double jitter = random.nextInt(4) == 0 ? 0.2 * step : 0;
        double shift = offset;
        for (int i = 0; i < samples; i++) {
            if (i == gapAt) {
                shift += step * (random.nextInt(3) == 0 ? 0.5 : 2);
            }
            seconds[i] = i * step + shift + jitter * random.nextDouble();
        }
        return TimeAxis.ofSeconds(seconds);
    }

    private double baseAt(double moment, int lateSamples) {
        int index = (int) Math.round(moment / interval) - lateSamples;
        return base[Math.max(0, Math.min(length - 1, index))];
    }

    private void addTemperature(InventedRun run, String name, ChannelRole role, TimeAxis axis, int late) {
        double offset = random.nextInt(4) == 0 ? 0 : 0.6 * (random.nextDouble() - 0.5);
        double noise = random.nextInt(3) == 0 ? 0.3 : 0.03;
        double[] celsius = new double[axis.size()];
        for (int i = 0; i < celsius.length; i++) {
            celsius[i] = rounded(baseAt(axis.at(i), late) + offset + noise * random.nextGaussian());
        }
        if (random.nextInt(8) == 0) {
            celsius[random.nextInt(celsius.length)] = Double.NaN;
        }
        if (random.nextInt(8) == 0) {
            celsius[random.nextInt(celsius.length)] += 2.5 * (random.nextDouble() - 0.5);
        }
        if (random.nextInt(10) == 0) {
            run.due(LocalDate.of(2026, 3, 1).plusDays(random.nextInt(3)));
        }
        List<CalibrationPoint> points = new ArrayList<>();
        double expanded = random.nextInt(3) == 0 ? 0.02 : 0.3 * random.nextDouble();
        double[] references = random.nextInt(20) == 0 ? new double[] {sterilizing} : new double[] {90, 121, 140};
        for (double reference : references) {
            double error = random.nextInt(3) == 0 ? 0 : 0.4 * (random.nextDouble() - 0.5);
            points.add(new CalibrationPoint(reference, reference + error, expanded, 2));
        }
        List<Contribution> contributions = new ArrayList<>();
        if (random.nextBoolean()) {
            contributions.add(Contribution.rectangular("drift", 0.1 * random.nextDouble(), "invented"));
            contributions.add(
                    Contribution.standard("noise", 0.02 * random.nextDouble(), Double.POSITIVE_INFINITY, "invented")
                            .perReading());
            double share = random.nextInt(3) == 0 ? 1 : 0.1 + 0.8 * random.nextDouble();
            contributions.add(Contribution.expanded("reference", 0.2 * random.nextDouble(), 2, "invented")
                    .shared(new Correlation("standard", share)));
        }
        run.temperature(name, role, points, contributions, axis, celsius);
    }

    private void addPressure(InventedRun run, TimeAxis axis) {
        boolean isGauge = random.nextBoolean();
        double ambient = isGauge ? run.ambientKilopascal() : 0;
        double error = random.nextInt(3) == 0 ? 12 * random.nextDouble() : 0;
        double[] kilopascal = new double[axis.size()];
        for (int i = 0; i < kilopascal.length; i++) {
            double steam = IapwsR797.INSTANCE.kilopascalAt(Math.max(20, baseAt(axis.at(i), 0) + 0.1));
            kilopascal[i] = steam - ambient + error + 0.3 * random.nextGaussian();
        }
        double opened = run.ambientKilopascal() + 2.5 * (random.nextDouble() - 0.5);
        if (random.nextInt(6) != 0) {
            kilopascal[0] = opened - (isGauge ? run.ambientKilopascal() : 0);
        }
        if (random.nextInt(6) != 0) {
            kilopascal[kilopascal.length - 1] = opened - (isGauge ? run.ambientKilopascal() : 0);
        }
        if (random.nextInt(8) == 0) {
            isGauge = !isGauge;
        }
        run.pressure(
                "pressure",
                isGauge ? PressureReference.GAUGE : PressureReference.ABSOLUTE,
                random.nextDouble() * 3,
                axis,
                kilopascal);
    }

    private double rounded(double value) {
        return resolution == 0 ? value : Math.round(value / resolution) * resolution;
    }
}
