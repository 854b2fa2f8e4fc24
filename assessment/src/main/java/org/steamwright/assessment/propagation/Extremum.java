package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Stretch;

/**
 * The largest value that a point, or the difference of two, has in a stretch once its noise is taken out.
 *
 * @param plus number of the point that counts positively; -1 for none
 * @param minus number of the point that counts negatively; -1 for none
 * @param value in kelvin or degree Celsius
 * @param noise standard deviation that is left of the noise there
 * @param peaks largest value of each part of the stretch that may hold the largest in truth; empty if that was not looked for
 */
record Extremum(int plus, int minus, double value, double noise, List<Double> peaks) {

    Extremum {
        peaks = List.copyOf(peaks);
    }

    /** What lies farther below, in standard deviations of the noise, is never lifted to the top. */
    private static final double FAR = 5;

    private static final int STEPS = 40;

    /** The lowest value of each judged point, as largest of its negative. */
    static List<Extremum> lowest(Readings readings, Stretch stretch) {
        List<Extremum> all = new ArrayList<>();
        for (int i = 0; i < readings.judged(); i++) {
            Smoothed smoothed = Smoothed.of(readings.point(i), stretch, readings.noise(i));
            double best = Double.NEGATIVE_INFINITY;
            double leverage = 0;
            for (int k = 0; k < smoothed.size(); k++) {
                if (-smoothed.at(k) > best) {
                    best = -smoothed.at(k);
                    leverage = smoothed.leverageAt(k);
                }
            }
            if (smoothed.size() > 0) {
                all.add(new Extremum(-1, i, best, readings.noise(i) * Math.sqrt(leverage), List.of()));
            }
        }
        return all;
    }

    /** The largest difference of each two of the first points, both ways. */
    static List<Extremum> spread(Readings readings, List<Smoothed> smoothed) {
        List<Extremum> all = new ArrayList<>();
        for (int i = 0; i < readings.judged(); i++) {
            for (int j = 0; j < readings.judged(); j++) {
                if (i != j) {
                    add(readings, smoothed, i, j, all);
                }
            }
        }
        return all;
    }

    /** The largest difference of each measured point and the theoretical temperature, both ways. */
    static List<Extremum> againstTheory(Readings readings, List<Smoothed> smoothed) {
        List<Extremum> all = new ArrayList<>();
        if (readings.size() > readings.measured()) {
            for (int i = 0; i < readings.measured(); i++) {
                add(readings, smoothed, i, readings.measured(), all);
                add(readings, smoothed, readings.measured(), i, all);
            }
        }
        return all;
    }

    /** Every point of a stretch with most of its noise taken out; both searches for differences begin with it. */
    static List<Smoothed> smoothed(Readings readings, Stretch stretch) {
        List<Smoothed> smoothed = new ArrayList<>();
        for (int i = 0; i < readings.size(); i++) {
            smoothed.add(Smoothed.of(readings.point(i), stretch, readings.noise(i)));
        }
        return smoothed;
    }

    private static void add(Readings readings, List<Smoothed> smoothed, int plus, int minus, List<Extremum> all) {
        Smoothed a = smoothed.get(plus);
        Smoothed b = smoothed.get(minus);
        CorrectedChannel one = readings.point(plus);
        CorrectedChannel other = readings.point(minus);
        double best = Double.NEGATIVE_INFINITY;
        double moment = 0;
        List<Double> peaks = new ArrayList<>();
        for (int from = 0; from < a.size(); from += Smoothed.WINDOW) {
            // a part is as long as the parabola, so that parts share little noise
            double peak = Double.NEGATIVE_INFINITY;
            for (int k = from; k < Math.min(a.size(), from + Smoothed.WINDOW); k++) {
                double difference = a.at(k) - b.valueAt(a.secondsAt(k), k);
                peak = difference > peak ? difference : peak;
                if (difference > best) {
                    best = difference;
                    moment = a.secondsAt(k);
                }
            }
            peaks.add(peak);
        }
        if (one.axis() != other.axis()) {
            for (int k = 0; k < b.size(); k++) {
                double difference = a.valueAt(b.secondsAt(k), k) - b.at(k);
                if (difference > best) {
                    best = difference;
                    moment = b.secondsAt(k);
                }
            }
        }
        if (best > Double.NEGATIVE_INFINITY) {
            double noise = StrictMath.hypot(
                    readings.noise(plus) * Math.sqrt(a.leverageAt(a.nearest(moment))),
                    readings.noise(minus) * Math.sqrt(b.leverageAt(b.nearest(moment))));
            double atLeast = best - FAR * noise;
            peaks.removeIf(peak -> peak < atLeast);
            all.add(new Extremum(plus, minus, best, noise, peaks));
        }
    }

    /**
     * By how much noise lifts the largest of all moments on the average: the mean of the largest peak, each with noise of its
     * own, less the largest peak.
     */
    double lift() {
        if (noise == 0 || peaks.isEmpty()) {
            return 0;
        }
        double mean = FAR;
        for (int i = 0; i < STEPS; i++) {
            double x = FAR - (i + 0.5) * 2 * FAR / STEPS;
            double below = 1;
            for (double peak : peaks) {
                below *= CoverageInterval.probabilityBelow(x - (peak - value) / noise);
            }
            mean -= below * 2 * FAR / STEPS;
        }
        return Math.max(0, mean * noise);
    }

    /** Standard uncertainty of the value: what both points share cancels. */
    double standard(Readings readings) {
        return Math.sqrt(Math.max(0, covariance(this, readings)));
    }

    /** Whether both are of the same points in the same order. */
    boolean isOf(Extremum other) {
        return plus == other.plus && minus == other.minus;
    }

    /** Covariance of the values of two; the noise that is left strikes each alone. */
    double covariance(Extremum other, Readings readings) {
        double sum = readings.covariance(plus, other.plus)
                + readings.covariance(minus, other.minus)
                - readings.covariance(plus, other.minus)
                - readings.covariance(minus, other.plus);
        return isOf(other) ? sum + noise * noise : sum;
    }

    /** The value if the points really are lower than they read by so many kelvin. */
    double truth(double[] errors) {
        return value - (plus < 0 ? 0 : errors[plus]) + (minus < 0 ? 0 : errors[minus]);
    }
}
