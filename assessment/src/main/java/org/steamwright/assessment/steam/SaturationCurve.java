package org.steamwright.assessment.steam;

/** A formula for the boiling line of water, both directions. */
public interface SaturationCurve {

    /** Word that names the formula in data files and results. */
    String id();

    /** Name and source of the formula, as printed on reports. */
    String title();

    /** Saturation temperature in degree Celsius at an absolute pressure in kilopascal; NaN outside its range. */
    double celsiusAt(double kilopascalAbsolute);

    /** Saturation pressure in kilopascal absolute at a temperature in degree Celsius; NaN outside its range. */
    double kilopascalAt(double celsius);

    /** Slope of the boiling line in kilopascal per kelvin at a temperature in degree Celsius. */
    default double kilopascalPerKelvinAt(double celsius) {
        double step = 0.005;
        return (kilopascalAt(celsius + step) - kilopascalAt(celsius - step)) / (2 * step);
    }
}
