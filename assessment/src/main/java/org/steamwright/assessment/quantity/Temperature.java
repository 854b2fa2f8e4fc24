package org.steamwright.assessment.quantity;

/**
 * A temperature.
 *
 * @param celsius in degree Celsius, finite and not below absolute zero
 */
public record Temperature(double celsius) implements Comparable<Temperature> {

    /** Zero of the Celsius scale in kelvin, exact by definition of the scale. */
    public static final double ZERO_CELSIUS_IN_KELVIN = 273.15;

    public Temperature {
        if (!Double.isFinite(celsius) || celsius < -ZERO_CELSIUS_IN_KELVIN) {
            throw new IllegalArgumentException("not a temperature: " + celsius + " °C");
        }
    }

    /** The temperature of so many degrees Celsius. */
    public static Temperature ofCelsius(double celsius) {
        return new Temperature(celsius);
    }

    /** In kelvin. */
    public double kelvin() {
        return celsius + ZERO_CELSIUS_IN_KELVIN;
    }

    @Override
    public int compareTo(Temperature other) {
        return Double.compare(celsius, other.celsius);
    }

    @Override
    public String toString() {
        return celsius + " °C";
    }
}
