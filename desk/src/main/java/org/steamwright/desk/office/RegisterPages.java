package org.steamwright.desk.office;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.Drift;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Change;
import org.steamwright.records.Found;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** The register: clinics, sterilisers, instruments, people, lots and parts, each list and each entry. */
final class RegisterPages {

    private static final String QUARANTINE = "stated/quarantine";

    private final Office office;
    private final RegisterShelf shelf;

    RegisterPages(Office office, RegisterShelf shelf) {
        this.office = office;
        this.shelf = shelf;
    }

    private Register register() throws IOException, FilingException, RegisterException {
        return shelf.now().register();
    }

    Reply front(Ask ask) throws IOException, FilingException, RegisterException {
        Register register = register();
        Frame frame = ask.frame();
        List<List<Cell>> rows = List.of(
                shelf(frame, "clinics", office.records().count(Kind.CLINIC)),
                shelf(frame, "sterilizers", office.records().count(Kind.STERILIZER)),
                shelf(frame, "instruments", register.instruments().size()),
                shelf(frame, "people", register.technicians().size()),
                shelf(frame, "lots", register.lots().size()),
                shelf(frame, "parts", register.parts().size()));
        return new Sheet.Writer(frame.say("office.register"))
                .say("", List.of(frame.say("office.register-why")))
                .table("", "", List.of(frame.say("office.list"), frame.say("office.entries")), rows)
                .links(
                        new Sheet.Link(frame.say("office.nonconformities"), "/nonconformities"),
                        new Sheet.Link(frame.say("office.trends"), "/trends"),
                        new Sheet.Link(frame.say("office.measures"), "/measures"),
                        new Sheet.Link(frame.say("office.affected"), "/affected"))
                .links(
                        frame.may(Role.OFFICE)
                                ? new Sheet.Link[] {new Sheet.Link(frame.say("office.table"), "/register/table")}
                                : new Sheet.Link[0])
                .reply();
    }

    private static List<Cell> shelf(Frame frame, String word, long size) {
        return List.of(Cell.link(frame.say("office." + word), "/register/" + word), Cell.figure(Long.toString(size)));
    }

    /** A page of the subjects of a kind, or those that begin as typed. */
    private Reply listed(
            Ask ask, Kind kind, String word, List<String> heads, Function<List<Subject>, List<List<Cell>>> rows) {
        Frame frame = ask.frame();
        String typed = ask.typed("q");
        String path = "/register/" + word;
        int from = Shown.from(ask);
        boolean isSearch = !typed.isBlank();
        Found found = isSearch ? office.records().find(typed, Set.of(kind), Shown.ROWS) : new Found(List.of(), true);
        List<Subject> shown = isSearch
                ? found.hits().stream().map(Found.Hit::subject).toList()
                : office.records().subjects(kind, from, Shown.ROWS);
        Sheet.Writer writer = new Sheet.Writer(frame.say("office." + word))
                .table(
                        "",
                        frame.say(isSearch ? "office.find-none" : "office.register-empty"),
                        heads,
                        rows.apply(shown));
        if (!isSearch) {
            Shown.pages(writer, frame, path + "?", from, office.records().count(kind));
        } else if (!found.isComplete()) {
            writer.say("", List.of(frame.say("office.find-more")));
        }
        adding(writer, frame, word);
        return Reply.page("office/find.jte", Map.of("sheet", writer.sheet(), "typed", typed, "path", path));
    }

    /** For those who keep the register: the way to a new entry of a list. */
    private static void adding(Sheet.Writer writer, Frame frame, String list) {
        if (frame.may(Role.OFFICE)) {
            writer.links(new Sheet.Link(frame.say("office.new-" + list), "/register/new/" + list));
            if (list.equals("sterilizers")) {
                writer.links(new Sheet.Link(frame.say("office.table"), "/register/table"));
            }
        }
    }

