package org.steamwright.desk.office;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.WhoGoes;
import org.steamwright.desk.text.TableText;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.DueEntries;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueStart;
import org.steamwright.records.Found;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.state.VisitState;

/** What is due, with its reasons; the plan by day and place; the same for a calendar and a spreadsheet. */
final class DuePages {

    private static final int USUAL_DAYS = 60;
    private static final int LONGEST_DAYS = 3_660;
    /** Entries of the index on a page of the plan; each brings in what else is due at its place. */
    private static final int PLAN_ROWS = 30;
    /** Clinics that one typed place stands for at most. */
    private static final int MOST_CLINICS = 40;

    private final Office office;
    private final RegisterShelf shelf;

    DuePages(Office office, RegisterShelf shelf) {
        this.office = office;
        this.shelf = shelf;
    }

    private static int days(Ask ask) {
        try {
            return Math.min(LONGEST_DAYS, Math.max(1, Integer.parseInt(ask.typed("days"))));
        } catch (NumberFormatException nothing) {
            return USUAL_DAYS;
        }
    }

    /** What the office owns itself and is due within some days. */
    private static List<Due> within(RegisterShelf.Standing now, int days) {
        return now.due().stream()
                .filter(due -> due.concerns(now.day().plusDays(days)))
                .toList();
    }

    /** Machines at clinics whose name or address begins as typed. */
    private List<Subject> machinesAt(String typed) {
        List<Subject> clinics = office.records().find(typed, Set.of(Kind.CLINIC), MOST_CLINICS).hits().stream()
                .map(Found.Hit::subject)
                .toList();
        return shelf.filing().machinesAt(clinics);
    }

    /** One page of what is due, of all by the index. */
    private record Part(List<Due> due, Optional<DueStart> earlier, Optional<DueStart> later) {}

