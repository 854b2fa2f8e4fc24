package org.steamwright.assessment.verdict;

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
        double fluctuationSeconds) {}
