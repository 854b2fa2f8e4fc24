package org.steamwright.visit.register;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A spare part that the office keeps.
 *
 * @param id stable, unique in the register
 * @param name in words
 * @param number the maker's part number; may be blank
 * @param families model families or models it fits; none stands for every one
 * @param duties at which it is exchanged by interval; none for parts taken along by condition
 * @param stock pieces in store; empty if not counted
 * @param shelfLife last day on which it may be fitted; empty if it does not age
 */
public record Part(
        String id,
        String name,
        String number,
        List<String> families,
        List<Duty> duties,
        OptionalInt stock,
        Optional<LocalDate> shelfLife) {

    public Part {
        Ids.check("part", id);
        families = List.copyOf(families);
        duties = List.copyOf(duties);
    }

    /** Whether it fits such a machine. */
    public boolean fits(SterilizerRecord.Identity machine) {
        return families.isEmpty()
                || families.stream()
                        .map(one -> one.toLowerCase(Locale.ROOT))
                        .anyMatch(one -> one.equals(machine.family().toLowerCase(Locale.ROOT))
                                || one.equals(machine.model().toLowerCase(Locale.ROOT)));
    }
}
