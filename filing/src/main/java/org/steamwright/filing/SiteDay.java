package org.steamwright.filing;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;

/** Days as they are counted where the steriliser stands. */
final class SiteDay {

    private SiteDay() {}

    /** The day of a visit; empty if none is stated, or something else. */
    static Optional<LocalDate> ofVisit(Subject visit) {
        try {
            return Optional.of(LocalDate.parse(visit.text("date")));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    /** The zone of a visit; that of the record while the visit states none. */
    static ZoneId zone(Subject visit, Records records) {
        try {
            return ZoneId.of(visit.text("zone"));
        } catch (DateTimeException noZone) {
            return records.clock().getZone();
        }
    }

    /** What day it is at the site of a visit. */
    static LocalDate today(Subject visit, Records records) {
        return LocalDate.ofInstant(records.clock().instant(), zone(visit, records));
    }
}
