package org.steamwright.desk.clinic;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.office.Sheet;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.RecordsException;
import org.steamwright.records.Subject;

/** What somebody has to know who begins to work with the sterilisers of a clinic, to be printed on one page. */
final class InductionPage {

    private final Premises premises;

    InductionPage(Premises premises) {
        this.premises = premises;
    }

    /** Who made a visit; blank if it can't be read, so that nobody is named. */
    private String company(Subject visit) {
        try {
            return premises.office().visits().of(visit).visit().company();
        } catch (IOException | FilingException | VisitFolderException | RecordsException unreadable) {
            return "";
        }
    }

    Reply induction(Ask ask) {
        Optional<Subject> clinic = premises.asked(ask);
        if (clinic.isEmpty()) {
            return Premises.unknown(ask);
        }
        Frame frame = ask.frame();
        CoverageInRecord coverage = premises.coverage(clinic.get());
        List<String> calls = new ArrayList<>();
        Collection<Premises.Here> here = premises.here(clinic.get()).values();
        for (Premises.Here one : here) {
            Optional<Subject> visit =
                    VisitStates.inForce(coverage.visits(one.machine())).map(StatedVisit::visit);
            String company = visit.map(this::company).orElse("");
            calls.add(
                    company.isBlank()
                            ? frame.say("clinic.induction-call-nobody", Premises.called(one.machine(), here))
                            : frame.say(
                                    "clinic.induction-call",
                                    Premises.called(one.machine(), here),
                                    company,
                                    visit.get().text("number")));
        }
        calls.add(frame.say("clinic.induction-telephone"));
        calls.add(frame.say("clinic.induction-call-when"));
        return new Sheet.Writer(frame.say("clinic.induction"))
                .say("", List.of(frame.say("clinic.induction-why")))
                .say(
                        frame.say("clinic.induction-label"),
                        List.of(
                                frame.say("clinic.induction-label-1"),
                                frame.say("clinic.induction-label-2"),
                                frame.say("clinic.induction-label-3")))
                .say(
                        frame.say("clinic.induction-card"),
                        List.of(
                                frame.say("clinic.induction-card-1"),
                                frame.say("clinic.induction-card-2"),
                                frame.say("clinic.induction-card-3")))
                .say(frame.say("clinic.induction-who"), calls)
                .say(
                        frame.say("clinic.induction-cautions"),
                        List.of(
                                frame.say("clinic.failed-1"),
                                frame.say("clinic.induction-cautions-2"),
                                frame.say("clinic.induction-cautions-1"),
                                frame.say("clinic.induction-read")))
                .links(new Sheet.Link(
                        frame.say("clinic.back"), "/clinic/" + clinic.get().id()))
                .reply();
    }
}
