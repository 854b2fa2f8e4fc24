package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class QuantitiesTest {

    private final List<String> problems = new ArrayList<>();
    private final Spot spot = (mistake, flaw) -> problems.add(mistake.id() + " " + flaw.text());

    @ParameterizedTest(name = "{1} as {0}: {2}, {3}")
    @CsvSource({
        "TEMPERATURE, 134 °C, 134, as it should be",
        "TEMPERATURE, 134°C, 134, no blank",
        "TEMPERATURE, 273.2 °F, 134, Fahrenheit",
        "TEMPERATURE, 407.15 K, 134, kelvin",
        "TEMPERATURE, -20 °C, -20, below zero",
        "TEMPERATURE, −20 °C, -20, typographic minus",
        "TEMPERATURE_DIFFERENCE, ±0.15 K, 0.15, with the sign",
        "TEMPERATURE_DIFFERENCE, +/- 0.15 K, 0.15, sign of three strokes",
        "TEMPERATURE_DIFFERENCE, 150 mK, 0.15, thousandths",
        "TEMPERATURE_DIFFERENCE, 0.27 °F, 0.15, a Fahrenheit step is 5/9 K",
        "BAROMETER, 1013 mbar, 101.3, to the last digit",
        "BAROMETER, 1013.25 hPa, 101.325, hectopascal",
        "BAROMETER, 101.2 kPa absolute, 101.2, said twice is no harm",
        "PRESSURE, 3.042 bar, 304.2, bar",
        "PRESSURE, -0.9 bar, -90, gauge instruments show less than nothing",
        "PRESSURE, 14.7 psi, 101.3529279, NIST SP 811 factor from memory",
        "ABSOLUTE_PRESSURE, 15 kPa absolute, 15, in full",
        "ABSOLUTE_PRESSURE, 150 mbar abs, 15, short",
        "ABSOLUTE_PRESSURE, 150 mbar(abs), 15, in brackets",
        "PRESSURE_DIFFERENCE, ±5 mbar, 0.5, with the sign",
        "DURATION, 3 min, 180, minutes",
        "DURATION, 3 min 30 s, 210, two parts",
        "DURATION, 3min30s, 210, without blanks",
        "DURATION, 1 h 2 min 3 s, 3723, three parts",
        "DURATION, 3.5 min, 210, a part of a minute",
        "ALTITUDE, 450 m, 450, metres",
        "ALTITUDE, 1000 ft, 304.8, feet by definition",
        "ALTITUDE, -10 m, -10, below the sea",
        "VOLUME, 17 L, 17, litres",
        "LOAD_MASS, 3200 g, 3.2, grams of a load",
        "PACK_MASS, 0.5123 kg, 512.3, kilograms of a pack",
        "VOLTAGE, 231 V, 231, volt",
        "HUMIDITY, 45 %, 45, percent",
        "CONDUCTIVITY, 12 µS/cm, 12, micro sign",
        "CONDUCTIVITY, 12 μS/cm, 12, Greek letter mu",
        "CONDUCTIVITY, 0.012 mS/cm, 12, millisiemens",
    })
    void reads(Measure measure, String text, double expected, String why) {
        Optional<Double> value = Quantities.parse(text, measure, spot);
        assertThat(problems).as(why).isEmpty();
        assertThat(value.orElseThrow()).as(why).isEqualTo(expected, within(1e-9));
    }

    @Test
    void converts_in_decimal_so_that_no_digit_is_invented() {
        assertThat(Quantities.parse("1012 mbar", Measure.BAROMETER, spot)).contains(101.2);
        assertThat(Quantities.parse("150 mbar abs", Measure.ABSOLUTE_PRESSURE, spot))
                .contains(15.0);
    }

    @ParameterizedTest(name = "{1} as {0}: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "TEMPERATURE | 134 | VISIT-010 found 134 without a unit, expected a temperature in °C, °F or K. Write for example: 134 °C",
                "BAROMETER | 101.2 | VISIT-010 found 101.2 without a unit, expected a barometer reading in kPa, hPa, mbar, mmHg or inHg. Write for example: 101.2 kPa",
                "BAROMETER | 101,2 kPa | VISIT-012 found \"101,2 kPa\" with a comma, expected a decimal point. Write: 101.2 kPa",
                "BAROMETER | 1,013.2 mbar | VISIT-012 found \"1,013.2 mbar\" with a comma, expected a decimal point. Write the number without a mark for thousands, for example: 101.2 kPa",
                "TEMPERATURE | 134 kPa | VISIT-011 found \"134 kPa\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE | hot | VISIT-011 found \"hot\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE | °C | VISIT-011 found \"°C\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE | NaN °C | VISIT-011 found \"NaN °C\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE | 1e999 °C | VISIT-011 found \"1e999 °C\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE | -300 °C | VISIT-011 found \"-300 °C\", expected a temperature in °C, °F or K. Write for example: 134 °C",
                "TEMPERATURE_DIFFERENCE | -0.1 K | VISIT-011 found \"-0.1 K\", expected a temperature difference that is not negative in K, mK, °C or °F. Write for example: ±0.15 K",
                "DURATION | 3:30 min | VISIT-011 found \"3:30 min\", expected a time that is not negative in s, min or h. Write for example: 3 min 30 s",
                "DURATION | 3 min 30 | VISIT-011 found \"3 min 30\", expected a time that is not negative in s, min or h. Write for example: 3 min 30 s",
                "DURATION | -3 min | VISIT-011 found \"-3 min\", expected a time that is not negative in s, min or h. Write for example: 3 min 30 s",
                "ABSOLUTE_PRESSURE | 15 kPa gauge | VISIT-011 found \"15 kPa gauge\", expected an absolute pressure that is not negative in kPa, hPa, mbar, bar, psi, mmHg or inHg, then \"absolute\". Write for example: 15 kPa absolute",
                "ABSOLUTE_PRESSURE | 15 kPa | VISIT-028 found \"15 kPa\", expected the word absolute after it, since a gauge shows about 101 kPa less. Write for example: 15 kPa absolute",
                "VOLUME | 17 l x | VISIT-011 found \"17 l x\", expected a volume that is not negative in L or mL. Write for example: 17 L",
            })
    void refuses(Measure measure, String text, String problem) {
        assertThat(Quantities.parse(text, measure, spot)).isEmpty();
        assertThat(problems).containsExactly(problem);
    }

    @ParameterizedTest
    @EnumSource(Measure.class)
    void reads_its_own_examples(Measure measure) {
        assertThat(Quantities.parse(Quantities.example(measure), measure, spot)).isPresent();
        assertThat(Quantities.parse("1 " + measure.unit(), measure, spot)).isPresent();
        assertThat(problems).isEmpty();
    }

    @Test
    void reads_plain_numbers_and_counts() {
        assertThat(Quantities.number("1.2e6", spot)).contains(1.2e6);
        assertThat(Quantities.number("2", spot)).contains(2.0);
        assertThat(Quantities.count("0", spot)).hasValue(0);
        assertThat(problems).isEmpty();
        assertThat(Quantities.number("2 K", spot)).isEmpty();
        assertThat(Quantities.number("2,1", spot)).isEmpty();
        assertThat(Quantities.count("-1", spot)).isEmpty();
        assertThat(Quantities.count("1.5", spot)).isEmpty();
        assertThat(Quantities.count("1234567890", spot)).isEmpty();
        assertThat(problems)
                .containsExactly(
                        "VISIT-013 found \"2 K\", expected a number without a unit. Write for example: 2",
                        "VISIT-012 found \"2,1\" with a comma, expected a decimal point. Write: 2.1",
                        "VISIT-013 found \"-1\", expected a whole number from 0 to 999999999. Write for example: 3",
                        "VISIT-013 found \"1.5\", expected a whole number from 0 to 999999999. Write for example: 3",
                        "VISIT-013 found \"1234567890\", expected a whole number from 0 to 999999999. Write for example: 3");
    }
}
