package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * The plateau by its definition, moment by moment.
 *
 * <p>A region begins at a sample of the reference point at or above Ts and goes on until that point falls below Ts − 1 K.
 * The holding stretch is the longest run of moments in which every point is inside the band. Handbook section 2, with the
 * house's own words for what it leaves open: ends are samples, equal lengths go to the first, stretches are never added.
 */
final class SlowPlateau {

    private static final double RELEASE_KELVIN = 1.0;
    private static final double STEADY_SECONDS = 10.0;

    /** First sample of the reference point at or above Ts. */
    final double reached;
    /** Last sample of the reference point at or above Ts in this region. */
    final double end;
    /** First moment with every point at or above Ts. */
    final OptionalDouble equilibrated;
    /** Begin and end of the holding stretch; empty list if there is none. */
    final List<Double> holding;
    /** The point that ended the holding stretch; empty set if there is none. */
    final Set<String> ended;
    /**
     * Longest time in which no point was seen outside the band: missing values and gaps count as inside, and what reaches
     * the end of the recording has no end.
     */
    final double possibleSeconds;
    /** Begin of the first and end of the last steady stretch with every point at or above Ts; empty list if none. */
    final List<Double> together;

    private SlowPlateau(
            double reached,
            double end,
            OptionalDouble equilibrated,
            List<Double> holding,
            Set<String> ended,
            double possibleSeconds,
            List<Double> together) {
        this.reached = reached;
        this.ended = ended;
        this.possibleSeconds = possibleSeconds;
        this.end = end;
        this.equilibrated = equilibrated;
        this.holding = holding;
        this.together = together;
    }

    /** Length of the holding stretch, last sample minus first; 0 if there is none. */
    double holdingSeconds() {
        return holding.isEmpty() ? 0 : holding.get(1) - holding.get(0);
    }

    /** The longest time that any rise of the reference point leaves possible; 0 if it never came to Ts. */
    static double possibleSeconds(SlowPoint reference, List<SlowPoint> judged, double low, double high) {
        double longest = 0;
        for (List<Double> region : regions(reference, low)) {
            longest = Math.max(longest, of(region, judged, low, high).possibleSeconds);
        }
        return longest;
    }

    /** The plateau that counts; an empty list if the reference point never came to Ts. */
    static List<SlowPlateau> find(SlowPoint reference, List<SlowPoint> judged, double low, double high) {
        List<SlowPlateau> all = new ArrayList<>();
        for (List<Double> region : regions(reference, low)) {
            all.add(of(region, judged, low, high));
        }
        SlowPlateau best = null;
        for (SlowPlateau plateau : all) {
            if (best == null
                    || micros(plateau.holdingSeconds()) > micros(best.holdingSeconds())
                    || (micros(plateau.holdingSeconds()) == micros(best.holdingSeconds())
                            && micros(plateau.end - plateau.reached) > micros(best.end - best.reached))) {
                best = plateau;
            }
        }
        return best == null ? List.of() : List.of(best);
    }

    /** Lengths are compared in microseconds: rounding of a clock reading chooses nothing. */
    private static long micros(double seconds) {
        return Math.round(seconds * 1e6);
    }

    private static List<List<Double>> regions(SlowPoint reference, double low) {
        List<List<Double>> regions = new ArrayList<>();
        Double from = null;
        Double last = null;
        for (Map.Entry<Double, Double> sample : reference.samples().entrySet()) {
            if (sample.getValue() >= low) {
                from = from == null ? sample.getKey() : from;
                last = sample.getKey();
            } else if (from != null && last != null && sample.getValue() < low - RELEASE_KELVIN) {
                regions.add(List.of(from, last));
                from = null;
                last = null;
            }
        }
        if (from != null && last != null) {
            regions.add(List.of(from, last));
        }
        return regions;
    }

