package org.steamwright.assessment.quantity;

/**
 * A pressure counted from the ambient pressure.
 *
 * @param kilopascal in kilopascal, finite; negative under vacuum
 */
public record GaugePressure(double kilopascal) {

    public GaugePressure {
        if (!Double.isFinite(kilopascal)) {
            throw new IllegalArgumentException("not a gauge pressure: " + kilopascal + " kPa");
        }
    }

    /**
     * Counted from vacuum, with the ambient pressure of the same moment.
     *
     * @throws IllegalArgumentException if the sum lies below vacuum
     */
    public AbsolutePressure toAbsolute(AbsolutePressure ambient) {
        return new AbsolutePressure(kilopascal + ambient.kilopascal());
    }

    @Override
    public String toString() {
        return kilopascal + " kPa(gauge)";
    }
}
