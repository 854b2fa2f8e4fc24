package org.steamwright.visit.register;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;

/**
 * When a site works.
 *
 * @param workingDays of the week, in their order, at least one
 * @param closures in which nothing is sterilized
 */
public record Week(List<DayOfWeek> workingDays, List<Closure> closures) {

    /**
     * Monday to Friday, taken where a site says nothing.
     *
     * @source common practice, no source
     */
    public static final Week USUAL = new Week(
            List.of(DayOfWeek.MONDAY, DayOfWeek.TUESDAY, DayOfWeek.WEDNESDAY, DayOfWeek.THURSDAY, DayOfWeek.FRIDAY),
            List.of());

    /**
     * Days without work.
     *
     * @param from first day
     * @param until last day, in it
     */
    public record Closure(LocalDate from, LocalDate until) {
        public Closure {
            if (until.isBefore(from)) {
                throw new IllegalArgumentException("a closure from " + from + " until " + until);
            }
        }

        boolean covers(LocalDate day) {
            return !day.isBefore(from) && !day.isAfter(until);
        }
    }

    public Week {
        workingDays = workingDays.stream().distinct().sorted().toList();
        closures = List.copyOf(closures);
        if (workingDays.isEmpty()) {
            throw new IllegalArgumentException("a week without a working day");
        }
    }

    public boolean isWorkingDay(LocalDate day) {
        return workingDays.contains(day.getDayOfWeek()) && closures.stream().noneMatch(closure -> closure.covers(day));
    }

    /** Working days after one day and up to another, that one included; 0 if it is not later. */
    public long workingDays(LocalDate after, LocalDate upTo) {
        long count = 0;
        for (LocalDate day = after.plusDays(1); !day.isAfter(upTo); day = day.plusDays(1)) {
            if (isWorkingDay(day)) {
                count++;
            }
        }
        return count;
    }

    /** The so-many-th working day after a day; the day itself for 0. */
    public LocalDate later(LocalDate day, long workingDays) {
        LocalDate reached = day;
        for (long left = workingDays; left > 0; ) {
            reached = reached.plusDays(1);
            if (isWorkingDay(reached)) {
                left--;
            }
        }
        return reached;
    }
}
