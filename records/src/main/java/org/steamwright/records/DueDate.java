package org.steamwright.records;

import java.time.LocalDate;

/**
 * Something that falls due on a sterilizer.
 *
 * @param sterilizer which
 * @param day when
 * @param reason which rule says so; one date for each reason
 * @param certainty how sure, in a word: fixed, forecast, …
 * @param note figures behind it, in words; may be blank
 */
public record DueDate(SubjectId sterilizer, LocalDate day, String reason, String certainty, String note) {}
