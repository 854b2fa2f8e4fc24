package org.steamwright.assessment.uncertainty;

/**
 * One line of a budget.
 *
 * @param name what it is, in words of the trade
 * @param stated the size as stated, in the unit of the budget, not negative
 * @param distribution how {@code stated} is meant
 * @param divisor what {@code stated} is divided by; the coverage factor for {@link Distribution#NORMAL}
 * @param sensitivity factor from this quantity to the result
 * @param degreesOfFreedom infinite where nothing is known
 * @param origin where the size comes from: a certificate, the instrument's data, a criteria set
 * @param isPerReading whether it strikes every reading anew, like noise; otherwise it is one error for the whole run, which
 *     cancels where a channel is compared with itself
 * @param correlation what it shares with other channels
 */
public record Contribution(
        String name,
        double stated,
        Distribution distribution,
        double divisor,
        double sensitivity,
        double degreesOfFreedom,
        String origin,
        boolean isPerReading,
        Correlation correlation) {

    public Contribution {
        if (!(stated >= 0) || !Double.isFinite(stated)) {
            throw new IllegalArgumentException(name + ": the size of a contribution is not negative, found " + stated);
        }
        if (!(divisor > 0) || !(degreesOfFreedom > 0) || !Double.isFinite(sensitivity)) {
            throw new IllegalArgumentException(name + ": divisor and degrees of freedom must be positive");
        }
    }

    /** A contribution that is one error for the whole run and shares nothing with other channels. */
    public Contribution(
            String name,
            double stated,
            Distribution distribution,
            double divisor,
            double sensitivity,
            double degreesOfFreedom,
            String origin) {
        this(name, stated, distribution, divisor, sensitivity, degreesOfFreedom, origin, false, Correlation.NONE);
    }

    /** From an expanded uncertainty and its coverage factor. */
    public static Contribution expanded(String name, double expanded, double coverageFactor, String origin) {
        return new Contribution(
                name, expanded, Distribution.NORMAL, coverageFactor, 1, Double.POSITIVE_INFINITY, origin);
    }

    /** From the half-width of an interval in which every value is equally likely. */
    public static Contribution rectangular(String name, double halfWidth, String origin) {
        return new Contribution(
                name, halfWidth, Distribution.RECTANGULAR, Math.sqrt(3), 1, Double.POSITIVE_INFINITY, origin);
    }

    /** From a digital resolution: half a step either way, for every reading anew. */
    public static Contribution resolution(String name, double step, String origin) {
        return rectangular(name, step / 2, origin).perReading();
    }

    /** From a standard uncertainty with its degrees of freedom, such as s/√n with n − 1. */
    public static Contribution standard(String name, double standard, double degreesOfFreedom, String origin) {
        return new Contribution(name, standard, Distribution.STANDARD, 1, 1, degreesOfFreedom, origin);
    }

    /** The same contribution acting on the result with another factor. */
    public Contribution withSensitivity(double factor) {
        return new Contribution(
                name, stated, distribution, divisor, factor, degreesOfFreedom, origin, isPerReading, correlation);
    }

    /** The same contribution, striking every reading anew. */
    public Contribution perReading() {
        return new Contribution(
                name, stated, distribution, divisor, sensitivity, degreesOfFreedom, origin, true, correlation);
    }

    /** The same contribution, shared with other channels. */
    public Contribution shared(Correlation other) {
        return new Contribution(
                name, stated, distribution, divisor, sensitivity, degreesOfFreedom, origin, isPerReading, other);
    }

    /** The same contribution under another name. */
    public Contribution named(String other) {
        return new Contribution(
                other, stated, distribution, divisor, sensitivity, degreesOfFreedom, origin, isPerReading, correlation);
    }

    /** Standard uncertainty in the unit of the result. */
    public double standardUncertainty() {
        return Math.abs(sensitivity) * stated / divisor;
    }
}
