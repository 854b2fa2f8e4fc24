package org.steamwright.report.language;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.time.format.ResolverStyle;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/** Days with the month as a word, so that none can be taken for another. */
final class Days {

    private static final Pattern DAY = Pattern.compile("\\d{1,2} [A-Z][a-z]{2,8} \\d{4}");
    private static final DateTimeFormatter ENGLISH =
            DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH).withResolverStyle(ResolverStyle.STRICT);

    private Days() {}

    /** A day such as 1 March 2026 as the language writes it; empty if the text is no day. */
    static Optional<String> say(String english, Language language) {
        if (!DAY.matcher(english).matches()) {
            return Optional.empty();
        }
        try {
            LocalDate day = LocalDate.parse(english, ENGLISH);
            return Optional.of(
                    switch (language) {
                        case ENGLISH -> english;
                        case GERMAN -> format("d. MMMM uuuu", language, day);
                        case FRENCH ->
                            format(day.getDayOfMonth() == 1 ? "d'er' MMMM uuuu" : "d MMMM uuuu", language, day);
                    });
        } catch (DateTimeParseException noSuchDay) {
            return Optional.empty();
        }
    }

    private static String format(String pattern, Language language, LocalDate day) {
        return DateTimeFormatter.ofPattern(pattern, language.locale()).format(day);
    }
}
