package org.steamwright.visit;

/**
 * A recording that was with a run and is not any more.
 *
 * @param recording name of its file
 * @param sha256 of its bytes, hexadecimal; blank if not known
 * @param because reason; never blank
 * @param by who took it away; may be blank
 */
public record TakenAway(String recording, String sha256, String because, String by) {

    public TakenAway {
        if (recording.isBlank() || because.isBlank()) {
            throw new IllegalArgumentException("a recording is taken away with its name and a reason");
        }
    }

    /** One sentence. */
    public String sentence() {
        return by.isBlank()
                ? "Recording %s was taken away: %s".formatted(recording, Words.sentence(because))
                : "Recording %s was taken away by %s: %s".formatted(recording, by.strip(), Words.sentence(because));
    }
}
