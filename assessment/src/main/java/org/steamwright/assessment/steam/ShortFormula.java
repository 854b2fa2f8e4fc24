package org.steamwright.assessment.steam;

import org.steamwright.assessment.quantity.Temperature;

/**
 * The three-constant formula that some documents use for the theoretical temperature: T = A + B / (ln p + C), with T in
 * kelvin and p in megapascal absolute.
 *
 * <p>It reads about 0.13 K higher than {@link IapwsR797} between 120 and 134 °C. As a channel against the lower limit
 * that is not on the safe side, so the formula in use is printed.
 *
 * @source constants after Irvine and Liley (1984), as used in EN 285 and EN 13060 (texts not seen); check values 31 to 40
 */
public enum ShortFormula implements SaturationCurve {
    INSTANCE;

    private static final double A = 42.6776;
    private static final double B = -3892.70;
    private static final double C = -9.48654;
    private static final double LOWEST_KILOPASCAL = 0.611;
    private static final double HIGHEST_KILOPASCAL = 12330.0;
    private static final double KILOPASCAL_PER_MEGAPASCAL = 1000.0;

    @Override
    public String id() {
        return "short-formula";
    }

    @Override
    public String title() {
        return "T = 42.6776 K − 3892.70 K / (ln(p/MPa) − 9.48654)";
    }

    @Override
    public double celsiusAt(double kilopascalAbsolute) {
        if (!(kilopascalAbsolute >= LOWEST_KILOPASCAL && kilopascalAbsolute <= HIGHEST_KILOPASCAL)) {
            return Double.NaN;
        }
        return A
                + B / (StrictMath.log(kilopascalAbsolute / KILOPASCAL_PER_MEGAPASCAL) + C)
                - Temperature.ZERO_CELSIUS_IN_KELVIN;
    }

    @Override
    public double kilopascalAt(double celsius) {
        double kelvin = celsius + Temperature.ZERO_CELSIUS_IN_KELVIN;
        double kilopascal = StrictMath.exp(B / (kelvin - A) - C) * KILOPASCAL_PER_MEGAPASCAL;
        return kilopascal >= LOWEST_KILOPASCAL && kilopascal <= HIGHEST_KILOPASCAL ? kilopascal : Double.NaN;
    }
}
