package org.steamwright.filing.fleet;

import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;

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
        List<Double> sorted = figures.stream().sorted().toList();
        return of(sorted.size(), sorted::get);
    }

    /**
     * The same where the figures lie in order already.
     *
     * @param machines how many figures there are
     * @param atPlace figure at a place, 0 for the lowest
     */
    public static Optional<FamilyBand> of(int machines, IntToDoubleFunction atPlace) {
        if (machines < FEWEST) {
            return Optional.empty();
        }
        int out = (int) Math.floor(TENTH * machines);
        return Optional.of(new FamilyBand(
                atPlace.applyAsDouble(out),
                atPlace.applyAsDouble((machines - 1) / 2),
                atPlace.applyAsDouble(machines - 1 - out),
                machines));
    }

    /** Whether a figure lies in it, ends included. */
    public boolean holds(double figure) {
        return figure >= low && figure <= high;
    }
}