    private Part part(Ask ask, DueStart start) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        int days = days(ask);
        DueInRecord.Page page = shelf.page(now.day().plusDays(days), start, Shown.ROWS);
        List<Due> due = new ArrayList<>(page.due());
        if (start.isFirst()) {
            due.addAll(within(now, days));
            due.sort(DueList.ORDER);
        }
        return new Part(due, page.earlier(), page.later());
    }

    /** All that is due at the place that was typed. */
    private List<Due> dueAtPlace(Ask ask) throws IOException, FilingException, RegisterException {
        LocalDate until = shelf.now().day().plusDays(days(ask));
        return shelf.due(machinesAt(ask.typed("place"))).stream()
                .filter(one -> one.concerns(until))
                .toList();
    }

    /** How long the list is about, pages before and after included. */
    private long countDue(LocalDate until) {
        return office.counts().of(List.of("due", until), () -> office.records().countDue(until));
    }

    private static String asked(Ask ask, String path) {
        String place = ask.typed("place");
        return path + "?days=" + days(ask) + (place.isBlank() ? "" : "&place=" + Shown.part(place));
    }

    Reply list(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        int days = days(ask);
        boolean isOfPlace = !ask.typed("place").isBlank();
        List<Due> there = isOfPlace ? dueAtPlace(ask) : List.of();
        Part part = isOfPlace
                ? new Part(Shown.page(there, Shown.from(ask)), Optional.empty(), Optional.empty())
                : part(ask, Shown.start(ask));
        List<List<Cell>> rows = new ArrayList<>();
        for (Due one : part.due()) {
            rows.add(List.of(
                    Cell.of(frame.hear(one.urgency().word())),
                    Cell.day(Shown.day(frame, one.day())),
                    Cell.link(one.subject().id(), path(one)),
                    Cell.of(frame.hear(one.title())),
                    Shown.text(one.subject().place()),
                    reason(one, frame),
                    Cell.of(forecast(one, frame))));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.due-title", days))
                .say("", List.of(frame.say("office.due-why")))
                .table("", frame.say("office.due-none"), heads(frame), rows);
        String path = asked(ask, "/due") + "&";
        if (isOfPlace) {
            Shown.pages(writer, frame, path, Shown.from(ask), there.size());
        } else {
            long all = countDue(shelf.now().day().plusDays(days));
            Shown.pages(writer, frame, path, part.earlier(), part.later(), Shown.ROWS, all);
        }
        writer.links(
                new Sheet.Link(frame.say("office.within-year"), "/due?days=366"),
                new Sheet.Link(frame.say("office.plan"), asked(ask, "/plan")),
                new Sheet.Link(frame.say("office.as-calendar"), asked(ask, "/due.ics")),
                new Sheet.Link(frame.say("office.as-table"), asked(ask, "/due.csv")));
        return shown(ask, writer.sheet(), "/due");
    }

    /** The first reason, and how many more there are. */
    private static Cell reason(Due due, Frame frame) {
        Told first = Shown.heard(frame, due.first().reason());
        return Cell.of(
                due.reasons().size() == 1
                        ? first
                        : new Told(
                                first.text() + " "
                                        + frame.say(
                                                "office.more-reasons",
                                                due.reasons().size() - 1),
                                first.isEnglish()));
    }

    private static Reply shown(Ask ask, Sheet sheet, String path) {
        return Reply.page(
                "office/due.jte", Map.of("sheet", sheet, "path", path, "days", days(ask), "place", ask.typed("place")));
    }

    private static List<String> heads(Frame frame) {
        return List.of(
                frame.say("office.urgency"),
                frame.say("office.last-day"),
                frame.say("office.subject"),
                frame.say("office.duty"),
                frame.say("office.place"),
                frame.say("office.reason"),
                frame.say("office.forecast"));
    }

    static String path(Due due) {
        return switch (due.subject().kind()) {
            case STERILIZER ->
                "/register/sterilizer?id=" + Shown.part(due.subject().id());
            case INSTRUMENT ->
                "/register/instrument?id=" + Shown.part(due.subject().id());
            case TECHNICIAN -> "/register/people";
        };
    }

    private static String forecast(Due due, Frame frame) {
        return due.reasons().stream()
                .flatMap(reason -> reason.forecast().stream())
                .findFirst()
                .map(expected -> frame.say(
                        "office.forecast-between",
                        frame.figures().day(expected.earliest()),
                        Shown.day(frame, expected.latest())))
                .orElse("–");
    }

    /** Takes a page of what is due. */
    @FunctionalInterface
    private interface Taker {
        void take(List<Due> due) throws IOException;
    }

    /** Gives what is due to a taker, page after page, so that no more than a page of it is held. */
    private void each(Ask ask, Part first, Taker taker) throws IOException {
        Part part = first;
        taker.take(part.due());
        while (part.later().isPresent()) {
            try {
                part = part(ask, part.later().get());
                taker.take(part.due());
            } catch (FilingException | RegisterException changed) {
                throw new IOException("the register can't be read any more: " + changed.getMessage(), changed);
            }
        }
    }

    /** All that is due at a place at once, or the first page of all. */
    private Part first(Ask ask) throws IOException, FilingException, RegisterException {
        if (ask.typed("place").isBlank()) {
            return part(ask, DueStart.FIRST);
        }
        return new Part(dueAtPlace(ask), Optional.empty(), Optional.empty());
    }

    Reply calendar(Ask ask) throws IOException, FilingException, RegisterException {
        Part first = first(ask);
        Instant now = office.clock().instant();
        return file("text/calendar;charset=utf-8", "due.ics", out -> {
            write(out, CalendarText.head());
            each(ask, first, due -> write(out, CalendarText.events(due, now)));
            write(out, CalendarText.end());
        });
    }

    Reply table(Ask ask) throws IOException, FilingException, RegisterException {
        Part first = first(ask);
        List<String> heads = List.of(
                "urgency",
                "last day",
                "kind",
                "id",
                "title",
                "place",
                "duty",
                "cause",
                "day of this reason",
                "reason",
                "source");
        return file("text/csv;charset=utf-8", "due.csv", out -> {
            write(out, TableText.of(heads, List.of()));
            each(ask, first, due -> write(out, TableText.rows(rows(due))));
        });
    }

    private static List<List<String>> rows(List<Due> all) {
        List<List<String>> rows = new ArrayList<>();
        for (Due due : all) {
            for (Candidate reason : due.reasons()) {
                rows.add(List.of(
                        due.urgency().word(),
                        due.day().map(LocalDate::toString).orElse(""),
                        due.subject().kind().word(),
                        due.subject().id(),
                        due.subject().title(),
                        due.subject().place(),
                        due.title(),
                        reason.cause().word(),
                        reason.day().map(LocalDate::toString).orElse(""),
                        reason.reason(),
                        reason.source().citation()));
            }
        }
        return rows;
    }

    private static void write(OutputStream out, String text) throws IOException {
        out.write(text.getBytes(StandardCharsets.UTF_8));
    }

    private static Reply file(String type, String name, Reply.Content content) {
        return new Reply.Attachment(type, content, Optional.of(name));
    }

    /**
     * By place: what is due there together, and visits that are begun; so that one journey serves all of it. A place stands on
     * the page of its earliest day.
     */
    Reply plan(Ask ask) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        Frame frame = ask.frame();
        int days = days(ask);
        DueStart start = Shown.start(ask);
        LocalDate until = now.day().plusDays(days);
        Journeys journeys = journeys(ask, until, start);
        TreeMap<LocalDate, List<Cell[]>> byDay = new TreeMap<>();
        Map<String, List<Due>> byPlace = new TreeMap<>();
        for (Due due : journeys.due()) {
            byPlace.computeIfAbsent(due.subject().place(), place -> new ArrayList<>())
                    .add(due);
        }
        for (Map.Entry<String, List<Due>> place : byPlace.entrySet()) {
            LocalDate by = place.getValue().stream()
                    .map(due -> due.day().orElse(now.day()))
                    .min(LocalDate::compareTo)
                    .map(day -> day.isBefore(now.day()) ? now.day() : day)
                    .orElse(now.day());
            // what is due of one machine on one day is one line: one journey does all of it
            Map<List<String>, List<Due>> together = new LinkedHashMap<>();
            for (Due due : place.getValue()) {
                together.computeIfAbsent(List.of(due.subject().id(), due.when()), line -> new ArrayList<>())
                        .add(due);
            }
            for (List<Due> line : together.values()) {
                Due first = line.get(0);
                byDay.computeIfAbsent(by, day -> new ArrayList<>()).add(new Cell[] {
                    Shown.text(place.getKey()),
                    Cell.link(first.subject().id(), path(first)),
                    Cell.of(line.stream().map(due -> frame.heard(due.title())).collect(Collectors.joining(", "))),
                    Cell.of(Shown.heard(frame, first.when()))
                });
            }
        }
        Sheet.Writer writer =
                new Sheet.Writer(frame.say("office.plan-title", days)).say("", List.of(frame.say("office.plan-why")));
        if (start.isFirst()) {
            planned(writer, frame, now.day(), until);
        }
        if (byDay.isEmpty()) {
            writer.say("", List.of(frame.say("office.due-none")));
        }
        for (Map.Entry<LocalDate, List<Cell[]>> day : byDay.entrySet()) {
            writer.table(
                    day.getKey().equals(now.day())
                            ? frame.say("office.plan-now")
                            : frame.say("office.plan-by", frame.figures().day(day.getKey())),
                    "",
                    List.of(
                            frame.say("office.place"),
                            frame.say("office.subject"),
                            frame.say("office.duty"),
                            frame.say("office.when")),
                    day.getValue().stream().map(List::of).toList());
        }
        Shown.pages(
                writer,
                frame,
                asked(ask, "/plan") + "&",
                journeys.entries().earlier(),
                journeys.entries().later(),
                PLAN_ROWS,
                countDue(until));
        return shown(ask, writer.sheet(), "/plan");
    }

    /** What is due at the places of a page. */
    private record Journeys(List<Due> due, DueEntries entries) {}

    private Journeys journeys(Ask ask, LocalDate until, DueStart start)
            throws IOException, FilingException, RegisterException {
        List<Subject> machines;
        DueEntries entries = new DueEntries(List.of(), Optional.empty(), Optional.empty());
        if (ask.typed("place").isBlank()) {
            entries = DueEntries.read(office.records(), until, start, PLAN_ROWS);
            Set<SubjectId> ids = new LinkedHashSet<>();
            entries.entries().forEach(entry -> ids.add(entry.sterilizer()));
            if (start.isFirst()) {
                ids.addAll(shelf.now().withdrawn().keySet());
            }
            List<Subject> named = office.records().subjects(List.copyOf(ids));
            Map<SubjectId, Subject> wanted = new LinkedHashMap<>();
            named.forEach(machine -> wanted.put(machine.id(), machine));
            Map<SubjectId, Subject> clinics = new LinkedHashMap<>();
            shelf.filing()
                    .places(named)
                    .values()
                    .forEach(place -> clinics.put(place.clinic().id(), place.clinic()));
            shelf.filing()
                    .machinesAt(List.copyOf(clinics.values()))
                    .forEach(machine -> wanted.put(machine.id(), machine));
            if (!start.isFirst() && !entries.entries().isEmpty()) {
                dropEarlier(wanted, entries.entries().get(0));
            }
            machines = List.copyOf(wanted.values());
        } else {
            machines = machinesAt(ask.typed("place"));
        }
        return new Journeys(
                shelf.due(machines).stream().filter(one -> one.concerns(until)).toList(), entries);
    }

    /** Takes away machines at places that stand on an earlier page. */
    private void dropEarlier(Map<SubjectId, Subject> machines, DueDate first) {
        Map<String, RegisterFiling.Standing> places = shelf.filing().places(List.copyOf(machines.values()));
        Function<Subject, String> placeOf = machine -> Optional.ofNullable(places.get(RegisterFiling.roomOf(machine)))
                .map(RegisterFiling.Standing::words)
                .orElse(machine.id().toString());
        Set<SubjectId> earlier = office.records().dueBefore(first, List.copyOf(machines.keySet()));
        Set<String> gone = new HashSet<>();
        earlier.forEach(id -> Optional.ofNullable(machines.get(id)).map(placeOf).ifPresent(gone::add));
        machines.values().removeIf(machine -> gone.contains(placeOf.apply(machine)));
    }

    /** Visits to come: one that is signed is over, and a correction is none of another day. */
    private void planned(Sheet.Writer writer, Frame frame, LocalDate today, LocalDate until) {
        List<List<Cell>> rows = new ArrayList<>();
        VisitStates states = new VisitStates(office.records());
        List<Subject> ahead = office.records().visitsFrom(today, Shown.ROWS).stream()
                .filter(visit -> !LocalDate.parse(visit.text("date")).isAfter(until))
                .filter(visit -> {
                    StatedVisit stated = states.of(visit);
                    return stated.state() == VisitState.OPEN && !stated.isCorrection();
                })
                .toList();
        Map<SubjectId, Subject> known = known(ahead, "sterilizer", "technicians");
        for (Subject visit : ahead) {
            rows.add(List.of(
                    Cell.day(frame.figures().day(LocalDate.parse(visit.text("date")))),
                    Shown.text(visit.text("clinic-name")),
                    Cell.link(visit.text("number"), "/visits/" + visit.id()),
                    Shown.text(named(known, visit, "sterilizer", "serial")),
                    Shown.text(
                            ids(visit, "technicians").isEmpty()
                                    ? String.join(", ", WhoGoes.to(office, visit))
                                    : named(known, visit, "technicians", "name")),
                    Shown.text(visit.text("purpose")),
                    Cell.later(frame.say("today.go-looking"), "/visits/" + visit.id() + "/go?brief=1")));
        }
        writer.table(
                frame.say("office.planned"),
                frame.say("office.planned-none"),
                List.of(
                        frame.say("office.day"),
                        frame.say("office.place"),
                        frame.say("office.visit"),
                        frame.say("office.planned-machine"),
                        frame.say("office.planned-who"),
                        frame.say("office.purpose"),
                        frame.say("office.planned-go")),
                rows);
    }

    /** What those subjects are called that a visit names; blank if it names none yet. */
    private static String named(Map<SubjectId, Subject> known, Subject visit, String fact, String name) {
        return ids(visit, fact).stream()
                .flatMap(id -> Optional.ofNullable(known.get(id)).stream())
                .map(one -> one.text(name))
                .filter(text -> !text.isBlank())
                .collect(Collectors.joining(", "));
    }

    /** Everything that these visits name, read at once. */
    private Map<SubjectId, Subject> known(List<Subject> visits, String... facts) {
        Set<SubjectId> ids = new LinkedHashSet<>();
        for (Subject visit : visits) {
            for (String fact : facts) {
                ids.addAll(ids(visit, fact));
            }
        }
        return office.records().subjects(List.copyOf(ids)).stream()
                .collect(Collectors.toMap(Subject::id, Function.identity()));
    }

    private static List<SubjectId> ids(Subject visit, String fact) {
        List<SubjectId> ids = new ArrayList<>();
        visit.fact(fact)
                .ifPresent(list -> list.node().forEach(id -> {
                    if (id.isTextual()) {
                        ids.add(SubjectId.parse(id.asText()));
                    }
                }));
        return ids;
    }
}
