package org.steamwright.visit;

import java.time.LocalDate;
import java.time.Period;

/**
 * The one rule for the last day of a period, for what is valid so long and for what is due again so often: the same day of the
 * month, itself good. A visit on 25 November 2026 with twelve months is good to the end of 25 November 2027, and the next one on
 * that day is in time, as a weekly test of a Monday is on the next Monday. Where a month has no such day, its last day takes the
 * place.
 */
public final class LastDay {

    private LastDay() {}

    /** The last good day of so many months from a day on. */
    public static LocalDate after(LocalDate day, int months) {
        return after(day, Period.ofMonths(months));
    }

    /** The last good day of a period from a day on. */
    public static LocalDate after(LocalDate day, Period period) {
        return day.plus(period);
    }
}
