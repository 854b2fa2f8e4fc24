package org.steamwright.assessment.criteria;

import java.util.Optional;
import org.steamwright.assessment.uncertainty.Budget;

/**
 * A measured figure with the interval in which its true value is held to lie.
 *
 * @param value best value
 * @param low lower end, at or below {@code value}
 * @param high upper end, at or above {@code value}
 * @param unit of all three
 * @param basis how the interval was obtained, in a few words
 * @param budget of the deciding difference or change, line by line; empty where the interval does not come from one budget
 */
public record Figure(double value, double low, double high, Unit unit, String basis, Optional<Budget> budget) {

    public Figure {
        if (!(low <= value && value <= high)) {
            throw new IllegalArgumentException("not an interval: %s in [%s, %s]".formatted(value, low, high));
        }
    }

    /** A figure whose interval does not come from one budget of its own. */
    public Figure(double value, double low, double high, Unit unit, String basis) {
        this(value, low, high, unit, basis, Optional.empty());
    }

    /** The same figure with the budget behind its interval. */
    public Figure withBudget(Optional<Budget> other) {
        return new Figure(value, low, high, unit, basis, other);
    }

    /** A figure with an expanded uncertainty either side. */
    public static Figure withDoubt(double value, double expandedUncertainty, Unit unit, String basis) {
        return new Figure(value, value - expandedUncertainty, value + expandedUncertainty, unit, basis);
    }

    /** A figure that carries no doubt, such as a count. */
    public static Figure exact(double value, Unit unit) {
        return new Figure(value, value, value, unit, "counted");
    }

    /** The end of the interval that is worse for that comparison. */
    public double worse(Comparison comparison) {
        return comparison == Comparison.AT_LEAST ? low : high;
    }

    /** The end of the interval that is better for that comparison. */
    public double better(Comparison comparison) {
        return comparison == Comparison.AT_LEAST ? high : low;
    }
}
