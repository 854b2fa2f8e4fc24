package org.steamwright.assessment.uncertainty;

/**
 * An expanded uncertainty with the coverage factor it was made with; never one without the other.
 *
 * @param value half-width of the interval, not negative
 * @param coverageFactor k, positive
 */
public record ExpandedUncertainty(double value, double coverageFactor) {

    public ExpandedUncertainty {
        if (!(value >= 0) || !Double.isFinite(value) || !(coverageFactor > 0)) {
            throw new IllegalArgumentException(
                    "not an expanded uncertainty: U = %s, k = %s".formatted(value, coverageFactor));
        }
    }

    /** The standard uncertainty behind it. */
    public double standard() {
        return value / coverageFactor;
    }
}
