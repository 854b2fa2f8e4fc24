package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DayNumbersTest {

    private static final long SECOND = DayNumbers.STEPS[0];

    @ParameterizedTest(name = "{0} is {1}")
    @CsvSource({
        "1,     1900-01-01, the first day",
        "59,    1900-02-28, the last day before the error",
        "60,    1900-02-29, the day that never was is told as it was counted",
        "61,    1900-03-01, from here one ahead of the calendar",
        "25569, 1970-01-01, the day that other clocks count from",
        "36526, 2000-01-01, ",
        "46083, 2026-03-02, ",
        "2958465, 9999-12-31, the last day"
    })
    void counts_from_1900_with_a_day_that_never_was(double number, String date, String why) {
        assertThat(DayNumbers.date(number, false)).as(why).isEqualTo(date);
    }

    @Test
    void counts_from_1904_without_it() {
        assertThat(DayNumbers.date(0, true)).isEqualTo("1904-01-01");
        assertThat(DayNumbers.date(46083 - 1462, true)).isEqualTo("2026-03-02");
        assertThat(DayNumbers.date(DayNumbers.firstLikelyDate(true), true)).isEqualTo("1970-01-01");
        assertThat(DayNumbers.date(DayNumbers.firstLikelyDate(false), false)).isEqualTo("1970-01-01");
    }

    @Test
    void every_day_from_march_1900_on_agrees_with_the_calendar() {
        LocalDate zero = LocalDate.of(1899, 12, 30);
        for (int day = 61; day < 100_000; day++) {
            assertThat(DayNumbers.date(day, false)).isEqualTo(zero.plusDays(day).toString());
            assertThat(ChronoUnit.DAYS.between(LocalDate.of(1904, 1, 1), zero.plusDays(day)))
                    .isEqualTo(day - 1462);
        }
    }

    @Test
    void every_second_of_a_day_comes_back() {
        for (int second = 0; second < 86_400; second++) {
            String expected = "2026-03-02T%02d:%02d:%02d".formatted(second / 3600, second / 60 % 60, second % 60);
            assertThat(DayNumbers.stamp(46083 + second / 86_400.0, false, SECOND))
                    .isEqualTo(expected);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "46083.999999,       1000000000, 2026-03-03T00:00:00,     rounded up over midnight",
        "46083.375,          1000000,    2026-03-02T09:00:00.000, with the digits of the step",
        "46083.3750028935,   10000000,   2026-03-02T09:00:00.25,  a quarter of a second",
        "46083.3750028935,   100000000,  2026-03-02T09:00:00.2,   half of a step goes to the even one",
        "0.5,                1000000000, 1899-12-31T12:00:00,     before the first day"
    })
    void rounds_to_the_step(double number, long step, String stamp, String why) {
        assertThat(DayNumbers.stamp(number, false, step)).as(why).isEqualTo(stamp);
    }

    @Test
    void hours_go_on_beyond_a_day() {
        assertThat(DayNumbers.time(0, SECOND)).isEqualTo("00:00:00");
        assertThat(DayNumbers.time(1.5, SECOND)).isEqualTo("36:00:00");
        assertThat(DayNumbers.time(100, SECOND)).isEqualTo("2400:00:00");
        assertThat(DayNumbers.time(0.999999999, SECOND)).isEqualTo("24:00:00");
    }

    @Test
    void what_is_no_day_is_told_so() {
        assertThat(DayNumbers.isDay(0)).isTrue();
        assertThat(DayNumbers.isDay(-0.5)).isFalse();
        assertThat(DayNumbers.isDay(2_958_466)).isFalse();
        assertThat(DayNumbers.isDay(Double.NaN)).isFalse();
    }
}