    /** Entries of the office's own lists by their id in the register. */
    private Map<String, Subject> entries(Kind kind) {
        Map<String, Subject> entries = new HashMap<>();
        office.records().eachSubject(kind, one -> entries.put(one.text("stated/id"), one));
        return entries;
    }

    /** A cell that leads to an entry of the register, where there is one. */
    private static Cell entry(Map<String, Subject> entries, String id, String text) {
        return Optional.ofNullable(entries.get(id))
                .map(one -> Cell.link(text, EntryPages.path(one)))
                .orElseGet(() -> Cell.of(text));
    }

    Reply clinics(Ask ask) {
        Frame frame = ask.frame();
        return listed(
                ask,
                Kind.CLINIC,
                "clinics",
                List.of(
                        frame.say("office.name"),
                        frame.say("office.id"),
                        frame.say("office.address"),
                        frame.say("office.facts")),
                clinics -> clinics.stream()
                        .map(clinic -> List.of(
                                Cell.link(clinic.text("name"), "/clinic/" + clinic.id()),
                                Shown.text(clinic.text("number")),
                                Shown.text(clinic.text("address")),
                                Cell.link(frame.say("office.facts-of", clinic.text("name")), EntryPages.path(clinic))))
                        .toList());
    }

    Reply sterilizers(Ask ask) {
        Frame frame = ask.frame();
        return listed(
                ask,
                Kind.STERILIZER,
                "sterilizers",
                List.of(
                        frame.say("office.id"),
                        frame.say("office.serial"),
                        frame.say("office.model"),
                        frame.say("office.place"),
                        frame.say("office.status")),
                machines -> machines(machines, frame));
    }

    private List<List<Cell>> machines(List<Subject> machines, Frame frame) {
        // an office that has no numbers of its own sees the serial number once
        boolean isNumbered =
                machines.stream().anyMatch(machine -> !name(machine).equals(machine.text("serial")));
        Map<String, RegisterFiling.Standing> places = shelf.filing().places(machines);
        return machines.stream()
                .map(machine -> List.of(
                        Cell.link(name(machine), Shown.machinePath(machine)),
                        Cell.of(isNumbered ? machine.text("serial") : "–"),
                        Cell.of((machine.text("maker") + " " + machine.text("model")).strip()),
                        Shown.text(Optional.ofNullable(places.get(RegisterFiling.roomOf(machine)))
                                .map(RegisterFiling.Standing::words)
                                .orElse("")),
                        status(machine).isBlank() ? Cell.of("–") : Cell.of(frame.hear(status(machine)))))
                .toList();
    }

    private static String name(Subject machine) {
        return machine.text("number").isBlank() ? machine.text("serial") : machine.text("number");
    }

    /** Status by the register; blank for a machine that only a visit made known. */
    private static String status(Subject machine) {
        boolean isStated = machine.facts().keySet().stream().anyMatch(fact -> fact.startsWith("stated/"));
        String stated = machine.text("stated/status");
        return isStated && stated.isBlank() ? SterilizerRecord.Status.IN_USE.words() : stated.replace('-', ' ');
    }

    /** A machine by its id in the register, which may hold any sign, or by its serial number. */
    Reply sterilizerNamed(Ask ask) {
        Optional<Subject> one = shelf.machine(ask.typed("id"));
        if (one.isPresent()) {
            return new Reply.Next(Shown.machinePath(one.get()));
        }
        return shelf.filing().machines(ask.typed("id")).isEmpty()
                ? missing(ask.frame())
                : new Reply.Next("/register/sterilizers?q=" + Shown.part(ask.typed("id")));
    }

    /** An instrument by its id in the register, which may hold any sign. */
    Reply instrumentNamed(Ask ask) {
        return office.records().exactly(Kind.INSTRUMENT, "number", ask.typed("id")).stream()
                .findFirst()
                .map(one -> (Reply) new Reply.Next("/register/instruments/" + one.id()))
                .orElseGet(() -> missing(ask.frame()));
    }

