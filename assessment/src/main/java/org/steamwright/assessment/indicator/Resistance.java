package org.steamwright.assessment.indicator;

import java.util.Optional;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;

/**
 * How resistant the spores of a lot are, as its certificate states it.
 *
 * @param decimalReductionMinutes D-value at the reference temperature, in minutes, positive
 * @param uncertainty of the D-value, in minutes; empty if not stated, which is not the same as none
 * @param referenceCelsius temperature of the D-value in degree Celsius
 * @param z in kelvin, positive
 */
public record Resistance(
        double decimalReductionMinutes, Optional<ExpandedUncertainty> uncertainty, double referenceCelsius, double z) {

    /**
     * Temperature for which a D-value of steam indicators is stated unless it says otherwise.
     *
     * @source ISO 11138-3, 121 °C (from memory; D121 used so on a secondary page)
     */
    public static final double USUAL_REFERENCE_CELSIUS = 121.0;

    /**
     * The z taken where none is stated: above the reference temperature a larger z credits less, and 10 K is the usual one
     * and larger than what most steam indicators state.
     *
     * @source usual z of F0, handbook section 4; common practice
     */
    public static final double USUAL_Z_KELVIN = 10.0;

    /**
     * The least a steam indicator has to be.
     *
     * @source ISO 11138-3 (not seen; D by a secondary page, population and z from memory), handbook section 5
     */
    private static final double LEAST_POPULATION = 1e5;

    private static final double LEAST_MINUTES = 1.5;
    private static final double LEAST_Z_KELVIN = 6.0;

    public Resistance {
        if (!(decimalReductionMinutes > 0)
                || !Double.isFinite(decimalReductionMinutes)
                || !Double.isFinite(referenceCelsius)
                || !(z > 0)
                || !Double.isFinite(z)) {
            throw new IllegalArgumentException("spores with D = %s min at %s °C and z = %s K"
                    .formatted(decimalReductionMinutes, referenceCelsius, z));
        }
        if (uncertainty.isPresent() && !(uncertainty.get().value() < decimalReductionMinutes)) {
            throw new IllegalArgumentException("a D-value of %s min with an uncertainty of %s min"
                    .formatted(decimalReductionMinutes, uncertainty.get().value()));
        }
    }

    /** Relative standard uncertainty of the D-value; 0 where none is stated. */
    double relativeUncertainty() {
        return uncertainty.map(u -> u.standard() / decimalReductionMinutes).orElse(0.0);
    }

    /** The spores of a unit with that population. */
    public SporeKinetics kinetics(double population) {
        return new SporeKinetics(population, decimalReductionMinutes, referenceCelsius, z);
    }

    /** Whether a steam indicator may be as weak as this; D is looked at only where it is stated for 121 °C. */
    public boolean isStrongEnough(Optional<Double> population) {
        boolean isSlow = referenceCelsius != USUAL_REFERENCE_CELSIUS || decimalReductionMinutes >= LEAST_MINUTES;
        return isSlow
                && z >= LEAST_Z_KELVIN
                && population.filter(n -> n < LEAST_POPULATION).isEmpty();
    }
}
