package org.steamwright.assessment.alignment;

import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;

/**
 * Readings of a logger's clock against the reference clock, before the recordings, after them or both.
 *
 * <p>Between two readings the offset follows a straight line. How it really went is not known, so half of the change counts
 * as doubt; with one reading, and beyond the two, the clock may have run away by {@link #RUNAWAY} of the time.
 *
 * @param before the earlier reading
 * @param after the later one
 */
public record ClockCheck(Optional<ClockReading> before, Optional<ClockReading> after) {

    /**
     * Share of the time by which an unwatched clock may run away. A watch crystal loses about 0.035 parts per million for
     * each kelvin squared away from 25 °C, 420 parts per million at 135 °C; rounded up.
     *
     * @source usual data sheet figure of tuning fork crystals, from memory
     */
    public static final double RUNAWAY = 5e-4;

    private static final double NANOSECONDS = 1e9;

    public ClockCheck {
        if (before.isEmpty() && after.isEmpty()) {
            throw new IllegalArgumentException("a clock check needs a reading");
        }
        if (before.isPresent()
                && after.isPresent()
                && !before.get().logger().isBefore(after.get().logger())) {
            throw new IllegalArgumentException("the reading after comes after the one before");
        }
    }

    /**
     * The offset of a recording.
     *
     * @param first stamp of its first sample on the logger's own clock
     * @param last stamp of its last sample
     * @param author who read the clocks; may be empty
     */
    public ClockOffset offset(Instant first, Instant last, String author) {
        Instant when = after.or(() -> before).orElseThrow().reference();
        return new ClockOffset(
                at(first),
                at(last),
                Math.max(halfWidthAt(first), halfWidthAt(last)),
                ClockOffset.Method.CLOCK_CHECK,
                author,
                Optional.of(when),
                words());
    }

    private double at(Instant stamp) {
        if (before.isEmpty() || after.isEmpty()) {
            return before.or(() -> after).orElseThrow().offset();
        }
        double share = seconds(before.get().logger(), stamp)
                / seconds(before.get().logger(), after.get().logger());
        double clamped = Math.min(1, Math.max(0, share));
        return before.get().offset()
                + clamped * (after.get().offset() - before.get().offset());
    }

    private double halfWidthAt(Instant stamp) {
        double reading = Math.max(
                before.map(ClockReading::halfWidth).orElse(0.0),
                after.map(ClockReading::halfWidth).orElse(0.0));
        if (before.isEmpty() || after.isEmpty()) {
            Instant only = before.or(() -> after).orElseThrow().logger();
            return reading + RUNAWAY * Math.abs(seconds(only, stamp));
        }
        double change = Math.abs(after.get().offset() - before.get().offset());
        double outside = Math.max(
                0,
                Math.max(
                        seconds(stamp, before.get().logger()),
                        seconds(after.get().logger(), stamp)));
        return reading + change / 2 + RUNAWAY * outside;
    }

    private String words() {
        if (before.isPresent() && after.isPresent()) {
            return String.format(
                    Locale.ROOT,
                    "Read against the reference clock before and after: %+.1f s and %+.1f s to add.",
                    before.get().offset(),
                    after.get().offset());
        }
        return String.format(
                Locale.ROOT,
                "Read against the reference clock once, %s the recording: %+.1f s to add.",
                before.isPresent() ? "before" : "after",
                before.or(() -> after).orElseThrow().offset());
    }

    private static double seconds(Instant from, Instant to) {
        Duration duration = Duration.between(from, to);
        return duration.getSeconds() + duration.getNano() / NANOSECONDS;
    }
}
