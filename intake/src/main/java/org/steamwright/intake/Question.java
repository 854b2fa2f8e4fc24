package org.steamwright.intake;

import java.util.List;

/**
 * Something a file leaves open and only a person can settle.
 *
 * @param key which choice settles it, as {@link ReadingChoices.Builder#answer} takes it: {@code date-order},
 *     {@code unit:T1}
 * @param text the question, one sentence
 * @param evidence what the file shows for the one and for the other, with row
 * @param options answers that {@link ReadingChoices.Builder#answer} takes for this key; other values may be possible
 */
public record Question(String key, String text, String evidence, List<String> options) {

    public Question {
        options = List.copyOf(options);
        if (key.isBlank() || text.isBlank() || evidence.isBlank()) {
            throw new IllegalArgumentException("a question needs a key, a text and evidence");
        }
    }

    @Override
    public String toString() {
        return text + " " + evidence + " Answer " + key + " with one of: " + String.join(", ", options) + ".";
    }
}
