package org.steamwright.desk.office;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.TableText;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;

/** What is due, with its reasons; the plan by day and place; the same for a calendar and a spreadsheet. */
final class DuePages {

    private static final int USUAL_DAYS = 60;
    private static final int LONGEST_DAYS = 3_660;

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

    private static List<Due> within(RegisterShelf.Standing now, int days) {
        return now.due().stream()
                .filter(due -> due.concerns(now.day().plusDays(days)))
                .toList();
    }

    Reply list(Ask ask) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        Frame frame = ask.frame();
        int days = days(ask);
        int from = Shown.from(ask);
        List<Due> due = within(now, days);
        List<List<Cell>> rows = new ArrayList<>();
        for (Due one : Shown.page(due, from)) {
            rows.add(List.of(
                    Cell.of(one.urgency().word()),
                    Cell.of(Shown.day(frame, one.day())),
                    Cell.link(one.subject().id(), path(one)),
                    Cell.of(one.title()),
                    Shown.text(one.subject().place()),
                    Cell.of(one.first().reason()
                            + (one.reasons().size() > 1
                                    ? " "
                                            + frame.say(
                                                    "office.more-reasons",
                                                    one.reasons().size() - 1)
                                    : "")),
                    Cell.of(forecast(one, frame))));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.due-title", days))
                .say("", List.of(frame.say("office.due-why")))
                .table("", frame.say("office.due-none"), heads(frame), rows);
        Shown.pages(writer, frame, "/due?days=" + days + "&", from, due.size());
        return writer.links(
                        new Sheet.Link(frame.say("office.within-year"), "/due?days=366"),
                        new Sheet.Link(frame.say("office.plan"), "/plan?days=" + days),
                        new Sheet.Link(frame.say("office.as-calendar"), "/due.ics?days=" + days),
                        new Sheet.Link(frame.say("office.as-table"), "/due.csv?days=" + days))
                .reply();
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
                "/register/sterilizers/" + Shown.part(due.subject().id());
            case INSTRUMENT ->
                "/register/instruments/" + Shown.part(due.subject().id());
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

    Reply calendar(Ask ask) throws IOException, FilingException, RegisterException {
        String text =
                CalendarText.of(within(shelf.now(), days(ask)), office.clock().instant());
        return file("text/calendar;charset=utf-8", text, "due.ics");
    }

    Reply table(Ask ask) throws IOException, FilingException, RegisterException {
        List<List<String>> rows = new ArrayList<>();
        for (Due due : within(shelf.now(), days(ask))) {
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
        String text = TableText.of(
                List.of(
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
                        "source"),
                rows);
        return file("text/csv;charset=utf-8", text, "due.csv");
    }

    private static Reply file(String type, String text, String name) {
        return new Reply.Attachment(type, out -> out.write(text.getBytes(StandardCharsets.UTF_8)), Optional.of(name));
    }

    /** By place: what is due there together, and visits that are begun; so that one journey serves all of it. */
    Reply plan(Ask ask) throws IOException, FilingException, RegisterException {
        RegisterShelf.Standing now = shelf.now();
        Frame frame = ask.frame();
        int days = days(ask);
        TreeMap<LocalDate, List<Cell[]>> byDay = new TreeMap<>();
        Map<String, List<Due>> byPlace = new TreeMap<>();
        for (Due due : within(now, days)) {
            if (due.subject().kind() == Due.Subject.Kind.STERILIZER) {
                byPlace.computeIfAbsent(due.subject().place(), place -> new ArrayList<>())
                        .add(due);
            }
        }
        for (Map.Entry<String, List<Due>> place : byPlace.entrySet()) {
            LocalDate by = place.getValue().stream()
                    .map(due -> due.day().orElse(now.day()))
                    .min(LocalDate::compareTo)
                    .map(day -> day.isBefore(now.day()) ? now.day() : day)
                    .orElse(now.day());
            for (Due due : place.getValue()) {
                byDay.computeIfAbsent(by, day -> new ArrayList<>()).add(new Cell[] {
                    Shown.text(place.getKey()),
                    Cell.link(due.subject().id(), path(due)),
                    Cell.of(due.title()),
                    Cell.of(due.when())
                });
            }
        }
        Sheet.Writer writer =
                new Sheet.Writer(frame.say("office.plan-title", days)).say("", List.of(frame.say("office.plan-why")));
        planned(writer, frame, now.day());
        if (byDay.isEmpty()) {
            writer.say("", List.of(frame.say("office.due-none")));
        }
        int shown = 0;
        for (Map.Entry<LocalDate, List<Cell[]>> day : byDay.entrySet()) {
            if (shown++ >= Shown.ROWS) {
                writer.say("", List.of(frame.say("office.plan-more", byDay.size() - Shown.ROWS)));
                break;
            }
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
                    Shown.page(day.getValue(), 0).stream().map(List::of).toList());
        }
        return writer.reply();
    }

    private void planned(Sheet.Writer writer, Frame frame, LocalDate today) {
        List<List<Cell>> rows = new ArrayList<>();
        for (Subject visit : office.records().subjects(Kind.VISIT, 10_000)) {
            if (!visit.text("date").isBlank()
                    && !LocalDate.parse(visit.text("date")).isBefore(today)) {
                rows.add(List.of(
                        Cell.of(frame.figures().day(LocalDate.parse(visit.text("date")))),
                        Shown.text(visit.text("clinic-name")),
                        Cell.link(visit.text("number"), "/visits/" + visit.id()),
                        Shown.text(visit.text("purpose"))));
            }
        }
        writer.table(
                frame.say("office.planned"),
                frame.say("office.planned-none"),
                List.of(
                        frame.say("office.day"),
                        frame.say("office.place"),
                        frame.say("office.visit"),
                        frame.say("office.purpose")),
                rows);
    }
}
