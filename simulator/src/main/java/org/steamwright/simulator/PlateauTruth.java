package org.steamwright.simulator;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Stretch;

/**
 * What the plateau of a simulated run really was, on a continuous signal.
 *
 * @param reachedSeconds first moment of the reference measurement point at the lower limit, in that stay above it to
 *     which the holding time belongs (the longest stay if there is none); empty if it never came
 * @param equilibratedSeconds first moment from then on with every point at or above the lower limit; empty if never
 * @param holding longest unbroken stretch with every point inside the band; empty if there is none
 * @param crossings of every point, the first one that is not followed by a fall before the reference point's stay
 *     ends; a point that never came is missing; sample and interpolated moment are the same
 */
public record PlateauTruth(
        Optional<Double> reachedSeconds,
        Optional<Double> equilibratedSeconds,
        Optional<Stretch> holding,
        List<Crossing> crossings) {

    public PlateauTruth {
        crossings = List.copyOf(crossings);
    }

    /** Length of the holding time in seconds; 0 if there is none. */
    public double holdingSeconds() {
        return holding.map(Stretch::seconds).orElse(0.0);
    }

    /** From the reference measurement point to every point, in seconds; empty if not every point came. */
    public Optional<Double> equilibrationSeconds() {
        return reachedSeconds.flatMap(reached -> equilibratedSeconds.map(all -> all - reached));
    }

    /** From the reference measurement point to that channel, in seconds; empty if it never came. */
    public Optional<Double> penetrationSeconds(String channel) {
        return reachedSeconds.flatMap(reached -> crossings.stream()
                .filter(crossing -> crossing.channel().equals(channel))
                .findFirst()
                .map(crossing -> crossing.interpolatedSeconds() - reached));
    }
}
