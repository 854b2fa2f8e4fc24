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
        assertThat(budget.expanded().value()).isEqualTo(10);
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
    void a_difference_takes_the_larger_coverage_factor() {
        ExpandedUncertainty difference =
                ExpandedUncertainty.ofDifference(new ExpandedUncertainty(0.6, 2), new ExpandedUncertainty(1.2, 3));
        assertThat(difference.coverageFactor()).isEqualTo(3);
        assertThat(difference.value()).isCloseTo(3 * Math.hypot(0.3, 0.4), within(1e-12));
    }
}
