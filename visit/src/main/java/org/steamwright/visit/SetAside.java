package org.steamwright.visit;

/**
 * Why a recorded run counts for nothing good. It keeps its number and stands in the report; a fail stays a fail.
 *
 * @param because reason; never blank
 * @param by who says so; may be blank
 */
public record SetAside(String because, String by) {

    public SetAside {
        if (because.isBlank()) {
            throw new IllegalArgumentException("a run is set aside with a reason");
        }
    }

    /** One sentence. */
    public String sentence() {
        return by.isBlank()
                ? "Set aside: %s".formatted(Words.sentence(because))
                : "Set aside by %s: %s".formatted(by.strip(), Words.sentence(because));
    }
}
