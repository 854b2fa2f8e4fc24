package org.steamwright.assessment.criteria;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Stretch;

/**
 * The lowest or highest sample of some channels inside a stretch; of equal ones the first channel's first.
 *
 * @param channel where
 * @param seconds when
 * @param value in the channel's unit
 */
record Extreme(CorrectedChannel channel, double seconds, double value) {

    static Optional<Extreme> findLowest(Iterable<CorrectedChannel> channels, Stretch stretch) {
        return find(channels, stretch, -1);
    }

    static Optional<Extreme> findHighest(Iterable<CorrectedChannel> channels, Stretch stretch) {
        return find(channels, stretch, 1);
    }

    private static Optional<Extreme> find(Iterable<CorrectedChannel> channels, Stretch stretch, int sign) {
        Optional<Extreme> found = Optional.empty();
        double best = Double.NEGATIVE_INFINITY;
        for (CorrectedChannel channel : channels) {
            int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
            for (int i = channel.axis().indexAtOrAfter(stretch.fromSeconds()); i <= to; i++) {
                double value = sign * channel.at(i);
                if (value > best) {
                    best = value;
                    found = Optional.of(new Extreme(channel, channel.axis().at(i), channel.at(i)));
                }
            }
        }
        return found;
    }
}
