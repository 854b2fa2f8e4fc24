package org.steamwright.assessment.indicator;

/**
 * How the spores of an indicator die: log-linear, with a D-value at a reference temperature and a z-value.
 *
 * <p>Supporting figures only; no verdict rests on them. Below about 120 °C a constant z is known to ask for too little
 * time, so nothing is to be credited there.
 *
 * @param population spores per unit before exposure, positive
 * @param decimalReductionMinutes D at the reference temperature, in minutes, positive
 * @param referenceCelsius reference temperature in degree Celsius
 * @param z in kelvin, positive
 * @source log-linear model and limits as in handbook sections 4 and 5; check values 84 to 90
 */
public record SporeKinetics(double population, double decimalReductionMinutes, double referenceCelsius, double z) {

    private static final double SURVIVAL_DECADES = 2.0;
    private static final double KILL_DECADES = 4.0;

    public SporeKinetics {
        if (!(population > 0) || !(decimalReductionMinutes > 0) || !(z > 0) || !Double.isFinite(referenceCelsius)) {
            throw new IllegalArgumentException("spores with population %s, D = %s min, reference %s °C, z = %s K"
                    .formatted(population, decimalReductionMinutes, referenceCelsius, z));
        }
    }

    /**
     * Decades by which the spores fall in so many minutes at the reference temperature.
     *
     * @source F / D, handbook section 4
     */
    public double logReduction(double lethalityMinutes) {
        return lethalityMinutes / decimalReductionMinutes;
    }

    /** Spores per unit left after so many minutes at the reference temperature; below one it is a probability. */
    public double survivors(double lethalityMinutes) {
        return population * StrictMath.pow(10, -logReduction(lethalityMinutes));
    }

    /**
     * Minutes at the reference temperature that leave no more than so many spores per unit.
     *
     * @source D · (log N0 − log NF), secondary page seen, check value 86
     */
    public double lethalityForMinutes(double survivors) {
        return decimalReductionMinutes * (StrictMath.log10(population) - StrictMath.log10(survivors));
    }

    /**
     * D at another temperature, in minutes.
     *
     * @source D(T) = D · 10^((Tref − T)/z), handbook section 4
     */
    public double decimalReductionMinutesAt(double celsius) {
        return decimalReductionMinutes * StrictMath.pow(10, (referenceCelsius - celsius) / z);
    }

    /**
     * Exposure in minutes that every unit has to survive.
     *
     * @source (log N0 − 2) · D as in ISO 11138 (text not seen, secondary page); check values 88 to 90
     */
    public double survivalMinutes() {
        return (StrictMath.log10(population) - SURVIVAL_DECADES) * decimalReductionMinutes;
    }

    /**
     * Exposure in minutes that no unit may survive.
     *
     * @source (log N0 + 4) · D as in ISO 11138 (text not seen, secondary page); check values 88 to 90
     */
    public double killMinutes() {
        return (StrictMath.log10(population) + KILL_DECADES) * decimalReductionMinutes;
    }
}
