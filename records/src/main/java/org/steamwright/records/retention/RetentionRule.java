package org.steamwright.records.retention;

/**
 * A rule of one jurisdiction.
 *
 * @param id word by which a clinic or sterilizer names it
 * @param where for whom it holds
 * @param years how long
 * @param from counted from the last entry, or from the end of the equipment's life
 * @param source document
 * @param certainty whether the text was seen
 */
public record RetentionRule(String id, String where, int years, Start from, String source, String certainty) {

    /** What the years are counted from. */
    public enum Start {
        LAST_ENTRY,
        END_OF_LIFE
    }
}
