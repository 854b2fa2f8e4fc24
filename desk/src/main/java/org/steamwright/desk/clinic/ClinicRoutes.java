package org.steamwright.desk.clinic;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.office.Sheet;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.office.Shown;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Percent;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/** Routes of the clinic's page. A user of a clinic sees that clinic and no other. */
public final class ClinicRoutes {

    private static final Set<Role> EVERYBODY = Set.of(Role.values());
    private static final int THINGS = 6;
    private static final int WEEK = 7;
    private static final int MOST_THINGS = 10_000;

    private final Office office;
    private final RegisterShelf shelf;

    private ClinicRoutes(Office office) {
        this.office = office;
        this.shelf = new RegisterShelf(office);
    }

    /** The routes. */
    public static List<Route> all(Office office) {
        ClinicRoutes room = new ClinicRoutes(office);
        return List.of(
                Route.get("/clinic", EVERYBODY, room::front),
                Route.get("/clinic/{clinic}", EVERYBODY, room::clinic),
                Route.get("/clinic/{clinic}/load", EVERYBODY, room::load),
                Route.get("/clinic/{clinic}/reports/{visit}", EVERYBODY, room::report)
                        .dear(),
                Route.get("/clinic/{clinic}/reports/{visit}/{serial}", EVERYBODY, room::certificate)
                        .dear());
    }

    private Reply front(Ask ask) {
        if (ask.person().clinic().isPresent()) {
            return new Reply.Next("/clinic/" + ask.person().clinic().get());
        }
        return ask.frame().may(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE)
                ? new Reply.Next("/register/clinics")
                : unknown(ask);
    }

    private static Reply unknown(Ask ask) {
        return new Reply.Refusal(
                404, ask.frame().say("clinic.unknown"), ask.frame().say("clinic.unknown-remedy"));
    }

