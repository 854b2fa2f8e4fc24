package org.steamwright.records;

import java.time.Instant;
import java.util.Optional;

/**
 * A visit that still wants something.
 *
 * @param visit of the record
 * @param isInterim whether it is out as an interim report; else it is not signed yet
 * @param day of the visit, as stated; blank if none is stated that can be ordered
 * @param awaits moment at which the first of what it awaits is to be looked at, by the domain's rule; empty if there is none
 */
public record AheadVisit(SubjectId visit, boolean isInterim, String day, Optional<Instant> awaits) {}
