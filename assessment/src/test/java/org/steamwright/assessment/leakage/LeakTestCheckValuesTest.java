package org.steamwright.assessment.leakage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Unit;

/** Check values 93 to 98 and 208 of docs/check-values.md. */
class LeakTestCheckValuesTest {

    private static final Limit LIMIT = new Limit(
            Comparison.AT_MOST,
            0.13,
            Unit.KILOPASCAL_PER_MINUTE,
            new Source(
                    "air leakage test after ISO 17665",
                    "2024",
                    "C.6",
                    Provenance.SECONDARY,
                    Confidence.HIGH,
                    "[S36], [S37]"));

    @ParameterizedTest(name = "{0}: {1} to {2} kPa in ten minutes: {3}")
    @CsvSource({
        "93, 5.20, 6.10, 0.090, true,  1e-6, well inside",
        "94, 5.20, 6.50, 0.130, true,  1e-9, the limit itself is good though the binary fraction lies above it",
        "95, 5.20, 6.51, 0.131, false, 1e-6, a hundredth of a kilopascal more is a fail",
    })
    void rate_and_limit(int row, double settled, double end, double rate, boolean met, double tolerance, String why) {
        LeakTest test = test(settled, end, Optional.empty(), Optional.empty());
        assertThat(test.rate().kilopascalPerMinute()).as("row %d, %s", row, why).isCloseTo(rate, within(tolerance));
        assertThat(LIMIT.isMetBy(test.rate().kilopascalPerMinute()))
                .as("row %d, %s", row, why)
                .isEqualTo(met);
    }

    @Test
    void a_cooling_chamber_hides_a_leak() {
        LeakTest test = test(5.20, 6.10, Optional.of(60.0), Optional.of(50.0));
        assertThat(test.temperatureCorrectedRate().orElseThrow().kilopascalPerMinute())
                .as("row 96")
                .isCloseTo(0.1089, within(0.0002));
        assertThat(test.rate().kilopascalPerMinute()).as("row 93").isCloseTo(0.090, within(1e-6));
    }

    @Test
    void ten_kelvin_move_forty_millibar_by_about_one() {
        // no leak at all: 4 kPa at 60 °C shrink by 10 K, the correction has to give back what the rate lost
        double cooled = 4.0 * (50 + 273.15) / (60 + 273.15);
        LeakTest test = test(4.0, cooled, Optional.of(60.0), Optional.of(50.0));
        double lostMillibar = -10 * test.rate().millibarPerMinute();
        assertThat(lostMillibar).as("row 97 [S36]").isCloseTo(1.20, within(0.01));
        assertThat(test.temperatureCorrectedRate().orElseThrow().kilopascalPerMinute())
                .as("row 97: a tight chamber stays tight after correction")
                .isCloseTo(0, within(1e-12));
    }

    @Test
    void thirteen_millibar_in_ten_minutes() {
        LeakTest test = test(5.0, 6.3, Optional.empty(), Optional.empty());
        assertThat(test.rate().millibarPerMinute()).as("row 98 [S37]").isCloseTo(1.3, within(1e-9));
        assertThat(test.rate().kilopascalPerMinute()).as("row 98 [S37]").isCloseTo(0.13, within(1e-9));
    }

    @Test
    void a_regulation_s_worked_example_of_a_vacuum_that_decays() {
        List<String[]> rows = OutsideData.rows("leak/cfr40_1065_644_vacuum_decay.csv");
        assertThat(rows).hasSize(1);
        String[] row = rows.get(0);
        double seconds = Double.parseDouble(row[8]);
        double first = Double.parseDouble(row[2]) / 1000;
        double second = Double.parseDouble(row[4]) / 1000;
        LeakTest test = new LeakTest(
                0,
                0,
                seconds,
                first,
                first,
                second,
                Optional.of(Double.parseDouble(row[3]) - 273.15),
                Optional.of(Double.parseDouble(row[5]) - 273.15),
                true);
        double rate = Double.parseDouble(row[10]);
        assertThat(test.rate().millibarPerMinute())
                .as("row 208: pressures and times of 40 CFR 1065.644, rate computed apart from this program")
                .isCloseTo(rate, within(1e-6));
        assertThat(test.temperatureCorrectedRate().orElseThrow().millibarPerMinute())
                .as("row 208: at one temperature the correction changes nothing")
                .isCloseTo(rate, within(1e-6));
    }

    private static LeakTest test(
            double settled, double end, Optional<Double> settledCelsius, Optional<Double> endCelsius) {
        return new LeakTest(0, 300, 900, settled, settled, end, settledCelsius, endCelsius, true);
    }
}
