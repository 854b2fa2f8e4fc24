package org.steamwright.assessment.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Check values 123 and 207 of docs/check-values.md. */
class UnitsCheckValuesTest {

    @Test
    void the_leak_limit_is_the_same_in_three_units() {
        LeakRate rate = new LeakRate(0.13);
        assertThat(rate.millibarPerMinute()).as("row 123").isCloseTo(1.3, within(1e-12));
        assertThat(rate.millimetreOfMercuryPerMinute()).as("row 123").isCloseTo(0.975, within(0.001));
    }

    @ParameterizedTest(name = "{0} {1} = {2} kPa")
    @CsvSource({
        "1,     BAR,                                  100,      1e-9",
        "1000,  MILLIBAR,                             100,      1e-9",
        "14.50377, PSI,                               100,      0.0001",
        "0.986923, ATMOSPHERE,                        100,      0.0001",
        "1.019716, KILOGRAM_FORCE_PER_SQUARE_CENTIMETRE, 100,   0.0001",
        "1,     PSI,                                  6.894757, 1e-6",
        "1,     MILLIMETRE_OF_MERCURY,                0.1333224, 1e-7",
        "1,     INCH_OF_MERCURY,                      3.386389, 1e-6",
        "1000,  PASCAL,                               1,        1e-9",
        "10,    HECTOPASCAL,                          1,        1e-9",
        "0.001, MEGAPASCAL,                           1,        1e-9",
        "1,     KILOPASCAL,                           1,        0",
    })
    void pressures_of_the_handbook_table(double value, PressureUnit unit, double kilopascal, double tolerance) {
        assertThat(unit.toKilopascal(value))
                .as("row 207, handbook section 14, printed digits")
                .isCloseTo(kilopascal, within(tolerance));
        assertThat(unit.fromKilopascal(unit.toKilopascal(value))).isCloseTo(value, within(1e-12 * Math.abs(value)));
    }

    @Test
    void vacuum_readings_at_sea_level() {
        AbsolutePressure seaLevel = AbsolutePressure.ofKilopascal(101.325);
        double inches = PressureUnit.INCH_OF_MERCURY.toKilopascal(-28);
        assertThat(new GaugePressure(inches).toAbsolute(seaLevel).kilopascal())
                .as("row 207: 28 inches of vacuum")
                .isCloseTo(6.506, within(0.001));
        double bar = PressureUnit.BAR.toKilopascal(-0.95);
        assertThat(new GaugePressure(bar).toAbsolute(seaLevel).kilopascal())
                .as("row 207: −0.95 bar")
                .isCloseTo(6.325, within(0.001));
    }

    @ParameterizedTest(name = "{0} °F = {1} °C")
    @CsvSource({
        "250,   121.11, 0.005",
        "270,   132.22, 0.005",
        "273.2, 134.0,  0.01",
        "32,    0,      1e-12",
        "212,   100,    1e-12",
    })
    void fahrenheit_of_the_handbook_table(double fahrenheit, double celsius, double tolerance) {
        assertThat(TemperatureUnit.FAHRENHEIT.toCelsius(fahrenheit))
                .as("row 207, printed digits; 32 and 212 by definition")
                .isCloseTo(celsius, within(tolerance));
    }

    @Test
    void kelvin_is_exact_by_definition() {
        assertThat(TemperatureUnit.KELVIN.toCelsius(273.15)).as("row 207").isZero();
        assertThat(Temperature.ofCelsius(134).kelvin()).as("row 207").isEqualTo(407.15);
        assertThat(TemperatureUnit.FAHRENHEIT.differenceToKelvin(1.8))
                .as("row 207")
                .isCloseTo(1.0, within(1e-12));
    }
}
