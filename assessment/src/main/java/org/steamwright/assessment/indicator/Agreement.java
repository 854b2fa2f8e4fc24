package org.steamwright.assessment.indicator;

/** How an indicator fits what the thermometer beside it lets expect. Evidence only. */
public enum Agreement {
    /** Growth or none, as expected. */
    AGREES("agrees"),
    /** It grew although next to no spore was expected to live. */
    GROWTH_UNEXPECTED("contradicts: it grew"),
    /** It did not grow although spores were expected to live. */
    NO_GROWTH_UNEXPECTED("contradicts: it did not grow"),
    /** A chemical indicator did not reach its end point although its time in steam was stayed for. */
    END_POINT_MISSED("contradicts: end point missed"),
    /** A chemical indicator reached its end point although it should not have. */
    END_POINT_UNEXPECTED("contradicts: end point reached"),
    /** Either would have been no surprise, or part of the temperature is missing. */
    CANNOT_TELL("cannot tell"),
    /** It did not grow, but nothing shows that it could have: control clear or missing, or out of date. */
    VOID("void"),
    /** The indicator or the control of its lot has not been read to the end. */
    AWAITED("awaited"),
    /** A figure or a channel for the comparison is missing. */
    NOT_COMPARED("not compared");

    private final String words;

    Agreement(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /** Whether somebody has to explain it. */
    public boolean isContradiction() {
        return switch (this) {
            case GROWTH_UNEXPECTED, NO_GROWTH_UNEXPECTED, END_POINT_MISSED, END_POINT_UNEXPECTED -> true;
            case AGREES, CANNOT_TELL, VOID, AWAITED, NOT_COMPARED -> false;
        };
    }
}
