package org.steamwright.assessment.indicator;

/**
 * The regularized incomplete beta function and the three distributions read from it: Student's t, F, and the binomial.
 *
 * <p>Good to about 1e-12; held against a library in the tests.
 */
final class Beta {

    private static final int MOST_TERMS = 500;
    private static final int HALVINGS = 200;
    private static final double TINY = 1e-300;
    private static final double SMALL = 1e-16;

    /** Lanczos coefficients for the logarithm of the gamma function, g = 7, n = 9. */
    private static final double[] LANCZOS = {
        0.9999999999998099,
        676.5203681218851,
        -1259.1392167224028,
        771.3234287776531,
        -176.6150291621406,
        12.507343278686905,
        -0.13857109526572012,
        9.984369578019572e-6,
        1.5056327351493116e-7
    };

    private static final double LANCZOS_G = 7;

    private Beta() {}

    /**
     * I_x(a, b).
     *
     * @source continued fraction, Abramowitz and Stegun 26.5.8, evaluated by the modified method of Lentz; from memory
     */
    static double regularized(double x, double a, double b) {
        if (x <= 0) {
            return 0;
        }
        if (x >= 1) {
            return 1;
        }
        // the fraction converges fast on this side of the mean
        if (x > (a + 1) / (a + b + 2)) {
            return 1 - regularized(1 - x, b, a);
        }
        double front = StrictMath.exp(
                logGamma(a + b) - logGamma(a) - logGamma(b) + a * StrictMath.log(x) + b * StrictMath.log1p(-x));
        double c = 1;
        double d = 1 / away(1 - (a + b) * x / (a + 1));
        double fraction = d;
        for (int m = 1; m <= MOST_TERMS; m++) {
            double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
            d = 1 / away(1 + even * d);
            c = away(1 + even / c);
            fraction *= d * c;
            double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
            d = 1 / away(1 + odd * d);
            c = away(1 + odd / c);
            fraction *= d * c;
            if (Math.abs(d * c - 1) < SMALL) {
                break;
            }
        }
        return front * fraction / a;
    }

    private static double away(double value) {
        return Math.abs(value) < TINY ? TINY : value;
    }

    /**
     * Logarithm of the gamma function of a positive number.
     *
     * @source approximation of Lanczos with g = 7 and nine coefficients; from memory, held against a library in the tests
     */
    private static double logGamma(double x) {
        double sum = LANCZOS[0];
        for (int i = 1; i < LANCZOS.length; i++) {
            sum += LANCZOS[i] / (x - 1 + i);
        }
        double t = x - 0.5 + LANCZOS_G;
        return 0.5 * StrictMath.log(2 * Math.PI) + (x - 0.5) * StrictMath.log(t) - t + StrictMath.log(sum);
    }

    /** Probability that Student's t is farther from 0 than this, on either side. */
    static double studentTails(double t, double degrees) {
        return regularized(degrees / (degrees + t * t), degrees / 2, 0.5);
    }

    /** The t that is exceeded, on either side together, with that probability. */
    static double studentQuantile(double tails, double degrees) {
        double x = inverse(tails, degrees / 2, 0.5);
        return Math.sqrt(degrees * (1 - x) / x);
    }

    /** Probability that F with these degrees of freedom is larger than this. */
    static double fisherTail(double f, double above, double below) {
        return regularized(below / (below + above * f), below / 2, above / 2);
    }

    /**
     * The two ends of the exact interval of a share.
     *
     * @param hits of {@code trials}
     * @param outside probability left outside on both sides together
     * @source Clopper and Pearson 1934, Biometrika 26, 404; from memory
     */
    static double[] share(int hits, int trials, double outside) {
        double low = hits == 0 ? 0 : inverse(outside / 2, hits, trials - hits + 1.0);
        double high = hits == trials ? 1 : inverse(1 - outside / 2, hits + 1.0, trials - hits);
        return new double[] {low, high};
    }

    /** The x at which the function has that value, by halving. */
    private static double inverse(double probability, double a, double b) {
        double low = 0;
        double high = 1;
        for (int i = 0; i < HALVINGS && high - low > SMALL * high; i++) {
            double middle = (low + high) / 2;
            if (regularized(middle, a, b) < probability) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
