package org.steamwright.report.plot;

import java.util.Arrays;

/**
 * Fewer points for the same picture: in every slice of time the first, the lowest, the highest and the last sample stay,
 * so no extreme is lost and no dip disappears. Gaps and missing values lift the pen; nothing is joined across them.
 */
public final class Decimation {

    private final double[] seconds;
    private final double[] values;

    private Decimation(double[] seconds, double[] values) {
        this.seconds = seconds;
        this.values = values;
    }

    /**
     * Thins a curve.
     *
     * @param seconds rising moments
     * @param values NaN where there is none
     * @param longestStep a longer step than this lifts the pen
     * @param slice length of a slice of time in seconds, positive
     */
    public static Decimation of(double[] seconds, double[] values, double longestStep, double slice) {
        if (!(slice > 0)) {
            throw new IllegalArgumentException("a slice of " + slice + " s");
        }
        Kept kept = new Kept(seconds, values);
        long current = Long.MIN_VALUE;
        for (int i = 0; i < seconds.length; i++) {
            boolean torn = i > 0 && seconds[i] - seconds[i - 1] > longestStep;
            if (Double.isNaN(values[i]) || torn) {
                kept.flush();
                kept.lift();
                current = Long.MIN_VALUE;
                if (Double.isNaN(values[i])) {
                    continue;
                }
            }
            long now = (long) Math.floor(seconds[i] / slice);
            if (now != current) {
                kept.flush();
                current = now;
            }
            kept.take(i);
        }
        kept.flush();
        return new Decimation(Arrays.copyOf(kept.seconds, kept.size), Arrays.copyOf(kept.values, kept.size));
    }

    /** Kept moments, NaN where the pen is lifted. */
    public double[] seconds() {
        return seconds.clone();
    }

    /** Kept values, NaN where the pen is lifted. */
    public double[] values() {
        return values.clone();
    }

    /** The slice being looked at and what was kept so far. */
    private static final class Kept {
        private final double[] allSeconds;
        private final double[] allValues;
        private double[] seconds = new double[256];
        private double[] values = new double[256];
        private int size;
        private int first = -1;
        private int lowest;
        private int highest;
        private int last;

        Kept(double[] allSeconds, double[] allValues) {
            this.allSeconds = allSeconds;
            this.allValues = allValues;
        }

        void take(int index) {
            if (first < 0) {
                first = index;
                lowest = index;
                highest = index;
            }
            lowest = allValues[index] < allValues[lowest] ? index : lowest;
            highest = allValues[index] > allValues[highest] ? index : highest;
            last = index;
        }

        void flush() {
            if (first < 0) {
                return;
            }
            int[] order = {first, Math.min(lowest, highest), Math.max(lowest, highest), last};
            int before = -1;
            for (int index : order) {
                if (index != before) {
                    put(allSeconds[index], allValues[index]);
                    before = index;
                }
            }
            first = -1;
        }

        void lift() {
            if (size > 0 && !Double.isNaN(values[size - 1])) {
                put(Double.NaN, Double.NaN);
            }
        }

        private void put(double moment, double value) {
            if (size == seconds.length) {
                seconds = Arrays.copyOf(seconds, 2 * size);
                values = Arrays.copyOf(values, 2 * size);
            }
            seconds[size] = moment;
            values[size] = value;
            size++;
        }
    }
}
