package org.steamwright.visit.job;

import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.trace.Quantity;

/**
 * What the steriliser itself showed at a stated moment of a run.
 *
 * @param run number of the run
 * @param shownBy display, printout, record card, …
 * @param quantity temperature or pressure
 * @param atSeconds moment, from the first sample of the recording
 * @param indicated degree Celsius or kilopascal absolute
 * @param resolution last digit of what was shown, in the same unit; half of it either way is doubt
 * @param tolerance largest difference from the reference, either way, itself good; in kelvin or kilopascal
 * @param toleranceSource where the tolerance comes from; never blank
 * @param rule how the doubt is treated
 * @param isAsFound whether it was read before anything was adjusted
 */
public record IndicationReading(
        int run,
        String shownBy,
        Quantity quantity,
        double atSeconds,
        double indicated,
        double resolution,
        double tolerance,
        String toleranceSource,
        DecisionRule rule,
        boolean isAsFound) {

    public IndicationReading {
        if (!(tolerance > 0) || !Double.isFinite(tolerance)) {
            throw new IllegalArgumentException("a tolerance is a positive number, not " + tolerance);
        }
        if (!(resolution > 0) || !Double.isFinite(resolution) || !Double.isFinite(indicated)) {
            throw new IllegalArgumentException(
                    "not a reading: %s with a last digit of %s".formatted(indicated, resolution));
        }
        if (toleranceSource.isBlank()) {
            throw new IllegalArgumentException("a tolerance without a source");
        }
    }
}
