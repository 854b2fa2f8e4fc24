package org.steamwright.simulator;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Map;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * What is written down, and by which clock.
 *
 * @param intervalSeconds between two samples; a whole number of model steps
 * @param start moment zero of the run
 * @param zone zone of the site and of the loggers' clocks
 * @param isPressureRecorded whether there is a pressure channel; logger L1 keeps it
 * @param pressureReference what the pressure sensor counts from
 * @param clockOffsets by name of the logger, in seconds that its clock is fast; whole numbers of model steps; a
 *     logger that is missing is right
 */
public record Logging(
        double intervalSeconds,
        Instant start,
        ZoneId zone,
        boolean isPressureRecorded,
        PressureReference pressureReference,
        Map<String, Double> clockOffsets) {

    public Logging {
        clockOffsets = Map.copyOf(clockOffsets);
        requireSteps("interval", intervalSeconds);
        if (!(intervalSeconds >= ChamberModel.STEP)) {
            throw new IllegalArgumentException("an interval of " + intervalSeconds + " s is shorter than a model step");
        }
        for (Map.Entry<String, Double> offset : clockOffsets.entrySet()) {
            requireSteps("clock offset of logger " + offset.getKey(), offset.getValue());
        }
    }

    /** Every second, from nine in the morning of an invented day in an invented clinic's zone. */
    public static Logging everySecond() {
        return new Logging(
                1,
                Instant.parse("2026-03-01T22:00:00Z"),
                ZoneId.of("Australia/Sydney"),
                true,
                PressureReference.ABSOLUTE,
                Map.of());
    }

    public Logging withInterval(double seconds) {
        return new Logging(seconds, start, zone, isPressureRecorded, pressureReference, clockOffsets);
    }

    public Logging withStart(Instant moment, ZoneId siteZone) {
        return new Logging(intervalSeconds, moment, siteZone, isPressureRecorded, pressureReference, clockOffsets);
    }

    public Logging withoutPressure() {
        return new Logging(intervalSeconds, start, zone, false, pressureReference, clockOffsets);
    }

    public Logging withPressure(PressureReference reference) {
        return new Logging(intervalSeconds, start, zone, true, reference, clockOffsets);
    }

    public Logging withClockOffsets(Map<String, Double> offsets) {
        return new Logging(intervalSeconds, start, zone, isPressureRecorded, pressureReference, offsets);
    }

    private static void requireSteps(String what, double seconds) {
        double steps = seconds / ChamberModel.STEP;
        if (!(Math.abs(steps - Math.rint(steps)) < 1e-6)) {
            throw new IllegalArgumentException(
                    "%s of %s s is no whole number of %s s".formatted(what, seconds, ChamberModel.STEP));
        }
    }
}
