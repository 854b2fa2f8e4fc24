package org.steamwright.visit.due;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/** Which day it is at a site. Passed in, never asked of a clock. */
@FunctionalInterface
public interface Today {

    LocalDate at(ZoneId zone);

    /** The same day everywhere. */
    static Today on(LocalDate day) {
        return zone -> day;
    }

    /** The day that each site has at a moment. */
    static Today of(Instant moment) {
        return zone -> moment.atZone(zone).toLocalDate();
    }
}
