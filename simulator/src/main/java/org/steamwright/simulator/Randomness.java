package org.steamwright.simulator;

/**
 * Numbers that look random and are the same everywhere for the same seed.
 *
 * <p>Written out here, since the generators of the platform may change from one release to the next and a published
 * campaign has to be repeatable.
 *
 * @source Steele, Lea and Flood, Fast splittable pseudorandom number generators, 2014 (SplitMix64, constants from
 *     memory); Marsaglia's polar method for normal deviates (from memory)
 */
final class Randomness {
    private static final long GOLDEN = 0x9E3779B97F4A7C15L;
    private static final double UNIT = 0x1.0p-53;

    private long state;
    private double spare;
    private boolean hasSpare;

    Randomness(long seed) {
        state = seed;
    }

    /** An independent stream that depends on the seed and a purpose only, not on how much was drawn before. */
    static Randomness of(long seed, long purpose) {
        Randomness mixed = new Randomness(seed ^ (purpose * GOLDEN));
        return new Randomness(mixed.next());
    }

    long next() {
        state += GOLDEN;
        long z = state;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }

    /** Uniform in [0, 1). */
    double uniform() {
        return (next() >>> 11) * UNIT;
    }

    /** Uniform in [low, high). */
    double between(double low, double high) {
        return low + (high - low) * uniform();
    }

    /** Uniform among 0 … bound − 1. */
    int below(int bound) {
        return (int) (uniform() * bound);
    }

    boolean chance(double probability) {
        return uniform() < probability;
    }

    /** Standard normal deviate. */
    double gaussian() {
        if (hasSpare) {
            hasSpare = false;
            return spare;
        }
        while (true) {
            double u = 2 * uniform() - 1;
            double v = 2 * uniform() - 1;
            double s = u * u + v * v;
            if (s < 1 && s > 0) {
                double factor = Math.sqrt(-2 * StrictMath.log(s) / s);
                spare = v * factor;
                hasSpare = true;
                return u * factor;
            }
        }
    }

    /** Standard normal deviate, drawn again until it lies within ±limit. */
    double gaussianWithin(double limit) {
        double drawn = gaussian();
        while (Math.abs(drawn) > limit) {
            drawn = gaussian();
        }
        return drawn;
    }
}
