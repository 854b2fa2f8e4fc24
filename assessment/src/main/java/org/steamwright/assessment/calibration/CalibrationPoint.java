package org.steamwright.assessment.calibration;

/**
 * What a laboratory found at one point: the true value and what the instrument showed.
 *
 * @param reference value of the reference, in degree Celsius or kilopascal
 * @param indicated what the instrument showed at the same time, same unit
 * @param expandedUncertainty of the laboratory at this point, same unit, not negative
 * @param coverageFactor k of that uncertainty
 */
public record CalibrationPoint(double reference, double indicated, double expandedUncertainty, double coverageFactor) {

    public CalibrationPoint {
        if (!Double.isFinite(reference) || !Double.isFinite(indicated)) {
            throw new IllegalArgumentException("a calibration point needs two finite values");
        }
        if (!(expandedUncertainty >= 0) || !(coverageFactor > 0)) {
            throw new IllegalArgumentException("calibration point at %s: U = %s and k = %s"
                    .formatted(reference, expandedUncertainty, coverageFactor));
        }
    }

    /** What has to be added to the indicated value. */
    public double correction() {
        return reference - indicated;
    }
}
