package org.steamwright.assessment.propagation;

/**
 * A 95 % interval that holds the judged value.
 *
 * <p>Symmetrical in probability; where the judged value lies outside of that, the interval reaches as far as to it.
 *
 * @param low lower end
 * @param high upper end
 */
record CoverageInterval(double low, double high) {

    private static final double TAIL = (1 - Propagation.PROBABILITY) / 2;
    private static final double QUANTILE = 1.959963984540054;
    private static final double WIDEST = 9;
    private static final int HALVINGS = 60;
    private static final int TERMS = 200;

    /**
     * Around a normal estimate.
     *
     * @param value judged
     * @param estimate best estimate of the truth
     * @param standard its standard uncertainty
     */
    static CoverageInterval normal(double value, double estimate, double standard) {
        double low = estimate - QUANTILE * standard;
        double high = estimate + QUANTILE * standard;
        return new CoverageInterval(Math.min(low, value), Math.max(high, value));
    }

    /**
     * Around the largest of several normal estimates, taken as independent; of nearly equal ones the largest truth is above
     * the largest estimate more often than not.
     *
     * @param value judged
     * @param estimates of which the truth is the largest
     * @param standards their standard uncertainties
     */
    static CoverageInterval largest(double value, double[] estimates, double[] standards) {
        double low = quantile(estimates, standards, TAIL);
        double high = quantile(estimates, standards, 1 - TAIL);
        return new CoverageInterval(Math.min(low, value), Math.max(high, value));
    }

    private static double probabilityBelow(double value, double[] estimates, double[] standards) {
        double product = 1;
        for (int i = 0; i < estimates.length; i++) {
            double distance = value - estimates[i];
            product *= standards[i] > 0 ? probabilityBelow(distance / standards[i]) : distance < 0 ? 0 : 1;
        }
        return product;
    }

    private static double quantile(double[] estimates, double[] standards, double probability) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < estimates.length; i++) {
            low = Math.min(low, estimates[i] - WIDEST * standards[i]);
            high = Math.max(high, estimates[i] + WIDEST * standards[i]);
        }
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (probabilityBelow(middle, estimates, standards) < probability) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }

    /** The same interval with its lower end so much lower. */
    CoverageInterval lowered(double by) {
        return new CoverageInterval(low - by, high);
    }

    /** The same interval of the negative. */
    CoverageInterval mirrored() {
        return new CoverageInterval(-high, -low);
    }

    /**
     * From draws of the truth.
     *
     * @param value judged
     * @param sorted draws, rising
     */
    static CoverageInterval ofDraws(double value, double[] sorted) {
        double low = at(sorted, TAIL);
        double high = at(sorted, 1 - TAIL);
        return new CoverageInterval(Math.min(low, value), Math.max(high, value));
    }

    /** Without what lies below zero, where nothing can be. */
    CoverageInterval notNegative() {
        return new CoverageInterval(Math.max(0, low), Math.max(0, high));
    }

    private static double at(double[] sorted, double share) {
        int index = (int) Math.round(share * sorted.length - 0.5);
        return sorted[Math.max(0, Math.min(sorted.length - 1, index))];
    }

    /**
     * Probability that a standard normal variable lies below z.
     *
     * @source Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …), Marsaglia 2004 (from memory)
     */
    static double probabilityBelow(double z) {
        if (Math.abs(z) > WIDEST) {
            return z < 0 ? 0 : 1;
        }
        double term = z;
        double sum = z;
        for (int i = 1; i < TERMS; i++) {
            term *= z * z / (2 * i + 1);
            sum += term;
        }
        return 0.5 + sum * StrictMath.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }
}
