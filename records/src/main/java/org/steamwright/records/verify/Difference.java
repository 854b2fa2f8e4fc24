package org.steamwright.records.verify;

/**
 * Something that is not as it was kept.
 *
 * @param place what and where: journal entry 17, file ab…, issue …
 * @param text what was found and what was expected
 */
public record Difference(String place, String text) {

    @Override
    public String toString() {
        return place + ": " + text;
    }
}
