package org.steamwright.assessment.remark;

import java.util.List;

/**
 * Something odd that was seen in a file, with where, what and what to do.
 *
 * @param id stable identifier such as {@code INTAKE-017}, has a page in docs/messages
 * @param rank how much it matters
 * @param where file, row, column; as exact as it is known, as whoever wrote the file reads it
 * @param text one or two sentences: what was found, what was expected, what to do; values with units
 * @param ways to the facts of a visit that it is about, each of keys and of places in lists counted from 1, without any for the
 *     visit as a whole; none if it is about a file
 */
public record Remark(String id, Rank rank, String where, String text, List<List<String>> ways) {

    public Remark {
        if (id.isBlank() || text.isBlank()) {
            throw new IllegalArgumentException("a remark needs an id and a text");
        }
        ways = ways.stream().map(List::copyOf).toList();
    }

    /** Something odd about a file. */
    public Remark(String id, Rank rank, String where, String text) {
        this(id, rank, where, text, List.of());
    }

    @Override
    public String toString() {
        return id + " " + where + ": " + text;
    }
}
