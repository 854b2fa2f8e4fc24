package org.steamwright.assessment.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;

/** Check values 105 to 107 and 213 of docs/check-values.md; they hold functions of the tests, not of the program. */
class SensorOracleCheckValuesTest {

    @ParameterizedTest(name = "105: class {0} at 134 °C: {1} K")
    @CsvSource({"A, 0.418", "B, 0.970", "AA, 0.328"})
    void tolerance_classes(String tolerance, double kelvin) {
        assertThat(SensorOracle.toleranceKelvin(tolerance, 134))
                .as("row 105 [S47]")
                .isCloseTo(kelvin, within(0.0005));
    }

    @ParameterizedTest(name = "106: R({0} °C) = {1} Ω")
    @CsvSource({"100, 138.5055", "134, 151.3343"})
    void resistance(double celsius, double ohm) {
        assertThat(SensorOracle.pt100Ohm(celsius)).as("row 106").isCloseTo(ohm, within(0.0005));
    }

    @Test
    void resistance_of_the_published_points() {
        var rows = OutsideData.rows("thermocouple/pt100_iec60751_published.csv");
        assertThat(rows).hasSize(6);
        for (String[] row : rows) {
            assertThat(SensorOracle.pt100Ohm(Double.parseDouble(row[0])))
                    .as("row 213, %s °C, printed to 0.01 Ω", row[0])
                    .isCloseTo(Double.parseDouble(row[1]), within(0.00501));
        }
    }

    @ParameterizedTest(name = "107: E({0} °C) = {1} mV")
    @CsvSource({
        "100, 4.2785, 0.0005",
        "121, 5.2767, 0.0005",
        "134, 5.9097, 0.0005",
        "200, 9.2881, 0.0005",
        "400, 20.872, 0.0005",
    })
    void voltage(double celsius, double millivolt, double tolerance) {
        assertThat(SensorOracle.typeTMillivolt(celsius)).as("row 107").isCloseTo(millivolt, within(tolerance));
    }

    @Test
    void voltage_of_the_published_table() {
        int read = 0;
        for (String line : OutsideData.lines("thermocouple/nist_type_t.tab")) {
            String[] cells = line.strip().split("\\s+");
            boolean isRow = cells.length > 2 && cells[0].matches("\\d+") && cells[1].matches("\\d+\\.\\d{3}");
            if (!isRow || cells[2].startsWith("-")) {
                continue;
            }
            int tens = Integer.parseInt(cells[0]);
            for (int i = 1; i < cells.length; i++) {
                int celsius = tens + i - 1;
                if (celsius > 400) {
                    break;
                }
                assertThat(SensorOracle.typeTMillivolt(celsius))
                        .as("row 213, NIST table, %d °C, printed to 0.001 mV", celsius)
                        .isCloseTo(Double.parseDouble(cells[i]), within(0.000501));
                read++;
            }
        }
        assertThat(read).as("values from 0 °C up").isGreaterThan(400);
    }
}
