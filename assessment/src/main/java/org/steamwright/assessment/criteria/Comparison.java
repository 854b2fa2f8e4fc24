package org.steamwright.assessment.criteria;

/** Which side of a limit is the good one. The limit itself is always good. */
public enum Comparison {
    AT_LEAST("≥"),
    AT_MOST("≤");

    private final String sign;

    Comparison(String sign) {
        this.sign = sign;
    }

    public String sign() {
        return sign;
    }
}
