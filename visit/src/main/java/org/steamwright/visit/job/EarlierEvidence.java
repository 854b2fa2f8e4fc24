package org.steamwright.visit.job;

import java.time.LocalDate;
import java.util.OptionalInt;

/**
 * Good evidence from before this visit: where a look-back may begin.
 *
 * @param sterilizer key
 * @param kind of evidence
 * @param on day
 * @param cycle number of the steriliser at that time; empty if not known
 * @param reference report, log book page or test by which it can be found; never blank
 */
public record EarlierEvidence(String sterilizer, Kind kind, LocalDate on, OptionalInt cycle, String reference) {

    /** Kinds of evidence, each with its own last good day. */
    public enum Kind {
        AIR_LEAKAGE("air leakage"),
        STEAM_PENETRATION("steam penetration"),
        BIOLOGICAL("biological indicators"),
        THERMOMETRIC("thermometric test with a load"),
        INDICATION("the steriliser's own indication"),
        SAFETY("electrical and pressure safety");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public EarlierEvidence {
        if (reference.isBlank()) {
            throw new IllegalArgumentException("earlier evidence names where it can be found");
        }
    }
}
