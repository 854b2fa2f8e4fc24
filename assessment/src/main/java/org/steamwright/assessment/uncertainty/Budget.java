package org.steamwright.assessment.uncertainty;

import java.util.ArrayList;
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

    /** A budget whose coverage factor follows from its effective degrees of freedom; 2 if every line has many. */
    public static Budget of(String quantity, String unit, List<Contribution> contributions) {
        return new Budget(quantity, unit, contributions, CoverageFactor.of(effectiveDegreesOfFreedom(contributions)));
    }

    /**
     * The budget of the difference of one reading of a channel from one of another.
     *
     * <p>What both share cancels as far as it is shared; everything else counts from both sides. It is neither twice a
     * channel's doubt nor, where something is shared, the root of the sum of both squares.
     *
     * @param quantity what the difference is
     * @param a budget of a reading of the first channel
     * @param nameOfA as its lines are marked
     * @param b budget of a reading of the second channel, same unit
     * @param nameOfB as its lines are marked
     * @source JCGM 100:2008, 5.2.2, equation (13) with sensitivities 1 and −1
     */
    public static Budget difference(String quantity, Budget a, String nameOfA, Budget b, String nameOfB) {
        List<Contribution> lines = new ArrayList<>();
        List<Contribution> left = new ArrayList<>(b.contributions);
        for (Contribution line : a.contributions) {
            int partner = partner(line, left);
            if (partner < 0) {
                lines.add(line.named(line.name() + ", " + nameOfA));
                continue;
            }
            Contribution other = left.remove(partner);
            double common = shared(line) - shared(other);
            lines.add(rest("common: " + line.name(), Math.abs(common), line));
            addOwn(line, nameOfA, lines);
            addOwn(other, nameOfB, lines);
        }
        for (Contribution line : left) {
            lines.add(line.named(line.name() + ", " + nameOfB));
        }
        return of(quantity, a.unit, lines);
    }

    private static int partner(Contribution line, List<Contribution> others) {
        for (int i = 0; i < others.size(); i++) {
            if (line.correlation().isSharedWith(others.get(i).correlation())) {
                return i;
            }
        }
        return -1;
    }

    /** Signed standard uncertainty of the part that the group has in common. */
    private static double shared(Contribution line) {
        return Math.signum(line.sensitivity())
                * line.standardUncertainty()
                * Math.sqrt(line.correlation().coefficient());
    }

    private static void addOwn(Contribution line, String channel, List<Contribution> lines) {
        double own = 1 - line.correlation().coefficient();
        if (own > 0) {
            lines.add(rest(line.name() + ", " + channel, line.standardUncertainty() * Math.sqrt(own), line));
        }
    }

    private static Contribution rest(String name, double standard, Contribution of) {
        Contribution line = Contribution.standard(name, standard, of.degreesOfFreedom(), of.origin());
        return of.isPerReading() ? line.perReading() : line;
    }

    /**
     * The budget of the change between two readings of one channel: what is one error for the whole run cancels, what
     * strikes every reading anew counts twice.
     *
     * @param quantity what the change is
     * @param factor from the difference of the two readings to the result, such as 60/period for a rise per minute
     * @param resultUnit unit of the result
     */
    public Budget change(String quantity, double factor, String resultUnit) {
        List<Contribution> lines = new ArrayList<>();
        for (Contribution line : contributions) {
            if (line.isPerReading()) {
                Contribution scaled = line.withSensitivity(line.sensitivity() * factor);
                lines.add(scaled.named(line.name() + ", first reading"));
                lines.add(scaled.named(line.name() + ", second reading"));
            }
        }
        return of(quantity, resultUnit, lines);
    }

    /**
     * Combined standard uncertainty: root of the sum of squares.
     *
     * @source JCGM 100:2008, 5.1.2, equation (10)
     */
    public double combined() {
        return combined(contributions);
    }

    /** The part of it that strikes every reading anew: what is left where a channel is compared with itself. */
    public Budget perReading(String ofWhat) {
        return of(
                ofWhat,
                unit,
                contributions.stream().filter(Contribution::isPerReading).toList());
    }

    /** Combined standard uncertainty of what is one error for the whole run. */
    public double systematic() {
        return combined(
                contributions.stream().filter(line -> !line.isPerReading()).toList());
    }

    /**
     * Covariance of the errors for the whole run of one reading of a channel and one of another: of what they share.
     *
     * @source JCGM 100:2008, 5.2.2, equation (13)
     */
    public double covariance(Budget other) {
        double sum = 0;
        List<Contribution> left = new ArrayList<>(other.contributions);
        for (Contribution line : contributions) {
            int partner = partner(line, left);
            if (partner >= 0) {
                Contribution shared = left.remove(partner);
                sum += line.isPerReading() || shared.isPerReading() ? 0 : shared(line) * shared(shared);
            }
        }
        return sum;
    }

    private static double combined(List<Contribution> contributions) {
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
        return effectiveDegreesOfFreedom(contributions);
    }

    private static double effectiveDegreesOfFreedom(List<Contribution> contributions) {
        double u2 = combined(contributions) * combined(contributions);
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
