package org.steamwright.assessment.uncertainty;

/**
 * The coverage factor of an interval of 95.45 %, by Student's distribution with the effective degrees of freedom.
 *
 * @source JCGM 100:2008, G.3, G.4 and table G.2 (values from memory, reproduced by a library in the check values)
 */
public final class CoverageFactor {

    /** Coverage probability of two standard deviations of a normal distribution. */
    public static final double PROBABILITY = 0.954499736103642;

    /** From so many degrees of freedom on the factor rounds to 2.00. */
    private static final double MANY = 600;

    private static final double HUNDREDTHS = 100;
    private static final int HALVINGS = 60;
    private static final double LARGEST = 14;

    private CoverageFactor() {}

    /**
     * The factor, rounded to hundredths as tables print it; 2 for many degrees of freedom.
     *
     * @param degreesOfFreedom effective, positive; cut to a whole number, at least 1
     */
    public static double of(double degreesOfFreedom) {
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException("degrees of freedom are positive, found " + degreesOfFreedom);
        }
        if (degreesOfFreedom >= MANY) {
            return Budget.USUAL_COVERAGE_FACTOR;
        }
        int whole = Math.max(1, (int) degreesOfFreedom);
        double low = 0;
        double high = LARGEST;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (probabilityWithin(middle, whole) < PROBABILITY) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return Math.rint(HUNDREDTHS * high) / HUNDREDTHS;
    }

    /**
     * Probability that Student's variable lies within ±t.
     *
     * @source Abramowitz and Stegun 1964, 26.7.3 and 26.7.4 (from memory)
     */
    static double probabilityWithin(double t, int degreesOfFreedom) {
        double angle = StrictMath.atan(t / StrictMath.sqrt(degreesOfFreedom));
        double cosine = StrictMath.cos(angle);
        boolean isOdd = degreesOfFreedom % 2 == 1;
        double term = isOdd ? cosine : 1;
        double sum = degreesOfFreedom == 1 ? 0 : term;
        for (int i = isOdd ? 3 : 2; i <= degreesOfFreedom - 2; i += 2) {
            term *= cosine * cosine * (i - 1) / i;
            sum += term;
        }
        double series = StrictMath.sin(angle) * sum;
        return isOdd ? 2 / Math.PI * (angle + series) : series;
    }
}
