package org.steamwright.visit.register;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A tester for electrical safety as the office keeps it. It gives readings of safety checks and measures nothing in a run.
 *
 * @param id as on its label, unique in the register
 * @param description kind of tester, in words; may be blank
 * @param serial number on its plate; may be blank
 * @param certificates sorted here by day of calibration
 */
public record Tester(String id, String description, String serial, List<Certificate> certificates) {

    /**
     * A calibration of it.
     *
     * @param number of the certificate
     * @param laboratory that calibrated; may be blank
     * @param calibratedOn day
     * @param dueOn last day on which it may be relied on, that day included
     */
    public record Certificate(String number, String laboratory, LocalDate calibratedOn, LocalDate dueOn) {
        public Certificate {
            if (dueOn.isBefore(calibratedOn)) {
                throw new IllegalArgumentException("certificate %s is due on %s, before its calibration on %s"
                        .formatted(number, dueOn, calibratedOn));
            }
        }

        /** Whether it holds on a day; both ends are in. */
        public boolean holdsOn(LocalDate day) {
            return !day.isBefore(calibratedOn) && !day.isAfter(dueOn);
        }
    }

    public Tester {
        Ids.check("tester", id);
        certificates = certificates.stream()
                .sorted(Comparator.comparing(Certificate::calibratedOn))
                .toList();
    }

    /** The certificate of the last calibration up to a day, whether it still holds or not. */
    public Optional<Certificate> certificateOn(LocalDate day) {
        return certificates.stream()
                .filter(one -> !one.calibratedOn().isAfter(day))
                .reduce((earlier, later) -> later);
    }
}
