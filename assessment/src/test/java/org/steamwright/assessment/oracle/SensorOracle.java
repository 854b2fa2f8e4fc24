package org.steamwright.assessment.oracle;

/**
 * Sensor functions of the tests. The program reads temperatures, not ohms or millivolts, and uses none of them; they tie
 * the sensor rows of the check values to their published tables until a door for raw signals needs them.
 */
final class SensorOracle {

    private SensorOracle() {}

    /** Resistance in ohm of a Pt100 from 0 to 850 °C, IEC 60751 with A = 3.9083e-3, B = −5.775e-7. */
    static double pt100Ohm(double celsius) {
        return 100 * (1 + celsius * (3.9083e-3 - 5.775e-7 * celsius));
    }

    /** Tolerance in kelvin of a class of IEC 60751. */
    static double toleranceKelvin(String tolerance, double celsius) {
        return switch (tolerance) {
            case "AA" -> 0.10 + 0.0017 * Math.abs(celsius);
            case "A" -> 0.15 + 0.002 * Math.abs(celsius);
            case "B" -> 0.30 + 0.005 * Math.abs(celsius);
            default -> throw new IllegalArgumentException("no class " + tolerance);
        };
    }

    /** Voltage in millivolt of a type T thermocouple from 0 to 400 °C, reference junction at 0 °C, ITS-90. */
    static double typeTMillivolt(double celsius) {
        double[] c = {
            0,
            0.387481063640e-1,
            0.332922278800e-4,
            0.206182434040e-6,
            -0.218822568460e-8,
            0.109968809280e-10,
            -0.308157587720e-13,
            0.454791352900e-16,
            -0.275129016730e-19
        };
        double sum = 0;
        for (int i = c.length - 1; i >= 0; i--) {
            sum = sum * celsius + c[i];
        }
        return sum;
    }
}
