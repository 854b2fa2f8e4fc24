package org.steamwright.assessment.alignment;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ClockCheckTest {

    static final Instant MORNING = Instant.parse("2026-03-02T08:00:00Z");
    static final Instant EVENING = Instant.parse("2026-03-02T16:00:00Z");

    static ClockReading reading(Instant reference, double fast) {
        return new ClockReading(reference.plusMillis(Math.round(fast * 1000)), 1, reference, 1);
    }

    static ClockCheck both(double fastBefore, double fastAfter) {
        return new ClockCheck(Optional.of(reading(MORNING, fastBefore)), Optional.of(reading(EVENING, fastAfter)));
    }

    @ParameterizedTest(name = "fast by {0} then {1}: {3} at hour {2}")
    @CsvSource({
        "41, 41, 4, -41.0, a steady clock keeps its offset",
        "41, 45, 0, -41.0, at the first reading the first offset",
        "41, 45, 4, -43.0, half way half of the change",
        "41, 45, 8, -45.0, at the last reading the last offset",
        "-10, -2, 2, 8.0, a slow clock gets seconds added",
        "0, 8, 12, -8.0, beyond the last reading nothing is carried on",
    })
    void follows_a_straight_line_between_two_readings(
            double before, double after, double hours, double expected, String why) {
        Instant stamp = MORNING.plusMillis(Math.round((before + hours * 3600) * 1000));
        ClockOffset offset = both(before, after).offset(stamp, stamp, "");
        // stamps are the logger's own, which itself runs away meanwhile
        assertThat(offset.secondsAtStart()).as(why).isCloseTo(expected, within(0.01));
    }

    @Test
    void counts_both_steps_the_look_and_half_of_the_change_as_doubt() {
        Instant noon = Instant.parse("2026-03-02T12:00:00Z");
        assertThat(both(41, 41).offset(noon, noon, "").halfWidth())
                .as("(1 + 1) / 2 + 0.5")
                .isEqualTo(1.5);
        assertThat(both(41, 45).offset(noon, noon, "").halfWidth())
                .as("1.5 and half of 4")
                .isEqualTo(3.5);
    }

    @Test
    void a_single_reading_is_worth_less_the_longer_ago_it_is() {
        ClockCheck once = new ClockCheck(Optional.of(reading(MORNING, 41)), Optional.empty());
        ClockOffset offset = once.offset(MORNING.plusSeconds(41), MORNING.plusSeconds(41 + 3600), "K. Sample");
        assertThat(offset.secondsAtStart()).isEqualTo(-41);
        assertThat(offset.secondsAtEnd()).isEqualTo(-41);
        assertThat(offset.halfWidth()).as("1.5 s and 500 ppm of an hour").isCloseTo(1.5 + 1.8, within(1e-9));
        assertThat(offset.author()).isEqualTo("K. Sample");
        assertThat(offset.when()).contains(MORNING);
    }

    @Test
    void a_recording_after_the_last_reading_is_known_less_well() {
        Instant late = EVENING.plusSeconds(7200);
        assertThat(both(0, 0).offset(late, late, "").halfWidth()).isCloseTo(1.5 + 3.6, within(1e-9));
    }

    @Test
    void minutes_read_from_a_display_without_seconds_are_worth_half_a_minute() {
        ClockReading coarse = new ClockReading(MORNING, 60, MORNING, 1);
        assertThat(coarse.halfWidth()).isEqualTo(31.0);
    }

    @Test
    void refuses_readings_that_can_not_be() {
        assertThatThrownBy(() -> new ClockCheck(Optional.empty(), Optional.empty()))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new ClockCheck(Optional.of(reading(EVENING, 0)), Optional.of(reading(MORNING, 0))))
                .hasMessageContaining("comes after");
        assertThatThrownBy(() -> new ClockReading(MORNING, 0, MORNING, 1)).hasMessageContaining("steps");
        assertThatThrownBy(() -> ClockOffset.stated(1, -1, "", "x")).hasMessageContaining("clock offset");
        assertThatThrownBy(() -> ClockOffset.stated(1, 1, "", " ")).hasMessageContaining("how it was found");
    }
}
