package org.steamwright.assessment.cycle;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;

/**
 * Figures of one channel during the holding time.
 *
 * @param channel name
 * @param samples number of usable samples
 * @param minimum lowest corrected value, in the channel's unit
 * @param minimumSeconds its moment (the first, if it came more than once)
 * @param maximum highest
 * @param maximumSeconds its moment
 * @param mean arithmetic mean
 * @param fluctuation largest distance from the mean
 * @param fluctuationSeconds its moment
 */
public record ChannelStatistics(
        String channel,
        int samples,
        double minimum,
        double minimumSeconds,
        double maximum,
        double maximumSeconds,
        double mean,
        double fluctuation,
        double fluctuationSeconds) {

    /** Figures of a channel inside a stretch, missing values left out; empty if the channel has no value there. */
    public static Optional<ChannelStatistics> find(CorrectedChannel channel, Stretch stretch) {
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        int samples = 0;
        int lowest = -1;
        int highest = -1;
        double sum = 0;
        for (int i = from; i <= to; i++) {
            double value = channel.at(i);
            if (Double.isNaN(value)) {
                continue;
            }
            samples++;
            sum += value;
            lowest = lowest < 0 || value < channel.at(lowest) ? i : lowest;
            highest = highest < 0 || value > channel.at(highest) ? i : highest;
        }
        if (samples == 0) {
            return Optional.empty();
        }
        // the mean of the distances from a first estimate keeps the digits that a plain sum would lose
        double estimate = sum / samples;
        double rest = 0;
        for (int i = from; i <= to; i++) {
            if (!Double.isNaN(channel.at(i))) {
                rest += channel.at(i) - estimate;
            }
        }
        double mean = estimate + rest / samples;
        boolean isLowFarther = mean - channel.at(lowest) > channel.at(highest) - mean;
        int farthest = isLowFarther ? lowest : highest;
        return Optional.of(new ChannelStatistics(
                channel.name(),
                samples,
                channel.at(lowest),
                channel.axis().at(lowest),
                channel.at(highest),
                channel.axis().at(highest),
                mean,
                Math.abs(channel.at(farthest) - mean),
                channel.axis().at(farthest)));
    }
}
