package org.steamwright.visit.qualification;

import java.util.List;

/**
 * The standing of one sterilizer's cycle in one qualification.
 *
 * @param kind which qualification
 * @param sterilizer key of the sterilizer
 * @param cycle name of the cycle
 * @param standing result
 * @param runNumbers all runs that belong to it, failed and invalid ones too
 * @param consecutivePasses length of the last unbroken row of passes
 * @param needed passes in a row that the criteria set asks for
 * @param sentence why, in plain words
 */
public record Qualification(
        Kind kind,
        String sterilizer,
        String cycle,
        Standing standing,
        List<Integer> runNumbers,
        int consecutivePasses,
        int needed,
        String sentence) {

    /** Qualifications that runs can prove. */
    public enum Kind {
        LEAK("Air leakage"),
        OPERATIONAL("Operational qualification (OQ)"),
        PERFORMANCE("Performance qualification (PQ)");

        private final String title;

        Kind(String title) {
            this.title = title;
        }

        public String title() {
            return title;
        }
    }

    /** How it stands. Only {@link #PASS} is a pass. */
    public enum Standing {
        PASS("pass"),
        FAIL("fail"),
        /** Too few valid runs to say. */
        INCOMPLETE("incomplete"),
        /** The runs pass, an indicator is not read yet. */
        AWAITED("awaited"),
        /** No run was made. */
        NOT_ASSESSED("not assessed");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    public Qualification {
        runNumbers = List.copyOf(runNumbers);
    }
}
