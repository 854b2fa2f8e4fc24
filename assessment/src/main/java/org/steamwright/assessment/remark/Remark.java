package org.steamwright.assessment.remark;

/**
 * Something odd that was seen in a file, with where, what and what to do.
 *
 * @param id stable identifier such as {@code INTAKE-017}, has a page in docs/messages
 * @param rank how much it matters
 * @param where file, row, column; as exact as it is known
 * @param text one or two sentences: what was found, what was expected, what to do; values with units
 */
public record Remark(String id, Rank rank, String where, String text) {

    public Remark {
        if (id.isBlank() || text.isBlank()) {
            throw new IllegalArgumentException("a remark needs an id and a text");
        }
    }

    @Override
    public String toString() {
        return id + " " + where + ": " + text;
    }
}