    /** The clinic of the path, if this person may see it. A clinic of somebody else is not there, rather than forbidden. */
    private Optional<Subject> asked(Ask ask) {
        try {
            SubjectId id = SubjectId.parse(ask.part("clinic"));
            boolean isStaff = ask.frame().may(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
            return isStaff || ask.person().clinic().equals(Optional.of(id))
                    ? office.records().find(id).filter(subject -> subject.kind() == Kind.CLINIC)
                    : Optional.empty();
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** Serial numbers on the premises: by the register where it has the clinic, and by the visits. */
    private Set<String> serials(Subject clinic) {
        Set<String> serials = new LinkedHashSet<>();
        for (Subject machine : machines(clinic)) {
            serials.add(machine.text("serial"));
        }
        List<Subject> visited = office.records()
                .usersOf(Use.CLINIC, Kind.STERILIZER, Set.of(clinic.id().toString()));
        Map<String, RegisterFiling.Standing> places = shelf.filing().places(visited);
        for (Subject machine : visited) {
            boolean isElsewhere = Optional.ofNullable(places.get(machine.text("stated/room")))
                    .filter(place -> !place.clinic().text("name").equals(clinic.text("name")))
                    .isPresent();
            if (!isElsewhere) {
                serials.add(machine.text("serial"));
            }
        }
        return serials;
    }

    private List<Subject> machines(Subject clinic) {
        return shelf.filing().machinesAt(List.of(clinic));
    }

    private List<StatedVisit> visits(String serial) {
        return shelf.filing()
                .machine(serial)
                .map(machine -> new VisitStates(office.records()).ofSterilizer(machine.id()))
                .orElse(List.of());
    }

    private Reply clinic(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException {
        Optional<Subject> found = asked(ask);
        if (found.isEmpty()) {
            return unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        LocalDate today = LocalDate.now(office.clock());
        Sheet.Writer writer = new Sheet.Writer(clinic.text("name")).say("", List.of(frame.say("clinic.why")));
        List<List<Cell>> reports = new ArrayList<>();
        Set<String> serials = serials(clinic);
        if (serials.isEmpty()) {
            writer.say("", List.of(frame.say("clinic.no-sterilizer")));
        }
        for (String serial : serials) {
            List<StatedVisit> visits = visits(serial);
            cycles(writer, serial, visits, today, frame);
            for (StatedVisit visit : visits) {
                if (isOf(clinic, visit.visit()) && visit.issue().isPresent()) {
                    reports.add(papers(clinic, serial, visit, frame));
                }
            }
        }
        writer.links(new Sheet.Link(frame.say("clinic.is-covered"), "/clinic/" + clinic.id() + "/load"));
        tests(writer, clinic, today, frame);
        writer.say(
                frame.say("clinic.failed"),
                List.of(
                        frame.say("clinic.failed-1"),
                        frame.say("clinic.failed-2"),
                        frame.say("clinic.failed-3"),
                        frame.say("clinic.failed-4"),
                        frame.say("clinic.failed-5")));
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
    private static List<Cell> papers(Subject clinic, String serial, StatedVisit visit, Frame frame) {
        String report = address(clinic, visit);
        String certificate = report + "/" + Percent.encoded(serial);
        String number = visit.visit().text("number");
        String query = PaperLanguage.query(frame);
        List<Cell> cells = new ArrayList<>(List.of(
                Cell.of(visit.visit().text("date")),
                Cell.of(serial),
                Cell.link(number, report + query),
                Cell.link(frame.say("clinic.certificate"), certificate + query),
                Cell.of(frame.hear(visit.words()))));
        if (PaperLanguage.isOther(frame)) {
            cells.add(Cell.link(number, report));
            cells.add(Cell.link(frame.say("clinic.certificate"), certificate));
        }
        return cells;
    }

    private static boolean isOf(Subject clinic, Subject visit) {
        return visit.text("clinic").equals(clinic.id().toString());
    }

    private void cycles(Sheet.Writer writer, String serial, List<StatedVisit> visits, LocalDate today, Frame frame)
            throws IOException, FilingException, VisitFolderException {
        List<List<Cell>> rows = new ArrayList<>();
        List<String> words = new ArrayList<>();
        Optional<StatedVisit> inForce = VisitStates.inForce(visits);
        if (inForce.isEmpty()) {
            words.add(frame.say("clinic.nothing-in-force"));
            visits.forEach(visit ->
                    words.add(frame.say("clinic.visit-is", visit.visit().text("number"), frame.heard(visit.words()))));
        } else {
            for (ValidatedState state :
                    ValidatedState.of(office.visits().of(inForce.get().visit()))) {
                if (state.serial().strip().equals(serial.strip())) {
                    for (QualifiedCycle cycle : state.cycles()) {
                        rows.add(row(state, cycle, today, frame));
                    }
                }
            }
        }
        writer.say(frame.say("clinic.sterilizer", serial), words);
        if (!rows.isEmpty()) {
            writer.table(
                    "",
                    "",
                    List.of(
                            frame.say("office.cycle"),
                            frame.say("clinic.today"),
                            frame.say("office.until"),
                            frame.say("clinic.load"),
                            frame.say("office.reason")),
                    rows);
        }
    }

    private static List<Cell> row(ValidatedState state, QualifiedCycle cycle, LocalDate today, Frame frame) {
        List<String> against = state.reasonsAgainst(cycle.name(), today, OptionalInt.empty());
        String until = Shown.day(frame, state.until())
                + (state.untilCount().isPresent()
                        ? " " + frame.say("clinic.or-cycle", state.untilCount().getAsInt())
                        : "");
        return List.of(
                Cell.of(cycle.name()),
                Cell.of(frame.say(
                        against.isEmpty()
                                ? "clinic.may-run"
                                : cycle.status() == QualifiedCycle.Status.AWAITED
                                        ? "clinic.awaited"
                                        : "clinic.may-not-run")),
                Cell.of(cycle.status() == QualifiedCycle.Status.QUALIFIED ? until : "–"),
                Cell.of(
                        cycle.loads().isEmpty()
                                ? "–"
                                : String.join(
                                        "; ",
                                        cycle.loads().stream()
                                                .map(load -> load.description())
                                                .toList())),
                against.isEmpty() ? Cell.of("–") : Cell.of(frame.hear(String.join(" ", against))));
    }

    /** Tests that the clinic makes itself, and what others have to do here this week. */
    private void tests(Sheet.Writer writer, Subject clinic, LocalDate today, Frame frame)
            throws IOException, FilingException, RegisterException {
        List<List<Cell>> rows = new ArrayList<>();
        List<Subject> machines = machines(clinic);
        for (SterilizerRecord machine : shelf.filing().register(machines).sterilizers()) {
            boolean drawsVacuum =
                    machine.cyclesInUse().stream().anyMatch(SterilizerRecord.RegisteredCycle::drawsVacuum);
            if (machine.status() == SterilizerRecord.Status.IN_USE && drawsVacuum) {
                rows.add(List.of(
                        Cell.of(machine.identity().serial()),
                        Cell.of(frame.say("clinic.each-day")),
                        Cell.of(frame.say("clinic.vacuum-tests"))));
            }
        }
        for (Due due : shelf.due(machines)) {
            if (due.concerns(today.plusDays(WEEK))) {
                boolean isOwn = due.title().equals(Duty.LEAK_TEST.title())
                        || due.title().equals(Duty.PENETRATION_TEST.title());
                rows.add(List.of(
                        Cell.of(due.subject().id()),
                        Cell.of(frame.hear(due.when())),
                        Cell.of(frame.heard(due.title()) + (isOwn ? "" : " " + frame.say("clinic.by-others")))));
            }
        }
        writer.table(
                frame.say("clinic.tests"),
                frame.say("clinic.tests-none"),
                List.of(frame.say("clinic.which"), frame.say("office.when"), frame.say("office.what")),
                rows);
        writer.say("", List.of(frame.say("clinic.tests-first")));
    }

    private Reply load(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException {
        Optional<Subject> found = asked(ask);
        if (found.isEmpty()) {
            return unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        Set<String> serials = serials(clinic);
        Sheet.Writer writer = new Sheet.Writer(frame.say("clinic.is-covered"));
        List<TodaysLoad.Thing> things = things(ask);
        String problem = "";
        boolean isAsked = !ask.typed("serial").isBlank();
        if (isAsked && (things.isEmpty() || ask.typed("cycle").isBlank() || !serials.contains(ask.typed("serial")))) {
            problem = frame.say("clinic.load-incomplete");
        } else if (isAsked) {
            answer(writer, ask, things, frame);
        }
        List<String> names = new ArrayList<>();
        List<String> counts = new ArrayList<>();
        List<String> families = new ArrayList<>();
        List<String> packagings = new ArrayList<>();
        for (int i = 1; i <= THINGS; i++) {
            names.add(ask.typed("name-" + i));
            counts.add(ask.typed("count-" + i));
            families.add(ask.typed("family-" + i));
            packagings.add(ask.typed("packaging-" + i));
        }
        return new Reply.Page(
                "clinic/load.jte",
                Map.of(
                        "sheet", writer.sheet(),
                        "clinic", clinic.id().toString(),
                        "serials", List.copyOf(serials),
                        "form",
                                new LoadForm(
                                        ask.typed("serial"),
                                        ask.typed("cycle"),
                                        ask.typed("counter"),
                                        ask.typed("tests"),
                                        names,
                                        counts,
                                        families,
                                        packagings),
                        "problem", problem),
                problem.isEmpty() ? 200 : 422);
    }

    private void answer(Sheet.Writer writer, Ask ask, List<TodaysLoad.Thing> things, Frame frame)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        CoverageInRecord record = new CoverageInRecord(office.records());
        Subject machine = record.sterilizer(ask.typed("serial"));
        CoverageInRecord.Answer answer = record.of(
                machine,
                new TodaysLoad(
                        machine.text("serial"),
                        ask.typed("cycle"),
                        LocalDate.now(office.clock()),
                        number(ask.typed("counter")),
                        things,
                        Optional.empty(),
                        Optional.empty(),
                        switch (ask.typed("tests")) {
                            case "passed" -> Optional.of(true);
                            case "failed" -> Optional.of(false);
                            default -> Optional.empty();
                        }));
        Coverage coverage = answer.coverage();
        List<Told> words = new ArrayList<>();
        words.add(Told.asItIs(
                coverage.isCovered()
                        ? frame.say("clinic.covered", coverage.by().orElse(""))
                        : frame.say("clinic.not-covered")));
        coverage.reasons().forEach(reason -> words.add(frame.hear(reason)));
        coverage.notes().forEach(note -> words.add(frame.hear(note)));
        writer.hear(frame.say("clinic.answer"), words);
    }

    private static OptionalInt number(String typed) {
        try {
            int number = Integer.parseInt(typed);
            return number < 0 ? OptionalInt.empty() : OptionalInt.of(number);
        } catch (NumberFormatException nothing) {
            return OptionalInt.empty();
        }
    }

    private static List<TodaysLoad.Thing> things(Ask ask) {
        List<TodaysLoad.Thing> things = new ArrayList<>();
        for (int i = 1; i <= THINGS; i++) {
            int count = number(ask.typed("count-" + i)).orElse(0);
            String name = ask.typed("name-" + i);
            if (count >= 1 && count <= MOST_THINGS && !name.isBlank()) {
                things.add(new TodaysLoad.Thing(name, count, ask.typed("family-" + i), ask.typed("packaging-" + i)));
            }
        }
        return things;
    }

    private static String address(Subject clinic, StatedVisit visit) {
        return "/clinic/" + clinic.id() + "/reports/" + visit.visit().id();
    }

    /** The visit that is asked for, if the clinic may read it: it was there, and somebody signed it. */
    private Optional<StatedVisit> signed(Ask ask) {
        Optional<Subject> clinic = asked(ask);
        try {
            return office.records()
                    .find(SubjectId.parse(ask.part("visit")))
                    .filter(visit -> visit.kind() == Kind.VISIT && clinic.isPresent() && isOf(clinic.get(), visit))
                    .map(new VisitStates(office.records())::of)
                    .filter(stated -> stated.issue().isPresent());
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    private Reply report(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        if (stated.isEmpty()) {
            return unknown(ask);
        }
        Subject visit = stated.get().visit();
        AssessedVisit assessed = office.visits().of(visit);
        Issued issued = office.filing().issued(stated.get());
        Language language = PaperLanguage.of(ask);
        return new Reply.Attachment(
                "application/pdf",
                out -> ReportPdf.write(assessed, issued, office.filing().pictures(visit), language, out),
                Optional.of(visit.text("number") + language.ending(".pdf")));
    }

    private Reply certificate(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        if (stated.isEmpty()) {
            return unknown(ask);
        }
        AssessedVisit assessed = office.visits().of(stated.get().visit());
        Optional<Sterilizer> sterilizer = assessed.visit().sterilizers().stream()
                .filter(one -> one.serial().equals(ask.part("serial")))
                .findFirst();
        if (sterilizer.isEmpty()) {
            return unknown(ask);
        }
        Issued issued = office.filing().issued(stated.get());
        Language language = PaperLanguage.of(ask);
        return new Reply.Attachment(
                "application/pdf",
                out -> CertificatePdf.write(assessed, sterilizer.get().key(), issued, language, out),
                Optional.of(CertificatePdf.fileName(sterilizer.get(), language)));
    }
}
