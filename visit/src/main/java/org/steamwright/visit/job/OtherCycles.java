package org.steamwright.visit.job;

/**
 * Cycles of the steriliser between arrival and departure that are no test run, by its own cycle numbers.
 *
 * @param sterilizer key
 * @param first number, itself meant
 * @param last number, itself meant; the same for one cycle
 * @param kind what they were
 * @param note in words; needed where the kind does not say enough
 */
public record OtherCycles(String sterilizer, int first, int last, Kind kind, String note) {

    /** What a cycle was that is no test run. */
    public enum Kind {
        WARM_UP("warm-up"),
        OWN_TEST("the steriliser's own test"),
        SERVICE("made during the service"),
        CLINIC("load of the clinic"),
        STOPPED("stopped"),
        FAILED("failed"),
        OTHER("other");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }

        private boolean needsNote() {
            return this == STOPPED || this == FAILED || this == OTHER;
        }
    }

    public OtherCycles {
        if (first < 0 || last < first) {
            throw new IllegalArgumentException("cycle numbers from %s to %s".formatted(first, last));
        }
        if (kind.needsNote() && note.isBlank()) {
            throw new IllegalArgumentException(
                    "a cycle of the kind '%s' without a note that says why".formatted(kind.words()));
        }
    }

    /** Whether it covers that number. */
    public boolean covers(int number) {
        return first <= number && number <= last;
    }

    /** 'cycle 12, warm-up' or 'cycles 12 to 14, warm-up', with the note. */
    public String words() {
        return (first == last ? "cycle " + first : "cycles %s to %s".formatted(first, last))
                + ", "
                + kind.words()
                + (note.isBlank() ? "" : ": " + note.strip());
    }
}