    Reply sterilizer(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        Optional<Subject> found = shelf.machine(ask.part("id"));
        if (found.isEmpty()) {
            return missing(frame);
        }
        Subject machine = found.get();
        List<List<Cell>> due = shelf.due(List.of(machine)).stream()
                .map(one -> List.of(
                        Cell.of(frame.hear(one.title())),
                        Cell.of(Shown.heard(frame, one.when())),
                        Cell.of(Shown.heard(frame, one.first().reason()))))
                .toList();
        List<List<Cell>> visits = new ArrayList<>();
        for (StatedVisit visit : new VisitStates(office.records()).ofSterilizer(machine.id())) {
            visits.add(List.of(
                    Cell.of(Shown.day(frame, visit.visit().text("date"))),
                    Cell.link(
                            visit.visit().text("number"),
                            "/visits/" + visit.visit().id()),
                    Cell.of(frame.hear(visit.words()))));
        }
        String place = Optional.ofNullable(
                        shelf.filing().places(List.of(machine)).get(RegisterFiling.roomOf(machine)))
                .map(RegisterFiling.Standing::words)
                .orElse("–");
        String status = status(machine);
        return new Sheet.Writer(FindPages.title(machine))
                .links(new Sheet.Link(frame.say("office.facts"), EntryPages.path(machine)))
                .say(
                        "",
                        List.of(
                                status.isBlank()
                                        ? frame.say("office.only-by-visits")
                                        : frame.say("office.stands-in", place, frame.heard(status))))
                .table(
                        frame.say("office.due"),
                        frame.say("office.due-none"),
                        List.of(frame.say("office.duty"), frame.say("office.when"), frame.say("office.reason")),
                        due)
                .table(
                        frame.say("office.visits"),
                        frame.say("office.visits-none"),
                        List.of(frame.say("office.day"), frame.say("office.visit"), frame.say("office.state")),
                        visits)
                .links(
                        new Sheet.Link(frame.say("office.trends"), "/trends/one?machine=" + machine.id()),
                        new Sheet.Link(
                                frame.say("office.nonconformities"),
                                "/nonconformities?sterilizer=" + Shown.part(machine.text("serial"))))
                .links(
                        frame.may(Role.TECHNICIAN, Role.OFFICE)
                                ? new Sheet.Link[] {
                                    new Sheet.Link(
                                            frame.say("today.begin"), "/visits?machine=" + machine.id() + "#begin")
                                }
                                : new Sheet.Link[0])
                .reply();
    }

    /** The instrument of an address: by its identity, which no sign of its id can break, or by its id. */
    private Optional<Subject> instrumentOf(Ask ask) {
        try {
            return office.records().find(SubjectId.parse(ask.part("id"))).filter(one -> one.kind() == Kind.INSTRUMENT);
        } catch (IllegalArgumentException noIdentity) {
            return office.records().exactly(Kind.INSTRUMENT, "number", ask.part("id")).stream()
                    .findFirst();
        }
    }

    private static String id(Subject entry) {
        return entry.text("stated/id");
    }

    private static Reply missing(Frame frame) {
        return new Reply.Refusal(404, frame.say("office.not-in-register"), frame.say("office.not-in-register-remedy"));
    }

