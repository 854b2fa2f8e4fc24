package org.steamwright.assessment.propagation;

/**
 * Random numbers that are the same on every machine and Java: 64 bits by a counter and a finalizer, the rest from them.
 *
 * @source Steele, Lea and Flood 2014, SplitMix64 (from memory); normal by Marsaglia's polar method, gamma by Marsaglia and
 *     Tsang 2000 (from memory)
 */
final class Draws {

    private static final double UNIT = 0x1.0p-53;

    private long state;
    private double spare = Double.NaN;

    Draws(long seed) {
        state = seed;
    }

    private long bits() {
        state += 0x9E3779B97F4A7C15L;
        long z = state;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }

    /** From 0 up to but not 1. */
    double uniform() {
        return (bits() >>> 11) * UNIT;
    }

    /** Mean 0, standard deviation 1. */
    double normal() {
        if (!Double.isNaN(spare)) {
            double kept = spare;
            spare = Double.NaN;
            return kept;
        }
        double x;
        double y;
        double square;
        do {
            x = 2 * uniform() - 1;
            y = 2 * uniform() - 1;
            square = x * x + y * y;
        } while (square >= 1 || square == 0);
        double factor = Math.sqrt(-2 * StrictMath.log(square) / square);
        spare = y * factor;
        return x * factor;
    }

    /** Student's variable, not scaled to a standard deviation of 1. */
    double student(double degreesOfFreedom) {
        if (Double.isInfinite(degreesOfFreedom)) {
            return normal();
        }
        double normal = normal();
        return normal / Math.sqrt(2 * gamma(degreesOfFreedom / 2) / degreesOfFreedom);
    }

    private double gamma(double shape) {
        if (shape < 1) {
            return gamma(shape + 1) * StrictMath.pow(1 - uniform(), 1 / shape);
        }
        double d = shape - 1.0 / 3;
        double c = 1 / Math.sqrt(9 * d);
        while (true) {
            double x = normal();
            double v = 1 + c * x;
            if (v > 0) {
                v = v * v * v;
                double u = 1 - uniform();
                if (StrictMath.log(u) < 0.5 * x * x + d - d * v + d * StrictMath.log(v)) {
                    return d * v;
                }
            }
        }
    }
}
