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
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Action;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.VisitChangedException;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Keys;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.Photos;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedVisit;
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
    /** A value that stood in its field for less is one that was typed now. */
    private static final Duration HELD_FROM = Duration.ofMinutes(1);

    private final Office office;

    private PathRoutes(Office office) {
        this.office = office;
    }

    /** The routes. */
    public static List<Route> all(Office office) {
        PathRoutes path = new PathRoutes(office);
        List<Route> routes = new ArrayList<>();
        routes.add(Route.get(VISITS, LOOKING, ask -> path.visits(Map.of(), Optional.empty(), 200)));
        routes.add(Route.post(VISITS, WRITING, path::begin));
        routes.add(Route.get(VISIT, LOOKING, path.of(path::overview)));
        for (Stage stage : Stage.values()) {
            routes.add(Route.get(
                    VISIT + "/" + stage.word(), LOOKING, path.of((ask, draft) -> path.sheet(ask, draft, stage))));
        }
        routes.add(Route.get(VISIT + "/context", LOOKING, path.of(path::context)));
        routes.add(Route.get(VISIT + "/report.pdf", LOOKING, path.of((ask, draft) -> path.report(ask, draft)))
                .dear());
        routes.add(Route.get(
                        VISIT + "/certificates/{sterilizer}",
                        LOOKING,
                        path.of((ask, draft) -> path.certificate(ask, draft)))
                .dear());
        routes.add(Route.get(VISIT + "/result.json", LOOKING, path.of((ask, draft) -> path.result(draft))));
        routes.add(Route.get(
                VISIT + "/files/{folder}/{name}",
                LOOKING,
                path.of((ask, draft) -> file(ask, draft, ask.part("folder") + "/" + ask.part("name")))));
        routes.add(Route.post(VISIT + "/facts", WRITING, path.of(path::fact)));
        routes.add(Route.post(VISIT + "/entries", WRITING, path.of(path::entry)));
        routes.add(Route.post(VISIT + "/removals", WRITING, path.of(path::removal)));
        routes.add(Route.post(VISIT + "/lines", WRITING, path.of(path::line)));
        routes.add(Route.post(VISIT + "/copies", WRITING, path.of(path::copy)));
        routes.add(Route.post(VISIT + "/running", WRITING, path.of(path::running)));
        routes.add(Route.post(VISIT + "/photos", WRITING, path.of(path::photo)));
        routes.add(Route.post(VISIT + "/ink", WRITING, path.of(path::ink)));
        routes.add(Route.post(VISIT + "/undo", WRITING, path.of(path::undo)));
        routes.add(Route.post(VISIT + "/keys", SIGNING, path.of(path::key)));
        routes.add(Route.post(VISIT + "/signatures", SIGNING, path.of(path::sign)));
        return routes;
    }

    /** What answers for one visit. */
    @FunctionalInterface
    private interface VisitAction {
        Reply answer(Ask ask, Draft draft)
                throws IOException, FilingException, VisitFolderException, RegisterException, DraftRefusal;
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
            } catch (IllegalArgumentException typed) {
                // a path or number that no page of this desk sends
                return new Reply.Refusal(
                        400, ask.frame().say("path.not-understood"), ask.frame().say("path.unknown-remedy"));
            }
        };
    }

    /** A visit by its identity or by its report number. */
    private Optional<Draft> find(String idOrNumber) {
        try {
            return office.records()
                    .find(SubjectId.parse(idOrNumber))
                    .filter(subject -> subject.kind() == Kind.VISIT)
                    .map(subject -> office.drafts().of(subject.id()));
        } catch (IllegalArgumentException noId) {
            return office.drafts().find(idOrNumber);
        }
    }

    // ---- visits

    private Reply visits(Map<String, String> typed, Optional<Complaint> complaint, int status) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("list", VisitList.of(office, typed));
        values.put("complaint", complaint);
        return new Reply.Page("path/visits.jte", values, status);
    }

    private Reply begin(Ask ask) throws IOException, FilingException, RegisterException {
        Map<String, String> typed = new LinkedHashMap<>();
        for (String field : List.of(
                "number", "purpose", "date", "criteria-set", "machine", "clinic", "serial", "zone", "technician")) {
            typed.put(field, ask.typed(field));
        }
        try {
            Draft draft = begun(ask, typed);
            return new Reply.Next(Context.address(draft) + "/" + Stage.IDENTITY.word());
        } catch (DraftRefusal refused) {
            return visits(typed, Optional.of(new Complaint(refused.getMessage() + ".", refused.remedy())), 422);
        }
    }

    private Draft begun(Ask ask, Map<String, String> typed)
            throws IOException, FilingException, RegisterException, DraftRefusal {
        String machine = typed.getOrDefault("machine", "");
        String name = typed.getOrDefault("technician", "");
        RegisterFiling filing = new RegisterFiling(office.records());
        // a serial number that is typed alone means the machine that the register has
        boolean isTypedAlone = typed.getOrDefault("clinic", "").isBlank();
        String wanted = machine.isBlank() && isTypedAlone ? typed.getOrDefault("serial", "") : machine;
        Optional<Subject> subject = wanted.isBlank() ? Optional.empty() : filing.machine(wanted);
        Register register = subject.isPresent() ? filing.around(subject.get()) : Register.EMPTY;
        Optional<SterilizerRecord> known = register.sterilizers().stream().findFirst();
        if (known.isPresent()) {
            Map<String, byte[]> instruments = filing.instrumentFiles();
            Optional<Technician> technician = register.technicians().stream()
                    .filter(one -> one.name().equals(name))
                    .findFirst();
            LocalDate day = day(typed.getOrDefault("date", ""));
            Draft draft = office.drafts()
                    .open(
                            ask.author(),
                            register,
                            known.get(),
                            new VisitDraft.Visit(
                                    typed.getOrDefault("number", ""),
                                    typed.getOrDefault("purpose", ""),
                                    day,
                                    typed.getOrDefault("criteria-set", ""),
                                    technician,
                                    instruments.containsKey(INSTRUMENTS_FILE)),
                            instruments);
            return technician.isPresent() || name.isBlank()
                    ? draft
                    : draft.add(FactPath.of("people"), technicianOf(name), ask.author(), "");
        }
        Map<String, Object> start = new LinkedHashMap<>();
        start.put("purpose", typed.getOrDefault("purpose", ""));
        start.put("date", day(typed.getOrDefault("date", "")).toString());
        start.put("zone", zone(typed.getOrDefault("zone", "")));
        start.put("criteria-set", typed.getOrDefault("criteria-set", ""));
        start.put("clinic", Map.of("name", typed.getOrDefault("clinic", "")));
        String serial = machine.isBlank() ? typed.getOrDefault("serial", "") : machine;
        start.put("sterilizers", List.of(sterilizer(serial)));
        if (!name.isBlank()) {
            start.put("people", List.of(technicianOf(name)));
        }
        return office.drafts().open(ask.author(), typed.getOrDefault("number", ""), start);
    }

    private Map<String, Object> sterilizer(String serial) {
        Map<String, Object> sterilizer = new LinkedHashMap<>();
        sterilizer.put("key", "A");
        sterilizer.put("serial", serial);
        office.records().exactly(Kind.STERILIZER, "serial", serial).stream()
                .findFirst()
                .ifPresent(one -> {
                    sterilizer.put("maker", one.text("maker"));
                    sterilizer.put("model", one.text("model"));
                });
        return sterilizer;
    }

    private static Map<String, String> technicianOf(String name) {
        return Map.of("name", name, "role", "technician");
    }

    private String zone(String typed) {
        return typed.isBlank() ? office.clock().getZone().getId() : typed;
    }

    private LocalDate day(String typed) {
        return typed.matches("\\d{4}-\\d{2}-\\d{2}") ? LocalDate.parse(typed) : LocalDate.now(office.clock());
    }

    // ---- looking

    private Reply overview(Ask ask, Draft draft) throws IOException, FilingException {
        List<DraftProblem> glance = draft.glance();
        Sheets sheets = new Sheets(draft, ask.frame(), Optional.empty(), glance);
        List<Sheet> all = Arrays.stream(Stage.values()).map(sheets::of).toList();
        Map<String, Object> values = values(ask, draft, glance);
        values.put("sheets", all);
        return Reply.page("path/overview.jte", values);
    }

    private Map<String, Object> values(Ask ask, Draft draft, List<DraftProblem> glance) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", draft);
        values.put("isSigned", draft.isSigned());
        values.put("trail", Trail.of(draft, ask.frame(), office.clock().getZone()));
        values.put(
                "context",
                Context.of(
                        draft, ask.frame(), draft.peek(), glance, office.clock().instant()));
        return values;
    }

    private Reply sheet(Ask ask, Draft draft, Stage stage) throws IOException, FilingException {
        List<DraftProblem> glance = draft.glance();
        return sheet(
                ask, draft, new Sheets(draft, ask.frame(), Earlier.of(draft, office), glance).of(stage), glance, 200);
    }

    private Reply sheet(Ask ask, Draft draft, Sheet sheet, List<DraftProblem> glance, int status)
            throws IOException, FilingException {
        Optional<Closing> closing =
                sheet.stage() == Stage.CLOSE ? Optional.of(Closing.of(draft, draft.read(), office)) : Optional.empty();
        Map<String, Object> values = values(ask, draft, glance);
        values.put("sheet", sheet);
        values.put("closing", closing);
        return new Reply.Page("path/sheet.jte", values, status);
    }

    private Reply context(Ask ask, Draft draft) throws IOException, FilingException {
        DraftReading reading = draft.read();
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", draft);
        values.put(
                "context",
                Context.of(
                        draft,
                        ask.frame(),
                        Optional.of(reading),
                        List.of(),
                        office.clock().instant()));
        return Reply.page("path/beside.jte", values);
    }

    private AssessedVisit assessed(Draft draft) throws IOException, FilingException, VisitFolderException {
        return office.visits().of(draft.subject());
    }

    private Reply report(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        Language language = PaperLanguage.of(ask);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        ReportPdf.write(assessed(draft), issued(draft), name -> draft.bytes(name), language, pdf);
        return new Reply.Attachment(
                "application/pdf", pdf::writeTo, Optional.of(fileName(draft) + language.ending(".pdf")));
    }

    private Reply certificate(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        AssessedVisit assessed = assessed(draft);
        String key = ask.part("sterilizer");
        Optional<Sterilizer> sterilizer = assessed.visit().sterilizers().stream()
                .filter(one -> one.key().equals(key))
                .findFirst();
        if (sterilizer.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("path.no-file", key), ask.frame().say("path.unknown-remedy"));
        }
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        Language language = PaperLanguage.of(ask);
        CertificatePdf.write(assessed, key, issued(draft), language, pdf);
        return new Reply.Attachment(
                "application/pdf",
                pdf::writeTo,
                Optional.of(fileName(draft) + "-" + CertificatePdf.fileName(sterilizer.get(), language)));
    }

    private Issued issued(Draft draft) {
        return office.filing().issued(new VisitStates(office.records()).of(draft.subject()));
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

    private Reply fact(Ask ask, Draft draft) throws IOException, FilingException {
        String path = ask.typed("path");
        String value = ask.typed("take").isBlank() ? ask.typed("value") : ask.typed("take");
        Saving.Saved saved = Saving.field(draft, path, value, ask.typed("seen"), typedAt(ask), ask.author());
        Draft now = saved.draft();
        boolean isSaved = saved.complaint().isEmpty();
        if (isSaved && !ask.isPartial()) {
            return back(ask, now, Field.id(path));
        }
        List<DraftProblem> glance = now.glance();
        Sheet sheet = new Sheets(now, ask.frame(), Earlier.of(now, office), glance).of(stage(ask));
        Optional<Field> shown = sheet.find(path);
        if (shown.isEmpty()) {
            // the entry went with its last value, or another window took it away
            return saved.complaint()
                    .map(why -> (Reply) Reply.Refusal.heard(ask.frame(), 409, why.what(), why.remedy()))
                    .orElseGet(() -> back(ask, now, ""));
        }
        Field field = isSaved
                ? shown.get().noticed(saved(ask))
                : shown.get().typed(value, saved.complaint().get());
        if (!ask.isPartial()) {
            return sheet(ask, now, sheet.with(field), glance, 422);
        }
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", now);
        values.put("field", field);
        values.put("stage", stage(ask));
        values.put("trail", Trail.of(now, ask.frame(), office.clock().getZone()));
        return Reply.page("path/saved.jte", values);
    }

    private Reply entry(Ask ask, Draft draft) throws DraftRefusal {
        Map<String, String> values = new LinkedHashMap<>();
        ask.request().getParameterMap().forEach((name, typed) -> {
            if (name.startsWith("with.") && typed.length == 1) {
                values.put(name.substring("with.".length()), typed[0]);
            }
        });
        FactPath list = FactPath.parse(ask.typed("list"));
        Draft now = draft.add(list, values, ask.author(), "");
        String first = list.then(now.count(list)).toString();
        return back(ask, now, "e-" + Field.id(first));
    }

    private Reply removal(Ask ask, Draft draft) throws DraftRefusal {
        Optional<Draft> now = Saving.remove(draft, ask.typed("path"), ask.typed("seen"), ask.author());
        return now.isPresent()
                ? back(ask, now.get(), "")
                : new Reply.Refusal(
                        409,
                        ask.frame().say("path.changed-meanwhile"),
                        ask.frame().say("path.changed-remedy"));
    }

    private Reply line(Ask ask, Draft draft) throws DraftRefusal {
        FactPath list = FactPath.parse(ask.typed("list"));
        Draft now = ask.typed("text").isBlank() ? draft : draft.add(list, ask.typed("text"), ask.author(), "");
        return back(ask, now, "");
    }

    private Reply copy(Ask ask, Draft draft) throws DraftRefusal {
        FactPath from = FactPath.parse(ask.typed("from"));
        FactPath to = FactPath.parse(ask.typed("to"));
        Optional<Object> there = draft.find(from);
        DraftChange change = draft.change().set(to, there, draft.find(to));
        // what the clinic agreed to and what was photographed belongs to one run
        for (String own : List.of("agreed-by", "photos")) {
            change.set(to.then(own), Optional.empty());
        }
        return back(ask, change.keep(ask.author(), ""), "");
    }

    private Reply running(Ask ask, Draft draft) throws DraftRefusal {
        String run = ask.typed("run");
        String note = run.isBlank() ? "" : new Running(Integer.parseInt(run), now()).note();
        return back(ask, draft.change().note(Running.NOTE, note).keep(ask.author(), ""), "");
    }

    private Instant now() {
        return office.clock().instant();
    }

    private Reply photo(Ask ask, Draft draft) throws IOException, DraftRefusal {
        int run = Integer.parseInt(ask.typed("run"));
        DraftChange change = draft.change();
        FactPath list = FactPath.of("runs", run, "load", "photos");
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
            while (draft.files().containsKey(photoName(run, next))) {
                next++;
            }
            change.putFile(photoName(run, next), new ByteArrayInputStream(scaled.get()));
            change.add(list, photoName(run, next));
            next++;
            taken++;
        }
        return back(ask, taken == 0 ? draft : change.keep(ask.author(), ""), "");
    }

    private static String photoName(int run, int number) {
        return "photos/run-" + run + "-" + number + ".jpg";
    }

    private static byte[] bytes(Part part) throws IOException {
        try (InputStream in = part.getInputStream()) {
            return in.readAllBytes();
        }
    }

    private Reply ink(Ask ask, Draft draft) throws DraftRefusal {
        int run = Integer.parseInt(ask.typed("run"));
        Optional<byte[]> drawing = Ink.drawing(ask.typed("strokes"));
        if (drawing.isEmpty()) {
            return new Reply.Refusal(
                    422, ask.frame().say("path.no-ink"), ask.frame().say("path.no-ink-remedy"));
        }
        return back(
                ask,
                draft.change()
                        .putFile(DrawnSignature.name(run), new ByteArrayInputStream(drawing.get()))
                        .keep(ask.author(), ""),
                "");
    }

    private Reply undo(Ask ask, Draft draft) throws DraftRefusal {
        Optional<UUID> meant =
                ask.typed("change").isBlank() ? Optional.empty() : Optional.of(UUID.fromString(ask.typed("change")));
        return back(ask, draft.undo(ask.author(), meant), "");
    }

    // ---- signing

    private Reply key(Ask ask, Draft draft) throws FilingException, DraftRefusal {
        if (!ask.typed("secret").equals(ask.typed("again"))) {
            return new Reply.Refusal(
                    422, ask.frame().say("path.secrets-differ"), ask.frame().say("path.secrets-differ-remedy"));
        }
        draft.settle(ask.author());
        char[] secret = ask.typed("secret").toCharArray();
        try {
            new Keys(office.records()).renew(office.filing().technician(ask.typed("name")), secret, ask.author());
        } finally {
            Arrays.fill(secret, ' ');
        }
        return new Reply.Next(Context.address(draft) + "/" + Stage.CLOSE.word());
    }

    private Reply sign(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException, DraftRefusal {
        Draft settled = draft.settle(ask.author());
        char[] secret = ask.typed("secret").toCharArray();
        try {
            office.filing()
                    .sign(
                            settled.subject(),
                            Optional.of(ask.typed("seen")),
                            ask.typed("name"),
                            ask.typed("meaning"),
                            secret);
        } catch (VisitChangedException changed) {
            return new Reply.Refusal(
                    409, ask.frame().say("path.not-as-seen"), ask.frame().say("path.not-as-seen-remedy"));
        } finally {
            Arrays.fill(secret, ' ');
        }
        return new Reply.Next(Context.address(draft) + "/" + Stage.CLOSE.word());
    }
}
