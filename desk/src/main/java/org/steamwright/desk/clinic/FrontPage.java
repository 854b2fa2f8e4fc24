package org.steamwright.desk.clinic;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.desk.office.Sheet;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.office.Shown;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Percent;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.CoverageInRecord.CycleStanding;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Subject;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/** What a clinic sees first: which cycles may be run until when, what to test this week, what to do when a cycle fails, reports. */
final class FrontPage {

    private static final int WEEK = 7;

    private final Premises premises;

    FrontPage(Premises premises) {
        this.premises = premises;
    }

    Reply clinic(Ask ask) throws IOException, FilingException, RegisterException {
        Optional<Subject> found = premises.asked(ask);
        if (found.isEmpty()) {
            return Premises.unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        Sheet.Writer writer = new Sheet.Writer(clinic.text("name")).say("", List.of(frame.say("clinic.why")));
        List<List<Cell>> reports = new ArrayList<>();
        Map<String, Premises.Here> here = premises.here(clinic);
        if (here.isEmpty()) {
            writer.say("", List.of(frame.say("clinic.no-sterilizer")));
        }
        writer.links(
                new Sheet.Link(frame.say("clinic.is-covered"), "/clinic/" + clinic.id() + "/load"),
                new Sheet.Link(frame.say("clinic.induction"), "/clinic/" + clinic.id() + "/induction"));
        CoverageInRecord coverage = premises.coverage(clinic);
        for (Premises.Here one : here.values()) {
            List<StatedVisit> visits = coverage.visits(one.machine());
            String called = Premises.called(one.machine(), here.values());
            List<StatedVisit> unread = coverage.unread(one.machine());
            cycles(writer, clinic, one, called, visits, unread, coverage, frame);
            for (StatedVisit visit : visits) {
                if (visit.issue().isPresent()) {
                    boolean isUnread = unread.stream()
                            .anyMatch(lost ->
                                    lost.visit().id().equals(visit.visit().id()));
                    reports.add(papers(clinic, one, called, visit, isUnread, frame));
                }
            }
        }
        tests(writer, here.values(), frame);
        writer.say(
                frame.say("clinic.failed"),
                List.of(
                        frame.say("clinic.failed-1"),
                        frame.say("clinic.failed-2"),
                        frame.say("clinic.failed-3"),
                        frame.say("clinic.failed-4"),
                        frame.say("clinic.failed-5")));
        writer.say(
                frame.say("clinic.call"),
                List.of(
                        frame.say("clinic.call-1"),
                        frame.say("clinic.call-2"),
                        frame.say("clinic.call-3"),
                        frame.say("clinic.call-4")));
        writer.table(frame.say("clinic.reports"), frame.say("clinic.reports-none"), heads(frame), reports);
        return writer.reply();
    }

    private static List<String> heads(Frame frame) {
        List<String> heads = new ArrayList<>(List.of(
                frame.say("office.day"),
                frame.say("office.serial"),
                frame.say("clinic.report"),
                frame.say("clinic.one-page"),
                frame.say("office.state")));
        if (PaperLanguage.isOther(frame)) {
            heads.add(frame.say("clinic.report-english"));
            heads.add(frame.say("clinic.one-page-english"));
        }
        return heads;
    }

    /** Report and certificate in the reader's language, and beside it in English, in which they were signed. */
    private static List<Cell> papers(
            Subject clinic, Premises.Here one, String called, StatedVisit visit, boolean isUnread, Frame frame) {
        if (isUnread) {
            return unread(called, visit, frame);
        }
        String report = "/clinic/" + clinic.id() + "/reports/" + visit.visit().id();
        String certificate = report + "/" + one.id();
        String number = visit.visit().text("number");
        String query = PaperLanguage.query(frame);
        List<Cell> cells = new ArrayList<>(List.of(
                Cell.day(Shown.day(frame, visit.visit().text("date"))),
                Cell.of(called),
                Cell.link(number, report + query),
                Cell.link(frame.say("clinic.certificate"), certificate + query),
                Cell.of(frame.hear(visit.words()))));
        if (PaperLanguage.isOther(frame)) {
            cells.add(Cell.link(number, report));
            cells.add(Cell.link(frame.say("clinic.certificate"), certificate));
        }
        return cells;
    }

    /** A report that can't be printed, by its number; nothing that leads nowhere. */
    private static List<Cell> unread(String called, StatedVisit visit, Frame frame) {
        List<Cell> cells = new ArrayList<>(List.of(
                Cell.day(Shown.day(frame, visit.visit().text("date"))),
                Cell.of(called),
                Cell.of(visit.visit().text("number")),
                Cell.of("–"),
                Cell.of(frame.say("clinic.unread-state"))));
        if (PaperLanguage.isOther(frame)) {
            cells.add(Cell.of("–"));
            cells.add(Cell.of("–"));
        }
        return cells;
    }

    private void cycles(
            Sheet.Writer writer,
            Subject clinic,
            Premises.Here one,
            String called,
            List<StatedVisit> visits,
            List<StatedVisit> unread,
            CoverageInRecord coverage,
            Frame frame)
            throws IOException, FilingException, RegisterException {
        List<String> words = new ArrayList<>();
        List<CycleStanding> standings = coverage.cycles(one.machine(), premises.today(one), OptionalInt.empty());
        if (VisitStates.inForce(visits).isEmpty()) {
            words.add(frame.say("clinic.nothing-in-force"));
            visits.forEach(visit ->
                    words.add(frame.say("clinic.visit-is", visit.visit().text("number"), frame.heard(visit.words()))));
        }
        unread.forEach(visit -> words.add(frame.say(
                "clinic.unread",
                visit.visit().text("number"),
                Shown.day(frame, visit.visit().text("date")))));
        writer.say(frame.say("clinic.sterilizer", called), words);
        if (standings.isEmpty()) {
            return;
        }
        writer.table(
                "",
                "",
                List.of(
                        frame.say("office.cycle"),
                        frame.say("clinic.today"),
                        frame.say("office.until"),
                        frame.say("clinic.load"),
                        frame.say("office.reason")),
                standings.stream().map(standing -> row(standing, frame)).toList());
        if (standings.stream().anyMatch(standing -> !standing.cycle().loads().isEmpty())) {
            List<Sheet.Link> links = new ArrayList<>();
            links.add(new Sheet.Link(frame.say("clinic.cards"), "/clinic/" + clinic.id() + "/cards/" + one.id()));
            standings.stream()
                    .filter(standing -> !standing.cycle().loads().isEmpty())
                    .forEach(standing -> links.add(new Sheet.Link(
                            frame.say("clinic.covers", standing.cycle().name()),
                            "/clinic/" + clinic.id() + "/load?machine=" + one.id() + "&cycle="
                                    + Percent.encoded(standing.cycle().name()))));
            writer.links(links.toArray(Sheet.Link[]::new));
        }
    }

    private static List<Cell> row(CycleStanding standing, Frame frame) {
        QualifiedCycle cycle = standing.cycle();
        return List.of(
                Cell.of(cycle.name()),
                Cell.of(frame.say(
                        standing.against().isEmpty()
                                ? "clinic.may-run"
                                : cycle.status() == QualifiedCycle.Status.AWAITED
                                        ? "clinic.awaited"
                                        : "clinic.may-not-run")),
                Cell.of(cycle.status() == QualifiedCycle.Status.QUALIFIED ? until(standing.state(), frame) : "–"),
                Cell.of(
                        cycle.loads().isEmpty()
                                ? "–"
                                : String.join(
                                        "; ",
                                        cycle.loads().stream()
                                                .map(ReferenceLoad::description)
                                                .toList())),
                standing.against().isEmpty()
                        ? Cell.of("–")
                        : Cell.of(frame.hear(String.join(" ", standing.against()))));
    }

    static String until(ValidatedState state, Frame frame) {
        return Shown.day(frame, state.until())
                + (state.untilCount().isPresent()
                        ? " " + frame.say("clinic.or-cycle", state.untilCount().getAsInt())
                        : "");
    }

    /** Tests that the clinic makes itself, and what others have to do here this week. */
    private void tests(Sheet.Writer writer, Collection<Premises.Here> here, Frame frame)
            throws IOException, FilingException, RegisterException {
        List<List<Cell>> rows = new ArrayList<>();
        for (Premises.Here one : here) {
            String called = Premises.called(one.machine(), here);
            List<Subject> machine = List.of(one.machine());
            if (!one.isRegistered()) {
                rows.add(List.of(Cell.of(called), Cell.of("–"), Cell.of(frame.say("clinic.not-in-register"))));
                continue;
            }
            for (SterilizerRecord registered :
                    premises.shelf().filing().register(machine).sterilizers()) {
                boolean drawsVacuum =
                        registered.cyclesInUse().stream().anyMatch(SterilizerRecord.RegisteredCycle::drawsVacuum);
                if (registered.status() == SterilizerRecord.Status.IN_USE && drawsVacuum) {
                    rows.add(List.of(
                            Cell.of(called),
                            Cell.of(frame.say("clinic.each-day")),
                            Cell.of(frame.say("clinic.vacuum-tests"))));
                }
            }
            for (Due due : premises.shelf().due(machine)) {
                if (due.concerns(premises.today(one).plusDays(WEEK))) {
                    boolean isOwn = due.title().equals(Duty.LEAK_TEST.title())
                            || due.title().equals(Duty.PENETRATION_TEST.title());
                    rows.add(List.of(
                            Cell.of(called),
                            Cell.of(frame.hear(due.when())),
                            Cell.of(frame.heard(due.title()) + (isOwn ? "" : " " + frame.say("clinic.by-others")))));
                }
            }
        }
        writer.table(
                frame.say("clinic.tests"),
                frame.say("clinic.tests-none"),
                List.of(frame.say("clinic.which"), frame.say("office.when"), frame.say("office.what")),
                rows);
        writer.say("", List.of(frame.say("clinic.tests-first")));
    }
}
