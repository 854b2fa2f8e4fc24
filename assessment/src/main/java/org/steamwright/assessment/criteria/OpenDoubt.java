package org.steamwright.assessment.criteria;

/**
 * What doubt leaves open, in a sentence: a figure that meets its limit as measured reads like a pass unless it is said between
 * which ends it lies and which of them decides.
 */
public final class OpenDoubt {

    private OpenDoubt() {}

    /** The finding; one that doubt leaves undecided says so. */
    public static Finding told(Finding finding) {
        return finding.outcome() == Outcome.UNDECIDED
                ? finding.revised(Outcome.UNDECIDED, finding.sentence() + " " + sentence(finding))
                : finding;
    }

    /** Between which ends a figure lies that was held against a limit, and which of them decides under the guarded rule. */
    public static String sentence(Finding finding) {
        Figure figure = finding.measured().orElseThrow();
        Unit unit = figure.unit();
        boolean isAtLeast = finding.limit().orElseThrow().comparison() == Comparison.AT_LEAST;
        String low = Figures.shown(figure.low(), unit, Comparison.AT_LEAST);
        String high = Figures.shown(figure.high(), unit, Comparison.AT_MOST);
        if (finding.id() == CriterionId.MINIMUM_HOLDING_TIME) {
            return "Under doubt the holding time lies between %s and %s; the shorter one decides and is too short, which leaves it undecided."
                    .formatted(low, high);
        }
        return isAtLeast
                ? "Under doubt the figure lies between %s and %s; the lower end decides and misses the limit, which leaves it undecided."
                        .formatted(low, high)
                : "Under doubt the figure lies between %s and %s; the upper end decides and misses the limit, which leaves it undecided."
                        .formatted(low, high);
    }
}
