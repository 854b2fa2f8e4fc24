package org.steamwright.assessment.lethality;

import java.util.Arrays;

/**
 * A temperature that runs in straight lines between known points, as a published heating curve does.
 *
 * <p>For a few points far apart. A recording is summed as a trapezoid by {@link Lethality}, which reads too much where the
 * points lie far apart on a steep ramp; here each line is integrated exactly.
 */
public final class TemperatureProfile {

    /** A line flatter than this, in decades of the lethal rate, is taken as level; the error is below 1e-12. */
    private static final double LEVEL_DECADES = 1e-6;

    private static final double LN_10 = StrictMath.log(10);

    private final double[] minutes;
    private final double[] celsius;

    /**
     * @param minutes moments in rising order, at least one
     * @param celsius temperature at each of them, in degree Celsius
     */
    public TemperatureProfile(double[] minutes, double[] celsius) {
        if (minutes.length == 0 || minutes.length != celsius.length) {
            throw new IllegalArgumentException("a temperature profile with %s moments and %s temperatures"
                    .formatted(minutes.length, celsius.length));
        }
        for (int i = 0; i < minutes.length; i++) {
            if (!Double.isFinite(celsius[i])
                    || !Double.isFinite(minutes[i])
                    || (i > 0 && !(minutes[i] > minutes[i - 1]))) {
                throw new IllegalArgumentException(
                        "a temperature profile with %s °C at %s min in place %s; moments rise and temperatures are numbers"
                                .formatted(celsius[i], minutes[i], i + 1));
            }
        }
        this.minutes = minutes.clone();
        this.celsius = celsius.clone();
    }

    /** Temperature at a moment in degree Celsius; NaN outside. */
    public double celsiusAt(double moment) {
        int found = Arrays.binarySearch(minutes, moment);
        if (found >= 0) {
            return celsius[found];
        }
        int after = -found - 1;
        if (after == 0 || after == minutes.length) {
            return Double.NaN;
        }
        double share = (moment - minutes[after - 1]) / (minutes[after] - minutes[after - 1]);
        return celsius[after - 1] + share * (celsius[after] - celsius[after - 1]);
    }

    /**
     * Minutes at the reference temperature that would do the same as the profile from its first point to a moment.
     *
     * @param untilMinutes last moment, inside the profile
     * @param referenceCelsius reference temperature in degree Celsius
     * @param z in kelvin, positive
     * @source ∫ 10^((T − Tref)/z) dt; over a straight line Δt · (L2 − L1) / (ln 10 · ΔT / z); check values 81 and 82
     */
    public double equivalentMinutes(double untilMinutes, double referenceCelsius, double z) {
        double end = celsiusAt(untilMinutes);
        if (Double.isNaN(end) || !(z > 0)) {
            throw new IllegalArgumentException(
                    "no lethality to %s min with z = %s K; the profile runs from %s to %s min"
                            .formatted(untilMinutes, z, minutes[0], minutes[minutes.length - 1]));
        }
        double sum = 0;
        for (int i = 1; i < minutes.length && minutes[i - 1] < untilMinutes; i++) {
            boolean isWhole = minutes[i] <= untilMinutes;
            double step = (isWhole ? minutes[i] : untilMinutes) - minutes[i - 1];
            sum += line(celsius[i - 1], isWhole ? celsius[i] : end, step, referenceCelsius, z);
        }
        return sum;
    }

    private static double line(double from, double to, double step, double referenceCelsius, double z) {
        double before = Lethality.rate(from, referenceCelsius, z);
        double after = Lethality.rate(to, referenceCelsius, z);
        double decades = (to - from) / z;
        return Math.abs(decades) < LEVEL_DECADES
                ? step * (before + after) / 2
                : step * (after - before) / (LN_10 * decades);
    }
}
