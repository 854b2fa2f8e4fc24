package org.steamwright.records;

import java.util.Locale;

/** In what a subject was used by another, for reverse look-ups. */
public enum Use {
    CLINIC,
    SITE,
    STERILIZER,
    TECHNICIAN,
    INSTRUMENT,
    LOT,
    PART,
    CRITERIA_SET,
    ALGORITHM_VERSION,
    VISIT,
    AMENDED,
    FILE,
    SIMULATED,
    STANDING,
    ROOM;

    /** The word kept in the index. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
