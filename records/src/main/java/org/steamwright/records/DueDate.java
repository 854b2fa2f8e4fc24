package org.steamwright.records;

import java.time.LocalDate;
import java.util.Optional;

/**
 * Something that falls due on a sterilizer.
 *
 * @param sterilizer which
 * @param day when
 * @param reason which rule says so; one date for each reason
 * @param certainty how sure, in a word: fixed, forecast, …
 * @param note figures behind it, in words; may be blank
 * @param lateFrom first day on which it is overdue; empty if no day makes it so
 */
public record DueDate(
        SubjectId sterilizer,
        LocalDate day,
        String reason,
        String certainty,
        String note,
        Optional<LocalDate> lateFrom) {

    /** One that no day makes overdue. */
    public DueDate(SubjectId sterilizer, LocalDate day, String reason, String certainty, String note) {
        this(sterilizer, day, reason, certainty, note, Optional.empty());
    }
}
