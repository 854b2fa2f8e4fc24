package org.steamwright.visit.failure;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Days as letters say them: the month in letters, so that no reader takes it for the day. */
final class Days {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

    private Days() {}

    static String words(LocalDate day) {
        return DAY.format(day);
    }
}