    Reply instruments(Ask ask) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        Frame frame = ask.frame();
        Map<String, Subject> entries = entries(Kind.INSTRUMENT);
        List<List<Cell>> rows = new ArrayList<>();
        for (ReferenceInstrument one : now.register().instruments()) {
            ReferenceInstrument today = one.on(now.day());
            Optional<LocalDate> until = today.certificate().map(certificate -> certificate.dueOn());
            boolean isOut = one.history().quarantineOn(now.day()).isPresent();
            rows.add(List.of(
                    Optional.ofNullable(entries.get(one.id()))
                            .map(subject -> Cell.link(one.id(), "/register/instruments/" + subject.id()))
                            .orElseGet(() -> Cell.of(one.id())),
                    Shown.text(one.description()),
                    Shown.text(today.certificate()
                            .map(certificate -> certificate.number())
                            .orElse("")),
                    Cell.day(Shown.day(frame, until)),
                    Cell.of(frame.say(
                            isOut
                                    ? "office.in-quarantine"
                                    : until.filter(day -> !day.isBefore(now.day()))
                                                    .isPresent()
                                            ? "office.in-date"
                                            : "office.not-in-date"))));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.instruments"))
                .table(
                        "",
                        frame.say("office.register-empty"),
                        List.of(
                                frame.say("office.id"),
                                frame.say("office.description"),
                                frame.say("office.certificate"),
                                frame.say("office.until"),
                                frame.say("office.standing")),
                        rows);
        List<List<Cell>> testers = now.register().testers().stream()
                .map(one -> List.of(
                        entry(entries, one.id(), one.id()), Shown.text(one.description()), Shown.text(one.serial())))
                .toList();
        writer.table(
                frame.say("office.testers"),
                frame.say("office.testers-none"),
                List.of(frame.say("office.id"), frame.say("office.description"), frame.say("office.serial")),
                testers);
        if (frame.may(Role.OFFICE)) {
            writer.links(
                    new Sheet.Link(frame.say("office.new-instruments"), "/register/new/instruments"),
                    new Sheet.Link(frame.say("office.new-testers"), "/register/new/testers"));
        }
        return writer.reply();
    }

    Reply instrument(Ask ask) throws IOException, FilingException, RegisterException {
        return instrument(ask, "");
    }

