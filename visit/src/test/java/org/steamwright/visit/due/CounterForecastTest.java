package org.steamwright.visit.due;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Week;

class CounterForecastTest {

    static final LocalDate MONDAY = LocalDate.of(2026, 1, 5);

    static Counter counter(long... shownEachFourWeeks) {
        List<Counter.Reading> readings = new ArrayList<>();
        for (int i = 0; i < shownEachFourWeeks.length; i++) {
            readings.add(new Counter.Reading(MONDAY.plusWeeks(4L * i), shownEachFourWeeks[i], ""));
        }
        return new Counter(readings, List.of());
    }

    /** By hand: 20 working days in each stretch; 100 and 140 cycles; mean 6 a day; scatter (20² + 20²)/20/1 = 40. */
    @Test
    void agrees_with_an_example_by_hand() {
        Forecast.Expected expected =
                (Forecast.Expected) new CounterForecast(counter(1000, 1100, 1240), Week.USUAL).reach(1300);
        assertThat(expected.cyclesPerWorkingDay()).isEqualTo(6);
        assertThat(expected.day())
                .as("60 cycles at 6 a day are 10 working days")
                .isEqualTo(MONDAY.plusWeeks(10));
        // with Student's factor of one degree of freedom, 13.97: (60 - 6w)² = 7806·(w + w²/40) at w = 0.449
        assertThat(expected.earliest()).isEqualTo(MONDAY.plusWeeks(8).plusDays(1));
        assertThat(expected.latest())
                .as("two stretches that differ so much bound nothing")
                .isEmpty();
        assertThat(expected.readings()).isEqualTo(3);
    }

    @Test
    void counts_no_weekend_and_no_closure() {
        Week week = new Week(
                Week.USUAL.workingDays(),
                List.of(new Week.Closure(
                        MONDAY.plusWeeks(8).plusDays(1), MONDAY.plusWeeks(10).minusDays(1))));
        Forecast.Expected expected =
                (Forecast.Expected) new CounterForecast(counter(1000, 1100, 1200), week).reach(1250);
        assertThat(expected.day())
                .as("10 working days, and 9 closed ones that begin at once")
                .isEqualTo(MONDAY.plusWeeks(12).minusDays(3));
    }

    @Test
    void says_that_a_total_was_reached_and_by_which_reading() {
        assertThat(new CounterForecast(counter(1000, 1100, 1240), Week.USUAL).reach(1100))
                .isEqualTo(new Forecast.Reached(MONDAY.plusWeeks(4), 1100));
    }

    @Test
    void gives_no_date_with_too_few_readings() {
        assertThat(new CounterForecast(Counter.UNREAD, Week.USUAL).reach(1))
                .isEqualTo(new Forecast.NotKnown("only 0 counter readings, at least 3 are needed"));
        assertThat(new CounterForecast(counter(5), Week.USUAL).reach(10))
                .isEqualTo(new Forecast.NotKnown("only 1 counter reading, at least 3 are needed"));
        assertThat(new CounterForecast(counter(5, 9), Week.USUAL).reach(10)).isInstanceOf(Forecast.NotKnown.class);
    }

    @Test
    void gives_no_date_where_readings_lie_on_days_without_work() {
        List<Counter.Reading> readings = List.of(
                new Counter.Reading(MONDAY.plusDays(4), 10, ""),
                new Counter.Reading(MONDAY.plusDays(5), 12, ""),
                new Counter.Reading(MONDAY.plusDays(6), 14, ""));
        assertThat(new CounterForecast(new Counter(readings, List.of()), Week.USUAL).reach(100))
                .isEqualTo(new Forecast.NotKnown(
                        "fewer than 3 counter readings of different working days in the 400 days up to the last"));
    }

    @Test
    void gives_no_date_where_the_machine_stood_still_or_hardly_runs() {
        assertThat(new CounterForecast(counter(50, 50, 50), Week.USUAL).reach(51))
                .isEqualTo(new Forecast.NotKnown("no cycle was run between the counter readings of the last 400 days"));
        assertThat(new CounterForecast(counter(50, 51, 52), Week.USUAL).reach(1000))
                .isEqualTo(new Forecast.NotKnown("at the use seen so far it lies more than ten years ahead"));
    }

