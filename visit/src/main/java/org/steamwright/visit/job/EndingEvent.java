package org.steamwright.visit.job;

/**
 * Events that end a validity before its day.
 *
 * @source RACGP infection prevention guidelines, validation chapter (seen): validate again where any part was altered in a
 *     way that could affect the outcome, and for a new load configuration; the list itself is common practice, no source
 */
public enum EndingEvent {
    MOVED("moved to another place", true),
    REPAIRED("repaired, or a part exchanged that steam, pressure or control depend on", true),
    ADJUSTED("a sensor or a calibration adjusted", true),
    FIRMWARE("control board, firmware or cycle parameters changed", true),
    SUPPLY("water, drain or mains changed", true),
    TEST_FAILED("a leak, steam penetration or indicator test failed", true),
    LONG_STANDSTILL("out of use for long", true),
    NEW_LOAD("items, packaging or amounts that were not tested", false),
    NEW_CYCLE("a cycle that was not tested", false);

    private final String words;
    private final boolean endsAll;

    EndingEvent(String words, boolean endsAll) {
        this.words = words;
        this.endsAll = endsAll;
    }

    /** As printed. */
    public String words() {
        return words;
    }

    /** Whether nothing is covered after it; otherwise only the new thing is not. */
    public boolean endsAll() {
        return endsAll;
    }
}
