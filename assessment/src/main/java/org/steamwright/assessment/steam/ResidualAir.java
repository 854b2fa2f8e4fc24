package org.steamwright.assessment.steam;

/**
 * How much air would explain that a place is colder than saturated steam of the measured pressure.
 *
 * <p>An estimate: a wet or slow sensor looks the same.
 *
 * @source Dalton's law; check values 56 to 58
 */
public final class ResidualAir {

    private ResidualAir() {}

    /**
     * Share of the gas that is air, in percent of the total pressure, if the place stands at the boiling temperature of
     * the steam's own partial pressure; 0 where the place is not colder than pure steam.
     *
     * @param kilopascalAbsolute total pressure
     * @param celsius temperature of the place
     * @param curve boiling line
     */
    public static double percent(double kilopascalAbsolute, double celsius, SaturationCurve curve) {
        double steam = curve.kilopascalAt(celsius);
        return Math.max(0, 100 * (1 - steam / kilopascalAbsolute));
    }

    /** Boiling temperature in degree Celsius at a total pressure of which so many percent are air. */
    public static double celsiusAt(double kilopascalAbsolute, double airPercent, SaturationCurve curve) {
        return curve.celsiusAt(kilopascalAbsolute * (1 - airPercent / 100));
    }
}
