package org.steamwright.desk.path;

import java.util.Arrays;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.Review;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Duty;
import org.steamwright.filing.ReadOut;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Issues;
import org.steamwright.report.document.Issued;
import org.steamwright.visit.state.VisitState;

/**
 * What became of a visit, and what may follow.
 *
 * @param stated where it stands
 * @param correction by which its issue is being corrected
 * @param inForce the visit of that report number that somebody may rely on, if it is another one
 * @param isAwaiting whether indicators are still to be read
 * @param issued by whom and when its issue was signed; empty if nobody signed it
 * @param review what a reviewer answered about the visit; empty once it is signed
 */
public record After(
        StatedVisit stated,
        Optional<SubjectId> correction,
        Optional<SubjectId> inForce,
        boolean isAwaiting,
        Optional<Issued> issued,
        Optional<Review> review) {

    static After of(Draft draft, Office office) {
        VisitStates states = new VisitStates(office.records());
        StatedVisit stated = states.of(draft.subject());
        Optional<SubjectId> correction = stated.state().isOut()
                ? stated.issue().flatMap(issue -> new Issues(office.records()).openCorrection(issue.id()))
                : Optional.empty();
        boolean isOver = stated.issue().isPresent() && !stated.state().isOut();
        return new After(
                stated,
                correction,
                isOver || stated.isCorrection()
                        ? VisitStates.inForce(states.ofNumber(draft.number()))
                                .map(one -> one.visit().id())
                                .filter(id -> !id.equals(draft.id()))
                        : Optional.empty(),
                !ReadOut.of(draft).isEmpty() || stated.state() == VisitState.INTERIM,
                stated.issue().map(issue -> office.filing().issued(stated)),
                stated.issue().isPresent() ? Optional.empty() : Review.of(draft.subject()));
    }

    /** Whether somebody outside may rely on it, so that it is corrected and not changed. */
    public boolean isOut() {
        return stated.state().isOut();
    }

    /** Whether it is still being written. */
    public boolean isOpen() {
        return stated.state() == VisitState.OPEN;
    }

    /** Whether it was given up before it was signed. */
    public boolean isGivenUp() {
        return stated.state() == VisitState.BROKEN_OFF;
    }

    /** Who signed it, when, and what the signature says; empty if nobody did. */
    public Optional<String> signature(Frame frame) {
        return issued.flatMap(one -> one.signature()
                .map(signature -> frame.say(
                        "path.after.signature",
                        one.number(),
                        signature.name(),
                        frame.figures().moment(signature.at().toZonedDateTime()),
                        Arrays.stream(Duty.values())
                                .filter(duty -> duty.meaning().equals(signature.meaning()))
                                .findFirst()
                                .map(duty -> frame.say("path.close.says-" + duty.word()))
                                .orElse(signature.meaning()))));
    }

    /** Whether it has to be put right, or is not to be relied on. */
    public boolean isToMind() {
        return !isOpen() || sentBack().isPresent();
    }

    /** The review that sent it back. */
    public Optional<Review> sentBack() {
        return review.filter(one -> !one.isApproval());
    }

    /** Where it stands in words; empty while it is simply open. */
    public String words(Frame frame) {
        String issue = stated.issue().map(one -> String.valueOf(one.number())).orElse("");
        return switch (stated.state()) {
            case OPEN -> stated.isCorrection() ? frame.say("path.state.correction", stated.reason()) : "";
            case INTERIM ->
                frame.say(
                        "path.state.interim",
                        issue,
                        stated.interimUntil()
                                .map(day -> frame.figures().day(day))
                                .orElse(""));
            case REPLACED -> frame.say("path.state.replaced", issue, stated.reason());
            case WITHDRAWN -> frame.say("path.state.withdrawn", issue, stated.reason());
            case BROKEN_OFF -> frame.say("path.state.given-up", stated.reason());
            case PERFORMED, ISSUED -> frame.say("path.state.issued", issue);
        };
    }
}
