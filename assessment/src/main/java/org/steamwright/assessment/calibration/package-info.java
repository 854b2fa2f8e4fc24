/**
 * Certificates of the instruments and the correction that follows from them.
 *
 * <p>The sign of a correction is never asked: it follows from pairs of reference and indicated value.
 * Nothing is extrapolated in silence. Start at
 * {@link org.steamwright.assessment.calibration.CalibrationCertificate}.
 */
@NullMarked
package org.steamwright.assessment.calibration;

import org.jspecify.annotations.NullMarked;
