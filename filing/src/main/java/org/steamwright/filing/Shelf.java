package org.steamwright.filing;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.steamwright.records.Kind;

/**
 * One list of the file of a register.
 *
 * @param key of the list
 * @param kind of its entries
 * @param known key by which an entry is known from elsewhere, and the fact that holds it
 */
record Shelf(String key, Kind kind, String known) {

    /** All but the reference instruments, which have a file of their own. */
    static final List<Shelf> ALL = List.of(
            new Shelf("clinics", Kind.CLINIC, "name"),
            new Shelf("sterilizers", Kind.STERILIZER, "serial"),
            new Shelf("technicians", Kind.TECHNICIAN, "name"),
            new Shelf("lots", Kind.LOT, "number"),
            new Shelf("parts", Kind.PART, "number"),
            new Shelf("testers", Kind.INSTRUMENT, "id"));

    static final Shelf CLINICS = ALL.get(0);
    static final Shelf STERILIZERS = ALL.get(1);
    static final Shelf TECHNICIANS = ALL.get(2);
    static final Shelf LOTS = ALL.get(3);
    static final Shelf TESTERS = ALL.get(5);
    static final Shelf INSTRUMENTS = new Shelf("instruments", Kind.INSTRUMENT, "id");
    static final Set<Shelf> OF_PLACES = Set.of(CLINICS, STERILIZERS);

    /** Begins the name of every fact that states a key of an entry. */
    static final String STATED = "stated/";

    /** Key by which an instrument that measures in runs is told from a tester. */
    private static final String MEASURES = "measures";

    /** The list of that key. */
    static Optional<Shelf> find(String key) {
        return Stream.concat(ALL.stream(), Stream.of(INSTRUMENTS))
                .filter(shelf -> shelf.key.equals(key))
                .findFirst();
    }

    /** Whether an entry of the record belongs to this list: instruments and testers are subjects of one kind. */
    boolean holds(Map<String, Object> entry) {
        return kind != Kind.INSTRUMENT || entry.containsKey(MEASURES) == equals(INSTRUMENTS);
    }

    /** Text of a key; blank if there is none. */
    static String text(Map<?, ?> entry, String key) {
        return entry.get(key) instanceof String text ? text : "";
    }
}
