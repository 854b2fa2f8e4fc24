package org.steamwright.assessment.lethality;

/**
 * By what a lethality is counted; never left unsaid.
 *
 * @param referenceCelsius reference temperature in degree Celsius
 * @param z in kelvin, positive
 * @param fromSeconds begin of counting, seconds from the start of the run; negative infinity counts from the first sample
 */
public record LethalityTerms(double referenceCelsius, double z, double fromSeconds) {

    /** F0 as it is usually meant: 121.1 °C, 10 K, the whole recording. */
    public static final LethalityTerms USUAL =
            new LethalityTerms(Lethality.USUAL_REFERENCE_CELSIUS, Lethality.USUAL_Z_KELVIN, Double.NEGATIVE_INFINITY);

    public LethalityTerms {
        if (!Double.isFinite(referenceCelsius) || !(z > 0) || !Double.isFinite(z) || Double.isNaN(fromSeconds)) {
            throw new IllegalArgumentException(
                    "not a lethality: reference %s °C, z %s K, from %s s".formatted(referenceCelsius, z, fromSeconds));
        }
    }
}
