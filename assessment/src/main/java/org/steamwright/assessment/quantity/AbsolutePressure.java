package org.steamwright.assessment.quantity;

/**
 * A pressure counted from vacuum.
 *
 * @param kilopascal in kilopascal, finite and not negative
 */
public record AbsolutePressure(double kilopascal) implements Comparable<AbsolutePressure> {

    public AbsolutePressure {
        if (!Double.isFinite(kilopascal) || kilopascal < 0) {
            throw new IllegalArgumentException("not an absolute pressure: " + kilopascal + " kPa");
        }
    }

    /** The absolute pressure of so many kilopascal. */
    public static AbsolutePressure ofKilopascal(double kilopascal) {
        return new AbsolutePressure(kilopascal);
    }

    @Override
    public int compareTo(AbsolutePressure other) {
        return Double.compare(kilopascal, other.kilopascal);
    }

    @Override
    public String toString() {
        return kilopascal + " kPa(abs)";
    }
}
