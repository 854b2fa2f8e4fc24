package org.steamwright.desk.runs;

import java.io.IOException;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;

/**
 * A visit of the record and a run of it, as an address names them.
 *
 * @param subject the visit in the record
 * @param visit what follows from it
 * @param run the run
 */
record RunPlace(Subject subject, AssessedVisit visit, AssessedRun run) {

    /** What answers for a run that is there. */
    @FunctionalInterface
    interface Answer {

        /** The answer, as {@link org.steamwright.desk.web.Action#answer}. */
        Reply of(RunPlace place) throws IOException, FilingException, VisitFolderException;
    }

    /** The visit that an address names, by its identity or its report number. */
    static Optional<Subject> visit(Office office, Ask ask) {
        String named = ask.part("visit");
        return identity(named)
                .flatMap(office.records()::find)
                .filter(subject -> subject.kind() == Kind.VISIT)
                .or(() -> office.filing().find(named).map(StatedVisit::visit));
    }

    private static Optional<SubjectId> identity(String named) {
        try {
            return Optional.of(SubjectId.parse(named));
        } catch (IllegalArgumentException number) {
            return Optional.empty();
        }
    }

    /** Number of a run in an address; empty if it is none. */
    static Optional<Integer> number(Ask ask) {
        String named = ask.part("run");
        return named.matches("[1-9][0-9]{0,3}") ? Optional.of(Integer.valueOf(named)) : Optional.empty();
    }

    /** Lets something answer for a run, or says that there is none. */
    static Reply answer(Office office, Ask ask, Answer answer)
            throws IOException, FilingException, VisitFolderException {
        Optional<Subject> subject = visit(office, ask);
        if (subject.isEmpty()) {
            return nothing(ask);
        }
        AssessedVisit visit = office.visits().of(subject.get());
        Optional<Integer> number = number(ask);
        Optional<AssessedRun> run = number.flatMap(visit::find);
        boolean isUnrecorded =
                number.isPresent() && visit.visit().unrecorded().stream().anyMatch(one -> one.number() == number.get());
        if (isUnrecorded) {
            return new Reply.Next("/visits/" + subject.get().id() + "/runs/" + number.get() + "/recordings");
        }
        return run.isPresent() ? answer.of(new RunPlace(subject.get(), visit, run.get())) : nothing(ask);
    }

    /** There is no such visit or run. */
    static Reply nothing(Ask ask) {
        return new Reply.Refusal(
                404, ask.frame().say("runs.not-there"), ask.frame().say("runs.not-there-remedy"));
    }
}
