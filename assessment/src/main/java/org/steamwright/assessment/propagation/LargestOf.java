package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.List;

/**
 * The mean of the largest of several correlated normal variables, taken in one after the other.
 *
 * @source Clark 1961, The greatest of a finite set of random variables (from memory)
 */
final class LargestOf {

    /** What lies so many standard deviations below the largest estimate can't be the largest. */
    private static final double FAR = 6;

    private LargestOf() {}

    /**
     * The mean of the largest.
     *
     * @param all at least one
     */
    static double mean(List<Extremum> all, Readings readings) {
        Extremum top = top(all);
        List<Extremum> near = new ArrayList<>();
        near.add(top);
        for (Extremum one : all) {
            double standard = Math.sqrt(one.covariance(one, readings));
            if (!one.isOf(top) && one.value() > top.value() - FAR * (standard + top.standard(readings))) {
                near.add(one);
            }
        }
        double mean = top.value();
        double variance = top.covariance(top, readings);
        double[] covariance = new double[near.size()];
        for (int i = 1; i < covariance.length; i++) {
            covariance[i] = top.covariance(near.get(i), readings);
        }
        for (int next = 1; next < covariance.length; next++) {
            double own = near.get(next).covariance(near.get(next), readings);
            double between = Math.sqrt(Math.max(0, variance + own - 2 * covariance[next]));
            double other = near.get(next).value();
            if (between == 0) {
                continue;
            }
            double alpha = (mean - other) / between;
            double first = CoverageInterval.probabilityBelow(alpha);
            double density = StrictMath.exp(-alpha * alpha / 2) / Math.sqrt(2 * Math.PI);
            double joined = mean * first + other * (1 - first) + between * density;
            double square = (mean * mean + variance) * first
                    + (other * other + own) * (1 - first)
                    + (mean + other) * between * density;
            for (int later = next + 1; later < covariance.length; later++) {
                covariance[later] =
                        covariance[later] * first + near.get(next).covariance(near.get(later), readings) * (1 - first);
            }
            mean = joined;
            variance = square - joined * joined;
        }
        return mean;
    }

    static Extremum top(List<Extremum> all) {
        Extremum top = all.get(0);
        for (Extremum one : all) {
            top = one.value() > top.value() ? one : top;
        }
        return top;
    }
}
