package org.steamwright.visit.fleet;

import java.util.List;
import java.util.Optional;

/**
 * Where the last figures of a family of sterilisers lie: the middle one, and the band that leaves out the outermost tenth on
 * either side. With fewer than ten machines that is all of them.
 *
 * @source quantiles by the nearest rank; own choice, no source
 * @param low lower end
 * @param middle median, the lower of two
 * @param high upper end
 * @param machines that it rests on
 */
public record FamilyBand(double low, double middle, double high, int machines) {

    private static final int FEWEST = 2;
    private static final double TENTH = 0.1;

    /** The band of last figures, one a machine; empty with fewer than two. */
    public static Optional<FamilyBand> of(List<Double> figures) {
        if (figures.size() < FEWEST) {
            return Optional.empty();
        }
        List<Double> sorted = figures.stream().sorted().toList();
        int out = (int) Math.floor(TENTH * sorted.size());
        return Optional.of(new FamilyBand(
                sorted.get(out),
                sorted.get((sorted.size() - 1) / 2),
                sorted.get(sorted.size() - 1 - out),
                sorted.size()));
    }

    /** Whether a figure lies in it, ends included. */
    public boolean holds(double figure) {
        return figure >= low && figure <= high;
    }
}
