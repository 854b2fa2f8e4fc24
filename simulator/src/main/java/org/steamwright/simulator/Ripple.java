package org.steamwright.simulator;

/**
 * How the heater's controller lets the steam temperature swing around its set-point.
 *
 * @param shape of one period
 * @param amplitudeKelvin greatest distance from the set-point, not negative
 * @param periodSeconds length of one period, positive
 */
public record Ripple(Shape shape, double amplitudeKelvin, double periodSeconds) {

    /** Shapes of a period. */
    public enum Shape {
        /** A proportional controller near its limit. */
        SINE,
        /** A two-point controller: quick heating, slow loss. */
        SAWTOOTH
    }

    /** Share of a sawtooth's period in which it rises. */
    private static final double RISING_SHARE = 0.3;

    public Ripple {
        if (!(amplitudeKelvin >= 0) || !(periodSeconds > 0)) {
            throw new IllegalArgumentException("a ripple of %s K and %s s".formatted(amplitudeKelvin, periodSeconds));
        }
    }

    /** Distance from the set-point in kelvin, so many seconds after control began; zero at the beginning. */
    double at(double seconds) {
        if (amplitudeKelvin == 0) {
            return 0;
        }
        double turns = seconds / periodSeconds;
        double share = turns - Math.floor(turns);
        if (shape == Shape.SINE) {
            return amplitudeKelvin * StrictMath.sin(2 * Math.PI * share);
        }
        // begins in the middle of the rise
        double phase = share + RISING_SHARE / 2;
        phase -= Math.floor(phase);
        return phase < RISING_SHARE
                ? amplitudeKelvin * (2 * phase / RISING_SHARE - 1)
                : amplitudeKelvin * (1 - 2 * (phase - RISING_SHARE) / (1 - RISING_SHARE));
    }
}
