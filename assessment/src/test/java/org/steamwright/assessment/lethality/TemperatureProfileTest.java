package org.steamwright.assessment.lethality;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** With check values 68, 71, 81 and 82 of docs/check-values.md. */
class TemperatureProfileTest {

    private static final TemperatureProfile SERIES = new TemperatureProfile(
            new double[] {0, 1, 2, 3, 4, 5, 6, 7, 8}, new double[] {100, 110, 118, 121, 122, 121.5, 121, 112, 100});

    @Test
    void minute_series_is_integrated_exactly() {
        assertThat(SERIES.equivalentMinutes(8, 121.1, 10)).as("row 81").isCloseTo(4.7104, within(0.00005));
    }

    @ParameterizedTest(name = "row {0}: {1} °C for {2} min")
    @CsvSource({"68, 121, 15, 14.659", "71, 134, 3, 58.495"})
    void level_temperature(int row, double celsius, double minutes, double expected) {
        TemperatureProfile level = new TemperatureProfile(new double[] {0, minutes}, new double[] {celsius, celsius});
        assertThat(level.equivalentMinutes(minutes, 121.1, 10))
                .as("row %d", row)
                .isCloseTo(expected, within(0.002));
    }

    @Test
    void ramp() {
        TemperatureProfile ramp = new TemperatureProfile(new double[] {0, 3.4}, new double[] {100, 134});
        assertThat(ramp.equivalentMinutes(3.4, 121.1, 10)).as("row 82").isCloseTo(8.4647, within(0.00005));
    }

    @Test
    void nearly_level_joins_level_without_a_step() {
        double level =
                new TemperatureProfile(new double[] {0, 10}, new double[] {121, 121}).equivalentMinutes(10, 121, 10);
        for (double rise : new double[] {1e-7, 0.9e-5, 1.1e-5, 1e-4}) {
            double risen = new TemperatureProfile(new double[] {0, 10}, new double[] {121, 121 + rise})
                    .equivalentMinutes(10, 121, 10);
            assertThat(risen - level)
                    .as("a rise of %s K", rise)
                    .isCloseTo(level * Math.log(10) * rise / 20, within(1e-9));
        }
    }

    @Test
    void stops_at_the_moment_asked_for() {
        TemperatureProfile two = new TemperatureProfile(new double[] {0, 2, 4}, new double[] {121, 121, 131});
        assertThat(two.equivalentMinutes(0, 121, 10)).isZero();
        assertThat(two.equivalentMinutes(1, 121, 10)).isCloseTo(1, within(1e-12));
        assertThat(two.equivalentMinutes(2, 121, 10)).isCloseTo(2, within(1e-12));
        // half the ramp: 121 to 126 °C in one minute
        assertThat(two.equivalentMinutes(3, 121, 10))
                .isCloseTo(2 + (Math.sqrt(10) - 1) / (Math.log(10) / 2), within(1e-12));
        assertThat(two.celsiusAt(3)).isEqualTo(126);
        assertThat(two.celsiusAt(2)).isEqualTo(121);
        assertThat(two.celsiusAt(-0.1)).isNaN();
        assertThat(two.celsiusAt(4.1)).isNaN();
    }

    @Test
    void refuses_what_is_no_profile() {
        assertThatThrownBy(() -> new TemperatureProfile(new double[0], new double[0]))
                .hasMessage("a temperature profile with 0 moments and 0 temperatures");
        assertThatThrownBy(() -> new TemperatureProfile(new double[] {0, 0}, new double[] {1, 2}))
                .hasMessage(
                        "a temperature profile with 2.0 °C at 0.0 min in place 2; moments rise and temperatures are numbers");
        assertThatThrownBy(() -> new TemperatureProfile(new double[] {0}, new double[] {Double.NaN}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> SERIES.equivalentMinutes(9, 121, 10))
                .hasMessage("no lethality to 9.0 min with z = 10.0 K; the profile runs from 0.0 to 8.0 min");
        assertThatThrownBy(() -> SERIES.equivalentMinutes(5, 121, 0)).isInstanceOf(IllegalArgumentException.class);
    }
}
