package org.steamwright.assessment.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The sampling moments of one logger, in seconds from the start of the run, strictly rising.
 *
 * <p>Channels of one logger share one axis object. A step much longer than the usual one is a {@link Gap}; nothing
 * is ever filled in.
 */
public final class TimeAxis {

    /** A step longer than this many usual steps is a gap: one missing sample makes two. */
    public static final double GAP_FACTOR = 1.6;

    private final double[] seconds;
    private final double interval;

    private TimeAxis(double[] seconds) {
        this.seconds = seconds;
        this.interval = median(seconds);
    }

    /**
     * An axis from moments in seconds.
     *
     * @throws IllegalArgumentException if a moment is not finite or does not come after the one before
     */
    public static TimeAxis ofSeconds(double... seconds) {
        for (int i = 0; i < seconds.length; i++) {
            if (!Double.isFinite(seconds[i]) || (i > 0 && seconds[i] <= seconds[i - 1])) {
                throw new IllegalArgumentException("sample %s at %s s does not come after %s s"
                        .formatted(i, seconds[i], i > 0 ? seconds[i - 1] : Double.NaN));
            }
        }
        return new TimeAxis(seconds.clone());
    }

    /** So many moments at a fixed step, the first at zero. */
    public static TimeAxis regular(int samples, double stepSeconds) {
        double[] seconds = new double[samples];
        for (int i = 0; i < samples; i++) {
            seconds[i] = i * stepSeconds;
        }
        return ofSeconds(seconds);
    }

    /** Number of samples. */
    public int size() {
        return seconds.length;
    }

    /** Moment of a sample, in seconds from the start of the run. */
    public double at(int index) {
        return seconds[index];
    }

    /** Moment of the first sample. */
    public double first() {
        return seconds[0];
    }

    /** Moment of the last sample. */
    public double last() {
        return seconds[seconds.length - 1];
    }

    /** The usual step in seconds: the median; NaN for fewer than two samples. */
    public double interval() {
        return interval;
    }

    /** Index of the first sample at or after a moment; {@link #size()} if there is none. */
    public int indexAtOrAfter(double moment) {
        int found = Arrays.binarySearch(seconds, moment);
        return found >= 0 ? found : -found - 1;
    }

    /** Index of the last sample at or before a moment; -1 if there is none. */
    public int indexAtOrBefore(double moment) {
        int found = Arrays.binarySearch(seconds, moment);
        return found >= 0 ? found : -found - 2;
    }

    /** Whether the step that ends at this sample is longer than a usual one allows. */
    public boolean isGapBefore(int index) {
        return index > 0 && seconds[index] - seconds[index - 1] > GAP_FACTOR * interval;
    }

    /** All gaps, in order of time. */
    public List<Gap> gaps() {
        List<Gap> gaps = new ArrayList<>();
        for (int i = 1; i < seconds.length; i++) {
            if (isGapBefore(i)) {
                gaps.add(new Gap(seconds[i - 1], seconds[i], interval));
            }
        }
        return List.copyOf(gaps);
    }

    /** The same axis on a clock that is read so many seconds later. */
    public TimeAxis shifted(double bySeconds) {
        double[] moved = seconds.clone();
        for (int i = 0; i < moved.length; i++) {
            moved[i] += bySeconds;
        }
        return new TimeAxis(moved);
    }

    /** The moments as a new array. */
    public double[] toSeconds() {
        return seconds.clone();
    }

    private static double median(double[] seconds) {
        if (seconds.length < 2) {
            return Double.NaN;
        }
        double[] steps = new double[seconds.length - 1];
        for (int i = 1; i < seconds.length; i++) {
            steps[i - 1] = seconds[i] - seconds[i - 1];
        }
        Arrays.sort(steps);
        return steps[steps.length / 2];
    }
}
