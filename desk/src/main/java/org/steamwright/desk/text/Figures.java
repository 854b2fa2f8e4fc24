package org.steamwright.desk.text;

import java.text.DecimalFormatSymbols;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.steamwright.report.language.Language;

/**
 * Figures and days as the reader's language writes them. A figure is rounded by whoever knows which side is the worse; here
 * it only gets its decimal mark.
 *
 * @param language of the reader
 */
public record Figures(Language language) {

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    /** A figure that is already rounded, such as {@code 134.25}, with the decimal mark of the language. */
    public String of(String rounded) {
        return rounded.replace(
                '.', DecimalFormatSymbols.getInstance(language.locale()).getDecimalSeparator());
    }

    /** A day with the month in words, which nobody can mistake. */
    public String day(LocalDate day) {
        return DateTimeFormatter.ofPattern(
                        language == Language.GERMAN ? "d. MMM yyyy" : "d MMM yyyy", language.locale())
                .format(day);
    }

    /** Day, hours and minutes. */
    public String moment(ZonedDateTime moment) {
        return day(moment.toLocalDate()) + ", " + time(moment);
    }

    /** Hours and minutes. */
    public String time(ZonedDateTime moment) {
        return CLOCK.format(moment);
    }
}
