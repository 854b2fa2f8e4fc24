package org.steamwright.crosscheck;

import com.hummeling.if97.IF97;
import com.hummeling.if97.OutOfRangeException;

/** The boiling line of the slow evaluation: another's pressure equation, turned round by halving; or the short formula. */
final class SlowSteam {

    private static final double ZERO = 273.15;
    private static final double KILO = 1000.0;

    private final boolean isShort;
    private final IF97 library = new IF97(IF97.UnitSystem.DEFAULT);

    /** @param id word of the formula in the criteria set */
    SlowSteam(String id) {
        if (!id.equals("iapws-r7-97") && !id.equals("short-formula")) {
            throw new IllegalArgumentException("no boiling line " + id);
        }
        isShort = id.equals("short-formula");
    }

    /** Pressure in kilopascal absolute. */
    double kilopascal(double celsius) {
        double kelvin = celsius + ZERO;
        if (isShort) {
            return KILO * Math.exp(9.48654 - 3892.70 / (kelvin - 42.6776));
        }
        try {
            return KILO * library.saturationPressureT(kelvin);
        } catch (OutOfRangeException e) {
            return Double.NaN;
        }
    }

    /** Temperature in degree Celsius: the interval in which the pressure lies is halved until nothing is left of it. */
    double celsius(double kilopascalAbsolute) {
        double low = 0;
        double high = 300;
        if (!(kilopascalAbsolute > kilopascal(low)) || !(kilopascalAbsolute < kilopascal(high))) {
            return Double.NaN;
        }
        for (int i = 0; i < 50; i++) {
            double middle = (low + high) / 2;
            if (kilopascal(middle) < kilopascalAbsolute) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /** Kelvin per kilopascal at a temperature, from two pressures a hundredth of a kelvin apart. */
    double kelvinPerKilopascal(double celsius) {
        return 0.01 / (kilopascal(celsius + 0.005) - kilopascal(celsius - 0.005));
    }
}
