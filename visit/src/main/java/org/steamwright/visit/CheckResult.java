package org.steamwright.visit;

import java.util.List;
import java.util.Set;

/**
 * How a line of a checklist counts. Results are somebody's own words, so that a word that says no counts as no whatever stands
 * behind it, and a line without a word was not answered.
 */
public enum CheckResult {
    /** Anything that says neither of the others. */
    GOOD,
    /** Not done, not possible, or nobody said anything. */
    OPEN,
    /** It was looked at and is not good. */
    FAILED;

    private static final Set<String> FIRST_WORDS =
            Set.of("fail", "fails", "failed", "failure", "bad", "defective", "insufficient", "faulty");
    private static final List<String> NOT_GOOD = List.of("not passed", "not good", "not ok", "no pass", "not met");
    private static final List<String> UNDONE = List.of("not done", "not possible", "open", "not tested", "not checked");

    /** How it counts. */
    public static CheckResult of(CheckItem item) {
        String words = Words.key(item.result())
                .replaceAll("[^\\p{L}\\p{N} ]+", " ")
                .replaceAll(" +", " ")
                .strip();
        if (words.isEmpty() || begins(words, UNDONE)) {
            return OPEN;
        }
        return FIRST_WORDS.contains(words.split(" ", 2)[0]) || begins(words, NOT_GOOD) ? FAILED : GOOD;
    }

    private static boolean begins(String words, List<String> those) {
        return those.stream().anyMatch(one -> words.equals(one) || words.startsWith(one + " "));
    }
}
