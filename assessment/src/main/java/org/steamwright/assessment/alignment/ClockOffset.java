package org.steamwright.assessment.alignment;

import java.time.Instant;
import java.util.Optional;

/**
 * What is added to the time stamps of a recording, how well it is known, and who says so.
 *
 * <p>The half-width is the outer limit within which the offset is held to lie, not a standard uncertainty: it is added to
 * times as it stands. For {@link Method#COMMON_EVENT} it counts from the clock of the recording with the reference
 * measurement point, otherwise from the reference clock.
 *
 * @param secondsAtStart to add at the first sample; negative for a clock that is fast
 * @param secondsAtEnd to add at the last sample; in between along a straight line
 * @param halfWidth of both, in seconds, not negative
 * @param method how it was found
 * @param author who compared the clocks or answers for the offset; may be empty for a clock check
 * @param when the clocks were last compared; empty if nobody said
 * @param words how it was found, in a sentence
 */
public record ClockOffset(
        double secondsAtStart,
        double secondsAtEnd,
        double halfWidth,
        Method method,
        String author,
        Optional<Instant> when,
        String words) {

    /** Ways to an offset. */
    public enum Method {
        /** This logger's clock is the one that the others were compared with. */
        REFERENCE_CLOCK("is the reference clock"),
        /** Logger and reference clock were read together, before the visit, after it or both. */
        CLOCK_CHECK("clock check"),
        /** Evacuations that both loggers saw. */
        COMMON_EVENT("common event"),
        /** Somebody states it. */
        STATED("stated");

        private final String words;

        Method(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public ClockOffset {
        if (!Double.isFinite(secondsAtStart) || !Double.isFinite(secondsAtEnd) || !(halfWidth >= 0)) {
            throw new IllegalArgumentException(
                    "a clock offset of %s to %s s, known to %s s".formatted(secondsAtStart, secondsAtEnd, halfWidth));
        }
        if (words.isBlank()) {
            throw new IllegalArgumentException("a clock offset says how it was found");
        }
    }

    /** The logger whose clock is the reference clock. */
    public static ClockOffset reference() {
        return new ClockOffset(
                0,
                0,
                0,
                Method.REFERENCE_CLOCK,
                "",
                Optional.empty(),
                "This clock is the one that the others were compared with.");
    }

    /** An offset that somebody states, the same from the first to the last sample. */
    public static ClockOffset stated(double seconds, double halfWidth, String author, String because) {
        return new ClockOffset(seconds, seconds, halfWidth, Method.STATED, author, Optional.empty(), because);
    }

    /** Offset at a share of the recording, 0 at its first and 1 at its last sample. */
    public double secondsAt(double share) {
        return secondsAtStart + share * (secondsAtEnd - secondsAtStart);
    }

    /** The same offset with so many seconds more to add. */
    public ClockOffset movedBy(double seconds) {
        return new ClockOffset(
                secondsAtStart + seconds, secondsAtEnd + seconds, halfWidth, method, author, when, words);
    }
}
