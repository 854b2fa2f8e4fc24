package org.steamwright.assessment.criteria;

/** The four-word form of a conformity statement, with a guard band of one expanded uncertainty either side of the limit. */
public enum FourWords {
    PASS("pass"),
    CONDITIONAL_PASS("conditional pass"),
    CONDITIONAL_FAIL("conditional fail"),
    FAIL("fail");

    private final String words;

    FourWords(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }
}
