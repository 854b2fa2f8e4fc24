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
    ROOM,
    /** Key with which something was signed. */
    SIGNED_WITH,
    /** What somebody bears: see {@link #IN_USE}. */
    BEARS;

    /** A key with which its bearer could sign now. */
    public static final String IN_USE = "key in use";

    /** The word kept in the index. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
