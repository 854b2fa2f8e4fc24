package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SiUnitTest {

    @ParameterizedTest(name = "100 {0} = {2} {1}, as a difference {3}")
    @CsvSource({
        "'\\degreecelsius', TEMPERATURE, 100, 100",
        "'\\kelvin', TEMPERATURE, -173.15, 100",
        "'\\milli\\kelvin', TEMPERATURE, -273.05, 0.1",
        "'\\pascal', PRESSURE, 0.1, 0.1",
        "'\\kilo\\pascal', PRESSURE, 100, 100",
        "'\\hecto\\pascal', PRESSURE, 10, 10",
        "'\\bar', PRESSURE, 10000, 10000",
        "'\\milli\\bar', PRESSURE, 10, 10",
        "'\\newton\\per\\metre\\tothe{2}', PRESSURE, 0.1, 0.1",
        "'\\newton\\metre\\tothe{-2}', PRESSURE, 0.1, 0.1",
        "'\\kilogram\\metre\\tothe{-1}\\second\\tothe{-2}', PRESSURE, 0.1, 0.1",
        "'\\ohm', RESISTANCE, 100, 100",
        "'\\kilo\\ohm', RESISTANCE, 100000, 100000",
        "'\\volt\\per\\ampere', RESISTANCE, 100, 100",
        "'\\kilogram\\metre\\tothe{2}\\ampere\\tothe{-2}\\second\\tothe{-3}', RESISTANCE, 100, 100",
        "'\\one', HUMIDITY, 10000, 10000",
        "'\\percent', HUMIDITY, 100, 100",
        "'\\metre', OTHER, 100, 100",
        "'\\milli\\metre', OTHER, 100, 100",
        "'\\kelvin\\tothe{-1}', OTHER, 100, 100",
    })
    void is_known_with_its_size(String text, MeasuredKind kind, double value, double difference) {
        SiUnit unit = SiUnit.parse(text).orElseThrow();
        assertThat(unit.kind()).isEqualTo(kind);
        assertThat(unit.inside(100)).isCloseTo(value, within(1e-9));
        assertThat(unit.difference(100)).isCloseTo(difference, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "K",
                "°C",
                "\\",
                "\\milli",
                "\\per",
                "\\kelvin\\per",
                "\\tothe{2}",
                "\\kelvin\\tothe",
                "\\kelvin\\tothe{x}",
                "\\degreewarm",
                "\\kelvin x",
                "\\kelvin{2}",
                "\\Kelvin",
                "\\kelvin\\tothe{999}"
            })
    void what_is_no_unit_is_not_guessed(String text) {
        assertThat(SiUnit.parse(text)).isEmpty();
    }
}
