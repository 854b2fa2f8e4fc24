package org.steamwright.records;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;

/**
 * Where a page of the due list begins.
 *
 * @param from how many entries stand before it
 * @param at the entry it begins with, or the first after it if that one is gone; with it a page deep in the list is found as
 *     quickly as the first. Empty: counted from the beginning.
 */
public record DueStart(long from, Optional<At> at) {

    /** The first page. */
    public static final DueStart FIRST = new DueStart(0, Optional.empty());

    private static final int PARTS = 3;

    /** An entry, by what the list is ordered by. */
    public record At(LocalDate day, SubjectId sterilizer, String reason) {

        /** One text, for an address. */
        public String text() {
            return day + "_" + sterilizer + "_" + reason;
        }

        /** Reads {@link #text}; empty if it is none. */
        public static Optional<At> parse(String text) {
            String[] parts = text.split("_", PARTS);
            if (parts.length < PARTS) {
                return Optional.empty();
            }
            try {
                return Optional.of(new At(LocalDate.parse(parts[0]), SubjectId.parse(parts[1]), parts[2]));
            } catch (DateTimeException | IllegalArgumentException somethingElse) {
                return Optional.empty();
            }
        }

        /** The entry that something is. */
        public static At of(DueDate entry) {
            return new At(entry.day(), entry.sterilizer(), entry.reason());
        }
    }

    /** Begins so many entries into the list, and is looked for by counting. */
    public static DueStart counted(long from) {
        return new DueStart(from, Optional.empty());
    }

    /** Whether nothing stands before it. */
    public boolean isFirst() {
        return from == 0;
    }

    /** The page that begins with an entry, which stands so many behind this one. */
    public DueStart later(int entries, At next) {
        return new DueStart(from + entries, Optional.of(next));
    }
}
