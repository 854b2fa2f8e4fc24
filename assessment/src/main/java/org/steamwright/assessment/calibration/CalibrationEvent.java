package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;

/**
 * One visit of an instrument to a laboratory: how it was found, and how it was left.
 *
 * @param certificate of the state in which the instrument was left; this one is in force afterwards
 * @param asFound what the laboratory found before it adjusted anything, sorted here by indicated value; empty if nothing was
 *     adjusted, and then the certificate's own points tell how it was found
 */
public record CalibrationEvent(CalibrationCertificate certificate, List<CalibrationPoint> asFound) {

    public CalibrationEvent {
        asFound = asFound.stream()
                .sorted(Comparator.comparingDouble(CalibrationPoint::indicated))
                .toList();
    }

    /** A calibration after which nothing was adjusted. */
    public static CalibrationEvent unadjusted(CalibrationCertificate certificate) {
        return new CalibrationEvent(certificate, List.of());
    }

    /** Whether the instrument was adjusted, so that it was left in another state than it was found. */
    public boolean isAdjusted() {
        return !asFound.isEmpty();
    }

    /** The points of the state in which the instrument came. */
    public List<CalibrationPoint> found() {
        return isAdjusted() ? asFound : certificate.points();
    }

    /** Day of calibration. */
    public LocalDate day() {
        return certificate.calibratedOn();
    }
}
