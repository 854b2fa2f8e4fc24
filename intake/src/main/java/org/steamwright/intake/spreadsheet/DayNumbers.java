package org.steamwright.intake.spreadsheet;

import java.time.LocalDate;

/**
 * Days and times as a workbook counts them: whole days since its first, the time of day as the fraction.
 *
 * <p>In the system of 1900, day 1 is 1900-01-01 and the 29 February 1900, which never was, is day 60; so days from 61 on
 * are one ahead of the calendar. In the system of 1904, day 0 is 1904-01-01.
 *
 * @source ISO/IEC 29500-1, 18.17.4.1 (dates), from memory
 */
final class DayNumbers {

    /** Steps to which times are rounded, in nanoseconds, from coarse to fine. */
    static final long[] STEPS = {1_000_000_000L, 100_000_000L, 10_000_000L, 1_000_000L};

    /**
     * How far a time may lie from its step because of sums of fractions, in seconds. A day number of today holds a
     * microsecond; ten thousand additions of a second lose a tenth of a millisecond.
     */
    static final double LOST_IN_SUMS_SECONDS = 4e-4;

    private static final double SECONDS_PER_DAY = 86_400;
    private static final long NANOS_PER_DAY = 86_400_000_000_000L;
    private static final LocalDate FIRST_OF_1900 = LocalDate.of(1899, 12, 31);
    private static final LocalDate FIRST_OF_1904 = LocalDate.of(1904, 1, 1);
    private static final double BEYOND = 2_958_466;

    private DayNumbers() {}

    /** Whether a number can be a day or a time at all: from 0 to the end of the year 9999. */
    static boolean isDay(double number) {
        return number >= 0 && number < BEYOND;
    }

    /**
     * The first day number that is taken for a date where a format shows the time of day only: 1970-01-01. Smaller ones
     * are elapsed days.
     */
    static int firstLikelyDate(boolean is1904) {
        return is1904 ? 24_107 : 25_569;
    }

    /**
     * Distance of a time of day from the nearest multiple of a step, in seconds.
     *
     * @param number a day number
     */
    static double off(double number, long stepNanos) {
        double seconds = (number - StrictMath.floor(number)) * SECONDS_PER_DAY;
        double step = stepNanos / 1e9;
        return Math.abs(seconds - StrictMath.rint(seconds / step) * step);
    }

    /** How far a day number may be from what it meant, by the decimals it was written with, in seconds. */
    static double lostInDecimals(int decimals) {
        return 0.5 * StrictMath.pow(10, -decimals) * SECONDS_PER_DAY;
    }

    /** A day as yyyy-MM-dd; the day that never was as such. */
    static String date(double number, boolean is1904) {
        return date((long) StrictMath.floor(number), is1904);
    }

    private static String date(long day, boolean is1904) {
        if (is1904) {
            return FIRST_OF_1904.plusDays(day).toString();
        }
        return day == 60
                ? "1900-02-29"
                : FIRST_OF_1900.plusDays(day > 60 ? day - 1 : day).toString();
    }

    /** Date and time as yyyy-MM-ddTHH:mm:ss with the digits of the step behind. */
    static String stamp(double number, boolean is1904, long stepNanos) {
        long day = (long) StrictMath.floor(number);
        long nanos = ofDay(number, stepNanos);
        return nanos < NANOS_PER_DAY
                ? date(day, is1904) + "T" + clock(0, nanos, stepNanos)
                : date(day + 1, is1904) + "T" + clock(0, 0, stepNanos);
    }

    /** Hours, minutes and seconds with the digits of the step behind; hours may exceed a day. */
    static String time(double number, long stepNanos) {
        return clock(24 * (long) StrictMath.floor(number), ofDay(number, stepNanos), stepNanos);
    }

    /** The time of day in nanoseconds, rounded; the whole day if the last step is rounded up. */
    private static long ofDay(double number, long stepNanos) {
        double seconds = (number - StrictMath.floor(number)) * SECONDS_PER_DAY;
        return ((long) StrictMath.rint(seconds * 1e9 / stepNanos)) * stepNanos;
    }

    private static String clock(long hoursBefore, long nanos, long stepNanos) {
        long seconds = nanos / 1_000_000_000L;
        StringBuilder clock = new StringBuilder(12);
        two(clock, hoursBefore + seconds / 3600).append(':');
        two(clock, seconds / 60 % 60).append(':');
        two(clock, seconds % 60);
        long step = 1_000_000_000L;
        long rest = nanos % step;
        for (int i = 0; step > stepNanos; i++) {
            if (i == 0) {
                clock.append('.');
            }
            step /= 10;
            clock.append((char) ('0' + rest / step));
            rest %= step;
        }
        return clock.toString();
    }

    private static StringBuilder two(StringBuilder clock, long number) {
        return number < 10 ? clock.append('0').append(number) : clock.append(number);
    }
}
