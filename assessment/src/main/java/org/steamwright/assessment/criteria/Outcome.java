package org.steamwright.assessment.criteria;

/** What became of a criterion. Only {@link #PASS} is a pass. */
public enum Outcome {
    PASS("pass"),
    FAIL("fail"),
    /** Within its doubt of the limit; the rule in force does not decide it. */
    UNDECIDED("undecided"),
    /** The evidence can't carry the question: a gap, a dead sensor, an expired certificate. */
    INVALID("invalid"),
    /** The answer comes later, as with incubation. */
    AWAITED("awaited"),
    /** Not asked by the criteria set, or nothing was recorded that could answer it. */
    NOT_ASSESSED("not assessed");

    private final String words;

    Outcome(String words) {
        this.words = words;
    }

    /** As printed. */
    public String words() {
        return words;
    }
}
