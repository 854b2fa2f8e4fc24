package org.steamwright.desk.clinic;

import java.io.IOException;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
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
import org.steamwright.filing.CoverageInRecord.CycleStanding;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.TiedMachines;
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
import org.steamwright.report.picture.Photos;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/** Routes of the clinic's page. A user of a clinic sees that clinic and no other. */
public final class ClinicRoutes {

    private static final Set<Role> EVERYBODY = Set.of(Role.values());
    private static final int WEEK = 7;
    /** Of a load on its card; more are with the report. */
    private static final int MOST_PHOTOS = 2;

    private static final int SHA_SHOWN = 16;
    private static final Set<String> FAMILIES = Set.of("solid", "hollow-a", "hollow-b", "porous");

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
                Route.get("/clinic/{clinic}/load", EVERYBODY, room::load).dear(),
                Route.get("/clinic/{clinic}/cards/{machine}", EVERYBODY, room::cards)
                        .dear(),
                Route.get("/clinic/{clinic}/photos/{visit}", EVERYBODY, room::photo)
                        .dear(),
                Route.get("/clinic/{clinic}/induction", EVERYBODY, room::induction)
                        .dear(),
                Route.get("/clinic/{clinic}/reports/{visit}", EVERYBODY, room::report)
                        .dear(),
                Route.get("/clinic/{clinic}/reports/{visit}/{machine}", EVERYBODY, room::certificate)
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

    /**
     * A steriliser on the premises.
     *
     * @param machine of the record
     * @param isRegistered whether the register says where it stands
     * @param zone in which its days begin and end
     */
    private record Here(Subject machine, boolean isRegistered, ZoneId zone) {

        String id() {
            return machine.id().toString();
        }
    }

    /** What machines here are called: by their serial numbers, and with the maker where two have the same. */
    private static String called(Subject machine, Collection<Here> here) {
        String serial = machine.text("serial");
        boolean isTwice = here.stream()
                .map(Here::machine)
                .anyMatch(one ->
                        !one.id().equals(machine.id()) && one.text("serial").equals(serial));
        return isTwice ? "%s (%s %s)".formatted(serial, machine.text("maker"), machine.text("model")) : serial;
    }

    /** The machine here that an address names, by its id or, as addresses did that somebody kept, by its serial number. */
    private static Optional<Here> named(Map<String, Here> here, String named) {
        List<Here> ofSerial = here.values().stream()
                .filter(one -> one.machine().text("serial").equals(named))
                .toList();
        return Optional.ofNullable(here.get(named))
                .or(() -> ofSerial.stream().filter(one -> ofSerial.size() == 1).findFirst());
    }

    /**
     * Sterilisers on the premises by their ids: those that the register has here, and of those that it places
     * nowhere the ones whose last visit was made for this clinic.
     */
    private Map<String, Here> here(Subject clinic) {
        Map<SubjectId, Subject> all = new LinkedHashMap<>();
        machines(clinic).forEach(machine -> all.put(machine.id(), machine));
        // a machine that changed hands is known as the first clinic's; its visits tell of the others
        Set<SubjectId> visited = new LinkedHashSet<>();
        for (Subject visit : office.records()
                .usersOf(Use.CLINIC, Kind.VISIT, Set.of(clinic.id().toString()))) {
            visit.fact("sterilizer")
                    .ifPresent(ids -> ids.node().forEach(id -> visited.add(SubjectId.parse(id.asText()))));
        }
        office.records().subjects(List.copyOf(visited)).forEach(machine -> all.putIfAbsent(machine.id(), machine));
        Map<String, RegisterFiling.Standing> places = shelf.filing().places(List.copyOf(all.values()));
        Map<String, Here> here = new LinkedHashMap<>();
        for (Subject machine : all.values()) {
            Optional<RegisterFiling.Standing> place = Optional.ofNullable(places.get(RegisterFiling.roomOf(machine)));
            Optional<Subject> last = new VisitStates(office.records())
                    .ofSterilizer(machine.id()).stream()
                            .filter(visit -> visit.state() != VisitState.BROKEN_OFF)
                            .map(StatedVisit::visit)
                            .findFirst();
            boolean isHere = place.map(RegisterFiling.Standing::clinic)
                    .map(standing -> standing.id().equals(clinic.id()))
                    .orElse(last.filter(visit -> isOf(clinic, visit)).isPresent());
            if (isHere) {
                ZoneId zone = place.map(RegisterFiling.Standing::zone)
                        .flatMap(ClinicRoutes::zone)
                        .or(() -> last.flatMap(visit -> zone(visit.text("zone"))))
                        .orElse(office.clock().getZone());
                here.put(machine.id().toString(), new Here(machine, place.isPresent(), zone));
            }
        }
        return here;
    }

