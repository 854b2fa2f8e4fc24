package org.steamwright.assessment.calibration;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A calibration certificate of one channel of an instrument.
 *
 * @param number as printed on the certificate
 * @param laboratory who calibrated
 * @param calibratedOn day of calibration
 * @param dueOn last day on which it may be relied on; that whole day is still good
 * @param points sorted here by indicated value; at least one
 * @param file the digital certificate that it was read from; empty if it was typed from paper
 */
public record CalibrationCertificate(
        String number,
        String laboratory,
        LocalDate calibratedOn,
        LocalDate dueOn,
        List<CalibrationPoint> points,
        Optional<CertificateFile> file) {

    public CalibrationCertificate {
        if (points.isEmpty()) {
            throw new IllegalArgumentException("certificate " + number + " has no calibration point");
        }
        if (dueOn.isBefore(calibratedOn)) {
            throw new IllegalArgumentException(
                    "certificate %s is due on %s, before its calibration on %s".formatted(number, dueOn, calibratedOn));
        }
        points = points.stream()
                .sorted(Comparator.comparingDouble(CalibrationPoint::indicated))
                .toList();
        for (int i = 1; i < points.size(); i++) {
            if (points.get(i).indicated() == points.get(i - 1).indicated()) {
                throw new IllegalArgumentException("certificate %s has two points indicated at %s"
                        .formatted(number, points.get(i).indicated()));
            }
        }
    }

    /** A certificate typed from paper. */
    public CalibrationCertificate(
            String number, String laboratory, LocalDate calibratedOn, LocalDate dueOn, List<CalibrationPoint> points) {
        this(number, laboratory, calibratedOn, dueOn, points, Optional.empty());
    }

    /** Whether the certificate covers that moment: from the day of calibration to the end of the due day, at the site. */
    public boolean isValidAt(Instant moment, ZoneId siteZone) {
        LocalDate day = moment.atZone(siteZone).toLocalDate();
        return !day.isBefore(calibratedOn) && !day.isAfter(dueOn);
    }

    /** Lowest indicated value of the calibrated range. */
    public double lowest() {
        return points.get(0).indicated();
    }

    /** Highest indicated value of the calibrated range. */
    public double highest() {
        return points.get(points.size() - 1).indicated();
    }
}
