package org.steamwright.assessment.indicator;

import java.util.List;

/**
 * The likelihood of growth and no growth in groups of units, when the mean number of living cells per unit of a group is
 * exp(offset + slope · parameter) and cells are spread by chance.
 *
 * <p>It has a single summit, so halving finds it safely. Groups are what a dilution row and a row of exposures have in
 * common: the most probable number and the decimal reduction time come from the same lines.
 */
final class QuantalLikelihood {

    /**
     * Twice the drop of the log-likelihood at the ends of an interval of 95 %.
     *
     * @source chi-square with one degree of freedom, 0.95 quantile; general knowledge
     */
    private static final double DROP = 3.841458820694124;

    private static final int HALVINGS = 200;

    /**
     * @param offset of the logarithm of the mean number per unit
     * @param slope of it in the parameter
     * @param units number of units
     * @param negatives those without growth
     */
    record Group(double offset, double slope, int units, int negatives) {}

    private final List<Group> groups;

    QuantalLikelihood(List<Group> groups) {
        this.groups = List.copyOf(groups);
    }

    /**
     * Log-likelihood without its constant.
     *
     * @source P(no growth) = exp(−mean), Poisson
     */
    double at(double parameter) {
        double sum = 0;
        for (Group group : groups) {
            double mean = StrictMath.exp(group.offset + group.slope * parameter);
            sum -= group.negatives * mean;
            int positives = group.units - group.negatives;
            if (positives > 0) {
                sum += positives * StrictMath.log(-StrictMath.expm1(-mean));
            }
        }
        return sum;
    }

    private double steepness(double parameter) {
        double sum = 0;
        for (Group group : groups) {
            double mean = StrictMath.exp(group.offset + group.slope * parameter);
            sum -= group.slope * group.negatives * mean;
            int positives = group.units - group.negatives;
            if (positives > 0) {
                // mean · exp(−mean) / (1 − exp(−mean)), which is 0 for a very large mean
                double rest = StrictMath.expm1(mean);
                sum += group.slope * positives * (Double.isInfinite(rest) ? 0 : rest == 0 ? 1 : mean / rest);
            }
        }
        return sum;
    }

    /** The parameter of the summit between two parameters on either side of it. */
    double summit(double low, double high) {
        double from = low;
        double to = high;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (from + to) / 2;
            if (steepness(middle) > 0) {
                from = middle;
            } else {
                to = middle;
            }
        }
        return (from + to) / 2;
    }

    /** Where the likelihood has fallen to that of the interval's end, between the summit and a parameter beyond it. */
    double end(double summit, double beyond) {
        return end(at(summit), summit, beyond);
    }

    /** The same with the height of the summit told, for a summit that lies at infinity. */
    double end(double height, double inside, double beyond) {
        double in = inside;
        double out = beyond;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (in + out) / 2;
            // a NaN or −∞ likelihood is far outside
            if (2 * (height - at(middle)) < DROP) {
                in = middle;
            } else {
                out = middle;
            }
        }
        return (in + out) / 2;
    }
}