    private static Optional<ZoneId> zone(String name) {
        try {
            return name.isBlank() ? Optional.empty() : Optional.of(ZoneId.of(name));
        } catch (DateTimeException unknown) {
            return Optional.empty();
        }
    }

    /** The day at the site, wherever the office is. */
    private LocalDate today(Here one) {
        return LocalDate.ofInstant(office.clock().instant(), one.zone());
    }

    private List<Subject> machines(Subject clinic) {
        return shelf.filing().machinesAt(List.of(clinic));
    }

    /** What the record answers for this clinic: visits that were made for somebody else do not count. */
    private CoverageInRecord coverage(Subject clinic) {
        return new CoverageInRecord(office.records(), office.visits()::of, visit -> isOf(clinic, visit.visit()));
    }

    private Reply clinic(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException {
        Optional<Subject> found = asked(ask);
        if (found.isEmpty()) {
            return unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        Sheet.Writer writer = new Sheet.Writer(clinic.text("name")).say("", List.of(frame.say("clinic.why")));
        List<List<Cell>> reports = new ArrayList<>();
        Map<String, Here> here = here(clinic);
        if (here.isEmpty()) {
            writer.say("", List.of(frame.say("clinic.no-sterilizer")));
        }
        writer.links(
                new Sheet.Link(frame.say("clinic.is-covered"), "/clinic/" + clinic.id() + "/load"),
                new Sheet.Link(frame.say("clinic.induction"), "/clinic/" + clinic.id() + "/induction"));
        CoverageInRecord coverage = coverage(clinic);
        for (Here one : here.values()) {
            List<StatedVisit> visits = coverage.visits(one.machine());
            String called = called(one.machine(), here.values());
            cycles(writer, clinic, one, called, visits, coverage, frame);
            for (StatedVisit visit : visits) {
                if (visit.issue().isPresent()) {
                    reports.add(papers(clinic, one, called, visit, frame));
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
    private static List<Cell> papers(Subject clinic, Here one, String called, StatedVisit visit, Frame frame) {
        String report = address(clinic, visit);
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

    private static boolean isOf(Subject clinic, Subject visit) {
        return visit.text("clinic").equals(clinic.id().toString());
    }

    private void cycles(
            Sheet.Writer writer,
            Subject clinic,
            Here one,
            String called,
            List<StatedVisit> visits,
            CoverageInRecord coverage,
            Frame frame)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        List<String> words = new ArrayList<>();
        List<CycleStanding> standings = coverage.cycles(one.machine(), today(one), OptionalInt.empty());
        if (VisitStates.inForce(visits).isEmpty()) {
            words.add(frame.say("clinic.nothing-in-force"));
            visits.forEach(visit ->
                    words.add(frame.say("clinic.visit-is", visit.visit().text("number"), frame.heard(visit.words()))));
        }
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

    private static String until(ValidatedState state, Frame frame) {
        return Shown.day(frame, state.until())
                + (state.untilCount().isPresent()
                        ? " " + frame.say("clinic.or-cycle", state.untilCount().getAsInt())
                        : "");
    }

    /** The loads with which cycles of a steriliser passed, to be printed and hung up beside it. */
    private Reply cards(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException {
        Optional<Subject> clinic = asked(ask);
        Map<String, Here> here = clinic.map(this::here).orElse(Map.of());
        Optional<Here> found = named(here, ask.part("machine"));
        if (clinic.isEmpty() || found.isEmpty()) {
            return unknown(ask);
        }
        Frame frame = ask.frame();
        Here one = found.get();
        Sheet.Writer writer = new Sheet.Writer(frame.say("clinic.cards-of", called(one.machine(), here.values())))
                .say("", List.of(frame.say("clinic.card-why"), frame.say("clinic.tests-first")));
        boolean isAny = false;
        for (CycleStanding standing : coverage(clinic.get()).cycles(one.machine(), today(one), OptionalInt.empty())) {
            for (ReferenceLoad load : standing.cycle().loads()) {
                isAny = true;
                card(writer, clinic.get(), standing, load, frame);
            }
        }
        if (!isAny) {
            writer.say("", List.of(frame.say("clinic.nothing-in-force")));
        }
        return writer.links(new Sheet.Link(
                        frame.say("clinic.back"), "/clinic/" + clinic.get().id()))
                .reply();
    }

    private static void card(
            Sheet.Writer writer, Subject clinic, CycleStanding standing, ReferenceLoad load, Frame frame) {
        List<Told> words = new ArrayList<>();
        words.add(Told.asItIs(load.description()));
        if (standing.against().isEmpty()) {
            words.add(Told.asItIs(frame.say("clinic.card-until", until(standing.state(), frame))));
        } else {
            words.add(Told.asItIs(frame.say("clinic.card-not-today")));
            standing.against().forEach(reason -> words.add(frame.hear(reason)));
        }
        words.add(Told.asItIs(load.totalKilogram()
                .map(mass -> frame.say(
                        "clinic.card-mass",
                        frame.figures()
                                .of(BigDecimal.valueOf(mass)
                                        .stripTrailingZeros()
                                        .toPlainString())))
                .orElse(frame.say("clinic.card-no-mass"))));
        List<String> stated = new ArrayList<>();
        stated.add(
                load.trays().isEmpty()
                        ? ""
                        : frame.say("clinic.card-trays", load.trays().getAsInt()));
        stated.add(load.packaging().isBlank() ? "" : frame.say("clinic.card-packaging", load.packaging()));
        stated.add(load.challengePack().isBlank() ? "" : frame.say("clinic.card-challenge", load.challengePack()));
        stated.add(load.challengePlace().isBlank() ? "" : frame.say("clinic.card-place", load.challengePlace()));
        stated.add(load.agreedBy().isBlank() ? "" : frame.say("clinic.card-agreed", load.agreedBy()));
        stated.add(areAllShown(load) ? "" : frame.say("clinic.card-photos", String.join(", ", load.photos())));
        stated.stream().filter(line -> !line.isBlank()).map(Told::asItIs).forEach(words::add);
        words.add(Told.asItIs(
                frame.say("clinic.card-report", standing.visit().visit().text("number"))));
        writer.hear(standing.cycle().name(), words);
        writer.pictures(load.photoFiles().stream()
                .map(photo -> new Sheet.Picture(
                        "/clinic/" + clinic.id() + "/photos/"
                                + standing.visit().visit().id() + "?name=" + Percent.encoded(photo.name()),
                        frame.say(
                                "clinic.card-photo",
                                load.description(),
                                photo.name(),
                                photo.sha256().substring(0, SHA_SHOWN))))
                .limit(MOST_PHOTOS)
                .toList());
        writer.table(
                "",
                frame.say("clinic.card-no-items"),
                List.of(
                        frame.say("clinic.thing-name"),
                        frame.say("clinic.thing-count"),
                        frame.say("clinic.thing-family"),
                        frame.say("clinic.card-packed"),
                        frame.say("clinic.card-tray")),
                load.items().stream()
                        .map(item -> List.of(
                                Cell.of(item.name()),
                                Cell.figure(Integer.toString(item.count())),
                                Cell.of(family(item.family(), frame)),
                                Shown.text(item.packaging().isBlank() ? load.packaging() : item.packaging()),
                                Shown.text(item.tray())))
                        .toList());
    }

    /** Whether the card shows every photo of a load, so that their names say nothing more. */
    private static boolean areAllShown(ReferenceLoad load) {
        return load.photos().size() <= MOST_PHOTOS
                && load.photoFiles().size() == load.photos().size();
    }

    private static String family(String family, Frame frame) {
        String word = family.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s-]+", "-");
        return FAMILIES.contains(word) ? frame.say("clinic.family-" + word) : family;
    }

    /** Tests that the clinic makes itself, and what others have to do here this week. */
    private void tests(Sheet.Writer writer, Collection<Here> here, Frame frame)
            throws IOException, FilingException, RegisterException {
        List<List<Cell>> rows = new ArrayList<>();
        for (Here one : here) {
            String called = called(one.machine(), here);
            List<Subject> machine = List.of(one.machine());
            if (!one.isRegistered()) {
                rows.add(List.of(Cell.of(called), Cell.of("–"), Cell.of(frame.say("clinic.not-in-register"))));
                continue;
            }
            for (SterilizerRecord registered : shelf.filing().register(machine).sterilizers()) {
                boolean drawsVacuum =
                        registered.cyclesInUse().stream().anyMatch(SterilizerRecord.RegisteredCycle::drawsVacuum);
                if (registered.status() == SterilizerRecord.Status.IN_USE && drawsVacuum) {
                    rows.add(List.of(
                            Cell.of(called),
                            Cell.of(frame.say("clinic.each-day")),
                            Cell.of(frame.say("clinic.vacuum-tests"))));
                }
            }
            for (Due due : shelf.due(machine)) {
                if (due.concerns(today(one).plusDays(WEEK))) {
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

    private Reply load(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException {
        Optional<Subject> found = asked(ask);
        if (found.isEmpty()) {
            return unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        Map<String, Here> here = here(clinic);
        CoverageInRecord coverage = coverage(clinic);
        Sheet.Writer writer = new Sheet.Writer(frame.say("clinic.is-covered"));
        LoadForm form = LoadForm.of(ask);
        List<String> problems = new ArrayList<>();
        Optional<Here> machine = named(here, form.machine());
        Optional<LoadForm> begun =
                begun(form, machine, coverage, !ask.typed("all").isBlank());
        form = begun.orElse(form);
        boolean isAsked = begun.isEmpty() && !form.machine().isBlank() && !form.isMoreWanted();
        if (isAsked) {
            Optional<TodaysLoad> load = machine.isPresent()
                    ? form.load(machine.get().machine().text("serial"), today(machine.get()), frame, problems)
                    : Optional.empty();
            if (load.isPresent()) {
                answer(writer, machine.get().machine(), load.get(), coverage, frame);
            } else if (problems.isEmpty()) {
                problems.add(frame.say("clinic.load-incomplete"));
            }
        }
        Set<String> cycles = new LinkedHashSet<>();
        // the cycles of another machine here were not tested in the one that is chosen
        for (Here one : machine.map(List::of).orElse(List.copyOf(here.values()))) {
            for (CycleStanding standing : coverage.cycles(one.machine(), today(one), OptionalInt.empty())) {
                cycles.add(standing.cycle().name());
            }
        }
        Map<String, String> machines = new LinkedHashMap<>();
        here.forEach((id, one) -> machines.put(id, called(one.machine(), here.values())));
        return new Reply.Page(
                "clinic/load.jte",
                Map.of(
                        "sheet", writer.sheet(),
                        "clinic", clinic.id().toString(),
                        "machines", machines,
                        "chosen", machine.map(Here::id).orElse(""),
                        "cycles", List.copyOf(cycles),
                        "form", form,
                        "problems", List.copyOf(problems)),
                problems.isEmpty() ? 200 : 422);
    }

    /** The form with what was tested in that cycle, to be counted for today; empty if something was typed or nothing is known. */
    private Optional<LoadForm> begun(LoadForm form, Optional<Here> machine, CoverageInRecord coverage, boolean isAll)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        if (!form.isBegun() || machine.isEmpty()) {
            return Optional.empty();
        }
        Here one = machine.get();
        return coverage.cycles(one.machine(), today(one), OptionalInt.empty()).stream()
                .filter(standing -> standing.cycle().name().equals(form.cycle()))
                .flatMap(standing -> standing.cycle().loads().stream())
                .filter(tested -> !tested.items().isEmpty())
                .findFirst()
                .map(tested -> form.withTested(tested, isAll));
    }

    private static void answer(
            Sheet.Writer writer, Subject machine, TodaysLoad load, CoverageInRecord record, Frame frame)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        Coverage coverage = record.of(machine, load).coverage();
        List<Told> words = new ArrayList<>();
        words.add(Told.asItIs(
                coverage.isCovered()
                        ? frame.say("clinic.covered", coverage.by().orElse(""))
                        : frame.say(coverage.isWaitingForTests() ? "clinic.test-first" : "clinic.not-covered")));
        coverage.reasons().forEach(reason -> words.add(frame.hear(reason)));
        coverage.notes().forEach(note -> words.add(frame.hear(note)));
        writer.hear(frame.say("clinic.answer"), words);
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

    /** A photo of a tested load, for its card: made anew, so that nothing comes along that the camera wrote beside it. */
    private Reply photo(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        String name = ask.typed("name");
        if (stated.isEmpty() || !isOfLoad(office.visits().of(stated.get().visit()), name)) {
            return unknown(ask);
        }
        Optional<byte[]> bytes = office.filing().pictures(stated.get().visit()).find(name);
        Optional<byte[]> scaled = bytes.isPresent() ? Photos.scaled(bytes.get()) : Optional.empty();
        return scaled.isPresent()
                ? new Reply.Attachment("image/jpeg", out -> out.write(scaled.get()), Optional.empty())
                : unknown(ask);
    }

    private static boolean isOfLoad(AssessedVisit assessed, String name) {
        return assessed.visit().runs().stream()
                .flatMap(run -> run.load().stream())
                .flatMap(load -> load.photoFiles().stream())
                .anyMatch(photo -> photo.name().equals(name));
    }

    /** What somebody has to know who begins to work with the sterilisers here, to be printed on one page. */
    private Reply induction(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<Subject> clinic = asked(ask);
        if (clinic.isEmpty()) {
            return unknown(ask);
        }
        Frame frame = ask.frame();
        CoverageInRecord coverage = coverage(clinic.get());
        List<String> calls = new ArrayList<>();
        Collection<Here> here = here(clinic.get()).values();
        for (Here one : here) {
            Optional<Subject> visit =
                    VisitStates.inForce(coverage.visits(one.machine())).map(StatedVisit::visit);
            String company =
                    visit.isPresent() ? office.visits().of(visit.get()).visit().company() : "";
            calls.add(
                    company.isBlank()
                            ? frame.say("clinic.induction-call-nobody", called(one.machine(), here))
                            : frame.say(
                                    "clinic.induction-call",
                                    called(one.machine(), here),
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
                Optional.of(visit.text("number").replaceAll("[^A-Za-z0-9._-]+", "-") + language.ending(".pdf")));
    }

    private Reply certificate(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        if (stated.isEmpty()) {
            return unknown(ask);
        }
        AssessedVisit assessed = office.visits().of(stated.get().visit());
        TiedMachines tied = TiedMachines.of(stated.get().visit(), assessed.visit(), office.records());
        String machine = ask.part("machine");
        List<Sterilizer> named = assessed.visit().sterilizers().stream()
                .filter(one -> one.serial().equals(machine)
                        || tied.find(one.key())
                                .filter(known -> known.id().toString().equals(machine))
                                .isPresent())
                .toList();
        if (named.size() != 1) {
            return unknown(ask);
        }
        Sterilizer sterilizer = named.get(0);
        Issued issued = office.filing().issued(stated.get());
        Language language = PaperLanguage.of(ask);
        return new Reply.Attachment(
                "application/pdf",
                out -> CertificatePdf.write(assessed, sterilizer.key(), issued, language, out),
                Optional.of(CertificatePdf.fileName(sterilizer, language)));
    }
}
