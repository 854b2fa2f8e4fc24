package org.steamwright.assessment.uncertainty;

import java.util.List;

/**
 * The uncertainty budget of one measured quantity, line by line.
 *
 * @param quantity what the result is, such as 'temperature of channel T3 at 134 °C'
 * @param unit unit of every line, such as 'K' or 'kPa'
 * @param contributions in the order in which they are printed
 * @param coverageFactor k of the expanded uncertainty
 */
public record Budget(String quantity, String unit, List<Contribution> contributions, double coverageFactor) {

    /** Coverage factor for about 95 % with many degrees of freedom, as the trade uses it. */
    public static final double USUAL_COVERAGE_FACTOR = 2.0;

    public Budget {
        contributions = List.copyOf(contributions);
        if (!(coverageFactor > 0)) {
            throw new IllegalArgumentException("coverage factor must be positive: " + coverageFactor);
        }
    }

    /** A budget with k = 2. */
    public static Budget of(String quantity, String unit, List<Contribution> contributions) {
        return new Budget(quantity, unit, contributions, USUAL_COVERAGE_FACTOR);
    }

    /**
     * Combined standard uncertainty: root of the sum of squares.
     *
     * @source JCGM 100:2008, 5.1.2, equation (10)
     */
    public double combined() {
        double sum = 0;
        for (Contribution contribution : contributions) {
            double u = contribution.standardUncertainty();
            sum += u * u;
        }
        return Math.sqrt(sum);
    }

    /**
     * Effective degrees of freedom by Welch and Satterthwaite; infinite if every line is.
     *
     * @source JCGM 100:2008, G.4.1, equation (G.2b)
     */
    public double effectiveDegreesOfFreedom() {
        double u2 = combined() * combined();
        double sum = 0;
        for (Contribution contribution : contributions) {
            double u = contribution.standardUncertainty();
            sum += u * u * u * u / contribution.degreesOfFreedom();
        }
        return sum == 0 ? Double.POSITIVE_INFINITY : u2 * u2 / sum;
    }

    /** Expanded uncertainty with this budget's coverage factor. */
    public ExpandedUncertainty expanded() {
        return new ExpandedUncertainty(coverageFactor * combined(), coverageFactor);
    }

    /** Whether there is nothing in it; then nothing is known about the doubt, which is not the same as no doubt. */
    public boolean isEmpty() {
        return contributions.isEmpty();
    }
}
