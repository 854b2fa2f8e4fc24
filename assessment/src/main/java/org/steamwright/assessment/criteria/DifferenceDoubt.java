package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.uncertainty.Budget;

/** The doubt of the difference between two channels, by a budget of its own: what they share cancels. */
final class DifferenceDoubt {

    static final String BASIS =
            "budget of each difference, in which what both share cancels; the worst end of any pair";

    private DifferenceDoubt() {}

    static double of(CorrectedChannel a, CorrectedChannel b) {
        return budget(a, b).map(budget -> budget.expanded().value()).orElse(0.0);
    }

    /** Empty if nothing is known about the doubt of either channel; a channel without a budget adds nothing. */
    static Optional<Budget> budget(CorrectedChannel a, CorrectedChannel b) {
        if (a.budget().isEmpty() && b.budget().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(Budget.difference(
                "difference of %s and %s".formatted(a.name(), b.name()),
                a.budget().orElse(Budget.of("", "K", List.of())),
                a.name(),
                b.budget().orElse(Budget.of("", "K", List.of())),
                b.name()));
    }
}
