package org.steamwright.visit.job;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * What was done about a failure.
 *
 * @param sterilizer key
 * @param kind evidence that failed
 * @param cause as far as it is known; blank while it is not
 * @param action what was done; blank while nothing was
 * @param changes what was exchanged or altered, by the words of the change matrix
 * @param closedOn day on which the effect was shown; empty while it is open
 * @param closedBy who showed it; blank while it is open
 * @param effect how it was shown; needed to close
 */
public record FailureNote(
        String sterilizer,
        EarlierEvidence.Kind kind,
        String cause,
        String action,
        List<String> changes,
        Optional<LocalDate> closedOn,
        String closedBy,
        String effect) {

    public FailureNote {
        changes = List.copyOf(changes);
        if (closedOn.isPresent() && (cause.isBlank() || action.isBlank() || closedBy.isBlank() || effect.isBlank())) {
            throw new IllegalArgumentException(
                    "a failure is closed with its cause, what was done, who closed it and how the effect was shown");
        }
    }
}
