package org.steamwright.assessment.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;

/** Check values 112 to 118 and 122 of docs/check-values.md. */
class DecisionRuleCheckValuesTest {

    private static final Source SOURCE = new Source(
            "ILAC-G8:09", "2019", "4.2", Provenance.SECONDARY, Confidence.HIGH, "page 9 and derived statements seen");
    private static final Limit LOWER = new Limit(Comparison.AT_LEAST, 134, Unit.CELSIUS, SOURCE);
    private static final Limit UPPER = new Limit(Comparison.AT_MOST, 137, Unit.CELSIUS, SOURCE);

    @ParameterizedTest(name = "{0}: {1} K off the limit with u = 0.125 K: P = {2}, {3}, {4}")
    @CsvSource({
        "112, -0.25, 0.0228, FAIL, CONDITIONAL_FAIL",
        "113, 0.00,  0.5000, PASS, CONDITIONAL_PASS",
        "114, 0.10,  0.7881, PASS, CONDITIONAL_PASS",
        "115, 0.25,  0.9772, PASS, PASS",
    })
    void words_agree_with_the_probability_of_conformity(
            int row, double off, double probability, Outcome simple, FourWords words) {
        double u = 0.125;
        double conform = NormalDistribution.of(0, 1).cumulativeProbability(off / u);
        assertThat(conform).as("row %d", row).isCloseTo(probability, within(0.0002));
        Figure figure = Figure.withDoubt(134 + off, 2 * u, Unit.CELSIUS, "k = 2");
        Judgement judgement = Judgement.of(figure, LOWER, DecisionRule.GUARDED);
        assertThat(judgement.simple()).as("row %d", row).isEqualTo(simple);
        assertThat(judgement.words()).as("row %d", row).isEqualTo(words);
        assertThat(judgement.decided() == Outcome.PASS)
                .as("row %d: the guarded rule passes only from 97.7 %% up", row)
                .isEqualTo(conform > 0.977);
    }

    @ParameterizedTest(name = "116: {0} against {1} with u = {2}: {3}")
    @CsvSource({"-5.47, -5.40, 0.05, 0.9192", "2.551, 2.50, 0.040, 0.8988"})
    void conformity_examples_of_jcgm_106(double measured, double limit, double u, double probability) {
        double z = Math.abs(measured - limit) / u;
        assertThat(NormalDistribution.of(0, 1).cumulativeProbability(z))
                .as("row 116: examples from memory; holds the test's own library, the program prints no probability")
                .isCloseTo(probability, within(0.0002));
    }

    @ParameterizedTest(name = "117: {0} °C with U = 0.23 K is {1}")
    @CsvSource({
        "134.23,   PASS",
        "134.2299, UNDECIDED",
        "134.00,   UNDECIDED",
        "133.9999, FAIL",
    })
    void guard_band_of_one_expanded_uncertainty(double celsius, Outcome expected) {
        Figure figure = Figure.withDoubt(celsius, 0.23, Unit.CELSIUS, "k = 2");
        assertThat(Judgement.of(figure, LOWER, DecisionRule.GUARDED).decided())
                .as("row 117 [S57]")
                .isEqualTo(expected);
    }

    @ParameterizedTest(name = "118: {0} °C with U = 0.5 K, both sides: {1}")
    @CsvSource({
        "134.5,    true",
        "134.4999, false",
        "136.5,    true",
        "136.5001, false",
    })
    void window_of_the_published_warning(double celsius, boolean inside) {
        Figure figure = Figure.withDoubt(celsius, 0.5, Unit.CELSIUS, "k = 2");
        boolean passes = Judgement.of(figure, LOWER, DecisionRule.GUARDED).decided() == Outcome.PASS
                && Judgement.of(figure, UPPER, DecisionRule.GUARDED).decided() == Outcome.PASS;
        assertThat(passes).as("row 118 [S20]: 134.5 to 136.5 °C").isEqualTo(inside);
    }

    @ParameterizedTest(name = "122: {0} s against three minutes: {1}")
    @CsvSource({"179.6, false", "179.999999, false", "180, true", "195, true"})
    void three_minutes_are_not_rounded_up(double seconds, boolean met) {
        Limit limit = new Limit(Comparison.AT_LEAST, 180, Unit.SECONDS, SOURCE);
        assertThat(limit.isMetBy(seconds)).as("row 122 (rule)").isEqualTo(met);
    }

    @Test
    void nothing_measured_meets_nothing() {
        assertThat(LOWER.isMetBy(Double.NaN)).isFalse();
        assertThat(UPPER.isMetBy(Double.NaN)).isFalse();
    }
}
