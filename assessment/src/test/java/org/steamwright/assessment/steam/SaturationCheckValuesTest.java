package org.steamwright.assessment.steam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import com.hummeling.if97.IF97;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;

/** Check values 1 to 40, 125 to 128, 201 to 203 of docs/check-values.md. */
class SaturationCheckValuesTest {

    private static final double ZERO = 273.15;

    private final SaturationCurve iapws = IapwsR797.INSTANCE;
    private final SaturationCurve shortFormula = ShortFormula.INSTANCE;

    @ParameterizedTest(name = "{0}: p({1} K) = {2} MPa")
    @CsvSource({
        "1, 300, 0.353658941e-2, IAPWS R7-97(2012) table 35",
        "2, 500, 0.263889776e1,  IAPWS R7-97(2012) table 35",
        "3, 600, 0.123443146e2,  IAPWS R7-97(2012) table 35",
    })
    void saturation_pressure_reproduces_the_verification_table(int row, double kelvin, double megapascal, String why) {
        assertThat(iapws.kilopascalAt(kelvin - ZERO) / 1000)
                .as("row %d, %s", row, why)
                .isCloseTo(megapascal, within(1e-8 * megapascal));
    }

    @ParameterizedTest(name = "{0}: T({1} MPa) = {2} K")
    @CsvSource({
        "4, 0.1, 0.372755919e3, IAPWS R7-97(2012) table 36",
        "5, 1,   0.453035632e3, IAPWS R7-97(2012) table 36",
        "6, 10,  0.584149488e3, IAPWS R7-97(2012) table 36",
    })
    void saturation_temperature_reproduces_the_verification_table(
            int row, double megapascal, double kelvin, String why) {
        assertThat(iapws.celsiusAt(megapascal * 1000) + ZERO)
                .as("row %d, %s", row, why)
                .isCloseTo(kelvin, within(1e-8 * kelvin));
    }

    @ParameterizedTest(name = "{0}: p({1} °C) = {2} kPa")
    @CsvSource({
        "7,  100,   101.418, 0.005",
        "8,  115,   169.177, 0.005",
        "9,  121,   205.039, 0.005",
        "10, 121.1, 205.685, 0.005",
        "11, 126,   239.460, 0.005",
        "12, 132,   286.823, 0.005",
        "13, 134,   304.199, 0.005",
        "14, 135,   313.201, 0.005",
        "15, 137,   331.852, 0.005",
        "16, 138,   341.508, 0.005",
        // printed table of a university, people.ohio.edu/trembly [S25]
        "125, 60,   19.95,   0.01",
        "126, 80,   47.41,   0.01",
        "127, 90,   70.18,   0.01",
        "128, 95,   84.61,   0.01",
    })
    void saturation_pressure_of_the_handbook_table(int row, double celsius, double kilopascal, double tolerance) {
        assertThat(iapws.kilopascalAt(celsius)).as("row %d", row).isCloseTo(kilopascal, within(tolerance));
    }

    @ParameterizedTest(name = "{0}: T({1} kPa) = {2} °C")
    @CsvSource({
        "17, 101.325, 99.974",
        "18, 150,     111.350",
        "19, 200,     120.212",
        "20, 205,     120.994",
        "21, 210,     121.761",
        "22, 220,     123.251",
        "23, 250,     127.414",
        "24, 280,     131.188",
        "25, 300,     133.525",
        "26, 304.2,   134.000",
        "27, 310,     134.647",
        "28, 320,     135.740",
        "29, 330,     136.806",
    })
    void saturation_temperature_of_the_handbook_table(int row, double kilopascal, double celsius) {
        assertThat(iapws.celsiusAt(kilopascal)).as("row %d", row).isCloseTo(celsius, within(0.003));
    }

    @Test
    void both_directions_agree_between_95_and_140_degrees() {
        for (int tenth = 950; tenth <= 1400; tenth++) {
            double celsius = tenth / 10.0;
            assertThat(iapws.celsiusAt(iapws.kilopascalAt(celsius)))
                    .as("row 30: backward equation at %s °C", celsius)
                    .isCloseTo(celsius, within(1e-4));
            assertThat(shortFormula.celsiusAt(shortFormula.kilopascalAt(celsius)))
                    .as("short formula at %s °C", celsius)
                    .isCloseTo(celsius, within(1e-9));
        }
    }

