package org.steamwright.records;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** The domain's rule by which due dates follow from facts; a pure function. */
@FunctionalInterface
public interface DueRule {

    /** Nothing ever falls due. */
    DueRule NONE = (sterilizer, visits) -> List.of();

    /**
     * Due dates of a sterilizer.
     *
     * @param sterilizer with its facts
     * @param visits those that name it in their fact {@code sterilizer}, newest first; none if {@link #isOfVisits} says no
     * @return at most one for each reason
     */
    List<DueDate> due(Subject sterilizer, List<Subject> visits);

    /**
     * The same where the clinics are known in whose rooms it stood or stands.
     *
     * @param sterilizer with its facts
     * @param visits those that name it in their fact {@code sterilizer}, newest first
     * @param clinics those that have one of the rooms that it names, in the order of their making
     */
    default List<DueDate> due(Subject sterilizer, List<Subject> visits, List<Subject> clinics) {
        return due(sterilizer, visits);
    }

    /**
     * Whether visits have a say. Where they have none, a save of one works out nothing anew, and {@link #due} is given no
     * visits.
     */
    default boolean isOfVisits() {
        return true;
    }

    /**
     * Day on which the first of what an instrument, a lot or a person of the office has ends, that day included; empty if nothing
     * of it ends.
     */
    default Optional<LocalDate> lapses(Subject subject) {
        return Optional.empty();
    }

    /** The moment at which the first of what a visit awaits is to be looked at; empty if it awaits nothing that has one. */
    default Optional<Instant> awaits(Subject visit) {
        return Optional.empty();
    }
}
