package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.util.Optional;

/**
 * A time in which an instrument is not to be relied on: dropped, soaked, returned out of tolerance.
 *
 * @param from first day
 * @param until last day; empty while it lasts
 * @param reason in words
 */
public record Quarantine(LocalDate from, Optional<LocalDate> until, String reason) {

    public Quarantine {
        if (until.isPresent() && until.get().isBefore(from)) {
            throw new IllegalArgumentException("a quarantine from %s until %s".formatted(from, until.get()));
        }
        if (reason.isBlank()) {
            throw new IllegalArgumentException("a quarantine from %s without a reason".formatted(from));
        }
    }

    /** Whether that day lies in it, both ends included. */
    public boolean covers(LocalDate day) {
        return !day.isBefore(from) && until.map(end -> !day.isAfter(end)).orElse(true);
    }
}