    @Test
    void foretells_up_to_ten_years_of_working_days_and_no_day_more() {
        CounterForecast forecast = new CounterForecast(counter(1000, 1100, 1200), Week.USUAL);
        assertThat(forecast.reach(1200 + 5 * 2500)).as("5 a day for 2500 days").isInstanceOf(Forecast.Expected.class);
        assertThat(forecast.reach(1200 + 5 * 2500 + 1)).isInstanceOf(Forecast.NotKnown.class);
    }

    /** Total by total the latest day moves on by less than a day, so that the last one that is told is the border itself. */
    @Test
    void tells_a_latest_day_up_to_ten_years_of_working_days() {
        Counter regular = counter(1000, 1100, 1200, 1300, 1400, 1500, 1600);
        CounterForecast forecast = new CounterForecast(regular, Week.USUAL);
        LocalDate last = regular.last().orElseThrow().on();
        long days = 0;
        for (long total = 1601; forecast.reach(total) instanceof Forecast.Expected expected; total++) {
            days = expected.latest()
                    .map(latest -> Week.USUAL.workingDays(last, latest))
                    .orElse(days);
        }
        assertThat(days).isEqualTo(2500);
    }

    @Test
    void of_a_counter_that_was_never_read_no_use_is_known() {
        assertThat(new CounterForecast(Counter.UNREAD, Week.USUAL).cyclesPerYear())
                .isEmpty();
        assertThat(new CounterForecast(counter(5, 9), Week.USUAL).cyclesPerYear())
                .isEmpty();
    }

    @Test
    void forgets_how_the_machine_was_used_years_ago() {
        List<Counter.Reading> readings = new ArrayList<>();
        readings.add(new Counter.Reading(MONDAY.minusYears(3), 0, ""));
        readings.add(new Counter.Reading(MONDAY.minusYears(2), 8_000, ""));
        readings.addAll(counter(20_000, 20_100, 20_200).readings());
        Forecast.Expected expected =
                (Forecast.Expected) new CounterForecast(new Counter(readings, List.of()), Week.USUAL).reach(20_300);
        assertThat(expected.cyclesPerWorkingDay()).isEqualTo(5);
    }

    @Test
    void tells_the_use_of_a_year() {
        assertThat(new CounterForecast(counter(1000, 1100, 1240), Week.USUAL)
                        .cyclesPerYear()
                        .orElseThrow())
                .as("6 a day on 261 working days")
                .isCloseTo(6 * 261, within(6.0));
    }

    /** How clinics may use a machine. */
    enum Habit {
        /** Every cycle begun by chance. */
        BY_CHANCE,
        /** Busy weeks and quiet weeks. */
        BUSY_AND_QUIET,
        /** The same number each working day. */
        REGULAR,
        /** Four days a week, by chance, board exchanged on the way. */
        FOUR_DAYS_AND_RESET
    }

    /** The interval holds the truth at least as often as it states: 95.45 %, less three standard deviations of the campaign. */
    @ParameterizedTest
    @EnumSource
    void the_interval_covers_the_truth_in_its_stated_share(Habit habit) {
        int runs = Math.max(1000, Integer.getInteger("campaign.runs", 1000));
        int inside = 0;
        int early = 0;
        int unbounded = 0;
        Random random = new Random(20_260_301L + habit.ordinal());
        for (int run = 0; run < runs; run++) {
            Clinic clinic = new Clinic(habit, random);
            Forecast.Expected expected =
                    (Forecast.Expected) new CounterForecast(clinic.counter(), clinic.week).reach(clinic.total);
            LocalDate truth = clinic.reached;
            early += truth.isBefore(expected.earliest()) ? 1 : 0;
            unbounded += expected.latest().isEmpty() ? 1 : 0;
            inside += !truth.isBefore(expected.earliest())
                            && expected.latest()
                                    .map(latest -> !truth.isAfter(latest))
                                    .orElse(true)
                    ? 1
                    : 0;
        }
        double share = inside / (double) runs;
        System.out.printf(
                java.util.Locale.ROOT,
                "%s: %d forecasts, truth inside %.1f %%, earlier %.1f %%, no latest day %.1f %%%n",
                habit,
                runs,
                100 * share,
                100.0 * early / runs,
                100.0 * unbounded / runs);
        assertThat(share).isGreaterThan(0.9545 - 3 * Math.sqrt(0.9545 * 0.0455 / runs));
        assertThat(unbounded / (double) runs)
                .as("an interval without an end is no feat")
                .isLessThan(0.2);
        if (habit == Habit.BUSY_AND_QUIET) {
            assertThat(share)
                    .as("where the floor does not help the interval is no wider than stated")
                    .isLessThan(0.985);
        }
    }

