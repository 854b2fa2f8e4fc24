package org.steamwright.assessment.criteria;

/**
 * Where a limit comes from and how sure that is.
 *
 * @param document title or number, such as 'EN 13060'; never blank
 * @param edition year or edition; may be empty
 * @param clause clause or table; may be empty
 * @param provenance how the value was obtained
 * @param confidence in the value
 * @param note anything a reader should know; may be empty
 */
public record Source(
        String document, String edition, String clause, Provenance provenance, Confidence confidence, String note) {

    /** How a value was obtained. */
    public enum Provenance {
        /** The text was seen. */
        SEEN("text seen"),
        /** A secondary page that quotes the text was seen. */
        SECONDARY("seen in a secondary source"),
        /** Computed here. */
        COMPUTED("computed"),
        /** Remembered; the text was not seen. */
        FROM_MEMORY("from memory, text not seen"),
        /** Done in the trade; no document is known. */
        COMMON_PRACTICE("common practice, no source"),
        /** Set by the user: instructions for use, contract, own quality system. */
        USER("set by the user"),
        /** A rule that this program sets itself; no data file can say so of its own. */
        PROGRAM_RULE("program rule");

        private final String words;

        Provenance(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }

        /** Whether a data file may say it of a value of its own. */
        public boolean isForFiles() {
            return this != PROGRAM_RULE;
        }
    }

    /** How sure the value is. */
    public enum Confidence {
        HIGH,
        MEDIUM,
        LOW
    }

    public Source {
        if (document.isBlank()) {
            throw new IllegalArgumentException("a limit without a source document");
        }
    }

    /** Document, edition and clause in one line. */
    public String citation() {
        StringBuilder text = new StringBuilder(document);
        if (!edition.isEmpty()) {
            text.append(':').append(edition);
        }
        if (!clause.isEmpty()) {
            text.append(", ").append(clause);
        }
        return text.toString();
    }
}
