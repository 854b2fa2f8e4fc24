package org.steamwright.assessment.alignment;

import java.time.Duration;
import java.time.Instant;

/**
 * The clock of a logger and the reference clock, read at one moment.
 *
 * @param logger what the logger showed
 * @param loggerStep smallest step that was read, in seconds: 1 for 10:00:41
 * @param reference what the reference clock showed
 * @param referenceStep smallest step that was read, in seconds
 */
public record ClockReading(Instant logger, double loggerStep, Instant reference, double referenceStep) {

    /** Half-width of 'at one moment' when two clocks are read by eye, in seconds. Own choice, no source. */
    public static final double READING_SECONDS = 0.5;

    private static final double NANOSECONDS = 1e9;

    public ClockReading {
        if (!(loggerStep > 0) || !(referenceStep > 0)) {
            throw new IllegalArgumentException("clocks are read in steps of some length");
        }
    }

    /** What has to be added to the logger's stamp, in seconds. */
    public double offset() {
        Duration difference = Duration.between(logger, reference);
        return difference.getSeconds() + difference.getNano() / NANOSECONDS;
    }

    /** Half-width of {@link #offset()}: half a step of each clock, as both cut, and the moment between two looks. */
    public double halfWidth() {
        return (loggerStep + referenceStep) / 2 + READING_SECONDS;
    }
}
