package org.steamwright.intake.folder;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import org.steamwright.intake.folder.Flaw.Sort;

/** Reads days, moments and zones. Written by hand, since the formatters of the platform cost a cold start more than the rest of the file. */
public final class Moments {

    private Moments() {}

    /** A day as year-month-day; empty after a problem was added. */
    static Optional<LocalDate> date(String text, Spot spot) {
        if (text.length() == 10 && text.charAt(4) == '-' && text.charAt(7) == '-') {
            try {
                return Optional.of(LocalDate.of(digits(text, 0, 4), digits(text, 5, 7), digits(text, 8, 10)));
            } catch (DateTimeException e) {
                // falls through to the problem below, which shows the text
            }
        }
        spot.problem(
                Mistake.NOT_A_DATE,
                Flaw.found(Sort.NOT_A_DAY, "found \"%s\", expected a day that exists as year-month-day.", text)
                        .with("Write for example: 2026-03-02"));
        return Optional.empty();
    }

    private static int digits(String text, int from, int to) {
        int value = 0;
        for (int i = from; i < to; i++) {
            char c = text.charAt(i);
            if (c < '0' || c > '9') {
                throw new DateTimeException(text);
            }
            value = value * 10 + (c - '0');
        }
        return value;
    }

    /** A zone by its IANA name, so that summer time is known; empty after a problem was added. */
    static Optional<ZoneId> zone(String text, Spot spot) {
        if (text.indexOf('/') > 0 || text.equals("UTC")) {
            try {
                return Optional.of(ZoneId.of(text));
            } catch (DateTimeException e) {
                // falls through to the problem below, which shows the text
            }
        }
        spot.problem(
                Mistake.NOT_A_ZONE,
                Flaw.found(
                                Sort.NOT_A_ZONE,
                                "found \"%s\", expected a time zone by its IANA name, which knows summer time.",
                                text)
                        .with("Write for example: " + "Australia/Adelaide."
                                + Nearest.didYouMean(
                                        text,
                                        ZoneId.getAvailableZoneIds().stream()
                                                .sorted()
                                                .toList())));
        return Optional.empty();
    }

    /** The zone of a logger's clock: a name, or a fixed offset for a clock that knows no summer time. */
    static Optional<ZoneId> clockZone(String text, Spot spot) {
        if (text.startsWith("+") || text.startsWith("-")) {
            try {
                return Optional.of(ZoneOffset.of(text));
            } catch (DateTimeException e) {
                spot.problem(
                        Mistake.NOT_A_ZONE,
                        Flaw.of(
                                "found \"" + text + "\", expected an offset of hours and minutes.",
                                "Write for example: +09:30"));
                return Optional.empty();
            }
        }
        return zone(text, spot);
    }

    /** A moment: with an offset as it is, without one on a clock in that zone; empty after a problem was added. */
    public static Optional<Instant> moment(String text, ZoneId zone, Spot spot) {
        String calm = text.replace(' ', 'T');
        try {
            int time = calm.indexOf('T');
            boolean hasOffset = calm.endsWith("Z") || calm.indexOf('+') > 0 || calm.indexOf('-', Math.max(time, 0)) > 0;
            if (time == 10 && hasOffset) {
                return Optional.of(OffsetDateTime.parse(calm).toInstant());
            }
            if (time == 10) {
                LocalDateTime local = LocalDateTime.parse(calm);
                int meanings = zone.getRules().getValidOffsets(local).size();
                if (meanings == 1) {
                    return Optional.of(local.atZone(zone).toInstant());
                }
                spot.problem(
                        Mistake.NOT_A_DATE,
                        Flaw.of(
                                "found \"" + text + "\", a time of day that the clocks in " + zone.getId()
                                        + (meanings == 0 ? " skipped" : " showed twice")
                                        + " that day, expected one moment.",
                                "Write its offset too, for example: " + local + "+00:00"));
                return Optional.empty();
            }
        } catch (DateTimeException e) {
            // falls through to the problem below, which shows the text
        }
        spot.problem(
                Mistake.NOT_A_DATE,
                Flaw.found(Sort.NOT_A_MOMENT, "found \"%s\", expected a moment as date and time.", text)
                        .with("Write for example: 2026-03-02T09:14:05 or 2026-03-02T09:14:05+10:30"));
        return Optional.empty();
    }
}
