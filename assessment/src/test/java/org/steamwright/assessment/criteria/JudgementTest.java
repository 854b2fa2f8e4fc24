package org.steamwright.assessment.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.steamwright.assessment.TestSet.atLeast;
import static org.steamwright.assessment.TestSet.atMost;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.TestSet;

class JudgementTest {

    @ParameterizedTest(name = "{0} K of at most 2 K, U = 0.3 K: {1}")
    @CsvSource({
        "1.7, PASS, PASS, PASS, the drawn-in limit itself is acceptable",
        "1.7001, PASS, UNDECIDED, CONDITIONAL_PASS, in the guard band",
        "2.0, PASS, UNDECIDED, CONDITIONAL_PASS, the limit itself",
        "2.0001, FAIL, FAIL, CONDITIONAL_FAIL, above the limit within its doubt",
        "2.3, FAIL, FAIL, CONDITIONAL_FAIL, the doubt just reaches the limit",
        "2.3001, FAIL, FAIL, FAIL, above for sure",
    })
    void four_words_around_an_upper_limit(double value, Outcome simple, Outcome guarded, FourWords words, String why) {
        Figure figure = Figure.withDoubt(value, 0.3, Unit.KELVIN, "test");
        Judgement judgement = Judgement.of(figure, atMost(2, Unit.KELVIN), DecisionRule.SIMPLE);
        assertThat(judgement.simple()).as(why).isEqualTo(simple);
        assertThat(judgement.guarded()).as(why).isEqualTo(guarded);
        assertThat(judgement.words()).as(why).isEqualTo(words);
        assertThat(judgement.decided()).as(why).isEqualTo(simple);
        assertThat(Judgement.of(figure, atMost(2, Unit.KELVIN), DecisionRule.GUARDED)
                        .decided())
                .as(why)
                .isEqualTo(guarded);
        assertThat(Judgement.of(figure, atMost(2, Unit.KELVIN), DecisionRule.FOUR_WORDS)
                        .decided())
                .as(why)
                .isEqualTo(guarded);
    }

    @ParameterizedTest(name = "{0} °C of at least 134 °C, U = 0.23 K: {1}")
    @CsvSource({
        "134.23, PASS, PASS, check value 117: the guarded limit is 134.23",
        "134.22, PASS, CONDITIONAL_PASS, short of it",
        "134, PASS, CONDITIONAL_PASS, the limit itself",
        "133.99, FAIL, CONDITIONAL_FAIL, below within its doubt",
        "133.77, FAIL, CONDITIONAL_FAIL, the doubt just reaches the limit",
        "133.76, FAIL, FAIL, below for sure",
    })
    void four_words_around_a_lower_limit(double value, Outcome simple, FourWords words, String why) {
        Figure figure = Figure.withDoubt(value, 0.23, Unit.CELSIUS, "test");
        Judgement judgement = Judgement.of(figure, atLeast(134, Unit.CELSIUS), DecisionRule.GUARDED);
        assertThat(judgement.simple()).as(why).isEqualTo(simple);
        assertThat(judgement.words()).as(why).isEqualTo(words);
    }

    @Test
    void nan_meets_no_limit() {
        assertThat(atMost(2, Unit.KELVIN).isMetBy(Double.NaN)).isFalse();
        assertThat(atLeast(2, Unit.KELVIN).isMetBy(Double.NaN)).isFalse();
        assertThat(atLeast(2, Unit.KELVIN).isMetBy(Double.POSITIVE_INFINITY)).isTrue();
    }

    @Test
    void the_noise_of_binary_fractions_decides_nothing() {
        assertThat(atMost(0.13, Unit.KILOPASCAL_PER_MINUTE).isMetBy((6.50 - 5.20) / 10))
                .as("check value 94: 0.13000000000000006")
                .isTrue();
        assertThat(atLeast(180, Unit.SECONDS).isMetBy(179.999999))
                .as("a microsecond short is short")
                .isFalse();
    }

    @Test
    void margins_are_positive_on_the_good_side() {
        assertThat(atMost(2, Unit.KELVIN).margin(1.5)).isEqualTo(0.5);
        assertThat(atLeast(180, Unit.SECONDS).margin(179)).isEqualTo(-1);
    }

    @Test
    void limits_print_with_their_sign_and_unit() {
        assertThat(atMost(2, Unit.KELVIN)).hasToString("≤ 2 K");
        assertThat(atLeast(0.13, Unit.KILOPASCAL_PER_MINUTE)).hasToString("≥ 0.13 kPa/min");
        assertThat(atLeast(3, Unit.COUNT)).hasToString("≥ 3");
        assertThatThrownBy(() -> atMost(Double.NaN, Unit.KELVIN)).hasMessage("a limit is a finite number");
    }

    @ParameterizedTest(name = "{0} with {1} decimals")
    @CsvSource({
        "179.999999, 1, 179.9, 180.0",
        "133.96, 1, 133.9, 134.0",
        "0.13000000000000006, 2, 0.13, 0.13",
        "-0.04, 1, −0.1, 0.0",
        "-1.25, 1, −1.3, −1.2",
        "2, 0, 2, 2",
    })
    void figures_are_cut_towards_the_worse_side(double figure, int decimals, String low, String high) {
        assertThat(Figures.lowSide(figure, decimals)).isEqualTo(low);
        assertThat(Figures.highSide(figure, decimals)).isEqualTo(high);
    }