    private Reply instrument(Ask ask, String problem) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        Frame frame = ask.frame();
        Optional<Subject> subject = instrumentOf(ask);
        Optional<ReferenceInstrument> found = subject.flatMap(entry -> now.register().instruments().stream()
                .filter(one -> one.id().equals(id(entry)))
                .findFirst());
        if (subject.isEmpty() || found.isEmpty()) {
            return missing(frame);
        }
        ReferenceInstrument instrument = found.get();
        Sheet.Writer writer = new Sheet.Writer(instrument.id()).say("", List.of(instrument.description()));
        drift(writer, instrument, frame);
        writer.table(
                frame.say("office.quarantines"),
                frame.say("office.quarantines-none"),
                List.of(frame.say("office.from"), frame.say("office.until"), frame.say("office.reason")),
                instrument.history().quarantines().stream()
                        .map(one -> List.of(
                                Cell.of(frame.figures().day(one.from())),
                                Cell.of(Shown.day(frame, one.until())),
                                Cell.of(one.reason())))
                        .toList());
        writer.links(
                new Sheet.Link(frame.say("office.facts"), EntryPages.path(subject.get())),
                new Sheet.Link(
                        frame.say("office.used-by"), "/affected?use=instrument&what=" + Shown.part(instrument.id())));
        return new Reply.Page(
                "office/instrument.jte",
                Map.of(
                        "sheet",
                        writer.sheet(),
                        "id",
                        subject.get().id().toString(),
                        "today",
                        now.day().toString(),
                        "isOut",
                        instrument.history().quarantineOn(now.day()).isPresent(),
                        "problem",
                        problem),
                problem.isEmpty() ? 200 : 422);
    }

    /** The correction at the calibrated point nearest to sterilizing work, as each laboratory found it. */
    private static void drift(Sheet.Writer writer, ReferenceInstrument instrument, Frame frame) {
        boolean isTemperature = instrument.quantity() == Quantity.TEMPERATURE;
        double around = isTemperature ? 134 : 304;
        String unit = isTemperature ? "K" : "kPa";
        List<LinePlot.Dot> dots = new ArrayList<>();
        List<List<Cell>> rows = new ArrayList<>();
        for (CalibrationEvent event : instrument.history().calibrations()) {
            CalibrationPoint nearest = event.found().stream()
                    .min((one, other) ->
                            Double.compare(Math.abs(one.reference() - around), Math.abs(other.reference() - around)))
                    .orElseThrow();
            dots.add(new LinePlot.Dot(event.day(), nearest.correction(), nearest.expandedUncertainty()));
            rows.add(List.of(
                    Cell.of(frame.figures().day(event.day())),
                    Cell.of(event.certificate().number()),
                    Cell.figure(frame.figures().of(plain(nearest.reference(), 2))),
                    Cell.figure(frame.figures().of(plain(nearest.correction(), 3)) + " " + unit),
                    Cell.figure(frame.figures().of(plain(nearest.expandedUncertainty(), 3)) + " " + unit),
                    Cell.of(frame.say(event.isAdjusted() ? "office.adjusted" : "office.not-adjusted"))));
        }
        if (dots.size() > 1) {
            Optional<Drift> last = instrument.history().drifts().stream().reduce((one, other) -> other);
            String message = last.map(one -> frame.say(
                            "office.drifted", frame.figures().of(plain(one.perYear(one.largest()), 3)) + " " + unit))
                    .orElse(frame.say("office.drift"));
            writer.draw(
                    frame.say("office.drift"),
                    new LinePlot(
                                    message,
                                    dots,
                                    List.of(new LinePlot.Level(0, "0 " + unit)),
                                    Optional.empty(),
                                    Optional.empty(),
                                    new LinePlot.Writing(frame.figures()::of, frame.figures()::day))
                            .svg(),
                    List.of(message));
        }
        writer.table(
                frame.say("office.calibrations"),
                frame.say("office.calibrations-one"),
                List.of(
                        frame.say("office.day"),
                        frame.say("office.certificate"),
                        frame.say("office.point"),
                        frame.say("office.correction"),
                        frame.say("office.expanded"),
                        frame.say("office.state")),
                rows);
    }

    static String plain(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.matches("-0\\.0*") ? text.substring(1) : text;
    }

    /** Puts an instrument into quarantine from a day, or lets it out. */
    Reply quarantine(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        Optional<Subject> subject = instrumentOf(ask);
        Register register = register();
        Optional<ReferenceInstrument> instrument = subject.flatMap(entry -> register.instruments().stream()
                .filter(one -> one.id().equals(id(entry)))
                .findFirst());
        if (subject.isEmpty() || instrument.isEmpty()) {
            return missing(frame);
        }
        Optional<LocalDate> day = Shown.typedDay(ask, "day");
        String reason = ask.typed("reason");
        boolean isEnd = ask.typed("end").equals("yes");
        if (day.isEmpty() || (reason.isBlank() && !isEnd)) {
            return instrument(ask, frame.say("office.quarantine-incomplete"));
        }
        List<Map<String, String>> all = new ArrayList<>();
        for (Quarantine one : instrument.get().history().quarantines()) {
            boolean isEnding = isEnd && one.until().isEmpty() && !day.get().isBefore(one.from());
            all.add(stated(new Quarantine(one.from(), isEnding ? day : one.until(), one.reason())));
        }
        if (!isEnd) {
            all.add(stated(new Quarantine(day.get(), Optional.empty(), reason)));
        }
        office.records()
                .append(
                        ask.author(),
                        List.of(Change.set(Kind.INSTRUMENT, subject.get().id(), QUARANTINE, JsonText.of(all))
                                .because(isEnd ? "let out of quarantine" : reason)));
        return new Reply.Next("/register/instruments/" + subject.get().id());
    }

    private static Map<String, String> stated(Quarantine quarantine) {
        Map<String, String> stated = new LinkedHashMap<>();
        stated.put("from", quarantine.from().toString());
        quarantine.until().ifPresent(day -> stated.put("until", day.toString()));
        stated.put("reason", quarantine.reason());
        return stated;
    }

    Reply people(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        RegisterShelf.Standing now = shelf.now();
        List<List<Cell>> rows = new ArrayList<>();
        Map<String, Subject> entries = entries(Kind.TECHNICIAN);
        for (Technician technician : now.register().technicians()) {
            if (technician.competences().isEmpty()) {
                rows.add(List.of(
                        entry(entries, technician.id(), technician.name()),
                        Cell.of("–"),
                        Cell.of("–"),
                        Cell.of("–"),
                        Cell.of("–"),
                        Cell.of(frame.say("office.no-competence")),
                        Cell.of("–")));
            }
            for (Technician.Competence one : technician.competences()) {
                rows.add(List.of(
                        entry(entries, technician.id(), technician.name()),
                        Cell.of(one.duties().stream()
                                .map(duty -> frame.heard(duty.title()))
                                .collect(Collectors.joining(", "))),
                        Cell.of(
                                one.families().isEmpty()
                                        ? frame.say("office.every-model")
                                        : String.join(", ", one.families())),
                        Cell.day(frame.figures().day(one.from())),
                        Cell.day(Shown.day(frame, one.until())),
                        Cell.of(frame.say(one.covers(now.day()) ? "office.in-date" : "office.not-in-date")),
                        Shown.text(one.document())));
            }
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.people"))
                .table(
                        "",
                        frame.say("office.register-empty"),
                        List.of(
                                frame.say("office.name"),
                                frame.say("office.duty"),
                                frame.say("office.models"),
                                frame.say("office.from"),
                                frame.say("office.until"),
                                frame.say("office.standing"),
                                frame.say("office.document")),
                        rows);
        adding(writer, frame, "technicians");
        return writer.reply();
    }

    Reply lots(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        RegisterShelf.Standing now = shelf.now();
        Map<String, Subject> entries = entries(Kind.LOT);
        List<List<Cell>> rows = now.register().lots().stream()
                .map(lot -> List.of(
                        entry(entries, lot.id(), lot.number()),
                        Cell.of(frame.hear(lot.kind().words())),
                        Shown.text(lot.product()),
                        Cell.day(frame.figures().day(lot.expires())),
                        Cell.of(frame.say(lot.expires().isBefore(now.day()) ? "office.not-in-date" : "office.in-date")),
                        Cell.link(frame.say("office.used-by"), "/affected?use=lot&what=" + Shown.part(lot.number()))))
                .toList();
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.lots"))
                .table(
                        "",
                        frame.say("office.register-empty"),
                        List.of(
                                frame.say("office.number"),
                                frame.say("office.kind"),
                                frame.say("office.description"),
                                frame.say("office.until"),
                                frame.say("office.standing"),
                                frame.say("office.used-by")),
                        rows);
        adding(writer, frame, "lots");
        return writer.reply();
    }

    Reply parts(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        Map<String, Subject> entries = entries(Kind.PART);
        List<List<Cell>> rows = register().parts().stream()
                .map(part -> List.of(
                        Shown.text(part.number()),
                        entry(entries, part.id(), part.name()),
                        Cell.of(
                                part.families().isEmpty()
                                        ? frame.say("office.every-model")
                                        : String.join(", ", part.families())),
                        Cell.figure(
                                part.stock().isPresent()
                                        ? Integer.toString(part.stock().getAsInt())
                                        : "–"),
                        Cell.of(Shown.day(frame, part.shelfLife())),
                        part.number().isBlank()
                                ? Cell.of("–")
                                : Cell.link(
                                        frame.say("office.used-by"),
                                        "/affected?use=part&what=" + Shown.part(part.number()))))
                .toList();
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.parts"))
                .table(
                        "",
                        frame.say("office.register-empty"),
                        List.of(
                                frame.say("office.number"),
                                frame.say("office.name"),
                                frame.say("office.models"),
                                frame.say("office.stock"),
                                frame.say("office.until"),
                                frame.say("office.used-by")),
                        rows);
        adding(writer, frame, "parts");
        return writer.reply();
    }
}
