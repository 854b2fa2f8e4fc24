package org.steamwright.assessment.quantity;

/** Units in which a file may state a temperature. */
public enum TemperatureUnit {
    CELSIUS("°C"),
    FAHRENHEIT("°F"),
    KELVIN("K");

    private static final double FAHRENHEIT_PER_KELVIN = 1.8;
    private static final double FAHRENHEIT_AT_ZERO_CELSIUS = 32.0;

    private final String symbol;

    TemperatureUnit(String symbol) {
        this.symbol = symbol;
    }

    /** As printed. */
    public String symbol() {
        return symbol;
    }

    /** A reading in this unit, in degree Celsius; NaN stays NaN. */
    public double toCelsius(double value) {
        return switch (this) {
            case CELSIUS -> value;
            case FAHRENHEIT -> (value - FAHRENHEIT_AT_ZERO_CELSIUS) / FAHRENHEIT_PER_KELVIN;
            case KELVIN -> value - Temperature.ZERO_CELSIUS_IN_KELVIN;
        };
    }

    /** A difference in this unit, in kelvin. */
    public double differenceToKelvin(double difference) {
        return this == FAHRENHEIT ? difference / FAHRENHEIT_PER_KELVIN : difference;
    }
}
