package org.steamwright.assessment.verdict;

/** What a run is meant to show. */
public enum TestKind {
    /** Thermometric test of the empty chamber (operational qualification). */
    EMPTY_CHAMBER("empty chamber", "OQ"),
    /** Thermometric test with the reference load and challenge pack (performance qualification). */
    LOADED("reference load", "PQ"),
    /** Air leakage test under vacuum. */
    LEAK("air leakage", "OQ");

    private final String words;
    private final String qualification;

    TestKind(String words, String qualification) {
        this.words = words;
        this.qualification = qualification;
    }

    public String words() {
        return words;
    }

    /** The qualification it belongs to: OQ or PQ. */
    public String qualification() {
        return qualification;
    }
}
