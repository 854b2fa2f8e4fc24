package org.steamwright.assessment.indicator;

import java.util.List;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.lethality.TemperatureProfile;

/**
 * D and z together, from survivors counted at several temperatures.
 *
 * @param minutes D at the reference temperature
 * @param z in kelvin
 * @param referenceCelsius reference temperature in degree Celsius
 * @param residual standard deviation of the counts about the model, in decades
 */
public record ResistanceFit(Estimate minutes, Estimate z, double referenceCelsius, double residual) {

    private static final double OUTSIDE = 0.05;
    private static final double LN_10 = StrictMath.log(10);

    /** Bounds of the search for z in kelvin; spores in steam lie near 10. */
    private static final double LEAST_Z = 1;

    private static final double MOST_Z = 200;
    private static final int GRID = 400;
    private static final int NARROWINGS = 100;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    /**
     * A count of survivors after a time at a constant temperature.
     *
     * @param minutes at the temperature
     * @param celsius the temperature
     * @param decades logarithm to base ten of the share that survived, not above 0 in the mean
     */
    public record Count(double minutes, double celsius, double decades) {}

    /**
     * D and z in one step: the pair that fits all counts best, each curve beginning at its population.
     *
     * <p>For a given z the model is a straight line in the equivalent time, so D follows in closed form and only z is
     * searched for.
     *
     * @param counts at two temperatures at least
     * @param referenceCelsius reference temperature in degree Celsius
     * @throws IllegalArgumentException if there are fewer than four counts or two temperatures, or if z runs to a bound
     * @source lg(N/N0) = −t / (D · 10^((Tref − T)/z)), nonlinear least squares; intervals from the linearized model by
     *     Student's t, that of D on its logarithm; check value 222
     */
    public static ResistanceFit of(List<Count> counts, double referenceCelsius) {
        if (counts.size() < 4
                || counts.stream().mapToDouble(Count::celsius).distinct().count() < 2) {
            throw new IllegalArgumentException("D and z together need four counts at two temperatures at least");
        }
        double best = LEAST_Z;
        double ratio = StrictMath.pow(MOST_Z / LEAST_Z, 1.0 / GRID);
        double z = LEAST_Z;
        for (int i = 0; i <= GRID; i++) {
            if (misfit(counts, referenceCelsius, z) < misfit(counts, referenceCelsius, best)) {
                best = z;
            }
            z *= ratio;
        }
        if (best == LEAST_Z || best * ratio * ratio > MOST_Z) {
            throw new IllegalArgumentException(
                    "no z between %s and %s K fits best; do the counts fall faster at the higher temperature?"
                            .formatted(LEAST_Z, MOST_Z));
        }
        double low = best / ratio;
        double high = best * ratio;
        for (int i = 0; i < NARROWINGS; i++) {
            double lower = high - GOLDEN * (high - low);
            double upper = low + GOLDEN * (high - low);
            if (misfit(counts, referenceCelsius, lower) < misfit(counts, referenceCelsius, upper)) {
                high = upper;
            } else {
                low = lower;
            }
        }
        return around(counts, referenceCelsius, (low + high) / 2);
    }

    /** Decades per minute at the reference temperature. */
    private static double rate(List<Count> counts, double referenceCelsius, double z) {
        double squares = 0;
        double products = 0;
        for (Count count : counts) {
            double equivalent = count.minutes * Lethality.rate(count.celsius, referenceCelsius, z);
            squares += equivalent * equivalent;
            products += equivalent * count.decades;
        }
        return -products / squares;
    }

    private static double misfit(List<Count> counts, double referenceCelsius, double z) {
        double rate = rate(counts, referenceCelsius, z);
        double sum = 0;
        for (Count count : counts) {
            double rest = count.decades + rate * count.minutes * Lethality.rate(count.celsius, referenceCelsius, z);
            sum += rest * rest;
        }
        return sum;
    }

    private static ResistanceFit around(List<Count> counts, double referenceCelsius, double z) {
        double rate = rate(counts, referenceCelsius, z);
        if (!(rate > 0)) {
            throw new IllegalArgumentException("the counts do not fall, so there is no D-value");
        }
        double dd = 0;
        double dz = 0;
        double zz = 0;
        for (Count count : counts) {
            double fitted = -rate * count.minutes * Lethality.rate(count.celsius, referenceCelsius, z);
            double inD = -LN_10 * fitted;
            double inZ = -LN_10 * fitted * (count.celsius - referenceCelsius) / (z * z);
            dd += inD * inD;
            dz += inD * inZ;
            zz += inZ * inZ;
        }
        int degrees = counts.size() - 2;
        double residual = Math.sqrt(misfit(counts, referenceCelsius, z) / degrees);
        double determinant = dd * zz - dz * dz;
        double t = Beta.studentQuantile(OUTSIDE, degrees);
        double halfDecades = t * residual * Math.sqrt(zz / determinant);
        double factor = StrictMath.pow(10, halfDecades);
        return new ResistanceFit(
                new Estimate(1 / rate, 1 / rate / factor, factor / rate),
                Estimate.around(z, t * residual * Math.sqrt(dd / determinant)),
                referenceCelsius,
                residual);
    }

    /** What these spores are, with a population. */
    public SporeKinetics kinetics(double population) {
        return new SporeKinetics(population, minutes.value(), referenceCelsius, z.value());
    }

    /**
     * Decades by which the spores fall along a changing temperature, from the profile's beginning to a moment.
     *
     * @source Bigelow's model: F / D with F = ∫ 10^((T − Tref)/z) dt; check value 223
     */
    public double logReduction(TemperatureProfile profile, double untilMinutes) {
        return profile.equivalentMinutes(untilMinutes, referenceCelsius, z.value()) / minutes.value();
    }
}
