package org.steamwright.visit;

/**
 * How a line of a checklist counts: as it was chosen, or as words of before count that {@link CheckWords} knows. Words that it
 * does not know are never good.
 */
public enum CheckResult {
    /** It was looked at and is good; of maintenance: it was done. */
    GOOD,
    /** It does not apply, and the remark says why. */
    LEFT_OUT,
    /** It does not apply, and nobody says why. */
    UNEXPLAINED,
    /** Not done, not possible, or nobody said anything. */
    OPEN,
    /** It says what was done, where the question is whether it is good. */
    NOT_SAID,
    /** Words of somebody's own that nobody but a person understands. */
    UNKNOWN,
    /** It was looked at and is not good. */
    FAILED;

    /** How a line counts in a list of that section. */
    public static CheckResult of(Checklist.Section section, CheckItem item) {
        return switch (CheckWords.of(item.result())) {
            case GOOD -> GOOD;
            case WORK -> isOfWork(section) ? GOOD : NOT_SAID;
            case NOT_APPLICABLE -> isReason(item.remark()) ? LEFT_OUT : UNEXPLAINED;
            case UNDONE -> OPEN;
            case UNKNOWN -> UNKNOWN;
            case FAILED -> FAILED;
        };
    }

    /** Whether nothing was shown by it. */
    public boolean isHole() {
        return switch (this) {
            case UNEXPLAINED, OPEN, NOT_SAID, UNKNOWN -> true;
            case GOOD, LEFT_OUT, FAILED -> false;
        };
    }

    /** Own words: neither a stroke nor the result once more. */
    private static boolean isReason(String remark) {
        return Words.letters(remark).length() > 2 && CheckWords.of(remark) == CheckWords.Says.UNKNOWN;
    }

    /** What is maintained, and the state that was found, is told; of everything else it is asked whether it is good. */
    private static boolean isOfWork(Checklist.Section section) {
        return section == Checklist.Section.MAINTENANCE || section == Checklist.Section.AS_FOUND;
    }
}
