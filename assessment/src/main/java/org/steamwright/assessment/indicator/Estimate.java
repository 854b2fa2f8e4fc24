package org.steamwright.assessment.indicator;

/**
 * A figure with its interval of about 95 %.
 *
 * @param value the figure
 * @param low lower end, itself in
 * @param high upper end, itself in; may be infinite where nothing bounds it
 */
public record Estimate(double value, double low, double high) {

    public Estimate {
        if (!(low <= value && value <= high)) {
            throw new IllegalArgumentException("an estimate of %s between %s and %s".formatted(value, low, high));
        }
    }

    /** An estimate whose interval lies as far on either side. */
    static Estimate around(double value, double halfWidth) {
        return new Estimate(value, value - halfWidth, value + halfWidth);
    }

    /** Whether a figure lies inside, ends included. */
    public boolean contains(double figure) {
        return low <= figure && figure <= high;
    }

    /** The same divided by a positive number. */
    Estimate dividedBy(double divisor) {
        return new Estimate(value / divisor, low / divisor, high / divisor);
    }
}
