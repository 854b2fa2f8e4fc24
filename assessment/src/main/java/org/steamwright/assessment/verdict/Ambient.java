package org.steamwright.assessment.verdict;

import java.util.Optional;
import org.steamwright.assessment.quantity.AbsolutePressure;

/**
 * The ambient pressure on the day of a run.
 *
 * @param pressure in force for gauge channels and the open-door check
 * @param basis where it comes from
 * @param note instrument or place, in words; may be empty
 */
public record Ambient(AbsolutePressure pressure, Basis basis, String note) {

    /** Where an ambient pressure comes from. */
    public enum Basis {
        /** Read from a barometer during the visit. */
        BAROMETER("barometer reading of the day"),
        /** Estimated from the altitude of the site by the standard atmosphere; weather not known. */
        ALTITUDE("estimated from the altitude of the site, weather unknown"),
        /** Nothing was said; sea level was taken so that the open-door check can name its doubt. */
        UNKNOWN("not stated, sea level taken");

        private final String words;

        Basis(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /** Half-width in kilopascal within which the true ambient pressure is held to lie. Common practice, no source. */
    public double halfWidthKilopascal() {
        return switch (basis) {
            case BAROMETER -> 0.1;
            case ALTITUDE -> 3.0;
            case UNKNOWN -> 12.0;
        };
    }

    /** A barometer reading. */
    public static Ambient barometer(double kilopascal) {
        return new Ambient(AbsolutePressure.ofKilopascal(kilopascal), Basis.BAROMETER, "");
    }

    /** Nothing is known. */
    public static Ambient unknown() {
        return new Ambient(AbsolutePressure.ofKilopascal(101.325), Basis.UNKNOWN, "");
    }

    /**
     * Estimated from the altitude of the site.
     *
     * @param metres above sea level, −500 to 5,000
     * @source ISA 1976 barometric formula, constants seen on secondary pages; check values 49 to 54
     */
    public static Ambient ofAltitude(double metres) {
        if (!(metres >= -500 && metres <= 5000)) {
            throw new IllegalArgumentException("an altitude of %s m is outside −500 to 5000 m".formatted(metres));
        }
        double kilopascal = 101.325 * StrictMath.pow(1 - 2.25577e-5 * metres, 5.25588);
        return new Ambient(
                AbsolutePressure.ofKilopascal(kilopascal), Basis.ALTITUDE, "altitude " + Math.round(metres) + " m");
    }

    /** A barometer reading if there is one, otherwise the altitude, otherwise unknown. */
    public static Ambient of(Optional<Double> barometerKilopascal, Optional<Double> altitudeMetres) {
        return barometerKilopascal
                .map(Ambient::barometer)
                .or(() -> altitudeMetres.map(Ambient::ofAltitude))
                .orElseGet(Ambient::unknown);
    }
}
