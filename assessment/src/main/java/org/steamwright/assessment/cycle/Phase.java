package org.steamwright.assessment.cycle;

/**
 * A phase of the cycle.
 *
 * @param kind which
 * @param fromSeconds begin, seconds from the start of the run
 * @param toSeconds end
 */
public record Phase(Kind kind, double fromSeconds, double toSeconds) {

    /** Kinds of phases, in their order. */
    public enum Kind {
        AIR_REMOVAL("air removal"),
        CONDITIONING("conditioning"),
        HEATING("heating"),
        PLATEAU("plateau"),
        EXHAUST("exhaust"),
        DRYING("drying");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }
}
