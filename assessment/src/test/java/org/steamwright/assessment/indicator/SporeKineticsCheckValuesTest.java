package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Check values 84 to 92 of docs/check-values.md. */
class SporeKineticsCheckValuesTest {

    private static final SporeKinetics MILLION = new SporeKinetics(1e6, 1.5, 121, 10);

    @ParameterizedTest(name = "{0}: F = {1} min")
    @CsvSource({"84, 15, 10, 1e-4", "85, 18, 12, 1e-6"})
    void log_reduction_and_survivors(int row, double minutes, double decades, double survivors) {
        assertThat(MILLION.logReduction(minutes)).as("row %d, exact", row).isEqualTo(decades);
        assertThat(MILLION.survivors(minutes)).as("row %d", row).isCloseTo(survivors, within(1e-12 * survivors));
    }

    @Test
    void lethality_for_a_wanted_survivor_probability() {
        assertThat(MILLION.lethalityForMinutes(1e-6)).as("row 86 [S26]").isCloseTo(18.0, within(1e-12));
    }

    @ParameterizedTest(name = "87: z = {0} K gives {1} s")
    @CsvSource({"10, 4.511, 0.002", "6, 0.613, 0.002"})
    void decimal_reduction_time_at_134_degrees(double z, double seconds, double tolerance) {
        SporeKinetics spores = new SporeKinetics(1e6, 1.5, 121, z);
        // the row's first figure is printed as 4.511; 90 s · 10^-1.3 is 4.5107
        assertThat(60 * spores.decimalReductionMinutesAt(134))
                .as("row 87, z = %s K", z)
                .isCloseTo(seconds, within(tolerance));
    }

    @ParameterizedTest(name = "{0}: N0 = {1}, D = {2} min: survival {3}, kill {4} min")
    @CsvSource({
        "88, 1e5, 1.5, 4.500, 13.500",
        "89, 1e6, 1.5, 6.000, 15.000",
        "90, 2e6, 1.8, 7.742, 18.542",
    })
    void survival_and_kill_time(int row, double population, double d, double survival, double kill) {
        SporeKinetics spores = new SporeKinetics(population, d, 121, 10);
        assertThat(spores.survivalMinutes()).as("row %d [S32]", row).isCloseTo(survival, within(0.002));
        assertThat(spores.killMinutes()).as("row %d [S32]", row).isCloseTo(kill, within(0.002));
    }

    @Test
    void stated_value_of_an_integrating_indicator() {
        SporeKinetics spores = new SporeKinetics(1e5, 1.5, 121, 10);
        double stated = spores.lethalityForMinutes(1e-6);
        assertThat(stated).as("row 91 [S31]: (5 + 6) · 1.5").isCloseTo(16.5, within(1e-12));
        assertThat(spores.lethalityForMinutes(1e-2) / stated)
                .as("row 92 [S31]: 10.5 of 16.5 min")
                .isCloseTo(0.636, within(0.0005));
    }
}
