package org.steamwright.desk.path;

import java.io.IOException;
import java.util.Optional;
import java.util.function.Function;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Action;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Kind;
import org.steamwright.records.SubjectId;

/** The way to one visit of the record: finds it, tells garbage apart from refusals, and leads back to its page. */
final class VisitDoor {

    private final Office office;

    VisitDoor(Office office) {
        this.office = office;
    }

    /** What answers for one visit. */
    @FunctionalInterface
    interface VisitAction {
        Reply answer(Ask ask, Draft draft)
                throws IOException, FilingException, VisitFolderException, RegisterException, DraftRefusal, Garbled;
    }

    /** A path or number that no page of this desk sends. */
    static final class Garbled extends Exception {
        private static final long serialVersionUID = 1L;

        Garbled(String what) {
            super(what);
        }
    }

    /** What a page sent in a form that has to be read; only a mistake of what was sent is told as such. */
    static <T> T parsed(Function<String, T> reader, String sent) throws Garbled {
        try {
            return reader.apply(sent);
        } catch (IllegalArgumentException no) {
            throw new Garbled(sent);
        }
    }

    /** The number of a run that the visit has. */
    static int run(Ask ask, Draft draft) throws Garbled {
        int run = parsed(Integer::valueOf, ask.typed("run"));
        if (run < 1 || run > draft.count(FactPath.of("runs"))) {
            throw new Garbled(ask.typed("run"));
        }
        return run;
    }

    /** Answers for the visit of the address, or says that there is none or that what was sent is no form of this desk. */
    Action of(VisitAction action) {
        return ask -> {
            Optional<Draft> draft = find(ask.part("visit"));
            if (draft.isEmpty()) {
                return new Reply.Refusal(
                        404,
                        ask.frame().say("path.unknown", ask.part("visit")),
                        ask.frame().say("path.unknown-remedy"));
            }
            try {
                return action.answer(ask, draft.get());
            } catch (DraftRefusal refused) {
                return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
            } catch (Garbled sent) {
                return new Reply.Refusal(
                        400, ask.frame().say("path.not-understood"), ask.frame().say("path.unknown-remedy"));
            }
        };
    }

    /** A visit by its identity or by its report number. */
    private Optional<Draft> find(String idOrNumber) {
        Optional<SubjectId> id = id(idOrNumber);
        return id.isEmpty()
                ? office.drafts().find(idOrNumber)
                : office.records()
                        .find(id.get())
                        .filter(subject -> subject.kind() == Kind.VISIT)
                        .map(subject -> office.drafts().of(subject.id()));
    }

    private static Optional<SubjectId> id(String text) {
        try {
            return Optional.of(SubjectId.parse(text));
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** The stage that the form stands on. */
    static Stage stage(Ask ask) {
        return Stage.ofWord(ask.typed("stage")).orElse(Stage.IDENTITY);
    }

    /** Back to the stage that the form stands on. */
    static Reply back(Ask ask, Draft draft, String anchor) {
        return new Reply.Next(
                Context.address(draft) + "/" + stage(ask).word() + (anchor.isBlank() ? "" : "#" + anchor));
    }

    /** Somebody changed meanwhile what the form was for. */
    static Reply changedMeanwhile(Ask ask) {
        return new Reply.Refusal(
                409, ask.frame().say("path.changed-meanwhile"), ask.frame().say("path.changed-remedy"));
    }

    /** What was recorded stays; it is set aside with a reason. */
    static Reply kept(Ask ask) {
        return CorrectionRoutes.refusal(ask, 409, "path.recorded");
    }
}
