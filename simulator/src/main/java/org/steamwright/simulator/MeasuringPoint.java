package org.steamwright.simulator;

import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Position;

/**
 * A sensor in the chamber and what its place does to it.
 *
 * @param name of the channel, unique in the scenario
 * @param role of the channel; not {@link ChannelRole#PRESSURE} and not {@link ChannelRole#THEORETICAL}
 * @param position where it sits
 * @param instrument id of the instrument, unique in the scenario
 * @param logger name of the logger; points of one logger share one file and one clock
 * @param itemSeconds time constant of the item around the sensor; 0 for free steam
 * @param sensorSeconds time constant of the sensor itself, at least 0.1
 * @param offsetKelvin what the place adds to the steam temperature; negative for a cold place
 * @param air that stays in the place, as share of the gas there
 */
public record MeasuringPoint(
        String name,
        ChannelRole role,
        Position position,
        String instrument,
        String logger,
        double itemSeconds,
        double sensorSeconds,
        double offsetKelvin,
        Air air) {

    /**
     * Air in a place that steam reaches badly.
     *
     * @param atPlateau share of the gas when the steam reaches the sterilization temperature, 0 to less than 1
     * @param lasting share that is never driven out
     * @param seconds time constant of the way from the first to the second
     */
    public record Air(double atPlateau, double lasting, double seconds) {
        /** Steam only. */
        public static final Air NONE = new Air(0, 0, 1);

        public Air {
            if (!(atPlateau >= lasting && lasting >= 0 && atPlateau < 1) || !(seconds > 0)) {
                throw new IllegalArgumentException(
                        "air of %s falling to %s in %s s".formatted(atPlateau, lasting, seconds));
            }
        }

        /** Share of the gas so many seconds after the steam reached the sterilization temperature. */
        double at(double secondsInPlateau) {
            return secondsInPlateau <= 0
                    ? atPlateau
                    : lasting + (atPlateau - lasting) * StrictMath.exp(-secondsInPlateau / seconds);
        }
    }

    public MeasuringPoint {
        if (role == ChannelRole.PRESSURE || role == ChannelRole.THEORETICAL) {
            throw new IllegalArgumentException("point " + name + ": a measuring point is a temperature");
        }
        if (!(itemSeconds >= 0) || !(sensorSeconds >= 0.1)) {
            throw new IllegalArgumentException(
                    "point %s: time constants of %s and %s s".formatted(name, itemSeconds, sensorSeconds));
        }
    }

    /** A point in free steam or beside the sterilizer's sensor. */
    public static MeasuringPoint steam(String name, ChannelRole role, String letter, String place, String instrument) {
        return new MeasuringPoint(name, role, new Position(letter, place), instrument, "L1", 0, 0.5, 0, Air.NONE);
    }

    /** A point in or on an item. */
    public static MeasuringPoint item(
            String name, ChannelRole role, String letter, String place, String instrument, double itemSeconds) {
        return new MeasuringPoint(
                name, role, new Position(letter, place), instrument, "L1", itemSeconds, 0.5, 0, Air.NONE);
    }

    public MeasuringPoint withOffset(double kelvin) {
        return new MeasuringPoint(name, role, position, instrument, logger, itemSeconds, sensorSeconds, kelvin, air);
    }

    public MeasuringPoint withAir(Air other) {
        return new MeasuringPoint(
                name, role, position, instrument, logger, itemSeconds, sensorSeconds, offsetKelvin, other);
    }

    public MeasuringPoint withItemSeconds(double seconds) {
        return new MeasuringPoint(name, role, position, instrument, logger, seconds, sensorSeconds, offsetKelvin, air);
    }

    public MeasuringPoint withLogger(String other) {
        return new MeasuringPoint(
                name, role, position, instrument, other, itemSeconds, sensorSeconds, offsetKelvin, air);
    }
}
