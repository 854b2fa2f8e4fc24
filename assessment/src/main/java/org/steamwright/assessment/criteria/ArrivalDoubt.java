package org.steamwright.assessment.criteria;

import java.util.Optional;

/**
 * The doubt of a time between two arrivals: one sampling interval either way, what lowering and raising make of it, and
 * what the clocks of several loggers leave.
 */
final class ArrivalDoubt {

    private ArrivalDoubt() {}

    static Figure figure(
            double seconds, double interval, Optional<Double> lowered, Optional<Double> raised, double clocks) {
        double low = Math.min(seconds - interval, Math.min(lowered.orElse(seconds), raised.orElse(seconds)));
        // a point that does not arrive when lowered may be as late as can be
        double latest = Math.max(lowered.orElse(Double.POSITIVE_INFINITY), raised.orElse(Double.POSITIVE_INFINITY));
        double high = Math.max(seconds + interval, latest);
        return new Figure(
                seconds,
                Math.min(seconds, Math.max(0, low - clocks)),
                high + clocks,
                Unit.SECONDS,
                "one sampling interval either way, and found again with every point lowered and raised"
                        + ClockDoubt.basis(clocks));
    }
}
