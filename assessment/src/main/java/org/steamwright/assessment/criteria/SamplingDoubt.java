package org.steamwright.assessment.criteria;

import java.util.Optional;

/**
 * What too long a sampling interval does to a time that has a limit.
 *
 * <p>Whatever rule the criteria set judges by, and whether or not it asks for the interval itself: between two samples
 * nothing was seen, which is no doubt of the measurement but a lack of evidence. A time that meets or misses its limit only
 * if nothing happened between two distant samples is invalid.
 */
final class SamplingDoubt {

    /**
     * So many intervals have to fit into the limit. 2.5 s for a limit of 15 s, as in every preset; own choice, no
     * source.
     */
    private static final double INTERVALS_IN_A_LIMIT = 6;

    private SamplingDoubt() {}

    /**
     * The finding, or invalid if the samples are too far apart for its limit and leave it open.
     *
     * @param limit in seconds
     * @param better the best figure that the samples allow, in seconds
     * @param worse the worst, in seconds
     * @param interval longest of the channels, in seconds; NaN if a channel has a single sample, which is told elsewhere
     */
    static Finding settled(Finding finding, Limit limit, double better, double worse, double interval) {
        if (!(interval * INTERVALS_IN_A_LIMIT > limit.value())) {
            return finding;
        }
        boolean isPassOpen =
                (finding.outcome() == Outcome.PASS || finding.outcome() == Outcome.UNDECIDED) && !limit.isMetBy(worse);
        boolean isFailOpen = finding.outcome() == Outcome.FAIL && limit.isMetBy(better);
        return isPassOpen || isFailOpen
                ? finding.revised(Outcome.INVALID, finding.sentence() + " " + sentence(limit, interval))
                : finding;
    }

    /** For a time between two arrivals, which may be one interval shorter or longer than it looks. */
    static Finding settled(Finding finding, Optional<Limit> limit, double seconds, double interval) {
        return limit.isEmpty()
                ? finding
                : settled(finding, limit.get(), Math.max(0, seconds - interval), seconds + interval, interval);
    }

    private static String sentence(Limit limit, double interval) {
        return "The samples are %s apart, too far for a limit of %s s, and leave it open."
                .formatted(
                        Figures.shown(interval, Unit.SECONDS, Comparison.AT_MOST),
                        Figures.plain(limit.value(), Unit.SECONDS));
    }
}
