package org.steamwright.assessment.steam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.quantity.AbsolutePressure;
import org.steamwright.assessment.quantity.GaugePressure;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.verdict.Ambient;

/** Check values 41 to 58, 124 and 205 of docs/check-values.md. */
class GaugeAltitudeAirCheckValuesTest {

    private static final AbsolutePressure SEA_LEVEL = AbsolutePressure.ofKilopascal(101.325);

    private final SaturationCurve iapws = IapwsR797.INSTANCE;

    @ParameterizedTest(name = "{0}: {1} °C is {2} kPa gauge")
    @CsvSource({
        "41, 121, 103.71, 103",
        "42, 126, 138.13, 138",
        "43, 132, 185.50, 186",
        "44, 134, 202.87, 203",
    })
    void gauge_pressure_at_sea_level(int row, double celsius, double kilopascalGauge, double tableFromMemory) {
        double gauge = iapws.kilopascalAt(celsius) - SEA_LEVEL.kilopascal();
        assertThat(gauge).as("row %d", row).isCloseTo(kilopascalGauge, within(0.02));
        assertThat(gauge)
                .as("row %d: Australian table, from memory, whole kilopascals", row)
                .isCloseTo(tableFromMemory, within(1.0));
    }

    @ParameterizedTest(name = "{0}: {1} {2} gauge is {3} °C")
    @CsvSource({
        "45,  115, KILOPASCAL, 122.71",
        "46,  150, KILOPASCAL, 127.59",
        "47,  225, KILOPASCAL, 136.42",
        "48,  203, KILOPASCAL, 134.01",
        "124, 30,  PSI,        134.44",
    })
    void temperature_of_a_gauge_reading_at_sea_level(int row, double reading, PressureUnit unit, double celsius) {
        AbsolutePressure absolute = new GaugePressure(unit.toKilopascal(reading)).toAbsolute(SEA_LEVEL);
        assertThat(iapws.celsiusAt(absolute.kilopascal())).as("row %d", row).isCloseTo(celsius, within(0.02));
    }

    @ParameterizedTest(name = "{0}: {1} m is {2} kPa, water boils at {3} °C")
    @CsvSource({
        "49 and 50, 500,  95.461, 98.31",
        "51 and 52, 1000, 89.875, 96.65",
        "53 and 54, 1500, 84.556, 94.98",
        "206,       0,    101.325, 99.97",
        "206,       250,  98.358, 99.14",
        "206,       760,  92.522, 97.45",
        "206,       2000, 79.495, 93.32",
        "206,       3000, 70.109, 89.97",
    })
    void pressure_and_boiling_point_by_altitude(String rows, double metres, double kilopascal, double boils) {
        double ambient = Ambient.ofAltitude(metres).pressure().kilopascal();
        assertThat(ambient).as("row %s", rows).isCloseTo(kilopascal, within(0.02));
        assertThat(iapws.celsiusAt(ambient)).as("row %s", rows).isCloseTo(boils, within(0.03));
    }

    @Test
    void a_gauge_that_was_set_at_sea_level_is_one_kelvin_low_at_760_metres() {
        AbsolutePressure absolute = new GaugePressure(202.874).toAbsolute(AbsolutePressure.ofKilopascal(92.522));
        assertThat(iapws.celsiusAt(absolute.kilopascal())).as("row 55").isCloseTo(133.00, within(0.02));
    }

    @ParameterizedTest(name = "{0}: {1} of air leaves {2} °C")
    @CsvSource({"56, 0.01, 133.66", "57, 0.05, 132.25", "58, 0.10, 130.43"})
    void air_lowers_the_temperature_of_the_same_pressure(int row, double airShare, double celsius) {
        assertThat(ResidualAir.celsiusAt(304.199, 100 * airShare, iapws))
                .as("row %d, Dalton's law", row)
                .isCloseTo(celsius, within(0.02));
        assertThat(ResidualAir.percent(304.199, celsius, iapws))
                .as("row %d backwards: 0.02 K are 0.06 %% of air", row)
                .isCloseTo(100 * airShare, within(0.06));
    }

    @Test
    void a_measured_pair_of_gauge_and_sensor_at_1495_metres() {
        List<String> lines = OutsideData.lines("autoclave/altitude_gauge_crosscheck.csv");
        Pattern computed = Pattern.compile("IF97 ([0-9.]+)");
        int read = 0;
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(",", 5);
            double psi = Double.parseDouble(cells[1]);
            double kilopascalAmbient = Double.parseDouble(cells[2]);
            double celsius = Double.parseDouble(cells[3]);
            double ours = iapws.celsiusAt(new GaugePressure(PressureUnit.PSI.toKilopascal(psi))
                    .toAbsolute(AbsolutePressure.ofKilopascal(kilopascalAmbient))
                    .kilopascal());
            assertThat(ours)
                    .as("row 205, %s: a needle gauge is read to half a psi, that is 0.5 K", cells[0])
                    .isCloseTo(celsius, within(0.25));
            Matcher matcher = computed.matcher(cells[4]);
            if (matcher.find()) {
                assertThat(ours)
                        .as("row 205, %s: value computed apart from this program, printed to 0.01 K", cells[0])
                        .isCloseTo(Double.parseDouble(matcher.group(1)), within(0.01));
            }
            read++;
        }
        assertThat(read).isEqualTo(7);
    }

    @Test
    void the_measured_pair_lies_within_a_fifth_of_a_kelvin() {
        AbsolutePressure absolute =
                new GaugePressure(PressureUnit.PSI.toKilopascal(18)).toAbsolute(AbsolutePressure.ofKilopascal(84.6));
        double ours = iapws.celsiusAt(absolute.kilopascal());
        assertThat(ours)
                .as("row 205: stated beside the data as 121.56, printed to 0.01 K")
                .isCloseTo(121.56, within(0.01));
        assertThat(ours).as("row 205: sensor 121.67 °C").isCloseTo(121.67, within(0.2));
    }

    @Test
    void the_altitude_of_the_measured_pair_gives_its_ambient_pressure() {
        assertThat(Ambient.ofAltitude(1495).pressure().kilopascal())
                .as("row 205: 84.6 kPa printed by its author")
                .isCloseTo(84.6, within(0.05));
    }
}
