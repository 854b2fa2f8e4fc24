package org.steamwright.visit.register;

import java.time.Duration;
import java.time.LocalDate;

/**
 * A lot of indicators or test devices in the office's store.
 *
 * @param id stable, unique in the register
 * @param kind what it is
 * @param product as on the box, in words
 * @param number lot number as on the box
 * @param expires last day on which it may be used or read, in it
 * @param incubation after exposure until the final reading; zero where nothing is incubated
 */
public record Lot(String id, Kind kind, String product, String number, LocalDate expires, Duration incubation) {

    /** What a lot is. */
    public enum Kind {
        BIOLOGICAL("biological", "biological indicators"),
        CHEMICAL("chemical", "chemical indicators"),
        PENETRATION_DEVICE("penetration-device", "steam penetration test devices"),
        PACKAGING("packaging", "packaging");

        private final String word;
        private final String words;

        Kind(String word, String words) {
            this.word = word;
            this.words = words;
        }

        public String word() {
            return word;
        }

        public String words() {
            return words;
        }
    }

    public Lot {
        Ids.check("lot", id);
        if (incubation.isNegative()) {
            throw new IllegalArgumentException("lot " + id + ": an incubation of " + incubation);
        }
    }
}
