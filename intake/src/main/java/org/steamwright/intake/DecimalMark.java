package org.steamwright.intake;

/** The mark between the whole and the fraction of a number. */
public enum DecimalMark {
    POINT('.'),
    COMMA(',');

    private final char mark;

    DecimalMark(char mark) {
        this.mark = mark;
    }

    /** The character. */
    public char mark() {
        return mark;
    }

    /** The other of the two. */
    public DecimalMark other() {
        return this == POINT ? COMMA : POINT;
    }
}
