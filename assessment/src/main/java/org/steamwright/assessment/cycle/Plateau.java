package org.steamwright.assessment.cycle;

import java.util.List;
import java.util.Optional;

/**
 * The part of a cycle in which the reference measurement point stood at sterilization temperature.
 *
 * <p>Each boundary is the time of a real sample, nothing is interpolated. The holding time can therefore come out up to
 * two sampling intervals short; it is long only if a dip hid between two samples. Two stretches are never added up.
 *
 * @param reachedSeconds first sample of the reference measurement point at or above the lower limit
 * @param endSeconds last sample of the reference measurement point at or above it, before it left for good
 * @param equilibratedSeconds first moment at which every point stood at or above it; empty if that never came
 * @param together from the begin of the first to the end of the last steady stretch in which every point stood at or above
 *     the lower limit; steady means at least {@link #STEADY_SECONDS}; empty if there is none. Dips lie inside it
 * @param holding longest unbroken stretch in which every point stood inside the band; empty if there is none
 * @param holdingEnd why the holding stretch ended
 * @param breakBefore what broke the stretch before the holding one; empty if the holding stretch is the first
 * @param crossings of every point that reached the lower limit, in the order of the channels
 * @param latecomers points that never reached it during the plateau
 * @param dips points that fell below the lower limit inside {@code together}, in order of time
 */
public record Plateau(
        double reachedSeconds,
        double endSeconds,
        Optional<Double> equilibratedSeconds,
        Optional<Stretch> together,
        Optional<Stretch> holding,
        StretchEnd holdingEnd,
        Optional<StretchEnd> breakBefore,
        List<Crossing> crossings,
        List<String> latecomers,
        List<Excursion> dips) {

    /**
     * Length from which a stretch with every point at temperature counts as steady, in seconds. Readings that flicker
     * around the limit while a point arrives or leaves make shorter ones. Own choice, no source.
     */
    public static final double STEADY_SECONDS = 10.0;

    /**
     * Why a stretch ended.
     *
     * @param reason kind of end
     * @param channel the point that ended it; empty for the end of the recording
     * @param atSeconds first moment outside
     */
    public record StretchEnd(Reason reason, String channel, double atSeconds) {
        /** Kinds of end. */
        public enum Reason {
            BELOW,
            ABOVE,
            GAP,
            MISSING,
            END_OF_RECORDING,
            NONE
        }
    }

    /**
     * A point that left the band and came back.
     *
     * @param channel name
     * @param fromSeconds first sample outside
     * @param toSeconds last sample outside
     * @param worstCelsius farthest value, in degree Celsius
     * @param worstSeconds its moment
     */
    public record Excursion(
            String channel, double fromSeconds, double toSeconds, double worstCelsius, double worstSeconds) {}

    public Plateau {
        crossings = List.copyOf(crossings);
        latecomers = List.copyOf(latecomers);
        dips = List.copyOf(dips);
        if (endSeconds < reachedSeconds) {
            throw new IllegalArgumentException(
                    "plateau out of order: reached %s s, ended %s s".formatted(reachedSeconds, endSeconds));
        }
    }

    /** Unbroken time with every point inside the band, as sampled, in seconds; 0 if there was none. */
    public double holdingSeconds() {
        return holding.map(Stretch::seconds).orElse(0.0);
    }

    /** Time from the reference measurement point to every point, in seconds; empty if not every point came. */
    public Optional<Double> equilibrationSeconds() {
        return equilibratedSeconds.map(moment -> moment - reachedSeconds);
    }

    /** When that channel reached the lower limit. */
    public Optional<Crossing> findCrossing(String channel) {
        return crossings.stream().filter(c -> c.channel().equals(channel)).findFirst();
    }
}
