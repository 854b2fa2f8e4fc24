package org.steamwright.visit;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A day by the clock of the site, with the time of day where somebody noted it.
 *
 * @param day at the site
 * @param time of that day, to the minute; empty if only the day was noted
 */
public record SiteMoment(LocalDate day, Optional<LocalTime> time) {

    private static final Pattern WRITTEN = Pattern.compile("(\\d{4}-\\d{2}-\\d{2})(?:[ T](\\d{2}:\\d{2}))?");

    /** A moment such as '2026-03-04' or '2026-03-04 16:05'; empty if it is not written so, or there is no such day. */
    public static Optional<SiteMoment> find(String text) {
        Matcher written = WRITTEN.matcher(text.strip());
        if (!written.matches()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new SiteMoment(
                    LocalDate.parse(written.group(1)),
                    Optional.ofNullable(written.group(2)).map(LocalTime::parse)));
        } catch (DateTimeException none) {
            return Optional.empty();
        }
    }

    /** Whether it lies before the other for sure: on the same day both have to have their time. */
    public boolean isBefore(SiteMoment other) {
        return day.isBefore(other.day)
                || (day.equals(other.day)
                        && time.isPresent()
                        && other.time.filter(time.get()::isBefore).isPresent());
    }

    /** As it is written: '2026-03-04 16:05'. */
    public String text() {
        return day + time.map(one -> " " + clock(one)).orElse("");
    }

    /** For people: '4 March 2026, 16:05'. */
    public String words() {
        return Words.day(day) + time.map(one -> ", " + clock(one)).orElse("");
    }

    private static String clock(LocalTime time) {
        return String.format(Locale.ROOT, "%02d:%02d", time.getHour(), time.getMinute());
    }
}
