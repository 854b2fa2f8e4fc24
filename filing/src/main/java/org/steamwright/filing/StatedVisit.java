package org.steamwright.filing;

import java.time.LocalDate;
import java.util.Optional;
import org.steamwright.records.Subject;
import org.steamwright.records.signing.Issue;
import org.steamwright.visit.state.VisitState;

/**
 * A visit of the record and where it stands.
 *
 * @param visit with its facts
 * @param state in which it is
 * @param issue that was signed; empty while none was
 * @param interimUntil last day of an interim report; empty for any other
 * @param reason why it is a correction, or was replaced, withdrawn or broken off; blank if it is none of these
 */
public record StatedVisit(
        Subject visit, VisitState state, Optional<Issue> issue, Optional<LocalDate> interimUntil, String reason) {

    /** Whether it corrects an earlier issue. */
    public boolean isCorrection() {
        return visit.fact("amends").isPresent();
    }

    /** State in words, with the issue, the last day and the reason where there are any. */
    public String words() {
        StringBuilder words = new StringBuilder(state.words());
        issue.ifPresent(one -> words.append(", issue ").append(one.number()));
        if (issue.isEmpty() && isCorrection()) {
            words.append(", a correction");
        }
        interimUntil.ifPresent(last -> words.append(", until ").append(last));
        if (!reason.isBlank()) {
            words.append(": ").append(reason);
        }
        return words.toString();
    }
}
