package org.steamwright.desk.text;

import java.text.DecimalFormatSymbols;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.report.language.Language;

/**
 * Figures and days as the reader's language writes them. A figure is rounded by whoever knows which side is the worse; here
 * it only gets its decimal mark.
 *
 * @param language of the reader
 */
public record Figures(Language language) {

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    /** Sign, whole digits (perhaps in groups of three with blanks between), one decimal mark with its digits, the rest. */
    private static final Pattern TYPED = Pattern.compile(
            "(?<sign>[-+\u2212]?)(?<whole>\\d{1,3}(?:[ \\u00a0\\u202f]\\d{3})+|\\d+)(?:(?<mark>[.,])(?<part>\\d+))?(?<rest>(?![\\d.,])[^,]*)?");

    /** A day by itself: no part of a name, a number or a moment. */
    private static final Pattern DAY =
            Pattern.compile("(?<![\\p{L}\\d_./-])\\d{4}-\\d{2}-\\d{2}(?![\\p{L}\\d_/-]|\\.[\\p{L}\\d]| \\d{1,2}:\\d)");

    /**
     * What somebody typed who writes figures in this language, as files and facts have it: with a decimal point, without
     * blanks between thousands. A unit behind the figure stays. Point and comma are both understood as the decimal mark,
     * unless they may be meant for thousands: then it is better to ask than to be wrong by a factor of a thousand.
     *
     * @return such as {@code 134.2 °C}; empty if it is no figure, has several marks, or has the other language's mark before
     *     exactly three digits, as {@code 1,234} in English
     */
    public Optional<String> typed(String text) {
        Matcher typed = TYPED.matcher(text.strip());
        if (!typed.matches()) {
            return Optional.empty();
        }
        String whole = typed.group("whole").replaceAll("\\D", "");
        String part = typed.group("part");
        String own = of(".");
        if (part != null
                && part.length() == 3
                && !whole.equals("0")
                && whole.length() <= 3
                && !typed.group("mark").equals(own)) {
            return Optional.empty();
        }
        String sign = typed.group("sign").replace('\u2212', '-');
        return Optional.of(sign + whole + (part == null ? "" : "." + part) + typed.group("rest"));
    }

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

    /** A month in words with its year. */
    public String month(YearMonth month) {
        return DateTimeFormatter.ofPattern("MMM yyyy", language.locale()).format(month);
    }

    /** A sentence whose days, written as {@code 2026-11-20}, are written as this reader reads days; names that hold digits stay. */
    public String daysIn(String sentence) {
        return DAY.matcher(sentence).replaceAll(found -> {
            try {
                return Matcher.quoteReplacement(day(LocalDate.parse(found.group())));
            } catch (DateTimeParseException noDay) {
                return Matcher.quoteReplacement(found.group());
            }
        });
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
