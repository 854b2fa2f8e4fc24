package org.steamwright.desk.text;

import java.text.DateFormatSymbols;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.steamwright.report.language.Language;

/**
 * A day as somebody types it: in figures the long way round, as files have it, or day, month and year as the language writes
 * them. Figures alone in English are not guessed, because half of its readers put the month first.
 */
public final class TypedDay {

    private static final Pattern FIGURES = Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})");
    private static final Pattern POINTS = Pattern.compile("(\\d{1,2})\\. ?(\\d{1,2})\\. ?(\\d{4})");
    private static final Pattern STROKES = Pattern.compile("(\\d{1,2})/(\\d{1,2})/(\\d{4})");
    private static final Pattern WORDS = Pattern.compile("(\\d{1,2})(?:\\.|er|st|nd|rd|th)? (\\p{L}{3,})\\.? (\\d{4})");
    private static final Pattern MONTH_FIRST = Pattern.compile("(\\p{L}{3,})\\.? (\\d{1,2}), ?(\\d{4})");

    private TypedDay() {}

    /** The day that was meant; empty if it is none of the calendar or may be another one. */
    public static Optional<LocalDate> of(String typed, Language language) {
        String text = typed.strip().replaceAll("[\\s\\u00a0\\u202f]+", " ");
        Matcher figures = FIGURES.matcher(text);
        if (figures.matches()) {
            return day(figures.group(1), Integer.parseInt(figures.group(2)), figures.group(3));
        }
        Matcher words = WORDS.matcher(text);
        if (words.matches()) {
            return inWords(words.group(3), words.group(2), words.group(1), language);
        }
        Matcher first = MONTH_FIRST.matcher(text);
        if (first.matches()) {
            return inWords(first.group(3), first.group(1), first.group(2), language);
        }
        Matcher points = POINTS.matcher(text);
        if (language != Language.ENGLISH && points.matches()) {
            return day(points.group(3), Integer.parseInt(points.group(2)), points.group(1));
        }
        Matcher strokes = STROKES.matcher(text);
        return language == Language.FRENCH && strokes.matches()
                ? day(strokes.group(3), Integer.parseInt(strokes.group(2)), strokes.group(1))
                : Optional.empty();
    }

    private static Optional<LocalDate> inWords(String year, String month, String day, Language language) {
        OptionalInt number = month(month, language.locale());
        return number.isPresent() ? day(year, number.getAsInt(), day) : Optional.empty();
    }

    /** Number of the only month whose name begins so. */
    private static OptionalInt month(String begin, Locale locale) {
        String[] names = DateFormatSymbols.getInstance(locale).getMonths();
        int[] fitting = IntStream.range(0, 12)
                .filter(i -> names[i].toLowerCase(locale).startsWith(begin.toLowerCase(locale)))
                .toArray();
        return fitting.length == 1 ? OptionalInt.of(fitting[0] + 1) : OptionalInt.empty();
    }

    private static Optional<LocalDate> day(String year, int month, String day) {
        try {
            return Optional.of(LocalDate.of(Integer.parseInt(year), month, Integer.parseInt(day)));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }
}
