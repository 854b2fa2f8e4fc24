package org.steamwright.assessment.trace;

/**
 * Where a sensor sat.
 *
 * @param letter the short sign on the chamber plan, may be empty
 * @param description in words, such as 'front, bottom, in the lumen'; may be empty
 */
public record Position(String letter, String description) {

    /** Nothing was said about the place. */
    public static final Position UNSTATED = new Position("", "");

    @Override
    public String toString() {
        return letter.isEmpty() ? description : description.isEmpty() ? letter : letter + " (" + description + ")";
    }
}
