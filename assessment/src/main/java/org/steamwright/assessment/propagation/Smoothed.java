package org.steamwright.assessment.propagation;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Stretch;

/**
 * A channel inside a stretch with most of its noise taken out: at each sample the parabola of least squares through the
 * nearest nine samples of the stretch.
 *
 * @source Savitzky and Golay 1964, local least squares (from memory); the length is our own choice
 */
final class Smoothed {

    /** Samples that a parabola goes through. */
    static final int WINDOW = 9;

    private static final int LEAST = 5;
    private static final int PARAMETERS = 3;
    private static final double CLEARLY = 1.6;

    private final double[] seconds;
    private final double[] values;
    private final double[] leverage;

    private Smoothed(int size) {
        seconds = new double[size];
        values = new double[size];
        leverage = new double[size];
    }

    /**
     * @param noise standard deviation of one reading; where the parabola misses the readings by clearly more, the signal
     *     moves too fast for it and the reading itself is kept
     */
    static Smoothed of(CorrectedChannel channel, Stretch stretch, double noise) {
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        int count = 0;
        int[] usable = new int[Math.max(0, to - from + 1)];
        for (int i = from; i <= to; i++) {
            if (!Double.isNaN(channel.at(i))) {
                usable[count++] = i;
            }
        }
        Smoothed smoothed = new Smoothed(count);
        for (int k = 0; k < count; k++) {
            smoothed.seconds[k] = channel.axis().at(usable[k]);
            smoothed.values[k] = channel.at(usable[k]);
            smoothed.leverage[k] = 1;
        }
        if (count >= LEAST) {
            double[] raw = smoothed.values.clone();
            for (int k = 0; k < count; k++) {
                smoothed.fit(k, raw, noise);
            }
        }
        return smoothed;
    }

    int size() {
        return values.length;
    }

    double secondsAt(int index) {
        return seconds[index];
    }

    double at(int index) {
        return values[index];
    }

    /** Share of the variance of one reading that is left in the value. */
    double leverageAt(int index) {
        return leverage[index];
    }

    /** Index of the sample nearest to a moment; -1 if there is none. */
    int nearest(double moment) {
        int found = java.util.Arrays.binarySearch(seconds, moment);
        if (found >= 0) {
            return found;
        }
        int after = -found - 1;
        if (after == seconds.length) {
            return after - 1;
        }
        boolean isBefore = after > 0 && moment - seconds[after - 1] <= seconds[after] - moment;
        return isBefore ? after - 1 : after;
    }

    /**
     * Value on the straight line between two samples; NaN outside the stretch.
     *
     * @param index looked at first: loggers that share their moments share the index too
     */
    double valueAt(double moment, int index) {
        if (index < seconds.length && seconds[index] == moment) {
            return values[index];
        }
        if (seconds.length == 0 || moment < seconds[0] || moment > seconds[seconds.length - 1]) {
            return Double.NaN;
        }
        int found = java.util.Arrays.binarySearch(seconds, moment);
        if (found >= 0) {
            return values[found];
        }
        int after = -found - 1;
        double share = (moment - seconds[after - 1]) / (seconds[after] - seconds[after - 1]);
        return values[after - 1] + share * (values[after] - values[after - 1]);
    }

    /** Least squares of a + b·t + c·t² with t counted from the sample itself: the value is a. */
    private void fit(int k, double[] raw, double noise) {
        int window = Math.min(WINDOW, raw.length);
        int from = Math.max(0, Math.min(raw.length - window, k - window / 2));
        double scale = (seconds[from + window - 1] - seconds[from]) / 2;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        double s4 = 0;
        double y0 = 0;
        double y1 = 0;
        double y2 = 0;
        for (int i = from; i < from + window; i++) {
            double t = (seconds[i] - seconds[k]) / scale;
            double y = raw[i] - raw[k];
            s1 += t;
            s2 += t * t;
            s3 += t * t * t;
            s4 += t * t * t * t;
            y0 += y;
            y1 += y * t;
            y2 += y * t * t;
        }
        double a00 = s2 * s4 - s3 * s3;
        double a01 = s2 * s3 - s1 * s4;
        double a02 = s1 * s3 - s2 * s2;
        double determinant = window * a00 + s1 * a01 + s2 * a02;
        double a = (a00 * y0 + a01 * y1 + a02 * y2) / determinant;
        double b = (a01 * y0 + (window * s4 - s2 * s2) * y1 + (s1 * s2 - window * s3) * y2) / determinant;
        double c = (a02 * y0 + (s1 * s2 - window * s3) * y1 + (window * s2 - s1 * s1) * y2) / determinant;
        double squares = 0;
        for (int i = from; i < from + window; i++) {
            double t = (seconds[i] - seconds[k]) / scale;
            double missed = raw[i] - raw[k] - a - t * (b + t * c);
            squares += missed * missed;
        }
        if (squares > (window - PARAMETERS) * CLEARLY * CLEARLY * noise * noise) {
            return;
        }
        values[k] = raw[k] + a;
        leverage[k] = Math.max(0, Math.min(1, a00 / determinant));
    }
}
