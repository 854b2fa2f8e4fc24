package org.steamwright.assessment.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class BudgetTest {

    @Test
    void effective_degrees_of_freedom_follow_welch_and_satterthwaite() {
        Budget budget = Budget.of(
                "x", "K", List.of(Contribution.standard("a", 3, 4, "test"), Contribution.standard("b", 4, 16, "test")));
        assertThat(budget.combined()).isEqualTo(5);
        assertThat(budget.effectiveDegreesOfFreedom())
                .as("625 / (81/4 + 256/16)")
                .isCloseTo(625 / (81.0 / 4 + 16), within(1e-12));
        assertThat(budget.expanded().value())
                .as("17 degrees of freedom, k = 2.16")
                .isCloseTo(10.8, within(1e-12));
        assertThat(budget.isEmpty()).isFalse();
    }

    @Test
    void a_budget_without_finite_degrees_of_freedom_has_none() {
        assertThat(Budget.of("x", "K", List.of(Contribution.rectangular("a", 1, "test")))
                        .effectiveDegreesOfFreedom())
                .isInfinite();
        Budget empty = Budget.of("x", "K", List.of());
        assertThat(empty.isEmpty()).isTrue();
        assertThat(empty.effectiveDegreesOfFreedom()).isInfinite();
        assertThat(empty.combined()).isZero();
    }

    @Test
    void sizes_turn_into_standard_uncertainties_by_their_distribution() {
        assertThat(Contribution.expanded("a", 0.06, 2, "").standardUncertainty())
                .isEqualTo(0.03);
        assertThat(Contribution.rectangular("a", 0.05, "").standardUncertainty())
                .isCloseTo(0.05 / Math.sqrt(3), within(1e-15));
        assertThat(Contribution.resolution("a", 0.1, "").standardUncertainty())
                .as("check value 111")
                .isCloseTo(0.02887, within(1e-5));
        assertThat(Contribution.standard("a", 0.04, 9, "").withSensitivity(-2).standardUncertainty())
                .isEqualTo(0.08);
    }

    @Test
    void impossible_lines_are_refused() {
        assertThat(Contribution.expanded("a", 0, 2, "").standardUncertainty()).isZero();
        assertThatThrownBy(() -> Contribution.expanded("a", -0.1, 2, "")).hasMessageContaining("is not negative");
        assertThatThrownBy(() -> Contribution.expanded("a", Double.POSITIVE_INFINITY, 2, ""))
                .hasMessageContaining("is not negative");
        assertThatThrownBy(() -> Contribution.expanded("a", 1, 0, "")).hasMessageContaining("must be positive");
        assertThatThrownBy(() -> Contribution.standard("a", 1, 0, "")).hasMessageContaining("must be positive");
        assertThatThrownBy(() -> Contribution.standard("a", 1, 1, "").withSensitivity(Double.NaN))
                .hasMessageContaining("must be positive");
        assertThatThrownBy(() -> new Budget("x", "K", List.of(), 0)).hasMessageContaining("must be positive");
        assertThatThrownBy(() -> new ExpandedUncertainty(-1, 2)).hasMessageContaining("not an expanded");
        assertThatThrownBy(() -> new ExpandedUncertainty(1, 0)).hasMessageContaining("not an expanded");
        assertThatThrownBy(() -> new ExpandedUncertainty(Double.NaN, 2)).hasMessageContaining("not an expanded");
        assertThat(new ExpandedUncertainty(0, 2).standard()).isZero();
    }

    @Test
    void a_difference_counts_what_is_not_shared_from_both_sides() {
        Budget a = Budget.of("a", "K", List.of(Contribution.standard("own", 0.3, 10, "test")));
        Budget b = Budget.of("b", "K", List.of(Contribution.standard("own", 0.4, 20, "test")));
        Budget difference = Budget.difference("a less b", a, "A", b, "B");
        assertThat(difference.combined()).isCloseTo(0.5, within(1e-12));
        assertThat(difference.unit()).isEqualTo("K");
        assertThat(difference.quantity()).isEqualTo("a less b");
        assertThat(difference.contributions()).extracting(Contribution::name).containsExactly("own, A", "own, B");
        assertThat(difference.effectiveDegreesOfFreedom())
                .as("0.0625 / (0.0081/10 + 0.0256/20)")
                .isCloseTo(0.0625 / (0.00081 + 0.00128), within(1e-9));
        assertThat(difference.coverageFactor()).as("29 degrees of freedom").isEqualTo(2.09);
    }

    @Test
    void what_two_channels_share_cancels_in_their_difference() {
        Correlation standard = Correlation.full("reference standard");
        Contribution common = Contribution.expanded("reference", 0.2, 2, "test").shared(standard);
        Contribution noise = Contribution.standard("noise", 0.01, Double.POSITIVE_INFINITY, "test")
                .perReading();
        Budget one = Budget.of("one", "K", List.of(common, noise));
        Budget difference = Budget.difference("d", one, "A", one, "B");
        assertThat(difference.combined()).isCloseTo(0.01 * Math.sqrt(2), within(1e-12));
        assertThat(difference.contributions())
                .extracting(Contribution::name)
                .containsExactly("common: reference", "noise, A", "noise, B");
        assertThat(difference.contributions().get(0).standardUncertainty()).isZero();
        assertThat(difference.contributions().get(0).isPerReading()).isFalse();
        assertThat(difference.contributions().get(1).isPerReading()).isTrue();
    }

    @Test
    void a_correlation_of_less_than_one_leaves_a_part_of_each() {
        Correlation logger = new Correlation("logger", 0.75);
        Contribution a = Contribution.standard("cold junction", 0.10, 8, "test")
                .shared(logger)
                .perReading();
        Contribution b = Contribution.standard("cold junction", 0.06, 8, "test")
                .shared(logger)
                .withSensitivity(-1);
        Budget difference =
                Budget.difference("d", Budget.of("a", "K", List.of(a)), "A", Budget.of("b", "K", List.of(b)), "B");
        assertThat(difference.combined())
                .as("var = 0.01 + 0.0036 + 2 · 0.75 · 0.006: the second acts the other way")
                .isCloseTo(Math.sqrt(0.01 + 0.0036 + 2 * 0.75 * 0.006), within(1e-12));
        assertThat(difference.contributions())
                .extracting(Contribution::name)
                .containsExactly("common: cold junction", "cold junction, A", "cold junction, B");
        assertThat(difference.contributions())
                .extracting(Contribution::isPerReading)
                .containsExactly(true, true, false);
        assertThat(difference.contributions().get(1).standardUncertainty()).isCloseTo(0.05, within(1e-12));
    }

    @Test
    void groups_of_other_names_are_independent() {
        Budget a = Budget.of(
                "a", "K", List.of(Contribution.standard("x", 3, 5, "test").shared(Correlation.full("one"))));
        Budget b = Budget.of(
                "b", "K", List.of(Contribution.standard("x", 4, 5, "test").shared(Correlation.full("other"))));
        assertThat(Budget.difference("d", a, "A", b, "B").combined()).isEqualTo(5);
        assertThat(Correlation.NONE.isSharedWith(Correlation.NONE)).isFalse();
    }

    @Test
    void a_change_of_one_channel_counts_only_what_strikes_each_reading() {
        Budget pressure = Budget.of(
                "p",
                "kPa",
                List.of(
                        Contribution.expanded("calibration", 0.3, 2, "test"),
                        Contribution.resolution("resolution", 0.1, "test"),
                        Contribution.standard("noise", 0.02, 9, "test").perReading()));
        Budget change = pressure.change("rise per minute", 60.0 / 600, "kPa/min");
        assertThat(change.unit()).isEqualTo("kPa/min");
        assertThat(change.quantity()).isEqualTo("rise per minute");
        assertThat(change.contributions())
                .extracting(Contribution::name)
                .containsExactly(
                        "resolution, first reading",
                        "resolution, second reading",
                        "noise, first reading",
                        "noise, second reading");
        assertThat(change.combined()).isCloseTo(0.1 * Math.sqrt(2 * (0.01 / 12 + 0.0004)), within(1e-12));
        Budget single = pressure.perReading("one reading");
        assertThat(single.quantity()).isEqualTo("one reading");
        assertThat(single.combined()).isCloseTo(Math.sqrt(0.01 / 12 + 0.0004), within(1e-12));
    }

    @Test
    void a_shared_error_has_a_name_and_is_no_more_than_everything() {
        assertThatThrownBy(() -> new Correlation("x", 1.1)).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> new Correlation("x", -0.1)).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> new Correlation("x", 0)).hasMessageContaining("more than nothing");
        assertThatThrownBy(() -> new Correlation("", 1)).hasMessageContaining("more than nothing");
        assertThat(Correlation.full("x").coefficient()).isEqualTo(1);
    }
}
