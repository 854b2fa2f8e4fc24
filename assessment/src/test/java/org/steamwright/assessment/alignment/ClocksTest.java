package org.steamwright.assessment.alignment;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.alignment.ClockOffset.Method;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;

class ClocksTest {

    static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

    static RecordingClock clock(String file, String channel, Optional<ClockOffset> offset) {
        return new RecordingClock(file, file, List.of(channel), Optional.of(START), offset, "");
    }

    static Optional<ClockOffset> stated(double seconds, double halfWidth) {
        return Optional.of(ClockOffset.stated(seconds, halfWidth, "K", "read"));
    }

    static Optional<ClockOffset> event(double seconds, double halfWidth) {
        return Optional.of(new ClockOffset(
                seconds, seconds, halfWidth, Method.COMMON_EVENT, "K", Optional.empty(), "evacuations"));
    }

    static Clocks clocks(RecordingClock... recordings) {
        return new Clocks("a", List.of(recordings));
    }

    @Test
    void clocks_that_nobody_compared_leave_everything_open() {
        Clocks clocks = clocks(clock("a", "T1", Optional.empty()), clock("b", "T2", Optional.empty()));
        assertThat(clocks.halfWidthBetween("T1", "T2")).isInfinite();
        assertThat(clocks.halfWidthBetween("T2", "T2")).isZero();
        assertThat(clocks.areSeveral()).isTrue();
    }

    @Test
    void one_of_two_compared_with_the_reference_clock_is_not_enough() {
        Clocks clocks = clocks(clock("a", "T1", Optional.empty()), clock("b", "T2", stated(-41, 1)));
        assertThat(clocks.halfWidthBetween("T1", "T2")).isInfinite();
    }

    @Test
    void two_clocks_compared_with_a_third_carry_both_doubts() {
        Clocks clocks = clocks(clock("a", "T1", stated(2, 1.5)), clock("b", "T2", stated(-41, 1)));
        assertThat(clocks.halfWidthBetween("T1", "T2")).isEqualTo(2.5);
        Clocks toReference =
                clocks(clock("a", "T1", Optional.of(ClockOffset.reference())), clock("b", "T2", stated(-41, 1)));
        assertThat(toReference.halfWidthBetween("T1", "T2")).isEqualTo(1.0);
    }

    @Test
    void an_event_counts_from_the_recording_with_the_reference_point() {
        Clocks clocks = clocks(
                clock("a", "T1", Optional.empty()),
                clock("b", "T2", event(-41, 2)),
                clock("c", "T3", event(7, 3)),
                clock("d", "T4", stated(1, 1)));
        assertThat(clocks.halfWidthBetween("T1", "T2")).isEqualTo(2.0);
        assertThat(clocks.halfWidthBetween("T2", "T3")).isEqualTo(5.0);
        assertThat(clocks.halfWidthBetween("T2", "T4"))
                .as("the first clock was never compared with the reference clock")
                .isInfinite();
        Clocks checked = clocks(
                clock("a", "T1", stated(5, 0.5)), clock("b", "T2", event(-36, 2)), clock("d", "T4", stated(1, 1)));
        assertThat(checked.halfWidthBetween("T2", "T4")).as("2 + 0.5 + 1").isEqualTo(3.5);
    }

    @Test
    void recordings_of_one_logger_share_its_clock() {
        Clocks clocks = new Clocks(
                "a",
                List.of(
                        clock("a", "T1", Optional.empty()),
                        new RecordingClock("b", "a", List.of("T2"), Optional.of(START), Optional.empty(), "")));
        assertThat(clocks.halfWidthBetween("T1", "T2")).isZero();
        assertThat(clocks.areSeveral()).isFalse();
    }

    static Channel channel(String name, ChannelRole role, double... seconds) {
        return new Channel(
                name,
                role,
                Position.UNSTATED,
                Optional.empty(),
                Optional.empty(),
                TimeAxis.ofSeconds(seconds),
                new Column(name, Quantity.TEMPERATURE, Optional.empty(), "°C", new double[seconds.length], 0.1));
    }

    @Test
    void aligning_moves_stamps_and_begins_again_at_the_earliest_sample() {
        Trace stamped = new Trace(
                Optional.of(START),
                ZoneOffset.UTC,
                List.of(
                        channel("T1", ChannelRole.REFERENCE_POINT, 0, 10, 20),
                        channel("T2", ChannelRole.LOAD, 41, 51, 61)),
                List.of(),
                List.of());
        Trace aligned =
                Alignment.aligned(stamped, clocks(clock("a", "T1", stated(0, 1)), clock("b", "T2", stated(-43, 1))));
        assertThat(aligned.start()).contains(START.minusSeconds(2));
        assertThat(aligned.channels().get(0).axis().toSeconds()).containsExactly(2, 12, 22);
        assertThat(aligned.channels().get(1).axis().toSeconds()).containsExactly(0, 10, 20);
        assertThat(stamped.channels().get(1).axis().first())
                .as("the stamps stay")
                .isEqualTo(41);
    }

    @Test
    void a_clock_that_ran_away_is_stretched_along_a_straight_line() {
        Trace stamped = new Trace(
                Optional.of(START),
                ZoneOffset.UTC,
                List.of(channel("T1", ChannelRole.REFERENCE_POINT, 0, 50, 100)),
                List.of(),
                List.of());
        ClockOffset offset =
                new ClockOffset(0, 2, 1, Method.CLOCK_CHECK, "", Optional.empty(), "read before and after");
        Trace aligned = Alignment.aligned(stamped, clocks(clock("a", "T1", Optional.of(offset))));
        assertThat(aligned.channels().get(0).axis().toSeconds()).containsExactly(0, 51, 102);
    }
}
