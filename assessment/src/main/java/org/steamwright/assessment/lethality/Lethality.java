package org.steamwright.assessment.lethality;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * Lethality of one channel, F, with everything it depends on.
 *
 * @param minutes trapezoid sum, in minutes at the reference temperature
 * @param lowMinutes lower bound from sampling: each step taken at its lower rate
 * @param highMinutes upper bound from sampling: each step taken at its higher rate
 * @param referenceCelsius reference temperature in degree Celsius
 * @param z in kelvin
 * @param fromSeconds begin of integration, seconds from the start of the run
 * @param toSeconds end of integration
 * @param skippedSeconds time inside that had no usable sample (gaps, missing values) and counts as nothing
 */
public record Lethality(
        double minutes,
        double lowMinutes,
        double highMinutes,
        double referenceCelsius,
        double z,
        double fromSeconds,
        double toSeconds,
        double skippedSeconds) {

    /** Usual reference temperature of F0 in degree Celsius. Others are in use (121.0, 121.11): it is always printed. */
    public static final double USUAL_REFERENCE_CELSIUS = 121.1;

    /** Usual z of F0 in kelvin. */
    public static final double USUAL_Z_KELVIN = 10.0;

    private static final double SECONDS_PER_MINUTE = 60.0;

    /** Lethal rate: minutes at the reference temperature per minute at this one. */
    public static double rate(double celsius, double referenceCelsius, double z) {
        return StrictMath.pow(10, (celsius - referenceCelsius) / z);
    }

    /**
     * Lethality of a channel between two moments, both included, as trapezoid over its own samples.
     *
     * <p>A step over a gap or beside a missing value counts as nothing and is told in {@code skippedSeconds}. The bounds
     * take each step at the lower and at the higher of its two rates: between two samples of a temperature that does not
     * turn, the truth lies inside.
     *
     * @source L = 10^((T − Tref)/z), F = ∫ L dt; check values 59 to 83
     */
    public static Lethality of(
            CorrectedChannel channel, double referenceCelsius, double z, double fromSeconds, double toSeconds) {
        if (!(z > 0)) {
            throw new IllegalArgumentException("z is positive, found " + z + " K");
        }
        TimeAxis axis = channel.axis();
        int first = axis.indexAtOrAfter(fromSeconds);
        int last = axis.indexAtOrBefore(toSeconds);
        double middle = 0;
        double low = 0;
        double high = 0;
        double skipped = 0;
        double before = first <= last ? rate(channel.at(first), referenceCelsius, z) : Double.NaN;
        for (int i = first + 1; i <= last; i++) {
            double step = axis.at(i) - axis.at(i - 1);
            double after = rate(channel.at(i), referenceCelsius, z);
            if (Double.isNaN(before) || Double.isNaN(after) || axis.isGapBefore(i)) {
                skipped += step;
            } else {
                middle += (before + after) / 2 * step;
                low += Math.min(before, after) * step;
                high += Math.max(before, after) * step;
            }
            before = after;
        }
        return new Lethality(
                middle / SECONDS_PER_MINUTE,
                low / SECONDS_PER_MINUTE,
                high / SECONDS_PER_MINUTE,
                referenceCelsius,
                z,
                fromSeconds,
                toSeconds,
                skipped);
    }
}
