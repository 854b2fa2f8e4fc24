package org.steamwright.desk.path;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Action;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Issues;

/** Routes by which a signed report is corrected, and a visit is given up that nobody signed. */
public final class CorrectionRoutes {

    private static final Set<Role> CORRECTING = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITING = Set.of(Role.TECHNICIAN, Role.OFFICE);
    private static final String VISIT = "/visits/{visit}";
    private static final int LONGEST = 2_000;

    private final Office office;

    private CorrectionRoutes(Office office) {
        this.office = office;
    }

    /** The routes. */
    public static List<Route> all(Office office) {
        CorrectionRoutes routes = new CorrectionRoutes(office);
        return List.of(
                Route.post(VISIT + "/corrections", CORRECTING, routes.of(routes::correct)),
                Route.post(VISIT + "/given-up", WRITING, routes.of(routes::giveUp)));
    }

    /** What answers for one visit, with the reason that was typed. */
    @FunctionalInterface
    private interface Step {
        Reply answer(Ask ask, StatedVisit stated, String reason) throws FilingException;
    }

    private Action of(Step step) {
        return ask -> {
            Optional<Subject> visit = find(ask.part("visit"));
            if (visit.isEmpty()) {
                return refusal(ask, 404, "path.unknown", ask.part("visit"));
            }
            String reason =
                    ask.typed("for").equals("read-out") ? ask.frame().say("path.read-out-reason") : ask.typed("reason");
            Optional<Reply> bad = withoutReason(ask, reason);
            if (bad.isPresent()) {
                return bad.get();
            }
            return step.answer(ask, new VisitStates(office.records()).of(visit.get()), reason);
        };
    }

    private Optional<Subject> find(String id) {
        try {
            return office.records().find(SubjectId.parse(id)).filter(subject -> subject.kind() == Kind.VISIT);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** The refusal of a step whose reason is missing or too long; empty if it is good. */
    static Optional<Reply> withoutReason(Ask ask, String reason) {
        if (reason.isBlank()) {
            return Optional.of(refusal(ask, 422, "path.reason-missing"));
        }
        return reason.length() > LONGEST || reason.indexOf(0) >= 0
                ? Optional.of(refusal(ask, 422, "path.reason-long", LONGEST))
                : Optional.empty();
    }

    static Reply refusal(Ask ask, int status, String key, Object... parts) {
        return new Reply.Refusal(
                status, ask.frame().say(key, parts), ask.frame().say(key + "-remedy"));
    }

    private static Reply to(SubjectId visit, Stage stage) {
        return new Reply.Next("/visits/" + visit + "/" + stage.word());
    }

    private Reply correct(Ask ask, StatedVisit stated, String reason) throws FilingException {
        Stage stage = ask.typed("for").equals("read-out") ? Stage.INDICATORS : Stage.IDENTITY;
        if (stated.issue().isEmpty() || !stated.state().isOut()) {
            return refusal(ask, 409, "path.not-in-force");
        }
        Optional<SubjectId> open =
                new Issues(office.records()).openCorrection(stated.issue().get().id());
        if (open.isPresent()) {
            // somebody else began it: one correction is open at a time
            return to(open.get(), stage);
        }
        StatedVisit correction = office.filing().amend(stated.visit().text("number"), reason, ask.author());
        return to(correction.visit().id(), stage);
    }

    private Reply giveUp(Ask ask, StatedVisit stated, String reason) throws FilingException {
        office.filing().breakOff(stated, reason, ask.author());
        return to(stated.visit().id(), Stage.CLOSE);
    }
}
