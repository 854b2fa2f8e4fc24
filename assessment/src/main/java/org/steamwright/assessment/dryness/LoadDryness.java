package org.steamwright.assessment.dryness;

/**
 * A load weighed before and after a run: the water that stayed in it, as percent of its dry mass.
 *
 * @param beforeGram mass of the conditioned dry load, wrapping included if it is weighed with it afterwards; positive
 * @param afterGram mass after the run; positive, smaller than before if the load lost moisture
 * @param balanceGram expanded uncertainty of one weighing (k = 2), not negative; 0 if nothing is known about the balance
 * @source formula and limits after ISO 17665:2024, C.8 (secondary page seen); check values 99 to 101
 */
public record LoadDryness(double beforeGram, double afterGram, double balanceGram) {

    private static final double PERCENT = 100.0;

    public LoadDryness {
        if (!(beforeGram > 0) || !(afterGram > 0) || !Double.isFinite(beforeGram) || !Double.isFinite(afterGram)) {
            throw new IllegalArgumentException(
                    "a load weighs more than nothing: %s g before, %s g after".formatted(beforeGram, afterGram));
        }
        if (!(balanceGram >= 0) || !Double.isFinite(balanceGram)) {
            throw new IllegalArgumentException(
                    "the uncertainty of a balance is not negative, found %s g".formatted(balanceGram));
        }
    }

    /** Moisture left, in percent of the dry mass; negative if the load became lighter. */
    public double moisturePercent() {
        return PERCENT * (afterGram - beforeGram) / beforeGram;
    }

    /**
     * Expanded uncertainty of the moisture in percentage points, both weighings taken as independent.
     *
     * @source JCGM 100:2008, 5.1.2, equation (10), with the derivatives of the moisture formula
     */
    public double expandedUncertaintyPercent() {
        double byAfter = PERCENT * balanceGram / beforeGram;
        double byBefore = PERCENT * balanceGram * afterGram / (beforeGram * beforeGram);
        return StrictMath.hypot(byAfter, byBefore);
    }

    /**
     * Lightest load for which an error of one weighing stays below a share of the limit, in gram.
     *
     * @param errorGram greatest error of one weighing, in gram
     * @param limitPercent greatest moisture, in percent
     * @param share of the limit that the error may take, such as 0.1
     * @source handbook of the project, section 8 (computed there)
     */
    public static double lightestLoadGram(double errorGram, double limitPercent, double share) {
        return errorGram * PERCENT / (limitPercent * share);
    }
}
