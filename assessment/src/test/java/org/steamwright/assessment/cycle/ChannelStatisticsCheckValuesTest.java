package org.steamwright.assessment.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.oracle.CertifiedSets;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/** Check value 214 of docs/check-values.md against the mean that the program prints. */
class ChannelStatisticsCheckValuesTest {

    @ParameterizedTest(name = "214: {0}")
    @CsvSource({
        "Lew,      -177.435000000000",
        "Lottery,  518.958715596330",
        "Mavro,    2.00185600000000",
        "Michelso, 299.852400000000",
    })
    void mean_of_the_certified_sets(String set, double mean) {
        double[] values = CertifiedSets.values(set);
        TimeAxis axis = TimeAxis.regular(values.length, 1);
        ChannelStatistics statistics = ChannelStatistics.find(
                        CorrectedSamples.of(set, ChannelRole.LOAD, axis, values), new Stretch(0, axis.last()))
                .orElseThrow();
        assertThat(statistics.samples()).isEqualTo(values.length);
        assertThat(statistics.mean())
                .as("row 214, NIST StRD %s: fifteen digits certified", set)
                .isCloseTo(mean, within(1e-14 * Math.abs(mean)));
    }
}
