package org.steamwright.visit.register;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.visit.register.Counter.Reading;
import org.steamwright.visit.register.Counter.Reset;
import org.steamwright.visit.register.Counter.Total;

class CounterTest {

    static LocalDate day(String text) {
        return LocalDate.parse(text);
    }

    static Reading reading(String on, long shown) {
        return new Reading(day(on), shown, "photo");
    }

    @Test
    void adds_what_every_reset_took_away() {
        Counter counter = new Counter(
                List.of(
                        reading("2025-01-10", 4000),
                        reading("2025-03-10", 4311),
                        reading("2025-04-10", 95),
                        reading("2025-08-10", 20)),
                List.of(
                        new Reset(day("2025-03-12"), 4320, 0, "board exchanged"),
                        new Reset(day("2025-07-01"), 300, 5, "memory cleared")));
        assertThat(counter.totals())
                .containsExactly(
                        new Total(day("2025-01-10"), 4000),
                        new Total(day("2025-03-10"), 4311),
                        new Total(day("2025-04-10"), 4320 + 95),
                        new Total(day("2025-08-10"), 4320 + 295 + 20));
    }

    @Test
    void knows_both_readings_of_the_day_of_a_reset() {
        Counter counter = new Counter(
                List.of(reading("2025-03-12", 3), reading("2025-03-12", 4320)),
                List.of(new Reset(day("2025-03-12"), 4320, 0, "board exchanged")));
        assertThat(counter.totals())
                .containsExactly(new Total(day("2025-03-12"), 4320), new Total(day("2025-03-12"), 4323));
    }

    @Test
    void takes_a_counter_that_runs_over_its_last_digit_for_a_reset() {
        Counter counter = new Counter(
                List.of(reading("2025-01-10", 65_500), reading("2025-02-10", 40)),
                List.of(new Reset(day("2025-01-20"), 65_536, 0, "sixteen bits run over")));
        assertThat(counter.last()).contains(new Total(day("2025-02-10"), 65_576));
    }

    @Test
    void refuses_a_fall_without_a_reset() {
        assertThatIllegalArgumentException()
                .isThrownBy(
                        () -> new Counter(List.of(reading("2025-01-10", 4000), reading("2025-02-10", 12)), List.of()))
                .withMessage(
                        "the reading of 2025-02-10 stands below that of 2025-01-10, and no reset between them is known");
    }

    @Test
    void refuses_a_reset_from_less_than_was_seen() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Counter(
                        List.of(reading("2025-01-10", 4000)),
                        List.of(new Reset(day("2025-02-01"), 3900, 0, "board exchanged"))))
                .withMessage(
                        "the reset of 2025-02-01 goes from 3900, but the reading of 2025-01-10 shows 4000 already");
    }

    @Test
    void refuses_a_reset_without_evidence() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Reset(day("2025-02-01"), 3900, 0, " "))
                .withMessage("the reset of 2025-02-01 comes without evidence");
    }

    @Test
    void finds_the_reading_of_a_day_or_the_last_before_it() {
        Counter counter = new Counter(List.of(reading("2025-01-10", 100), reading("2025-02-10", 200)), List.of());
        assertThat(counter.upTo(day("2025-02-09"))).contains(new Total(day("2025-01-10"), 100));
        assertThat(counter.upTo(day("2025-02-10"))).contains(new Total(day("2025-02-10"), 200));
        assertThat(counter.upTo(day("2025-01-09"))).isEmpty();
    }
}
