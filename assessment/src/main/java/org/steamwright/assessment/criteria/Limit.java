package org.steamwright.assessment.criteria;

/**
 * A limit with all that makes it one.
 *
 * @param comparison which side is good; the limit itself is good
 * @param value in {@code unit}, finite
 * @param unit of the value and of what is measured against it
 * @param source where it is laid down
 */
public record Limit(Comparison comparison, double value, Unit unit, Source source) {

    public Limit {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a limit is a finite number");
        }
    }

    /**
     * Whether the figure meets the limit: compared unrounded, but for the noise of binary fractions
     * ({@link Figures#cleaned}). NaN meets nothing. The only place where a figure is held against its limit.
     */
    public boolean isMetBy(double figure) {
        double cleaned = Figures.cleaned(figure);
        return comparison == Comparison.AT_LEAST ? cleaned >= value : cleaned <= value;
    }

    /** How far the figure lies inside the limit, in {@code unit}; negative outside. */
    public double margin(double figure) {
        return comparison == Comparison.AT_LEAST ? figure - value : value - figure;
    }

    @Override
    public String toString() {
        return comparison.sign() + " " + Figures.plain(value, unit)
                + (unit.symbol().isEmpty() ? "" : " " + unit.symbol());
    }
}
