package org.steamwright.records;

import java.time.LocalDate;

/**
 * Something of the office that ends.
 *
 * @param subject instrument, lot or person
 * @param day on which the first of it ends, that day included, by the domain's rule; {@link #NOT_STATED} if none is stated
 */
public record AheadLapse(SubjectId subject, LocalDate day) {

    /** Stands for a day that is not stated; asked for with every span. */
    public static final LocalDate NOT_STATED = LocalDate.of(1, 1, 1);

    /**
     * Days that are asked for, all of them included.
     *
     * @param since first day for instruments and people
     * @param lotsSince first day for lots, not before the other: nobody takes away what was used up
     * @param until last day
     */
    public record Span(LocalDate since, LocalDate lotsSince, LocalDate until) {
        public Span {
            if (lotsSince.isBefore(since)) {
                throw new IllegalArgumentException("lots since %s, all else since %s".formatted(lotsSince, since));
            }
        }
    }
}