    /** A simulated clinic: a year of readings, then the day on which the truth reaches a total. */
    static final class Clinic {

        final Week week;
        final long total;
        final LocalDate reached;
        private final List<Counter.Reading> readings = new ArrayList<>();
        private final List<Counter.Reset> resets = new ArrayList<>();
        private final Habit habit;
        private final Random random;
        private final double mean;
        private double pace = 1;

        Clinic(Habit habit, Random random) {
            this.habit = habit;
            this.random = random;
            this.mean = 2 + 10 * random.nextDouble();
            this.week = habit == Habit.FOUR_DAYS_AND_RESET
                    ? new Week(
                            List.of(DayOfWeek.MONDAY, DayOfWeek.TUESDAY, DayOfWeek.THURSDAY, DayOfWeek.FRIDAY),
                            List.of())
                    : Week.USUAL;
            long shown = random.nextInt(20_000);
            long offset = 0;
            LocalDate day = LocalDate.of(2025, 1, 1);
            int count = 4 + random.nextInt(9);
            int resetAfter = 1 + random.nextInt(count - 1);
            readings.add(new Counter.Reading(day, shown, ""));
            for (int i = 1; i < count; i++) {
                LocalDate next = day.plusDays(14 + random.nextInt(14));
                shown += cycles(day, next);
                day = next;
                readings.add(new Counter.Reading(day, shown, ""));
                if (habit == Habit.FOUR_DAYS_AND_RESET && i == resetAfter) {
                    day = day.plusDays(1);
                    shown += cycles(day.minusDays(1), day);
                    resets.add(new Counter.Reset(day, shown, 0, "board exchanged"));
                    offset += shown;
                    shown = 0;
                }
            }
            LocalDate last = readings.get(readings.size() - 1).on();
            long then = readings.get(readings.size() - 1).shown()
                    + (day.equals(last) ? offset : offset - resets.get(0).before());
            this.total = then + Math.round(mean * (20 + random.nextInt(80)));
            long running = shown + offset;
            while (running < total) {
                day = day.plusDays(1);
                running += cycles(day.minusDays(1), day);
            }
            this.reached = day;
        }

        Counter counter() {
            return new Counter(readings, resets);
        }

        private long cycles(LocalDate after, LocalDate upTo) {
            long sum = 0;
            for (LocalDate day = after.plusDays(1); !day.isAfter(upTo); day = day.plusDays(1)) {
                if (day.getDayOfWeek() == DayOfWeek.MONDAY) {
                    pace = habit == Habit.BUSY_AND_QUIET ? 0.4 + 1.2 * random.nextDouble() : 1;
                }
                if (week.isWorkingDay(day)) {
                    sum += habit == Habit.REGULAR ? Math.round(mean) : chance(mean * pace);
                }
            }
            return sum;
        }

        private long chance(double expected) {
            double limit = Math.exp(-expected);
            double product = random.nextDouble();
            long count = 0;
            while (product > limit) {
                product *= random.nextDouble();
                count++;
            }
            return count;
        }
    }

    @Test
    void a_total_already_passed_is_never_foretold() {
        Optional<Counter.Total> last = counter(10, 20, 30).last();
        assertThat(last).isPresent();
        assertThat(new CounterForecast(counter(10, 20, 30), Week.USUAL).reach(30))
                .isInstanceOf(Forecast.Reached.class);
    }
}
