package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.TreeMap;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * A corrected channel of the slow evaluation: its samples in a sorted map, NaN where a value is missing.
 *
 * @param name of the channel
 * @param role of the channel
 * @param samples degree Celsius (or kilopascal) by moment in seconds
 * @param indicated the values before correction
 * @param lines of doubt of one corrected reading; none where nothing is known
 * @param usualStep the middle one of all steps between samples, the upper of two
 */
record SlowPoint(
        String name,
        ChannelRole role,
        TreeMap<Double, Double> samples,
        TreeMap<Double, Double> indicated,
        List<SlowLine> lines,
        double usualStep) {

    private static final double GAP_FACTOR = 1.6;

    /** A point with the usual step of its own samples. */
    static SlowPoint of(
            String name,
            ChannelRole role,
            TreeMap<Double, Double> samples,
            TreeMap<Double, Double> indicated,
            List<SlowLine> lines) {
        List<Double> steps = new ArrayList<>();
        Double before = null;
        for (double moment : samples.keySet()) {
            if (before != null) {
                steps.add(moment - before);
            }
            before = moment;
        }
        Collections.sort(steps);
        double usual = steps.isEmpty() ? Double.NaN : steps.get(steps.size() / 2);
        return new SlowPoint(name, role, samples, indicated, lines, usual);
    }

    /** Expanded uncertainty U of one corrected reading; 0 where nothing is known. */
    double expanded() {
        return SlowLine.expanded(lines);
    }

    /** Every value raised by so much. */
    SlowPoint raised(double by) {
        TreeMap<Double, Double> moved = new TreeMap<>();
        samples.forEach((moment, value) -> moved.put(moment, value + by));
        return new SlowPoint(name, role, moved, indicated, lines, usualStep);
    }

    /** Whether samples are missing between two neighbours. */
    boolean isGap(double from, double to) {
        return to - from > GAP_FACTOR * usualStep;
    }

    /** The value at any moment: a sample, or the straight line between two neighbours that both exist; else NaN. */
    double at(double moment) {
        Double own = samples.get(moment);
        if (own != null) {
            return own;
        }
        Double before = samples.floorKey(moment);
        Double after = samples.ceilingKey(moment);
        if (before == null || after == null || isGap(before, after)) {
            return Double.NaN;
        }
        double share = (moment - before) / (after - before);
        return samples.get(before) + share * (samples.get(after) - samples.get(before));
    }

    /** Whether it is certain, as far as samples can tell, that the point stood in [low, high] at that moment. */
    boolean isInside(double moment, double low, double high) {
        Double own = samples.get(moment);
        if (own != null) {
            return own >= low && own <= high;
        }
        Double before = samples.floorKey(moment);
        Double after = samples.ceilingKey(moment);
        if (before == null || after == null || isGap(before, after)) {
            return false;
        }
        double first = samples.get(before);
        double second = samples.get(after);
        return first >= low && first <= high && second >= low && second <= high;
    }

    /** The same in favour of the doubt: what was not recorded counts as inside, but not before or after the recording. */
    boolean isPerhapsInside(double moment, double low, double high) {
        Double before = samples.floorKey(moment);
        Double after = samples.ceilingKey(moment);
        return before != null
                && after != null
                && isPerhaps(samples.get(before), low, high)
                && isPerhaps(samples.get(after), low, high);
    }

    private static boolean isPerhaps(double value, double low, double high) {
        return Double.isNaN(value) || (value >= low && value <= high);
    }
}
