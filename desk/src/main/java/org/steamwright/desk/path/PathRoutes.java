package org.steamwright.desk.path;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;

/** Routes of the visit's path: what its pages show, and the facts that are saved. */
public final class PathRoutes {

    private static final Set<Role> LOOKING = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITING = Set.of(Role.TECHNICIAN, Role.OFFICE);
    private static final Set<Role> SIGNING = Set.of(Role.TECHNICIAN, Role.REVIEWER);
    private static final String VISITS = "/visits";
    private static final String VISIT = VISITS + "/{visit}";
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
        VisitDoor door = new VisitDoor(office);
        BeginRoutes begin = new BeginRoutes(office);
        PaperRoutes papers = new PaperRoutes(office);
        EntryRoutes entries = new EntryRoutes(office, path.shelf);
        EquipmentRoutes equipment = new EquipmentRoutes(office, path.shelf);
        List<Route> routes = new ArrayList<>();
        routes.add(Route.get(
                VISITS,
                LOOKING,
                ask -> begin.visits(BeginRoutes.asked(ask), Optional.empty(), 200, BeginRoutes.from(ask))));
        routes.add(Route.post(VISITS, WRITING, begin::begin));
        routes.add(Route.get(VISIT, LOOKING, door.of(path::overview)));
        for (Stage stage : Stage.values()) {
            routes.add(Route.get(
                    VISIT + "/" + stage.word(), LOOKING, door.of((ask, draft) -> path.sheet(ask, draft, stage))));
        }
        routes.add(Route.get(VISIT + "/context", LOOKING, door.of(path::context)));
        routes.add(Route.get(VISIT + "/report.pdf", LOOKING, door.of(papers::report))
                .dear());
        routes.add(Route.get(VISIT + "/certificates", LOOKING, door.of(papers::certificate))
                .dear());
        routes.add(Route.get(VISIT + "/result.json", LOOKING, door.of((ask, draft) -> papers.result(draft))));
        routes.add(Route.get(
                VISIT + "/files", LOOKING, door.of((ask, draft) -> PaperRoutes.file(ask, draft, ask.typed("name")))));
        routes.add(Route.post(VISIT + "/facts", WRITING, door.of(path::fact)));
        routes.add(Route.post(VISIT + "/entries", WRITING, door.of(entries::entry)));
        routes.add(Route.post(VISIT + "/offers", WRITING, door.of(entries::offer)));
        routes.add(Route.post(VISIT + "/removals", WRITING, door.of(entries::removal)));
        routes.add(Route.post(VISIT + "/lines", WRITING, door.of(entries::line)));
        routes.add(Route.post(VISIT + "/copies", WRITING, door.of(entries::copy)));
        routes.add(Route.post(VISIT + "/set-asides", WRITING, door.of(entries::setAside)));
        routes.add(Route.post(VISIT + "/scope", WRITING, door.of(entries::scope)));
        routes.add(Route.post(VISIT + "/readings", WRITING, door.of(path::readings)));
        routes.add(Route.post(VISIT + "/criteria-sets", WRITING, door.of(entries::criteriaSet)));
        routes.add(Route.post(VISIT + "/again", WRITING, door.of(entries::again)));
        routes.add(Route.post(VISIT + "/instruments", WRITING, door.of(equipment::instrument)));
        routes.add(Route.post(VISIT + "/instrument-renewals", WRITING, door.of(equipment::renewal)));
        routes.add(Route.post(VISIT + "/instrument-choices", WRITING, door.of(equipment::choice)));
        routes.add(Route.post(VISIT + "/same-checks", WRITING, door.of(equipment::sameChecks)));
        routes.add(Route.post(VISIT + "/clock-readings", WRITING, door.of(equipment::clockReading)));
        routes.add(Route.post(VISIT + "/lots", WRITING, door.of(equipment::lot)));
        routes.add(Route.post(VISIT + "/running", WRITING, door.of(entries::running)));
        routes.add(Route.post(VISIT + "/photos", WRITING, door.of(PhotoRoutes::photo)));
        routes.add(Route.post(VISIT + "/photo-removals", WRITING, door.of(PhotoRoutes::photoRemoval)));
        routes.add(Route.post(VISIT + "/ink", WRITING, door.of(PhotoRoutes::ink)));
        routes.add(Route.post(VISIT + "/undo", WRITING, door.of(entries::undo)));
        SigningRoutes signing = new SigningRoutes(office);
        routes.add(Route.post(VISIT + "/keys", SIGNING, door.of(signing::key)).dear());
        routes.add(Route.post(VISIT + "/signatures", SIGNING, door.of(signing::sign))
                .dear());
        routes.add(Route.post(VISIT + "/withdrawals", SIGNING, door.of(signing::withdraw))
                .dear());
        return routes;
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
        values.put("isListedAbove", ask.typed("listed").equals("above"));
        values.put("isAnswer", true);
        return Reply.page("path/beside.jte", values);
    }

    // ---- writing

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

    private Reply fact(Ask ask, Draft draft) throws IOException, FilingException, RegisterException, VisitDoor.Garbled {
        String path = ask.typed("path");
        if (Recorded.isKept(draft, VisitDoor.parsed(KeyedPath::parse, path).target(draft))) {
            return VisitDoor.kept(ask);
        }
        String value = ask.typed("take").isBlank() ? ask.typed("value") : ask.typed("take");
        Saving.Saved saved = saved(ask, draft, path, value, typedAt(ask));
        Draft now = saved.draft();
        boolean isUnsigned = isUnsigned(draft, now);
        boolean isSaved = saved.complaint().isEmpty();
        if (isSaved && (!ask.isPartial() || ChecksSheet.isKeepingWords(draft, path, value))) {
            return VisitDoor.back(ask, now, Field.id(path));
        }
        List<DraftProblem> glance = now.glance();
        Equipment equipment = Equipment.of(VisitDoor.stage(ask), now, office, shelf, ask.frame());
        Sheet sheet = new Sheets(now, ask.frame(), Earlier.of(now, office), glance, equipment).of(VisitDoor.stage(ask));
        Optional<Field> shown = sheet.find(path);
        if (shown.isEmpty()) {
            // the entry went with its last value, or another window took it away
            return saved.complaint()
                    .map(why -> (Reply) Reply.Refusal.heard(ask.frame(), 409, why.what(), why.remedy()))
                    .orElseGet(() -> VisitDoor.back(ask, now, ""));
        }
        Field field = isSaved
                ? shown.get()
                        .noticed((saved(ask)
                                        + (isUnsigned ? " " + ask.frame().say("path.ink.gone") : "")
                                        + " "
                                        + InstrumentsSheet.follows(path, equipment, ask.frame()))
                                .strip())
                : shown.get()
                        .typed(value, saved.complaint().get())
                        .offeringUnit(
                                Typing.read(path, value, ask.frame()).kept().orElse(value), ask.frame());
        if (!ask.isPartial()) {
            return sheet(ask, now, sheet.with(field), glance, 422);
        }
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("visit", now);
        values.put("field", field);
        values.put("stage", VisitDoor.stage(ask));
        values.put("trail", Trail.of(now, ask.frame(), office.clock().getZone()));
        values.put("told", sheet.blocks().stream().filter(Block::isTold).toList());
        return Reply.page("path/saved.jte", values);
    }

    /** Whether a drawn signature went because what stands above it changed. */
    private static boolean isUnsigned(Draft before, Draft now) {
        return before.files().keySet().stream()
                .anyMatch(name -> name.startsWith("signatures/") && !now.files().containsKey(name));
    }

    /** Several indicators that were read at one moment by one person. */
    private Reply readings(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        Readings readings = Readings.typed(draft, ask);
        if (readings.complaint().isEmpty()) {
            DraftChange change = readings.change(draft, ask.frame());
            List<DraftProblem> problems = change.glance();
            readings = readings.complaining(problems, ask.frame());
            if (readings.complaint().isEmpty()) {
                return VisitDoor.back(ask, change.keep(ask.author(), ""), "");
            }
        }
        List<DraftProblem> glance = draft.glance();
        Sheet sheet = new Sheets(draft, ask.frame(), Earlier.of(draft, office), glance).of(Stage.INDICATORS);
        return sheet(ask, draft, sheet, glance, 422, Optional.of(readings));
    }
}
