package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against commons-statistics, an independent implementation. */
class BetaTest {

    @ParameterizedTest
    @CsvSource({"0.5, 0.5", "1, 1", "2, 5", "17, 0.5", "0.5, 40", "120, 130", "1000, 3"})
    void agrees_with_a_library(double a, double b) {
        BetaDistribution library = BetaDistribution.of(a, b);
        for (double x = 0.01; x < 1; x += 0.0199) {
            assertThat(Beta.regularized(x, a, b))
                    .as("I_%s(%s, %s)", x, a, b)
                    .isCloseTo(library.cumulativeProbability(x), within(1e-12));
        }
    }

    @Test
    void is_nothing_below_and_everything_above() {
        assertThat(Beta.regularized(0, 2, 3)).isZero();
        assertThat(Beta.regularized(-1, 2, 3)).isZero();
        assertThat(Beta.regularized(1, 2, 3)).isEqualTo(1);
        assertThat(Beta.regularized(2, 2, 3)).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 10, 50, 400})
    void student_agrees_with_a_library_both_ways(int degrees) {
        TDistribution library = TDistribution.of(degrees);
        double t = Beta.studentQuantile(0.05, degrees);
        assertThat(t).isCloseTo(library.inverseCumulativeProbability(0.975), within(1e-9 * t));
        assertThat(Beta.studentTails(t, degrees)).isCloseTo(0.05, within(1e-12));
        assertThat(Beta.studentTails(-1.3, degrees)).isCloseTo(2 * library.survivalProbability(1.3), within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"1, 5, 4.2", "3, 20, 0.7", "12, 7, 2.5"})
    void fisher_agrees_with_a_library(double above, double below, double f) {
        assertThat(Beta.fisherTail(f, above, below))
                .isCloseTo(FDistribution.of(above, below).survivalProbability(f), within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"0, 20", "1, 20", "10, 20", "19, 20", "20, 20", "3, 7"})
    void leaves_half_of_what_is_left_out_on_either_side(int hits, int trials) {
        double[] ends = Beta.share(hits, trials, 0.05);
        if (hits == 0) {
            assertThat(ends[0]).isZero();
        } else {
            assertThat(BinomialDistribution.of(trials, ends[0]).survivalProbability(hits - 1))
                    .isCloseTo(0.025, within(1e-10));
        }
        if (hits == trials) {
            assertThat(ends[1]).isEqualTo(1);
        } else {
            assertThat(BinomialDistribution.of(trials, ends[1]).cumulativeProbability(hits))
                    .isCloseTo(0.025, within(1e-10));
        }
    }
}
