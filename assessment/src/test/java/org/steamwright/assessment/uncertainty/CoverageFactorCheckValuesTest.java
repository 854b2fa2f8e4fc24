package org.steamwright.assessment.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Check values 340 and 341 of docs/check-values.md. */
class CoverageFactorCheckValuesTest {

    @ParameterizedTest(name = "{0} degrees of freedom: {1}")
    @CsvSource({
        "1, 13.97",
        "2, 4.53",
        "3, 3.31",
        "4, 2.87",
        "5, 2.65",
        "6, 2.52",
        "7, 2.43",
        "8, 2.37",
        "9, 2.32",
        "10, 2.28",
        "20, 2.13",
        "50, 2.05",
        "100, 2.025",
    })
    void factors_are_those_of_the_table_of_the_guide(double degreesOfFreedom, double published) {
        assertThat(CoverageFactor.of(degreesOfFreedom))
                .as("row 340: JCGM 100:2008, table G.2 for 95.45 %, from memory; 2.025 is printed with a digit more")
                .isCloseTo(published, within(0.0051));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 8, 9, 16, 17, 31, 60, 129, 599})
    void probabilities_are_those_of_a_library(int degreesOfFreedom) {
        TDistribution library = new TDistribution(degreesOfFreedom);
        for (double t : new double[] {0.1, 0.7, 1, 1.96, 2, 2.5, 4, 13.97}) {
            assertThat(CoverageFactor.probabilityWithin(t, degreesOfFreedom))
                    .as("row 341: t = %s", t)
                    .isCloseTo(2 * library.cumulativeProbability(t) - 1, within(1e-11));
        }
        assertThat(CoverageFactor.of(degreesOfFreedom))
                .isCloseTo(library.inverseCumulativeProbability((1 + CoverageFactor.PROBABILITY) / 2), within(0.00501));
    }

    @Test
    void many_degrees_of_freedom_make_two() {
        assertThat(CoverageFactor.of(Double.POSITIVE_INFINITY)).isEqualTo(2);
        assertThat(CoverageFactor.of(600)).isEqualTo(2);
        assertThat(CoverageFactor.of(400)).as("2.005 would be rounded up").isEqualTo(2.01);
    }

    @Test
    void degrees_of_freedom_are_cut_to_a_whole_number() {
        assertThat(CoverageFactor.of(4.99)).isEqualTo(CoverageFactor.of(4));
        assertThat(CoverageFactor.of(0.3)).isEqualTo(CoverageFactor.of(1));
        assertThatThrownBy(() -> CoverageFactor.of(0)).hasMessageContaining("are positive");
        assertThatThrownBy(() -> CoverageFactor.of(Double.NaN)).hasMessageContaining("are positive");
    }
}
