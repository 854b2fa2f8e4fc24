package org.steamwright.filing;

import java.util.Optional;

/**
 * One stated fact that became another.
 *
 * @param path of the fact
 * @param before value before; empty if there was none
 * @param after value after; empty if it was taken away
 */
public record ChangedFact(FactPath path, Optional<Object> before, Optional<Object> after) {

    /** The place in words, such as "run 2, barometer". */
    public String place() {
        return PlaceWords.of(path);
    }
}