    @Test
    void figures_that_are_no_numbers_print_as_such() {
        assertThat(Figures.lowSide(Double.NaN, 1)).isEqualTo("–");
        assertThat(Figures.highSide(Double.POSITIVE_INFINITY, 1)).isEqualTo("∞");
        assertThat(Figures.highSide(Double.NEGATIVE_INFINITY, 1)).isEqualTo("−∞");
        assertThat(Figures.cleaned(Double.POSITIVE_INFINITY)).isEqualTo(Double.POSITIVE_INFINITY);
        assertThat(Figures.nearest(134.25, 1)).isEqualTo("134.2");
        assertThat(Figures.shown(1, Unit.COUNT)).isEqualTo("1");
        assertThat(Figures.shown(134.256, Unit.CELSIUS)).isEqualTo("134.26 °C");
        assertThat(Figures.shown(2, Unit.COUNT, Comparison.AT_LEAST)).isEqualTo("2");
    }

    @ParameterizedTest(name = "{0} s")
    @CsvSource({"0, 0:00", "59.9, 0:59", "60, 1:00", "605, 10:05", "-1, −0:01", "-61.5, −1:02"})
    void moments_are_cut_to_seconds(double seconds, String text) {
        assertThat(Figures.moment(seconds)).isEqualTo(text);
    }

    @Test
    void a_figure_lies_inside_its_interval() {
        assertThatThrownBy(() -> new Figure(1, 1.1, 2, Unit.KELVIN, "")).hasMessageContaining("not an interval");
        assertThatThrownBy(() -> new Figure(3, 1.1, 2, Unit.KELVIN, "")).hasMessageContaining("not an interval");
        assertThatThrownBy(() -> new Figure(Double.NaN, 1, 2, Unit.KELVIN, "")).hasMessageContaining("not an interval");
    }

    @Test
    void a_finding_explains_itself() {
        Requirement asked = new Requirement(
                CriterionId.LEAK_RATE, Use.DECIDES, Optional.empty(), DecisionRule.SIMPLE, TestSet.SOURCE);
        assertThatThrownBy(() -> Findings.met(asked, Evidence.NONE, " "))
                .hasMessageContaining("does not explain itself");
        Finding reported = Findings.reported(asked, Figure.exact(1.2345, Unit.KELVIN), Evidence.NONE, "seen");
        assertThat(reported.printedMeasured()).as("no limit: nearest").isEqualTo("1.23 K");
        assertThat(reported.margin()).isEmpty();
        assertThat(Findings.met(asked, Evidence.NONE, "good").printedMeasured()).isEmpty();
        Finding judged = Findings.judged(
                asked, atLeast(1, Unit.KELVIN), Figure.exact(1.2395, Unit.KELVIN), Evidence.NONE, "held");
        assertThat(judged.printedMeasured()).as("lower limit: cut down").isEqualTo("1.23 K");
        assertThat(judged.margin().orElseThrow()).isCloseTo(0.2395, org.assertj.core.api.Assertions.within(1e-12));
    }

    @Test
    void what_is_only_reported_has_no_outcome_whatever_is_found() {
        Requirement reports = new Requirement(
                CriterionId.LEAK_RATE, Use.REPORTS, Optional.empty(), DecisionRule.SIMPLE, TestSet.SOURCE);
        assertThat(Findings.met(reports, Evidence.NONE, "x").outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(Findings.failed(reports, Evidence.NONE, "x").outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(Findings.invalid(reports, Evidence.NONE, "x").outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(Findings.missing(reports, "x").isDeciding()).isFalse();
    }

    @Test
    void words_of_data_files_find_their_constants() {
        assertThat(DecisionRule.find("guarded")).contains(DecisionRule.GUARDED);
        assertThat(DecisionRule.find("strict")).isEmpty();
        assertThat(Use.find("advises")).contains(Use.ADVISES);
        assertThat(Use.find("")).isEmpty();
        assertThat(Unit.find("K")).contains(Unit.KELVIN);
        assertThat(Unit.find("min")).isEmpty();
        assertThat(CriterionId.find("leak-rate")).contains(CriterionId.LEAK_RATE);
        assertThat(CriterionId.find("leak")).isEmpty();
    }

    @Test
    void a_source_cites_what_it_has() {
        assertThat(new Source("EN 1", "2020", "4.2", Source.Provenance.SEEN, Source.Confidence.HIGH, "").citation())
                .isEqualTo("EN 1:2020, 4.2");
        assertThat(new Source("practice", "", "", Source.Provenance.SEEN, Source.Confidence.HIGH, "").citation())
                .isEqualTo("practice");
        assertThatThrownBy(() -> new Source(" ", "", "", Source.Provenance.SEEN, Source.Confidence.HIGH, ""))
                .hasMessage("a limit without a source document");
    }
}
