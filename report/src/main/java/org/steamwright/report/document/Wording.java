package org.steamwright.report.document;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.report.language.Sentence;

/** Dates, figures and terms as the report prints them. */
final class Wording {

    static final String SIMULATED = "SIMULATED – invented data, not evidence of a real machine";
    static final String NOT_STATED = "not stated";

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm:ss 'UTC'xxx", Locale.ENGLISH);

    private Wording() {}

    static String day(LocalDate date) {
        return DAY.format(date);
    }

    /** Start and end in local time with the offset from UTC; the day once if both share it. */
    static String fromTo(Instant start, double fromSeconds, double toSeconds, ZoneId zone) {
        Instant from = start.plus(Duration.ofMillis(Math.round(fromSeconds * 1000)));
        Instant to = start.plus(Duration.ofMillis(Math.round(toSeconds * 1000)));
        boolean sameDay = from.atZone(zone).toLocalDate().equals(to.atZone(zone).toLocalDate());
        return Sentence.of(
                "%s to %s (%s)",
                moment(from.atZone(zone)),
                sameDay ? TIME.format(to.atZone(zone)) : moment(to.atZone(zone)),
                zone.getId());
    }

    private static String moment(ZonedDateTime at) {
        return join(", ", DAY.format(at), TIME.format(at));
    }

    static String orNotStated(String text) {
        return text.isBlank() ? NOT_STATED : text;
    }

    /** Those of the parts that say something, with a separator between them. */
    static String join(String separator, String... parts) {
        return Sentence.list(separator, parts);
    }

    static String number(Optional<Double> value, int decimals, String unit) {
        return value.map(v -> Figures.nearest(v, decimals) + " " + unit).orElse(NOT_STATED);
    }

    /** A setting as it was stated, without added or lost decimals. */
    static String plain(double value) {
        return Figures.plain(Figures.cleaned(value), Unit.COUNT);
    }

    static String role(ChannelRole role) {
        return switch (role) {
            case REFERENCE_POINT -> "reference point";
            case FREE_CHAMBER -> "free chamber";
            case LOAD -> "load";
            case CHALLENGE_PACK -> "challenge pack";
            case PRESSURE -> "pressure";
            case THEORETICAL -> "theoretical temperature";
            case AMBIENT -> "ambient air";
        };
    }

    static String confidence(Source.Confidence confidence) {
        return switch (confidence) {
            case HIGH -> "sure";
            case MEDIUM -> "fairly sure";
            case LOW -> "not sure";
        };
    }

    /** How a source is cited beside a value. */
    static String cite(Source source) {
        boolean nameless = source.provenance() == Source.Provenance.COMMON_PRACTICE
                && source.document().equalsIgnoreCase("common practice");
        return nameless
                ? source.provenance().words()
                : join(" – ", source.citation(), source.provenance().words());
    }

    static String count(int number, String one, String many) {
        return Sentence.of(number == 1 ? one : many, number);
    }
}
