package org.steamwright.intake.certificate;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * A thing that was calibrated.
 *
 * @param id by which results of the file refer to it; may be blank
 * @param name in words
 * @param maker may be blank
 * @param model may be blank
 * @param identifications serial numbers, the customer's number and others
 */
public record CalibratedItem(String id, String name, String maker, String model, List<Identification> identifications) {

    public CalibratedItem {
        identifications = List.copyOf(identifications);
    }

    /** Whether somebody means this item by that word: one of its numbers, its id in the file, or its name. */
    boolean isCalled(String word) {
        String wanted = plain(word);
        return plain(id).equals(wanted)
                || plain(name).equals(wanted)
                || identifications.stream().anyMatch(one -> plain(one.value()).equals(wanted));
    }

    private static String plain(String text) {
        return text.strip().toLowerCase(Locale.ROOT);
    }

    @Override
    public String toString() {
        String numbers = identifications.stream().map(Identification::toString).collect(Collectors.joining(", "));
        return numbers.isEmpty() ? name : name + " (" + numbers + ")";
    }
}
