package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.indicator.MostProbableNumber.Dilution;

class MostProbableNumberTest {

    @Test
    void of_a_single_group_is_the_closed_formula() {
        // 8 of 20 clear: −ln 0.4 in each tube of 0.5 mL
        Estimate found = new MostProbableNumber(List.of(new Dilution(0.5, 20, 12))).estimate();
        assertThat(found.value()).isCloseTo(-Math.log(0.4) / 0.5, within(1e-12));
        double[] share = Beta.share(12, 20, 0.05);
        assertThat(found.low()).isCloseTo(-Math.log1p(-share[0]) / 0.5, within(1e-9));
        assertThat(found.high()).isCloseTo(-Math.log1p(-share[1]) / 0.5, within(1e-9));
    }

    @Test
    void of_nothing_grown_is_zero_with_an_upper_end() {
        Estimate found = new MostProbableNumber(List.of(new Dilution(10, 3, 0), new Dilution(1, 3, 0))).estimate();
        assertThat(found.value()).isZero();
        assertThat(found.low()).isZero();
        // exp(−λ · 33) = 0.025
        assertThat(found.high()).isCloseTo(-Math.log(0.025) / 33, within(1e-12));
    }

    @Test
    void of_everything_grown_is_without_bound_above() {
        Estimate found = new MostProbableNumber(List.of(new Dilution(2, 5, 5))).estimate();
        assertThat(found.value()).isInfinite();
        assertThat(found.high()).isInfinite();
        // (1 − exp(−2 λ))^5 = 0.025
        assertThat(Math.pow(-Math.expm1(-2 * found.low()), 5)).isCloseTo(0.025, within(1e-12));
    }

    @Test
    void counts_in_the_unit_of_the_amount() {
        Estimate perMillilitre = new MostProbableNumber(List.of(new Dilution(0.1, 5, 3))).estimate();
        Estimate perLitre = new MostProbableNumber(List.of(new Dilution(0.0001, 5, 3))).estimate();
        assertThat(perLitre.value()).isCloseTo(1000 * perMillilitre.value(), within(1e-8));
        assertThat(perLitre.low()).isCloseTo(1000 * perMillilitre.low(), within(1e-8));
    }

    /** Every outcome that can happen is weighed by its chance: no drawing of lots, no seed. */
    @ParameterizedTest(name = "{0} per unit: the interval holds the truth in {1} of all cases")
    @ValueSource(doubles = {0.1, 0.2, 0.5, 1, 2, 5, 10})
    void interval_holds_the_truth_at_least_as_often_as_it_says(double truth) {
        double[] amounts = {1, 0.1, 0.01};
        int tubes = 5;
        double covered = 0;
        for (int a = 0; a <= tubes; a++) {
            for (int b = 0; b <= tubes; b++) {
                for (int c = 0; c <= tubes; c++) {
                    double chance = chance(a, amounts[0] * truth)
                            * chance(b, amounts[1] * truth)
                            * chance(c, amounts[2] * truth);
                    Estimate found = new MostProbableNumber(List.of(
                                    new Dilution(amounts[0], tubes, a),
                                    new Dilution(amounts[1], tubes, b),
                                    new Dilution(amounts[2], tubes, c)))
                            .estimate();
                    covered += found.contains(truth) ? chance : 0;
                }
            }
        }
        assertThat(covered).as("five tubes each of 1, 0.1, 0.01").isBetween(0.95, 0.995);
    }

    private static double chance(int grown, double mean) {
        return BinomialDistribution.of(5, -Math.expm1(-mean)).probability(grown);
    }

    @ParameterizedTest
    @CsvSource({"0, 3, 1", "-1, 3, 1", "NaN, 3, 1", "1, 0, 0", "1, 3, 4", "1, 3, -1"})
    void refuses_what_cannot_be(double amount, int tubes, int positives) {
        assertThatThrownBy(() -> new Dilution(amount, tubes, positives)).isInstanceOf(IllegalArgumentException.class);
    }

    /**
     * Five tubes each of 1, 0.1 and 0.01 g, per g: the 95 % intervals of a published table (ГОСТ, method annex with five tubes
     * after ISO 7218, seen on a legal information page). Its convention is another: the upper ends are held to a factor of two, the lower ones to four, since with one
     * tube grown ours reaches farther down.
     */
    @ParameterizedTest(name = "{0}-{1}-{2}")
    @CsvSource({"1, 0, 0, 0.20, 0.02, 0.99", "1, 1, 0, 0.40, 0.07, 1.00", "1, 0, 2, 0.60, 0.07, 1.40"})
    void intervals_lie_near_a_published_table(int a, int b, int c, double number, double low, double high) {
        Estimate found = new MostProbableNumber(
                        List.of(new Dilution(1, 5, a), new Dilution(0.1, 5, b), new Dilution(0.01, 5, c)))
                .estimate();
        assertThat(found.value()).isCloseTo(number, within(0.0051));
        assertThat(found.low()).isBetween(low / 4, low * 2);
        assertThat(found.high()).isBetween(high / 2, high * 2);
    }

    @Test
    void refuses_more_outcomes_than_can_be_gone_through() {
        assertThatThrownBy(() -> new MostProbableNumber(
                        List.of(new Dilution(1, 99, 3), new Dilution(0.1, 99, 3), new Dilution(0.01, 99, 3))))
                .hasMessageStartingWith("so many tubes");
    }

    @Test
    void refuses_an_empty_row() {
        assertThatThrownBy(() -> new MostProbableNumber(List.of())).hasMessage("no dilution, so no number");
    }
}
