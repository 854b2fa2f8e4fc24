package org.steamwright.visit.register;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The cycle counter of a sterilizer over the years: what it showed, and when it was set back or exchanged.
 *
 * <p>Cycles since the first reading began are the shown figure plus what every reset before it took away. A reading on the
 * day of a reset counts as taken before it if it is nearer to the figure before the reset than to the one after.
 *
 * @param readings sorted here by day
 * @param resets sorted here by day
 */
public record Counter(List<Reading> readings, List<Reset> resets) {

    /** A counter that was never read. */
    public static final Counter UNREAD = new Counter(List.of(), List.of());

    /**
     * What the counter showed.
     *
     * @param on day at the site
     * @param shown figure on the display, never negative
     * @param evidence photo, report or name; may be blank
     */
    public record Reading(LocalDate on, long shown, String evidence) {
        public Reading {
            if (shown < 0) {
                throw new IllegalArgumentException("a counter shows no negative figure, found " + shown);
            }
        }
    }

    /**
     * The counter began anew: board exchanged, memory cleared, last digit run over.
     *
     * @param on day at the site
     * @param before figure shown last
     * @param after figure shown first
     * @param evidence why and by what it is known; never blank, for years of cycles hang on it
     */
    public record Reset(LocalDate on, long before, long after, String evidence) {
        public Reset {
            if (before < 0 || after < 0) {
                throw new IllegalArgumentException(
                        "a counter shows no negative figure, found a reset from " + before + " to " + after);
            }
            if (evidence.isBlank()) {
                throw new IllegalArgumentException("the reset of " + on + " comes without evidence");
            }
        }
    }

    /**
     * A reading with the resets before it added up.
     *
     * @param on day of the reading
     * @param cycles since the counter first stood at nought
     */
    public record Total(LocalDate on, long cycles) {}

    public Counter {
        readings = readings.stream()
                .sorted(Comparator.comparing(Reading::on).thenComparing(Reading::shown))
                .toList();
        resets = resets.stream().sorted(Comparator.comparing(Reset::on)).toList();
        check(readings, resets);
    }

    private static void check(List<Reading> readings, List<Reset> resets) {
        for (int i = 0; i < resets.size(); i++) {
            Reset reset = resets.get(i);
            for (Reading reading : readings) {
                boolean isAfterEarlier = i == 0 || !isBefore(reading, resets.get(i - 1));
                if (isAfterEarlier && isBefore(reading, reset) && reading.shown() > reset.before()) {
                    throw new IllegalArgumentException(
                            "the reset of %s goes from %s, but the reading of %s shows %s already"
                                    .formatted(reset.on(), reset.before(), reading.on(), reading.shown()));
                }
            }
        }
        List<Total> totals = totals(readings, resets);
        for (int i = 1; i < totals.size(); i++) {
            if (totals.get(i).cycles() < totals.get(i - 1).cycles()) {
                throw new IllegalArgumentException(
                        "the reading of %s stands below that of %s, and no reset between them is known"
                                .formatted(totals.get(i).on(), totals.get(i - 1).on()));
            }
        }
    }

    private static boolean isBefore(Reading reading, Reset reset) {
        return reading.on().isBefore(reset.on())
                || (reading.on().equals(reset.on())
                        && Math.abs(reading.shown() - reset.before()) < Math.abs(reading.shown() - reset.after()));
    }

    private static long offset(Reading reading, List<Reset> resets) {
        long offset = 0;
        for (Reset reset : resets) {
            if (!isBefore(reading, reset)) {
                offset += reset.before() - reset.after();
            }
        }
        return offset;
    }

    private static List<Total> totals(List<Reading> readings, List<Reset> resets) {
        List<Total> totals = new ArrayList<>();
        for (Reading reading : readings) {
            totals.add(new Total(reading.on(), reading.shown() + offset(reading, resets)));
        }
        totals.sort(Comparator.comparing(Total::on).thenComparing(Total::cycles));
        return totals;
    }

    /** All readings through the resets, in their order. */
    public List<Total> totals() {
        return totals(readings, resets);
    }

    /** The last reading through the resets. */
    public Optional<Total> last() {
        List<Total> totals = totals();
        return totals.isEmpty() ? Optional.empty() : Optional.of(totals.get(totals.size() - 1));
    }

    /** The last reading through the resets up to a day, that day included. */
    public Optional<Total> upTo(LocalDate day) {
        return totals().stream().filter(total -> !total.on().isAfter(day)).reduce((earlier, later) -> later);
    }

    /** The first reading at or above a total. */
    public Optional<Total> firstAtLeast(long cycles) {
        return totals().stream().filter(total -> total.cycles() >= cycles).findFirst();
    }
}
