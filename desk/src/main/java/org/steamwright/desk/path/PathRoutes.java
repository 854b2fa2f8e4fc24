package org.steamwright.desk.path;

import jakarta.servlet.http.Part;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.TypedDay;
import org.steamwright.desk.web.Action;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.PhotoSubject;
import org.steamwright.report.picture.Photos;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** Routes of the visit's path. */
public final class PathRoutes {

    private static final Set<Role> LOOKING = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITING = Set.of(Role.TECHNICIAN, Role.OFFICE);
    private static final Set<Role> SIGNING = Set.of(Role.TECHNICIAN, Role.REVIEWER);
    private static final String VISITS = "/visits";
    private static final String VISIT = VISITS + "/{visit}";
    private static final String INSTRUMENTS_FILE = "instruments.yaml";
    private static final int LARGEST_PHOTO = 40_000_000;
    /** What a clock shows. */
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);
    /** A value that stood in its field for less is one that was typed now. */
    private static final Duration HELD_FROM = Duration.ofMinutes(1);

    private final Office office;
    private final RegisterShelf shelf;

    private PathRoutes(Office office) {
        this.office = office;
        this.shelf = new RegisterShelf(office);
    }

    /** The routes. */
    public static List<Route> all(Office office) {
        PathRoutes path = new PathRoutes(office);
        List<Route> routes = new ArrayList<>();
        routes.add(Route.get(VISITS, LOOKING, ask -> path.visits(Map.of(), Optional.empty(), 200, from(ask))));
        routes.add(Route.post(VISITS, WRITING, path::begin));
        routes.add(Route.get(VISIT, LOOKING, path.of(path::overview)));
        for (Stage stage : Stage.values()) {
            routes.add(Route.get(
                    VISIT + "/" + stage.word(), LOOKING, path.of((ask, draft) -> path.sheet(ask, draft, stage))));
        }
        routes.add(Route.get(VISIT + "/context", LOOKING, path.of(path::context)));
        routes.add(Route.get(VISIT + "/report.pdf", LOOKING, path.of((ask, draft) -> path.report(ask, draft)))
                .dear());
        routes.add(Route.get(VISIT + "/certificates", LOOKING, path.of((ask, draft) -> path.certificate(ask, draft)))
                .dear());
        routes.add(Route.get(VISIT + "/result.json", LOOKING, path.of((ask, draft) -> path.result(draft))));
        routes.add(Route.get(VISIT + "/files", LOOKING, path.of((ask, draft) -> file(ask, draft, ask.typed("name")))));
        routes.add(Route.post(VISIT + "/facts", WRITING, path.of(path::fact)));
        routes.add(Route.post(VISIT + "/entries", WRITING, path.of(path::entry)));
        routes.add(Route.post(VISIT + "/offers", WRITING, path.of(path::offer)));
        routes.add(Route.post(VISIT + "/removals", WRITING, path.of(path::removal)));
        routes.add(Route.post(VISIT + "/lines", WRITING, path.of(path::line)));
        routes.add(Route.post(VISIT + "/copies", WRITING, path.of(path::copy)));
        routes.add(Route.post(VISIT + "/set-asides", WRITING, path.of(path::setAside)));
        routes.add(Route.post(VISIT + "/scope", WRITING, path.of(path::scope)));
        routes.add(Route.post(VISIT + "/readings", WRITING, path.of(path::readings)));
        routes.add(Route.post(VISIT + "/criteria-sets", WRITING, path.of(path::criteriaSet)));
        routes.add(Route.post(VISIT + "/again", WRITING, path.of(path::again)));
        routes.add(Route.post(VISIT + "/instruments", WRITING, path.of(path::instrument)));
        routes.add(Route.post(VISIT + "/instrument-choices", WRITING, path.of(path::choice)));
        routes.add(Route.post(VISIT + "/same-checks", WRITING, path.of(path::sameChecks)));
        routes.add(Route.post(VISIT + "/clock-readings", WRITING, path.of(path::clockReading)));
        routes.add(Route.post(VISIT + "/lots", WRITING, path.of(path::lot)));
        routes.add(Route.post(VISIT + "/running", WRITING, path.of(path::running)));
        routes.add(Route.post(VISIT + "/photos", WRITING, path.of(path::photo)));
        routes.add(Route.post(VISIT + "/photo-removals", WRITING, path.of(path::photoRemoval)));
        routes.add(Route.post(VISIT + "/ink", WRITING, path.of(path::ink)));
        routes.add(Route.post(VISIT + "/undo", WRITING, path.of(path::undo)));
        SigningRoutes signing = new SigningRoutes(office);
        routes.add(Route.post(VISIT + "/keys", SIGNING, path.of(signing::key)).dear());
        routes.add(Route.post(VISIT + "/signatures", SIGNING, path.of(signing::sign))
                .dear());
        routes.add(Route.post(VISIT + "/withdrawals", SIGNING, path.of(signing::withdraw))
                .dear());
        return routes;
    }

    /** What answers for one visit. */
    @FunctionalInterface
    private interface VisitAction {
        Reply answer(Ask ask, Draft draft)
                throws IOException, FilingException, VisitFolderException, RegisterException, DraftRefusal, Garbled;
    }

    /** A path or number that no page of this desk sends. */
    private static final class Garbled extends Exception {
        private static final long serialVersionUID = 1L;

        Garbled(String what) {
            super(what);
        }
    }

    /** What a page sent in a form that has to be read; only a mistake of what was sent is told as such. */
    private static <T> T parsed(Function<String, T> reader, String sent) throws Garbled {
        try {
            return reader.apply(sent);
        } catch (IllegalArgumentException no) {
            throw new Garbled(sent);
        }
    }

    /** The number of a run that the visit has. */
    private static int run(Ask ask, Draft draft) throws Garbled {
        int run = parsed(Integer::valueOf, ask.typed("run"));
        if (run < 1 || run > draft.count(FactPath.of("runs"))) {
            throw new Garbled(ask.typed("run"));
        }
        return run;
    }

    private Action of(VisitAction action) {
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

    // ---- visits

    /** How many newer visits the page leaves out; none if nothing sensible was asked for. */
    private static int from(Ask ask) {
        String typed = ask.typed("from");
        return typed.matches("\\d{1,8}") ? Integer.parseInt(typed) : 0;
    }

    private Reply visits(Map<String, String> typed, Optional<Complaint> complaint, int status, int from) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("list", VisitList.of(office, typed, from));
        values.put("complaint", complaint);
        return new Reply.Page("path/visits.jte", values, status);
    }

    private Reply begin(Ask ask) throws IOException, FilingException, RegisterException {
        Map<String, String> typed = new LinkedHashMap<>();
        for (String field : List.of(
                "number", "purpose", "date", "criteria-set", "machine", "clinic", "serial", "zone", "technician")) {
            typed.put(field, ask.typed(field));
        }
        Optional<LocalDate> day =
                TypedDay.of(ask.typed("date"), ask.frame().words().language());
        if (day.isEmpty()) {
            return visits(
                    typed,
                    Optional.of(Complaint.said(
                            ask.frame().say("path.no-day", ask.typed("date")),
                            ask.frame().say("path.no-day-remedy"))),
                    422,
                    0);
        }
        try {
            Draft draft = begun(ask, typed, day.get());
            return new Reply.Next(Context.address(draft) + "/" + Stage.IDENTITY.word());
        } catch (DraftRefusal refused) {
            return visits(typed, Optional.of(new Complaint(refused.getMessage() + ".", refused.remedy())), 422, 0);
        }
    }

    private Draft begun(Ask ask, Map<String, String> typed, LocalDate day)
            throws IOException, FilingException, RegisterException, DraftRefusal {
        String machine = typed.getOrDefault("machine", "");
        String name = typed.getOrDefault("technician", "");
        RegisterFiling filing = new RegisterFiling(office.records());
        // a serial number that is typed alone means the machine that the register has
        boolean isTypedAlone = typed.getOrDefault("clinic", "").isBlank();
        String wanted = machine.isBlank() && isTypedAlone ? typed.getOrDefault("serial", "") : machine;
        List<Subject> meant = filing.machines(wanted);
        if (meant.size() > 1) {
            throw Drafts.several(wanted, meant);
        }
        Optional<Subject> subject = meant.stream().findFirst();
        Register register = subject.isPresent() ? filing.around(subject.get()) : Register.EMPTY;
        Optional<SterilizerRecord> known = register.sterilizers().stream().findFirst();
        if (known.isPresent()) {
            Map<String, byte[]> instruments = filing.instrumentFiles();
            Optional<Technician> technician = register.technicians().stream()
                    .filter(one -> one.name().equals(name))
                    .findFirst();
            Draft draft = office.drafts()
                    .open(
                            ask.author(),
                            subject.get(),
                            new VisitDraft.Visit(
                                    typed.getOrDefault("number", ""),
                                    typed.getOrDefault("purpose", ""),
                                    day,
                                    set(typed, subject.get(), register, day),
                                    technician,
                                    instruments.containsKey(INSTRUMENTS_FILE)),
                            instruments);
            return technician.isPresent() || name.isBlank()
                    ? draft
                    : draft.add(FactPath.of("people"), technicianOf(name), ask.author(), "");
        }
        Map<String, Object> start = new LinkedHashMap<>();
        start.put("purpose", typed.getOrDefault("purpose", ""));
        start.put("date", day.toString());
        start.put("zone", zone(typed.getOrDefault("zone", "")));
        start.put(
                "criteria-set",
                subject.map(one -> set(typed, one, register, day)).orElseGet(() -> set(typed)));
        start.put("clinic", Map.of("name", typed.getOrDefault("clinic", "")));
        String serial = subject.map(one -> one.text("serial")).orElse(typed.getOrDefault("serial", ""));
        start.put("sterilizers", List.of(sterilizer(serial, filing.machines(serial))));
        if (!name.isBlank()) {
            start.put("people", List.of(technicianOf(name)));
        }
        return office.drafts().open(ask.author(), typed.getOrDefault("number", ""), start);
    }

    /** The criteria set that was chosen; else the one of the site's rules, else that of the visit before. */
    private String set(Map<String, String> typed, Subject machine, Register register, LocalDate day) {
        String chosen = typed.getOrDefault("criteria-set", "");
        return chosen.isBlank() ? OfficeSet.of(office, machine, register, day).orElseGet(() -> set(typed)) : chosen;
    }

    private static String set(Map<String, String> typed) {
        String chosen = typed.getOrDefault("criteria-set", "");
        return chosen.isBlank() ? OfficeSet.USUAL : chosen;
    }

    /** What a name plate says, as far as only one machine of the record can be meant. */
    private static Map<String, Object> sterilizer(String serial, List<Subject> meant) {
        Map<String, Object> sterilizer = new LinkedHashMap<>();
        sterilizer.put("key", "A");
        sterilizer.put("serial", serial);
        if (meant.size() == 1) {
            sterilizer.put("maker", meant.get(0).text("maker"));
            sterilizer.put("model", meant.get(0).text("model"));
        }
        return sterilizer;
    }

    private static Map<String, String> technicianOf(String name) {
        return Map.of("name", name, "role", "technician");
    }

    private String zone(String typed) {
        return typed.isBlank() ? office.clock().getZone().getId() : typed;
    }

    // ---- looking

    private Reply overview(Ask ask, Draft draft) throws IOException, FilingException {
        List<DraftProblem> glance = draft.glance();
        Sheets sheets = new Sheets(draft, ask.frame(), Optional.empty(), glance, Equipment.ofVisit(draft));
        List<Sheet> all = sheets.path().stream().map(sheets::of).toList();
        Map<String, Object> values = values(ask, draft, glance);
        values.put("sheets", all);
        return Reply.page("path/overview.jte", values);
    }

    private Map<String, Object> values(Ask ask, Draft draft, List<DraftProblem> glance)
            throws IOException, FilingException {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", draft);
        values.put("isSigned", draft.isSigned());
        values.put("after", After.of(draft, office));
        values.put("trail", Trail.of(draft, ask.frame(), office.clock().getZone()));
        values.put("context", Context.of(draft, ask.frame(), draft.peek(), glance));
        values.put("strips", Strip.of(draft, ask.frame(), office));
        return values;
    }

    private Reply sheet(Ask ask, Draft draft, Stage stage) throws IOException, FilingException, RegisterException {
        List<DraftProblem> glance = draft.glance();
        Equipment equipment = Equipment.of(stage, draft, office, shelf, ask.frame());
        return sheet(
                ask,
                draft,
                new Sheets(draft, ask.frame(), Earlier.of(draft, office), glance, equipment).of(stage),
                glance,
                200);
    }

    private Reply sheet(Ask ask, Draft draft, Sheet sheet, List<DraftProblem> glance, int status)
            throws IOException, FilingException {
        Optional<Readings> readings =
                sheet.stage() == Stage.INDICATORS ? Readings.of(draft, ask.frame()) : Optional.empty();
        return sheet(ask, draft, sheet, glance, status, readings);
    }

    private Reply sheet(
            Ask ask, Draft draft, Sheet sheet, List<DraftProblem> glance, int status, Optional<Readings> readings)
            throws IOException, FilingException {
        Optional<Closing> closing = sheet.stage() == Stage.CLOSE
                ? Optional.of(Closing.of(draft, draft.read(), office, ask.person()))
                : Optional.empty();
        Map<String, Object> values = values(ask, draft, glance);
        values.put("sheet", sheet);
        values.put("closing", closing);
        values.put("readings", readings);
        values.put(
                "failing",
                sheet.stage() == Stage.FAILURES ? Optional.of(Failing.of(draft.read())) : Optional.<Failing>empty());
        values.put("next", closing.map(one -> NextVisit.of(draft, one.assessed(), office)));
        return new Reply.Page("path/sheet.jte", values, status);
    }

    private Reply context(Ask ask, Draft draft) throws IOException, FilingException {
        DraftReading reading = draft.read();
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", draft);
        values.put("context", Context.of(draft, ask.frame(), Optional.of(reading), List.of()));
        return Reply.page("path/beside.jte", values);
    }

    private AssessedVisit assessed(Draft draft) throws IOException, FilingException, VisitFolderException {
        return office.visits().of(draft.subject());
    }

    private Reply report(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        Language language = PaperLanguage.of(ask);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        AssessedVisit assessed = assessed(draft);
        ReportPdf.write(assessed, issued(draft, assessed), name -> draft.bytes(name), language, pdf);
        return new Reply.Attachment(
                "application/pdf", pdf::writeTo, Optional.of(fileName(draft) + language.ending(".pdf")));
    }

    private Reply certificate(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        AssessedVisit assessed = assessed(draft);
        String key = ask.typed("sterilizer");
        Optional<Sterilizer> sterilizer = assessed.visit().sterilizers().stream()
                .filter(one -> one.key().equals(key))
                .findFirst();
        if (sterilizer.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("path.no-file", key), ask.frame().say("path.unknown-remedy"));
        }
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        Language language = PaperLanguage.of(ask);
        CertificatePdf.write(assessed, key, issued(draft, assessed), language, pdf);
        return new Reply.Attachment(
                "application/pdf",
                pdf::writeTo,
                Optional.of(fileName(draft) + "-" + CertificatePdf.fileName(sterilizer.get(), language)));
    }

    private Issued issued(Draft draft, AssessedVisit assessed) throws IOException {
        return office.filing().issued(new VisitStates(office.records()).of(draft.subject()), assessed);
    }

    private Reply result(Draft draft) throws IOException, FilingException, VisitFolderException {
        ByteArrayOutputStream json = new ByteArrayOutputStream();
        ResultJson.write(assessed(draft), json);
        return new Reply.Attachment("application/json", json::writeTo, Optional.of(fileName(draft) + ".json"));
    }

    private static String fileName(Draft draft) {
        return draft.number().replaceAll("[^A-Za-z0-9._-]+", "-");
    }

    private static Reply file(Ask ask, Draft draft, String name) {
        Optional<byte[]> bytes = draft.bytes(name);
        if (bytes.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("path.no-file", name), ask.frame().say("path.unknown-remedy"));
        }
        String small = name.toLowerCase(Locale.ROOT);
        // only what this desk made itself is shown in the page; anything else is given to be kept
        boolean isPhoto = small.startsWith("photos/") && small.endsWith(".jpg");
        boolean isInk = small.startsWith("signatures/") && small.endsWith(".svg");
        String type = isPhoto ? "image/jpeg" : isInk ? "image/svg+xml" : "application/octet-stream";
        return new Reply.Attachment(
                type,
                out -> out.write(bytes.get()),
                isPhoto ? Optional.empty() : Optional.of(name.substring(name.lastIndexOf('/') + 1)));
    }

    // ---- writing

    private static Stage stage(Ask ask) {
        return Stage.ofWord(ask.typed("stage")).orElse(Stage.IDENTITY);
    }

    private static Reply back(Ask ask, Draft draft, String anchor) {
        return new Reply.Next(
                Context.address(draft) + "/" + stage(ask).word() + (anchor.isBlank() ? "" : "#" + anchor));
    }

    private String saved(Ask ask) {
        return ask.frame().say("path.saved", ask.frame().figures().time(ZonedDateTime.now(office.clock())));
    }

    private static Saving.Saved saved(Ask ask, Draft draft, String path, String value, Optional<Instant> typedAt)
            throws IOException, FilingException {
        boolean isTaken = !ask.typed("take").isBlank();
        Typing.Typed typed = isTaken
                ? new Typing.Typed(Optional.of(value), Optional.empty())
                : Typing.read(path, value, ask.frame());
        Optional<Complaint> objection = path.startsWith(Saving.NOTES)
                ? Optional.empty()
                : Renaming.objection(draft, KeyedPath.parse(path).target(draft), value, ask.frame());
        return typed.kept().isEmpty() || objection.isPresent()
                ? new Saving.Saved(draft, objection.or(typed::complaint))
                : Saving.field(draft, path, typed.kept().get(), ask.typed("seen"), typedAt, ask.author());
    }

    /**
     * When a value was typed that has stood in its field since, because the desk did not answer. The page says how long ago that
     * is, so that its clock may be wrong.
     */
    private Optional<Instant> typedAt(Ask ask) {
        String held = ask.typed("held");
        if (!held.matches("[0-9]{1,7}")) {
            return Optional.empty();
        }
        return Optional.of(Duration.ofSeconds(Long.parseLong(held)))
                .filter(ago -> ago.compareTo(HELD_FROM) >= 0)
                .map(ago -> office.clock().instant().minus(ago));
    }

    private Reply fact(Ask ask, Draft draft) throws IOException, FilingException, RegisterException, Garbled {
        String path = ask.typed("path");
        if (Recorded.isKept(draft, parsed(KeyedPath::parse, path).target(draft))) {
            return kept(ask);
        }
        String value = ask.typed("take").isBlank() ? ask.typed("value") : ask.typed("take");
        Saving.Saved saved = saved(ask, draft, path, value, typedAt(ask));
        Draft now = saved.draft();
        boolean isUnsigned = isUnsigned(draft, now);
        boolean isSaved = saved.complaint().isEmpty();
        if (isSaved && !ask.isPartial()) {
            return back(ask, now, Field.id(path));
        }
        List<DraftProblem> glance = now.glance();
        Equipment equipment = Equipment.of(stage(ask), now, office, shelf, ask.frame());
        Sheet sheet = new Sheets(now, ask.frame(), Earlier.of(now, office), glance, equipment).of(stage(ask));
        Optional<Field> shown = sheet.find(path);
        if (shown.isEmpty()) {
            // the entry went with its last value, or another window took it away
            return saved.complaint()
                    .map(why -> (Reply) Reply.Refusal.heard(ask.frame(), 409, why.what(), why.remedy()))
                    .orElseGet(() -> back(ask, now, ""));
        }
        Field field = isSaved
                ? shown.get()
                        .noticed((saved(ask)
                                        + (isUnsigned ? " " + ask.frame().say("path.ink.gone") : "")
                                        + " "
                                        + InstrumentsSheet.follows(path, equipment, ask.frame()))
                                .strip())
                : shown.get().typed(value, saved.complaint().get());
        if (!ask.isPartial()) {
            return sheet(ask, now, sheet.with(field), glance, 422);
        }
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", now);
        values.put("field", field);
        values.put("stage", stage(ask));
        values.put("trail", Trail.of(now, ask.frame(), office.clock().getZone()));
        values.put("told", sheet.blocks().stream().filter(Block::isTold).toList());
        return Reply.page("path/saved.jte", values);
    }

    /** Whether a drawn signature went because what stands above it changed. */
    private static boolean isUnsigned(Draft before, Draft now) {
        return before.files().keySet().stream()
                .anyMatch(name -> name.startsWith("signatures/") && !now.files().containsKey(name));
    }

    private Reply entry(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        Map<String, String> values = new LinkedHashMap<>();
        ask.request().getParameterMap().forEach((name, typed) -> {
            if (name.startsWith("with.") && typed.length == 1) {
                values.put(name.substring("with.".length()), typed[0]);
            }
        });
        FactPath list = parsed(FactPath::parse, ask.typed("list"));
        DraftChange change = draft.change().add(list, Again.begun(draft, list, values));
        RunFiles.unsign(draft, change, list);
        Draft now = change.keep(ask.author(), "");
        String first = list.then(now.count(list)).toString();
        return back(ask, now, "e-" + Field.id(first));
    }

    /** Takes one entry over that an earlier visit had. */
    private Reply offer(Ask ask, Draft draft)
            throws IOException, FilingException, RegisterException, DraftRefusal, Garbled {
        FactPath list = parsed(FactPath::parse, ask.typed("list"));
        RegisterInstruments register = list.toString().equals("instruments")
                ? RegisterInstruments.of(draft, office, shelf, ask.frame())
                : RegisterInstruments.NONE;
        Optional<Earlier.Offer> offer = Stream.concat(
                        register.offers().stream(),
                        Earlier.of(draft, office).stream()
                                .flatMap(before -> before.offers(list, draft).stream())
                                .filter(one ->
                                        !register.known().contains(one.words().getOrDefault("id", ""))))
                .filter(one -> one.mark().equals(ask.typed("mark")))
                .findFirst();
        if (offer.isEmpty()) {
            return changedMeanwhile(ask);
        }
        Map<String, Object> entry = new LinkedHashMap<>(offer.get().entry());
        if (list.toString().endsWith("/indicators")) {
            entry.put("result", "awaited");
        }
        for (Map.Entry<String, byte[]> file : offer.get().files().entrySet()) {
            if (draft.bytes(file.getKey())
                    .filter(there -> !Arrays.equals(there, file.getValue()))
                    .isPresent()) {
                return new Reply.Refusal(
                        409,
                        ask.frame().say("path.offer-other-file", file.getKey()),
                        ask.frame().say("path.offer-other-file-remedy"));
            }
        }
        if (Again.isList(list)) {
            Again.mark(draft, list, 0).ifPresent(mark -> entry.put("id", mark));
        }
        DraftChange change = draft.change().expect(list, draft.find(list)).add(list, entry);
        offer.get().files().forEach((name, bytes) -> {
            if (!draft.files().containsKey(name)) {
                change.putFile(name, new ByteArrayInputStream(bytes));
            }
        });
        RunFiles.unsign(draft, change, list);
        Draft now = change.keep(ask.author(), "");
        return back(ask, now, "e-" + Field.id(list.then(now.count(list)).toString()));
    }

    /** Brings an instrument of the office's register into the visit, or to it what the visit does not say of it. */
    private Reply instrument(Ask ask, Draft draft)
            throws IOException, FilingException, RegisterException, DraftRefusal {
        String id = ask.typed("id");
        DraftChange change = draft.change();
        if (!RegisterInstruments.of(draft, office, shelf, ask.frame()).bring(draft, change, List.of(id), office)) {
            return changedMeanwhile(ask);
        }
        return back(ask, change.keep(ask.author(), ""), InstrumentsSheet.anchor(id));
    }

    /** Begins the checks of an instrument that the visit has and no column names yet. */
    private Reply choice(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        String id = ask.typed("text");
        FactPath entry = DraftInstruments.entry(draft, id);
        if (draft.instruments().find(id).isEmpty() || draft.find(entry).isPresent()) {
            return changedMeanwhile(ask);
        }
        FactPath list = FactPath.of(CheckFacts.LIST);
        Draft now = draft.change()
                .expect(list, draft.find(list))
                .add(list, Map.of("instrument", id))
                .keep(ask.author(), "");
        return back(ask, now, InstrumentsSheet.anchor(id));
    }

    /** The same check for the other instruments, such as in the same bath of ice; what each showed is typed for each. */
    private Reply sameChecks(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        String id = ask.typed("instrument");
        Moment moment = ask.typed("when").equals(Moment.BEFORE.word()) ? Moment.BEFORE : Moment.AFTER;
        DraftInstruments visit = draft.instruments();
        Map<String, String> frame = CheckFacts.frame(draft, id, moment);
        List<String> others = visit.find(id)
                .map(one -> CheckFacts.without(draft, visit, one, moment))
                .orElse(List.of());
        if (frame.isEmpty() || others.isEmpty()) {
            return changedMeanwhile(ask);
        }
        DraftChange change = draft.change();
        CheckFacts.same(draft, change, others, frame, moment);
        return back(ask, change.keep(ask.author(), ""), Field.id(CheckFacts.check(others.get(0), moment, "indicated")));
    }

    /** What the clock of the desk shows at this moment, as the reference with which the clock of a logger is read. */
    private Reply clockReading(Ask ask, Draft draft) throws IOException, FilingException, Garbled {
        String path = ask.typed("path");
        Optional<CheckFacts.Place> place = CheckFacts.place(path);
        if (place.isEmpty() || !path.endsWith("/reference")) {
            throw new Garbled(path);
        }
        String now = CLOCK.format(office.clock().instant().atZone(Strip.zone(draft, office)));
        Saving.Saved saved = Saving.field(
                draft, path, now, parsed(KeyedPath::parse, path).text(draft), Optional.empty(), ask.author());
        return saved.complaint()
                .map(why -> (Reply) Reply.Refusal.heard(ask.frame(), 409, why.what(), why.remedy()))
                .orElseGet(() -> back(
                        ask,
                        saved.draft(),
                        Field.id(CheckFacts.clock(
                                place.get().instrument(), place.get().moment(), "logger"))));
    }

    /** An indicator of a lot of the office's store, with what stands on its box. */
    private Reply lot(Ask ask, Draft draft)
            throws IOException, FilingException, RegisterException, DraftRefusal, Garbled {
        FactPath list = parsed(FactPath::parse, ask.typed("list"));
        Optional<Lot> lot = shelf.now().register().lots().stream()
                .filter(one -> one.id().equals(ask.typed("lot")))
                .findFirst();
        Optional<Map<String, Object>> entry = lot.flatMap(
                one -> LotOffers.entry(draft, list, one, ask.typed("control").equals("yes")));
        if (entry.isEmpty()) {
            return changedMeanwhile(ask);
        }
        Draft now = draft.change().add(list, entry.get()).keep(ask.author(), "");
        return back(ask, now, "e-" + Field.id(list.then(now.count(list)).toString()));
    }

    private Reply removal(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        if (Recorded.isKept(draft, parsed(FactPath::parse, ask.typed("path")))) {
            return kept(ask);
        }
        Optional<Draft> now = Saving.remove(draft, ask.typed("path"), ask.typed("seen"), ask.author());
        return now.isPresent() ? back(ask, now.get(), "") : changedMeanwhile(ask);
    }

    /** What was recorded stays; it is set aside with a reason. */
    private static Reply kept(Ask ask) {
        return CorrectionRoutes.refusal(ask, 409, "path.recorded");
    }

    /** Lets a recorded run count for nothing good, or count again; both with a reason. */
    private Reply setAside(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        int run = run(ask, draft);
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, ask.typed("text"));
        if (bad.isPresent()) {
            return bad.get();
        }
        FactPath path = FactPath.of("runs", run, "set-aside");
        Optional<Object> standing = draft.find(path);
        boolean isAgain = !ask.typed("again").isBlank();
        if (standing.isPresent() != isAgain || !Recorded.is(draft, run)) {
            return changedMeanwhile(ask);
        }
        Optional<Object> value = isAgain
                ? Optional.empty()
                : Optional.of(
                        Map.of("because", ask.typed("text"), "by", ask.person().name()));
        Draft now = draft.change().set(path, value, standing).keep(ask.author(), ask.typed("text"));
        return back(ask, now, "e-" + Field.id("runs/" + run));
    }

    /** Another criteria set once something was recorded: with a reason, which the report prints. */
    private Reply criteriaSet(Ask ask, Draft draft) throws DraftRefusal {
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, ask.typed("text"));
        if (bad.isPresent()) {
            return bad.get();
        }
        FactPath path = FactPath.of("criteria-set");
        String from = draft.text(path);
        String to = ask.typed("to");
        if (to.equals(from) || !new Presets().names().contains(to)) {
            return CorrectionRoutes.refusal(ask, 422, "path.same-set");
        }
        Map<String, Object> change = new LinkedHashMap<>();
        change.put("from", from);
        change.put("to", to);
        change.put("because", ask.typed("text"));
        change.put("by", ask.person().name());
        Draft now = draft.change()
                .set(path, Optional.of(to), draft.find(path))
                .add(FactPath.of("criteria-set-changes"), change)
                .keep(ask.author(), ask.typed("text"));
        return back(ask, now, "");
    }

    /** Which cycles the visit was asked for. */
    private Reply scope(Ask ask, Draft draft) throws DraftRefusal {
        Optional<DraftChange> change = AskedCycles.change(
                draft,
                new CloseSheet(new StageSheet.Seen(draft, ask.frame(), Optional.empty(), List.of(), Equipment.NONE))
                        .cycles(),
                ask.typed("cycle"),
                !ask.typed("asked").isBlank());
        return change.isPresent() ? back(ask, change.get().keep(ask.author(), ""), "") : changedMeanwhile(ask);
    }

    /** Several indicators that were read at one moment by one person. */
    private Reply readings(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        Readings readings = Readings.typed(draft, ask);
        if (readings.complaint().isEmpty()) {
            DraftChange change = readings.change(draft, ask.frame());
            List<DraftProblem> problems = change.glance();
            readings = readings.complaining(problems, ask.frame());
            if (readings.complaint().isEmpty()) {
                return back(ask, change.keep(ask.author(), ""), "");
            }
        }
        List<DraftProblem> glance = draft.glance();
        Sheet sheet = new Sheets(draft, ask.frame(), Earlier.of(draft, office), glance).of(Stage.INDICATORS);
        return sheet(ask, draft, sheet, glance, 422, Optional.of(readings));
    }

    private static Reply changedMeanwhile(Ask ask) {
        return new Reply.Refusal(
                409, ask.frame().say("path.changed-meanwhile"), ask.frame().say("path.changed-remedy"));
    }

    private Reply line(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        FactPath list = parsed(FactPath::parse, ask.typed("list"));
        Draft now = ask.typed("text").isBlank() ? draft : draft.add(list, ask.typed("text"), ask.author(), "");
        return back(ask, now, "");
    }

    private Reply copy(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        FactPath from = parsed(FactPath::parse, ask.typed("from"));
        FactPath to = parsed(FactPath::parse, ask.typed("to"));
        if (Recorded.isKept(draft, to)) {
            return kept(ask);
        }
        boolean isAsShown = Saving.mark(draft, from.toString()).equals(ask.typed("seen-from"))
                && Saving.mark(draft, to.toString()).equals(ask.typed("seen-to"));
        if (!isAsShown) {
            return changedMeanwhile(ask);
        }
        DraftChange change = draft.change().expect(from, draft.find(from)).set(to, draft.find(from), draft.find(to));
        RunFiles.unsign(draft, change, to.then("description"));
        // what the clinic agreed to and what was photographed belongs to one run
        for (String own : List.of("agreed-by", "photos")) {
            change.set(to.then(own), Optional.empty());
        }
        return back(ask, change.keep(ask.author(), ""), "");
    }

    /** The entries of another run once more, such as the same strips from the same box. */
    private Reply again(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        FactPath from = parsed(FactPath::parse, ask.typed("from"));
        FactPath to = parsed(FactPath::parse, ask.typed("to"));
        if (!Again.isList(from) || !Again.isList(to)) {
            throw new Garbled(from + " " + to);
        }
        List<Map<String, Object>> entries = Again.of(draft, from, to);
        if (draft.count(to) > 0 || entries.isEmpty()) {
            return changedMeanwhile(ask);
        }
        DraftChange change = draft.change().expect(to, draft.find(to));
        entries.forEach(entry -> change.add(to, entry));
        return back(
                ask, change.keep(ask.author(), ""), "e-" + Field.id(to.then(1).toString()));
    }

    private Reply running(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        int run = run(ask, draft);
        DraftChange change = draft.change();
        if (ask.typed("ended").isBlank()) {
            Running.start(draft, change, run, office.clock().instant());
        } else {
            Running.end(draft, change, run);
        }
        return back(ask, change.keep(ask.author(), ""), "");
    }

    /** Where photos of a form go: into a load, which names them, or beside the facts under a name that says what they show. */
    private static IntFunction<String> photoNames(Ask ask, Draft draft) throws Garbled {
        String of = ask.typed("of");
        if (of.isBlank()) {
            int run = run(ask, draft);
            return number -> photoName(run, number);
        }
        PhotoSubject subject = parsed(PhotoSubject::valueOf, of.toUpperCase(Locale.ROOT));
        String which = ask.typed("which");
        if (which.isBlank() || which.length() > 20) {
            throw new Garbled(which);
        }
        return number -> subject.file(which, number);
    }

    /** Where the photos of a name plate stand, which are facts of the visit. */
    private static Optional<FactPath> platePhotos(Draft draft, String key) {
        return Gate.of(draft).stream()
                .filter(gate -> gate.key().equals(key))
                .findFirst()
                .map(gate -> Gate.plate(gate.place()).then("photos"));
    }

    private Reply photo(Ask ask, Draft draft) throws IOException, DraftRefusal, Garbled {
        IntFunction<String> names = photoNames(ask, draft);
        Optional<FactPath> list = ask.typed("of").isBlank()
                ? Optional.of(FactPath.of("runs", run(ask, draft), "load", "photos"))
                : PhotoSubject.PLATE.word().equals(ask.typed("of"))
                        ? platePhotos(draft, ask.typed("which"))
                        : Optional.empty();
        DraftChange change = draft.change();
        int next = 1;
        int taken = 0;
        for (Part part : ask.files("photo")) {
            if (part.getSize() == 0) {
                continue;
            }
            Optional<byte[]> scaled = part.getSize() > LARGEST_PHOTO ? Optional.empty() : Photos.scaled(bytes(part));
            if (scaled.isEmpty()) {
                return new Reply.Refusal(
                        422,
                        ask.frame().say("path.no-photo", String.valueOf(part.getSubmittedFileName())),
                        ask.frame().say("path.no-photo-remedy"));
            }
            while (draft.files().containsKey(names.apply(next))) {
                next++;
            }
            String name = names.apply(next);
            change.putFile(name, new ByteArrayInputStream(scaled.get()));
            list.ifPresent(path -> change.add(path, name));
            next++;
            taken++;
        }
        return back(ask, taken == 0 ? draft : change.keep(ask.author(), ""), "");
    }

    /** A photo may show what must not be kept, so it goes at once; the journal says that it was there. */
    private Reply photoRemoval(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        String file = ask.typed("file");
        if (!file.startsWith("photos/")) {
            throw new Garbled(file);
        }
        if (!draft.files().containsKey(file)) {
            return changedMeanwhile(ask);
        }
        DraftChange change = draft.change().removeFile(file);
        List<FactPath> lists = new ArrayList<>();
        for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
            lists.add(FactPath.of("runs", run, "load", "photos"));
        }
        Gate.of(draft).forEach(gate -> lists.add(Gate.plate(gate.place()).then("photos")));
        for (FactPath list : lists) {
            Optional<Object> names = draft.find(list);
            if (names.isPresent() && names.get() instanceof List<?> there && there.contains(file)) {
                change.set(
                        list,
                        Optional.of(there.stream()
                                .filter(name -> !name.equals(file))
                                .toList()),
                        names);
            }
        }
        return back(ask, change.keep(ask.author(), ""), "");
    }

    private static String photoName(int run, int number) {
        return "photos/run-" + run + "-" + number + ".jpg";
    }

    private static byte[] bytes(Part part) throws IOException {
        try (InputStream in = part.getInputStream()) {
            return in.readAllBytes();
        }
    }

    private Reply ink(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        int run = run(ask, draft);
        Optional<byte[]> drawing = Ink.drawing(ask.typed("strokes"));
        if (drawing.isEmpty()) {
            return new Reply.Refusal(
                    422, ask.frame().say("path.no-ink"), ask.frame().say("path.no-ink-remedy"));
        }
        DraftChange change = draft.change();
        if (draft.files().containsKey(DrawnSignature.name(run))) {
            change.removeFile(DrawnSignature.name(run));
        }
        change.putFile(DrawnSignature.name(run), new ByteArrayInputStream(drawing.get()))
                .note(RunFiles.unsignedNote(run), "");
        return back(ask, change.keep(ask.author(), ""), "");
    }

    private Reply undo(Ask ask, Draft draft) throws DraftRefusal, Garbled {
        Optional<UUID> meant = ask.typed("change").isBlank()
                ? Optional.empty()
                : Optional.of(parsed(UUID::fromString, ask.typed("change")));
        if (Recorded.isOfLastChange(draft)) {
            return kept(ask);
        }
        return back(ask, draft.undo(ask.author(), meant), "");
    }
}
