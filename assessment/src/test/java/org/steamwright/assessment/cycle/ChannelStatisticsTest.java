package org.steamwright.assessment.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

class ChannelStatisticsTest {

    static CorrectedChannel channel(double... values) {
        return CorrectedSamples.of("T", ChannelRole.LOAD, TimeAxis.regular(values.length, 1), values);
    }

    static ChannelStatistics of(double from, double to, double... values) {
        return ChannelStatistics.find(channel(values), new Stretch(from, to)).orElseThrow();
    }

    @Test
    void looks_only_inside_the_stretch_with_both_ends() {
        ChannelStatistics statistics = of(1, 3, 900, 10, 20, 60, 900);
        assertThat(statistics.samples()).isEqualTo(3);
        assertThat(statistics.minimum()).isEqualTo(10);
        assertThat(statistics.minimumSeconds()).isEqualTo(1);
        assertThat(statistics.maximum()).isEqualTo(60);
        assertThat(statistics.maximumSeconds()).isEqualTo(3);
        assertThat(statistics.mean()).isEqualTo(30);
        assertThat(statistics.fluctuation()).isEqualTo(30);
        assertThat(statistics.fluctuationSeconds()).isEqualTo(3);
    }

    @Test
    void of_equal_extremes_the_first_moment_is_named() {
        ChannelStatistics statistics = of(0, 4, 2, 1, 1, 3, 3);
        assertThat(statistics.minimumSeconds()).isEqualTo(1);
        assertThat(statistics.maximumSeconds()).isEqualTo(3);
    }

    @Test
    void the_farthest_value_may_be_the_lowest_and_of_equal_ones_is_the_highest() {
        assertThat(of(0, 3, 5, 5, 5, 1).fluctuationSeconds()).isEqualTo(3);
        assertThat(of(0, 3, 5, 5, 5, 1).fluctuation()).isEqualTo(3);
        assertThat(of(0, 1, 1, 3).fluctuationSeconds())
                .as("one below, one above the mean")
                .isEqualTo(1);
    }

    @Test
    void missing_values_are_left_out_and_counted() {
        ChannelStatistics statistics = of(0, 4, Double.NaN, 4, Double.NaN, 8, Double.NaN);
        assertThat(statistics.samples()).isEqualTo(2);
        assertThat(statistics.mean()).isEqualTo(6);
        assertThat(statistics.minimumSeconds()).isEqualTo(1);
        assertThat(ChannelStatistics.find(channel(Double.NaN, Double.NaN), new Stretch(0, 1)))
                .isEmpty();
        assertThat(ChannelStatistics.find(channel(1, 2), new Stretch(0.2, 0.8))).isEmpty();
    }

    @Test
    void the_mean_keeps_digits_that_a_plain_sum_would_lose() {
        double[] values = new double[100_001];
        Arrays.fill(values, 1e9 + 0.1);
        values[0] = 1e9 + 0.2;
        ChannelStatistics statistics =
                ChannelStatistics.find(channel(values), new Stretch(0, 100_000)).orElseThrow();
        assertThat(statistics.mean() - 1e9).isCloseTo(0.1 + 0.1 / 100_001, within(2e-7));
    }
}
