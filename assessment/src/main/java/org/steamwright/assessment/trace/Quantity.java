package org.steamwright.assessment.trace;

/** What a column of a recording measures. Temperatures are kept in degree Celsius, pressures in kilopascal. */
public enum Quantity {
    TEMPERATURE("°C"),
    PRESSURE("kPa");

    private final String unit;

    Quantity(String unit) {
        this.unit = unit;
    }

    /** Unit of the values inside the program. */
    public String unit() {
        return unit;
    }
}
