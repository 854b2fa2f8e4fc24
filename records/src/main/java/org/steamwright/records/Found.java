package org.steamwright.records;

import java.util.List;

/**
 * What a search gave.
 *
 * @param hits in order of the word that matched, then of their making
 * @param isComplete false if there may be more than were looked through or asked for
 */
public record Found(List<Hit> hits, boolean isComplete) {

    public Found {
        hits = List.copyOf(hits);
    }

    /**
     * @param subject with its facts
     * @param property the fact that matched the longest word of the question
     */
    public record Hit(Subject subject, String property) {}
}
