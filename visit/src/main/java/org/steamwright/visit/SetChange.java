package org.steamwright.visit;

/**
 * Another criteria set that was chosen after the first recording was there.
 *
 * @param from name of the set before
 * @param to name of the set after
 * @param because reason; never blank
 * @param by who chose it; may be blank
 */
public record SetChange(String from, String to, String because, String by) {

    public SetChange {
        if (from.isBlank() || to.isBlank() || because.isBlank()) {
            throw new IllegalArgumentException("a change of the criteria set names both and a reason");
        }
    }

    /** One sentence. */
    public String sentence() {
        return by.isBlank()
                ? "The criteria set was changed from %s to %s after recordings were there: %s"
                        .formatted(from, to, Words.sentence(because))
                : "The criteria set was changed from %s to %s by %s after recordings were there: %s"
                        .formatted(from, to, by.strip(), Words.sentence(because));
    }
}