    @ParameterizedTest(name = "{0}: short formula T({1} kPa) = {2} °C")
    @CsvSource({
        "31, 101.325, 100.091",
        "32, 205,     121.131",
        "33, 220,     123.388",
        "34, 304.2,   134.128",
        "35, 313,     135.105",
        "36, 320,     135.866",
    })
    void short_formula_of_the_handbook_table(int row, double kilopascal, double celsius) {
        assertThat(shortFormula.celsiusAt(kilopascal))
                .as("row %d, constants [S24]", row)
                .isCloseTo(celsius, within(0.003));
    }

    @ParameterizedTest(name = "{0}: bias at {1} °C = {2} K")
    @CsvSource({"37, 100, 0.117", "38, 121, 0.137", "39, 134, 0.128"})
    void short_formula_reads_higher_than_iapws(int row, double celsius, double bias) {
        double kilopascal = iapws.kilopascalAt(celsius);
        assertThat(shortFormula.celsiusAt(kilopascal) - celsius)
                .as("row %d", row)
                .isCloseTo(bias, within(0.002));
    }

    @Test
    void short_formula_backwards() {
        assertThat(shortFormula.kilopascalAt(134)).as("row 40").isCloseTo(303.058, within(0.01));
    }

    @ParameterizedTest(name = "slope at {0} °C = {1} kPa/K")
    @CsvSource({"100, 3.619", "121, 6.456", "134, 8.896", "140, 10.227"})
    void slope_of_the_handbook_table(double celsius, double slope) {
        assertThat(iapws.kilopascalPerKelvinAt(celsius))
                .as("row 204, handbook 3.3, printed to 0.001")
                .isCloseTo(slope, within(0.001));
    }

    @Test
    void data_file_of_the_verification_tables() {
        List<String[]> rows = OutsideData.rows("steam/iapws_if97_region4_verification.csv");
        assertThat(rows).hasSize(6);
        for (String[] row : rows) {
            double input = Double.parseDouble(row[1]);
            double expected = Double.parseDouble(row[3]);
            double computed = row[0].equals("psat")
                    ? iapws.kilopascalAt(input - ZERO) / 1000
                    : iapws.celsiusAt(input * 1000) + ZERO;
            assertThat(computed).as("row 201, %s", row[5]).isCloseTo(expected, within(1e-8 * expected));
        }
    }

    @Test
    void data_file_of_two_formulations() {
        List<String[]> rows = OutsideData.rows("steam/psat_95_140_if97_vs_iapws95.csv");
        assertThat(rows).hasSize(46);
        for (String[] row : rows) {
            double celsius = Double.parseDouble(row[0]);
            double industrial = Double.parseDouble(row[1]);
            double scientific = Double.parseDouble(row[2]);
            assertThat(iapws.kilopascalAt(celsius))
                    .as("row 202: industrial formulation at %s °C, printed to 0.0001 kPa", celsius)
                    .isCloseTo(industrial, within(0.0001));
            assertThat(iapws.kilopascalAt(celsius))
                    .as("row 202: scientific formulation IAPWS-95 at %s °C", celsius)
                    .isCloseTo(scientific, withinPercentage(0.03));
            assertThat(iapws.celsiusAt(industrial))
                    .as("row 202: backwards at %s °C", celsius)
                    .isCloseTo(celsius, within(1e-4));
        }
    }

    @Test
    void agrees_with_an_independent_library_from_95_to_140_degrees() throws Exception {
        IF97 oracle = new IF97(IF97.UnitSystem.DEFAULT);
        for (int tenth = 950; tenth <= 1400; tenth++) {
            double celsius = tenth / 10.0;
            double megapascal = oracle.saturationPressureT(celsius + ZERO);
            assertThat(iapws.kilopascalAt(celsius) / 1000)
                    .as("row 203: com.hummeling:if97, pressure at %s °C", celsius)
                    .isCloseTo(megapascal, within(1e-11 * megapascal));
            double kelvin = oracle.saturationTemperatureP(megapascal);
            assertThat(iapws.celsiusAt(megapascal * 1000) + ZERO)
                    .as("row 203: com.hummeling:if97, temperature at %s MPa", megapascal)
                    .isCloseTo(kelvin, within(1e-11 * kelvin));
        }
    }

    @ParameterizedTest(name = "{0} kPa, {1} °C")
    @CsvSource({
        "0.611, -0.1,   below the triple point region",
        "22065, 374.0,  above the critical point",
        "NaN,   NaN,    a missing value stays missing",
    })
    void has_no_answer_outside_its_range(double kilopascal, double celsius, String why) {
        assertThat(iapws.celsiusAt(kilopascal)).as(why).isNaN();
        assertThat(iapws.kilopascalAt(celsius)).as(why).isNaN();
    }
}
