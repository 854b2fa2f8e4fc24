package org.steamwright.assessment.plausibility;

import java.util.Arrays;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;

/**
 * By how much a temperature follows another on the way to the plateau, as a body with a time constant does.
 *
 * <p>On a steady ramp a first-order lag shifts a curve by its time constant. Levels are compared, so a constant difference
 * between the two channels would look like a lag: it is taken out beforehand with the difference seen in the plateau.
 */
final class Lag {

    private static final int LEVELS = 9;
    private static final double LOWEST_CELSIUS = 105;
    private static final double BELOW_PLATEAU_KELVIN = 2;
    private static final int FEWEST = 5;

    private Lag() {}

    /**
     * Median delay in seconds; empty if the ramp was not recorded.
     *
     * @param channel that may lag
     * @param leader that it is compared with
     * @param difference of the channel to the leader in the plateau, in kelvin
     * @param until moment at which the plateau begins
     * @param celsius sterilization temperature
     */
    static Optional<Double> find(
            CorrectedChannel channel, CorrectedChannel leader, double difference, double until, double celsius) {
        double[] delays = new double[LEVELS];
        int count = 0;
        for (int n = 0; n < LEVELS; n++) {
            double level = LOWEST_CELSIUS + n * (celsius - BELOW_PLATEAU_KELVIN - LOWEST_CELSIUS) / (LEVELS - 1);
            double own = lastRise(channel, level + difference, until + 120);
            double its = lastRise(leader, level, until);
            if (!Double.isNaN(own) && !Double.isNaN(its)) {
                delays[count++] = own - its;
            }
        }
        if (count < FEWEST) {
            return Optional.empty();
        }
        double[] found = Arrays.copyOf(delays, count);
        Arrays.sort(found);
        return Optional.of(found[count / 2]);
    }

    /** The last moment before which the channel rises through a level; NaN if there is none. */
    private static double lastRise(CorrectedChannel channel, double level, double until) {
        int last = channel.axis().indexAtOrBefore(until);
        for (int i = last; i > 0; i--) {
            if (channel.at(i) >= level && channel.at(i - 1) < level) {
                if (channel.axis().isGapBefore(i)) {
                    return Double.NaN;
                }
                double share = (level - channel.at(i - 1)) / (channel.at(i) - channel.at(i - 1));
                return channel.axis().at(i - 1)
                        + share * (channel.axis().at(i) - channel.axis().at(i - 1));
            }
        }
        return Double.NaN;
    }
}