    private static SlowPlateau of(List<Double> region, List<SlowPoint> judged, double low, double high) {
        double reached = region.get(0);
        double end = region.get(1);
        List<List<Double>> inBand = stretches(reached, end, judged, low, high);
        List<List<Double>> atTemperature = stretches(reached, end, judged, low, Double.POSITIVE_INFINITY);
        List<Double> longest = List.of();
        for (List<Double> stretch : inBand) {
            if (longest.isEmpty()
                    || micros(stretch.get(1) - stretch.get(0)) > micros(longest.get(1) - longest.get(0))) {
                longest = stretch;
            }
        }
        List<Double> together = List.of();
        for (List<Double> stretch : atTemperature) {
            if (micros(stretch.get(1) - stretch.get(0)) >= micros(STEADY_SECONDS)) {
                together = List.of(together.isEmpty() ? stretch.get(0) : together.get(0), stretch.get(1));
            }
        }
        OptionalDouble equilibrated = atTemperature.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(atTemperature.get(0).get(0));
        Set<String> ended = new TreeSet<>();
        if (!longest.isEmpty()) {
            whoEnded(longest.get(1), judged, low, high, ended);
        }
        double possible = possible(reached, end, judged, low, high);
        return new SlowPlateau(reached, end, equilibrated, longest, ended, possible, together);
    }

    /** Tried from every moment on: how long until a sample of any point lies outside. */
    private static double possible(double from, double to, List<SlowPoint> judged, double low, double high) {
        TreeSet<Double> moments = new TreeSet<>();
        for (SlowPoint point : judged) {
            moments.addAll(point.samples().subMap(from, true, to, true).keySet());
        }
        double longest = 0;
        Double begin = null;
        for (double moment : moments) {
            boolean isPossible = judged.stream().allMatch(point -> point.isPerhapsInside(moment, low, high));
            boolean isBroken = begin != null
                    && moments.lower(moment) != null
                    && !judged.stream()
                            .allMatch(point -> point.isPerhapsInside((moments.lower(moment) + moment) / 2, low, high));
            if (!isPossible || isBroken) {
                begin = null;
            }
            if (isPossible) {
                begin = begin == null ? moment : begin;
                boolean isCut =
                        judged.stream().anyMatch(point -> point.samples().lastKey() <= moment);
                longest = Math.max(longest, isCut ? Double.POSITIVE_INFINITY : moment - begin);
            }
        }
        return longest;
    }

    /**
     * What ended a stretch: every point left it after its own last sample inside. The earliest of these decides; of equal
     * ones a point that was seen outside says more than one that was not seen at all.
     */
    private static void whoEnded(double to, List<SlowPoint> judged, double low, double high, Set<String> ended) {
        List<String> seenOutside = new ArrayList<>();
        List<String> notSeen = new ArrayList<>();
        double earliest = Double.POSITIVE_INFINITY;
        for (SlowPoint point : judged) {
            double last = to;
            Double own = point.samples().ceilingKey(to);
            if (own != null && own != to) {
                last = own;
            }
            Map.Entry<Double, Double> next = point.samples().higherEntry(last);
            while (next != null
                    && next.getValue() >= low
                    && next.getValue() <= high
                    && !point.isGap(last, next.getKey())) {
                last = next.getKey();
                next = point.samples().higherEntry(last);
            }
            if (last < earliest) {
                earliest = last;
                seenOutside.clear();
                notSeen.clear();
            }
            if (last == earliest) {
                boolean isSeen = next != null && !Double.isNaN(next.getValue()) && !point.isGap(last, next.getKey());
                (isSeen ? seenOutside : notSeen).add(point.name());
            }
        }
        ended.addAll(seenOutside.isEmpty() ? notSeen : seenOutside);
    }

    /** Every longest run of moments with every point inside, tried from every moment on. */
    private static List<List<Double>> stretches(
            double from, double to, List<SlowPoint> judged, double low, double high) {
        TreeSet<Double> moments = new TreeSet<>();
        for (SlowPoint point : judged) {
            moments.addAll(point.samples().subMap(from, true, to, true).keySet());
        }
        List<Double> all = new ArrayList<>(moments);
        List<List<Double>> found = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            boolean beginsHere = areInside(judged, all.get(i), low, high)
                    && (i == 0
                            || !areInside(judged, all.get(i - 1), low, high)
                            || !areInside(judged, (all.get(i - 1) + all.get(i)) / 2, low, high));
            if (!beginsHere) {
                continue;
            }
            int j = i;
            while (j + 1 < all.size()
                    && areInside(judged, (all.get(j) + all.get(j + 1)) / 2, low, high)
                    && areInside(judged, all.get(j + 1), low, high)) {
                j++;
            }
            found.add(List.of(all.get(i), all.get(j)));
        }
        return found;
    }

    private static boolean areInside(List<SlowPoint> judged, double moment, double low, double high) {
        for (SlowPoint point : judged) {
            if (!point.isInside(moment, low, high)) {
                return false;
            }
        }
        return true;
    }
}
