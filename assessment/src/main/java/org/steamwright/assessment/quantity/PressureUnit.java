package org.steamwright.assessment.quantity;

/**
 * Units in which a file may state a pressure, with their size in kilopascal.
 *
 * @source NIST SP 811 (2008), appendix B.8, factors from memory; handbook of the project, section 14
 */
public enum PressureUnit {
    PASCAL("Pa", 0.001),
    HECTOPASCAL("hPa", 0.1),
    KILOPASCAL("kPa", 1.0),
    MEGAPASCAL("MPa", 1000.0),
    MILLIBAR("mbar", 0.1),
    BAR("bar", 100.0),
    PSI("psi", 6.894757),
    MILLIMETRE_OF_MERCURY("mmHg", 0.1333224),
    INCH_OF_MERCURY("inHg", 3.386389),
    KILOGRAM_FORCE_PER_SQUARE_CENTIMETRE("kgf/cm²", 98.0665),
    ATMOSPHERE("atm", 101.325);

    private final String symbol;
    private final double kilopascal;

    PressureUnit(String symbol, double kilopascal) {
        this.symbol = symbol;
        this.kilopascal = kilopascal;
    }

    /** As printed. */
    public String symbol() {
        return symbol;
    }

    /** A reading or a difference in this unit, in kilopascal; NaN stays NaN. */
    public double toKilopascal(double value) {
        return value * kilopascal;
    }

    /** A pressure in kilopascal, in this unit. */
    public double fromKilopascal(double value) {
        return value / kilopascal;
    }
}
