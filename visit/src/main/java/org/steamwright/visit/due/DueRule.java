package org.steamwright.visit.due;

import java.time.Period;
import java.util.Optional;
import java.util.OptionalLong;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.register.Duty;

/**
 * How often a duty comes back. A rule with a time and a count asks for whichever comes first.
 *
 * @param id word, unique in its set; a rule of the same id in a set built on another replaces the other's
 * @param duty what comes back
 * @param every time after which it does, the last day of it being the day by which it is done; empty if only cycles count
 * @param cycles after which it does; empty if only time counts
 * @param fromCyclesPerYear the rule holds only for machines used at least so much; empty holds for every one
 * @param tolerance how long after its day a duty is not yet called overdue; zero unless the source grants it
 * @param isOnlyIfRecorded whether it holds only where the register has the duty done at least once
 * @param isOnlyForVacuum whether it holds only where a cycle in use draws a vacuum
 * @param source where it comes from
 */
public record DueRule(
        String id,
        Duty duty,
        Optional<Period> every,
        OptionalLong cycles,
        OptionalLong fromCyclesPerYear,
        Period tolerance,
        boolean isOnlyIfRecorded,
        boolean isOnlyForVacuum,
        Source source) {

    public DueRule {
        if (every.isEmpty() && cycles.isEmpty()) {
            throw new IllegalArgumentException("rule " + id + " has neither a time nor a count");
        }
        if (every.isPresent() && (every.get().isZero() || every.get().isNegative())) {
            throw new IllegalArgumentException("rule " + id + ": every " + every.get());
        }
        if (cycles.isPresent() && cycles.getAsLong() < 1) {
            throw new IllegalArgumentException("rule " + id + ": every " + cycles.getAsLong() + " cycles");
        }
        if (tolerance.isNegative()) {
            throw new IllegalArgumentException("rule " + id + ": a tolerance of " + tolerance);
        }
    }
}
