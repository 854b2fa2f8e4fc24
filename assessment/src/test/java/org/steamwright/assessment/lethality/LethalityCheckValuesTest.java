package org.steamwright.assessment.lethality;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/** Check values 59 to 83 and 212 of docs/check-values.md. */
class LethalityCheckValuesTest {

    private static final String RECORDING = "autoclave/ciclo_completo_F0_20_1Hz.csv";
    private static final String EXPECTED = "autoclave/EXPECTED.json";

    @ParameterizedTest(name = "{0}: L({1} °C) = {2}")
    @CsvSource({
        "59, 100, 0.00776",
        "60, 111, 0.09772",
        "61, 115, 0.24547",
        "62, 118, 0.48978",
        "63, 121, 0.97724",
        "64, 126, 3.09030",
        "65, 132, 12.30269",
        "66, 134, 19.49845",
        "67, 137, 38.90451",
    })
    void lethal_rate(int row, double celsius, double rate) {
        assertThat(Lethality.rate(celsius, 121.1, 10)).as("row %d", row).isCloseTo(rate, within(1e-5));
    }

    @ParameterizedTest(name = "{0}: {1} °C for {2} min against {3} °C: {4} min")
    @CsvSource({
        "68, 121, 15, 121.1,  14.659,  0.002",
        "69, 126, 10, 121.1,  30.903,  0.002",
        "70, 132, 4,  121.1,  49.211,  0.002",
        "71, 134, 3,  121.1,  58.495,  0.002",
        "72, 134, 18, 121.1,  350.972, 0.002",
        "73, 134, 3,  121.0,  59.858,  0.002",
        "74, 134, 3,  121.11, 58.361,  0.002",
        // [S28]: definition, and 15 min at 111 °C published as 1.5 min
        "75, 121, 15, 121,    15.000,  1e-12",
        "76, 111, 15, 121,    1.500,   0.001",
        "77, 124, 15, 121,    29.929,  0.002",
    })
    void constant_temperature(
            int row, double celsius, int minutes, double reference, double lethality, double tolerance) {
        double[] values = new double[60 * minutes + 1];
        Arrays.fill(values, celsius);
        Lethality f = lethality(reference, 1, values);
        assertThat(f.minutes()).as("row %d", row).isCloseTo(lethality, within(tolerance));
        assertThat(f.lowMinutes())
                .as("row %d: nothing varies, nothing is in doubt", row)
                .isEqualTo(f.highMinutes());
        assertThat(f.referenceCelsius()).isEqualTo(reference);
        assertThat(f.z()).isEqualTo(10);
    }

    /** The published examples give sums of rates at five-minute steps; only the sum matters for the trapezoid. */
    @Test
    void published_trapezoids_at_five_minutes() {
        double nothing = -300;
        double all = celsiusOfRate(2.925);
        assertThat(lethality(121.1, 300, nothing + 100, all, nothing + 100).minutes())
                .as("row 78 [S29]: published 14.6 min")
                .isCloseTo(14.6, within(0.05));
        // last ordinate counts half: (0 + 0.776)/2 is part of the published heating sum of 1.730
        double first = celsiusOfRate(1.730 - 0.388);
        double last = celsiusOfRate(0.776);
        assertThat(lethality(121.1, 300, nothing + 100, first, last).minutes())
                .as("row 79 [S29]: published 8.6 min")
                .isCloseTo(8.6, within(0.06));
    }

    @Test
    void trapezoid_of_a_short_series_and_the_exact_integral_inside_its_bounds() {
        Lethality f = lethality(121.1, 60, 100, 110, 118, 121, 122, 121.5, 121, 112, 100);
        assertThat(f.minutes()).as("row 80").isCloseTo(4.9794, within(0.0005));
        assertThat(4.7104)
                .as("row 81: exact integral of the broken line lies inside the bounds that are told")
                .isBetween(f.lowMinutes(), f.highMinutes());
        assertThat(f.minutes() / 4.7104 - 1)
                .as("row 81: trapezoid reads 5.7 % high")
                .isCloseTo(0.057, within(0.001));
    }

    @ParameterizedTest(name = "83: ramp sampled at {0} s: {1} min")
    @CsvSource({"1, 8.4657", "2, 8.4689", "4, 8.4813", "12, 8.6138", "34, 9.6329"})
    void ramp_of_ten_kelvin_per_minute(int step, double minutes) {
        double[] values = new double[204 / step + 1];
        for (int i = 0; i < values.length; i++) {
            values[i] = 100 + i * step / 6.0;
        }
        Lethality f = lethality(121.1, step, values);
        assertThat(f.minutes()).as("row 83").isCloseTo(minutes, within(0.0005));
        assertThat(8.4647).as("row 82: exact, inside the bounds").isBetween(f.lowMinutes(), f.highMinutes());
    }

    @Test
    void a_real_recording_reaches_twenty_minutes_at_the_published_instant() {
        CorrectedChannel channel = recording();
        double relay = OutsideData.jsonNumber(EXPECTED, "relay_t_s");
        double cutOff = OutsideData.jsonNumber(EXPECTED, "F0_from_relay_reaches_20_at_t_s");
        assertThat(Lethality.of(channel, 121.1, 10, relay, cutOff).minutes())
                .as("row 212: published 20.00 min when the heater was cut off")
                .isCloseTo(OutsideData.jsonNumber(EXPECTED, "F0_at_heater_cutoff_min"), within(0.02));
        assertThat(Lethality.of(channel, 121.1, 10, relay, cutOff - 1).minutes())
                .as("row 212: and not a sample earlier")
                .isLessThan(20);
    }

    @Test
    void the_start_of_integration_changes_the_result_of_a_real_recording() {
        CorrectedChannel channel = recording();
        double relay = OutsideData.jsonNumber(EXPECTED, "relay_t_s");
        double end = channel.axis().last();
        assertThat(Lethality.of(channel, 121.1, 10, 0, end).minutes())
                .as("row 212: whole record, printed to 0.0001 min")
                .isCloseTo(OutsideData.jsonNumber(EXPECTED, "F0_trapz_whole_record"), within(0.00005));
        assertThat(Lethality.of(channel, 121.1, 10, relay, end).minutes())
                .as("row 212: from the relay on")
                .isCloseTo(OutsideData.jsonNumber(EXPECTED, "F0_trapz_relay_to_end"), within(0.00005));
        assertThat(Lethality.of(channel, 121.1, 10, 0, relay).minutes())
                .as("row 212: before the relay")
                .isCloseTo(OutsideData.jsonNumber(EXPECTED, "F0_before_relay"), within(0.00005));
    }

    private static CorrectedChannel recording() {
        List<String[]> rows = OutsideData.rows(RECORDING);
        assertThat(rows).hasSize(3360);
        double[] seconds = new double[rows.size()];
        double[] celsius = new double[rows.size()];
        for (int i = 0; i < seconds.length; i++) {
            seconds[i] = Double.parseDouble(rows.get(i)[0]);
            celsius[i] = Double.parseDouble(rows.get(i)[1]);
        }
        return CorrectedSamples.of("T", ChannelRole.REFERENCE_POINT, TimeAxis.ofSeconds(seconds), celsius);
    }

    private static double celsiusOfRate(double rate) {
        return 121.1 + 10 * Math.log10(rate);
    }

    private static Lethality lethality(double reference, double stepSeconds, double... celsius) {
        CorrectedChannel channel =
                CorrectedSamples.of("T", ChannelRole.LOAD, TimeAxis.regular(celsius.length, stepSeconds), celsius);
        return Lethality.of(channel, reference, 10, 0, channel.axis().last());
    }
}
