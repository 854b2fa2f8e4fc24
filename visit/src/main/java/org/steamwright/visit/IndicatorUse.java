package org.steamwright.visit;

import java.time.LocalDate;
import java.util.Optional;

/**
 * One biological indicator of a run, or its unexposed control.
 *
 * @param id on the tag
 * @param isControl whether it is the unexposed control of the lot
 * @param product kind of indicator in neutral words
 * @param lot lot number
 * @param expires last day of use; empty if not stated
 * @param population spores per carrier as stated; empty if not stated
 * @param position letter on the chamber plan; may be blank
 * @param grown whether growth was seen; empty while it is awaited
 * @param incubation start, end and temperature, in words; may be blank
 */
public record IndicatorUse(
        String id,
        boolean isControl,
        String product,
        String lot,
        Optional<LocalDate> expires,
        Optional<Double> population,
        String position,
        Optional<Boolean> grown,
        String incubation) {}
