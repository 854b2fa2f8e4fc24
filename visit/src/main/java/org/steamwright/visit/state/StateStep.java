package org.steamwright.visit.state;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A step that somebody wants to make, with what is known at that moment.
 *
 * @param from state now
 * @param to state wanted
 * @param on day of the step, at the site
 * @param by who makes it; blank if nobody said
 * @param reason why; needed where something is taken back, may be blank otherwise
 * @param isSimulated whether any recording was simulated
 * @param isAwaiting whether an answer is still awaited, such as an incubation
 * @param interimUntil last day of an interim report; empty if none was set
 */
public record StateStep(
        VisitState from,
        VisitState to,
        LocalDate on,
        String by,
        String reason,
        boolean isSimulated,
        boolean isAwaiting,
        Optional<LocalDate> interimUntil) {

    /** Everything that keeps the step from being made, in words; empty if it may be made. */
    public List<String> refusals() {
        List<String> refusals = new ArrayList<>();
        if (!from.mayBecome(to)) {
            refusals.add(
                    from.isFinal()
                            ? "A visit that is %s stays so. Open a new issue instead.".formatted(from.words())
                            : "A visit that is %s can't become %s. It can become %s."
                                    .formatted(
                                            from.words(),
                                            to.words(),
                                            String.join(
                                                    " or ",
                                                    from.followers().stream()
                                                            .sorted()
                                                            .map(VisitState::words)
                                                            .toList())));
            return List.copyOf(refusals);
        }
        if (by.isBlank()) {
            refusals.add("Nobody stands for this step. State who makes it.");
        }
        if (isSimulated && to != VisitState.BROKEN_OFF) {
            refusals.add("A visit with simulated recordings can't be signed.");
        }
        if (needsReason() && reason.isBlank()) {
            refusals.add("No reason is stated, expected one. It stays with the visit.");
        }
        if (to == VisitState.INTERIM) {
            if (!isAwaiting) {
                refusals.add("Nothing is awaited, so nothing is interim. Issue it instead.");
            }
            if (interimUntil.isEmpty()) {
                refusals.add("An interim report has a last day. State until when it stands.");
            } else if (interimUntil.get().isBefore(on)) {
                refusals.add("The last day of the interim report, %s, lies before %s. State a later one."
                        .formatted(interimUntil.get(), on));
            }
        }
        if (to == VisitState.ISSUED && isAwaiting) {
            refusals.add("An answer is still awaited, so it can't be final. Make it interim with a last day.");
        }
        return List.copyOf(refusals);
    }

    private boolean needsReason() {
        return to == VisitState.REPLACED || to == VisitState.WITHDRAWN || to == VisitState.BROKEN_OFF;
    }
}
