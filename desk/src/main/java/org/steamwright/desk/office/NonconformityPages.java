package org.steamwright.desk.office;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.TreeHead;

/**
 * Non-conformities from the day they are seen to the day they are closed. Each entry is a fact in the journal; one that is
 * closed can be opened again with a reason, and nothing of it is lost.
 */
final class NonconformityPages {

    /** Facts that are typed, in the order of the form; closing wants all of the last three. */
    static final List<String> FACTS =
            List.of("what", "risk", "act-at-once", "owner", "until", "cause", "correction", "evidence");

    private static final List<String> FOR_CLOSING = List.of("cause", "correction", "evidence");
    private static final int LONGEST = 4_000;
    private static final int ATTEMPTS = 8;
    private static final int CONFLICT = 409;

    private static final List<String> LINKS = List.of("visit", "sterilizer");

    private final Office office;
    private final NonconformityShelf shelf;

    NonconformityPages(Office office) {
        this.office = office;
        this.shelf = new NonconformityShelf(office.records());
    }

    Reply list(Ask ask) {
        return list(ask, "");
    }

    private Reply list(Ask ask, String problem) {
        Frame frame = ask.frame();
        List<NonconformityShelf.Line> all = shelf.all();
        List<NonconformityShelf.Line> open =
                all.stream().filter(one -> !one.isClosed()).toList();
        List<NonconformityShelf.Line> closed = new ArrayList<>(
                all.stream().filter(NonconformityShelf.Line::isClosed).toList());
        Collections.reverse(closed);
        boolean isOfClosed = ask.typed("state").equals("closed");
        int from = Shown.from(ask);
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.nonconformities"))
                .say("", List.of(frame.say("office.nonconformities-why")));
        rows(writer, frame, "office.open", open, isOfClosed ? 0 : from);
        Shown.pages(writer, frame, "/nonconformities?", isOfClosed ? 0 : from, open.size());
        rows(writer, frame, "office.closed", closed, isOfClosed ? from : 0);
        Shown.pages(writer, frame, "/nonconformities?state=closed&", isOfClosed ? from : 0, closed.size());
        return new Reply.Page(
                "office/nonconformities.jte",
                Map.of("sheet", writer.sheet(), "problem", problem, "about", typed(ask)),
                problem.isEmpty() ? 200 : 422);
    }

    private void rows(Sheet.Writer writer, Frame frame, String heading, List<NonconformityShelf.Line> some, int from) {
        LocalDate today = LocalDate.now(office.clock());
        writer.table(
                frame.say(heading),
                frame.say("office.nonconformities-none"),
                List.of(
                        frame.say("office.number"),
                        frame.say("office.nc-what"),
                        frame.say("office.nc-owner"),
                        frame.say("office.nc-until"),
                        frame.say("office.state")),
                Shown.page(some, from).stream()
                        .map(one -> List.of(
                                Cell.link(one.number(), "/nonconformities/" + one.id()),
                                Cell.of(one.what()),
                                Shown.text(one.owner()),
                                Cell.of(Shown.day(frame, one.until())),
                                Cell.of(state(one, today, frame))))
                        .toList());
    }

    private static String state(NonconformityShelf.Line one, LocalDate today, Frame frame) {
        if (one.isClosed()) {
            return frame.say("office.closed-on", Shown.day(frame, one.closed()));
        }
        Optional<LocalDate> until = day(one.until());
        return frame.say(
                until.filter(day -> day.isBefore(today)).isPresent() ? "office.open-late" : "office.still-open");
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return text.isBlank() ? Optional.empty() : Optional.of(LocalDate.parse(text));
        } catch (java.time.DateTimeException noDay) {
            return Optional.empty();
        }
    }

    static boolean isClosed(Subject one) {
        return !one.text("closed").isBlank();
    }

    Reply open(Ask ask) {
        if (ask.typed("what").isBlank() || ask.typed("owner").isBlank()) {
            return list(ask, ask.frame().say("office.nc-incomplete"));
        }
        Optional<String> problem = problem(ask);
        if (problem.isPresent()) {
            return list(ask, problem.get());
        }
        LocalDate today = LocalDate.now(office.clock());
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("opened", today.toString());
        for (String fact : FACTS) {
            if (!ask.typed(fact).isBlank()) {
                facts.put(fact, ask.typed(fact));
            }
        }
        for (String link : LINKS) {
            if (ask.typed(link).isBlank()) {
                continue;
            }
            List<Subject> found = named(link, ask.typed(link));
            if (found.size() != 1) {
                return list(
                        ask,
                        ask.frame()
                                .say(
                                        found.isEmpty() ? "office.nc-unknown-" + link : "office.nc-several",
                                        ask.typed(link)));
            }
            facts.put(link, found.get(0).id().toString());
        }
        if (!ask.typed("run").isBlank()) {
            if (!isRunOf(String.valueOf(facts.getOrDefault("visit", "")), ask.typed("run"))) {
                return list(ask, ask.frame().say("office.nc-unknown-run", ask.typed("run")));
            }
            facts.put("run", ask.typed("run"));
        }
        SubjectId id = office.records().newSubject();
        for (int attempt = 0; ; attempt++) {
            // a number is free as long as nothing came between the look and the entry
            TreeHead head = office.records().head().tree();
            facts.put("number", nextNumber(today.getYear()));
            List<Change> changes = new ArrayList<>();
            facts.forEach((fact, value) -> changes.add(Change.set(Kind.NONCONFORMITY, id, fact, value)));
            if (isKept(
                    new Submission(office.records().newSubmission(), ask.author(), changes, Optional.of(head)),
                    attempt)) {
                return new Reply.Next("/nonconformities/" + id);
            }
        }
    }

    private boolean isKept(Submission submission, int attempt) {
        try {
            office.records().append(submission);
            return true;
        } catch (RecordsException e) {
            if (e.id() == RecordsMessage.CHANGED_MEANWHILE && attempt < ATTEMPTS) {
                return false;
            }
            throw e;
        }
    }

    private String nextNumber(int year) {
        String start = "NC-" + year + "-";
        int last = shelf.all().stream()
                .map(NonconformityShelf.Line::number)
                .filter(number -> number.matches(start + "\\d{1,6}"))
                .mapToInt(number -> Integer.parseInt(number.substring(start.length())))
                .max()
                .orElse(0);
        return start + String.format(Locale.ROOT, "%03d", last + 1);
    }

    /** What was typed of the form, so that nobody has to type it again. */
    private static Map<String, String> typed(Ask ask) {
        Map<String, String> typed = new LinkedHashMap<>();
        for (String field : List.of("visit", "sterilizer", "run", "what", "risk", "act-at-once", "owner", "until")) {
            typed.put(field, ask.typed(field));
        }
        return typed;
    }

    /** The visit of a report number, the machine of a serial number, or either by its identity. */
    private List<Subject> named(String link, String typed) {
        Optional<Subject> known = subject(typed);
        if (known.isPresent()) {
            return List.of(known.get());
        }
        if (link.equals("visit")) {
            return office.drafts().find(typed).map(Draft::subject).stream().toList();
        }
        return office.records().exactly(Kind.STERILIZER, "serial", typed);
    }

    private boolean isRunOf(String visit, String run) {
        return run.matches("[1-9][0-9]{0,3}")
                && subject(visit)
                        .filter(one -> Integer.parseInt(run)
                                <= office.drafts().of(one.id()).count(FactPath.of("runs")))
                        .isPresent();
    }

    private Optional<Subject> subject(String id) {
        try {
            return id.isBlank() ? Optional.empty() : office.records().find(SubjectId.parse(id));
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    private static Optional<String> problem(Ask ask) {
        for (String fact : FACTS) {
            String typed = ask.typed(fact);
            if (typed.length() > LONGEST || typed.indexOf(0) >= 0) {
                return Optional.of(ask.frame().say("office.nc-too-long", LONGEST));
            }
        }
        return !ask.typed("until").isBlank() && day(ask.typed("until")).isEmpty()
                ? Optional.of(ask.frame().say("office.no-day"))
                : Optional.empty();
    }

    Reply one(Ask ask) {
        return one(ask, "", 200);
    }

    private Reply one(Ask ask, String problem) {
        return one(ask, problem, 422);
    }

    private Reply one(Ask ask, String problem, int status) {
        Frame frame = ask.frame();
        Optional<Subject> found = subject(ask.part("id")).filter(one -> one.kind() == Kind.NONCONFORMITY);
        if (found.isEmpty()) {
            return new Reply.Refusal(404, frame.say("office.nc-unknown"), frame.say("office.nc-unknown-remedy"));
        }
        Subject subject = found.get();
        List<List<Cell>> about = new ArrayList<>();
        for (String link : LINKS) {
            subject(subject.text(link))
                    .ifPresent(one -> about.add(List.of(
                            Cell.of(frame.say("office.kind-" + one.kind().word())),
                            Cell.link(FindPages.title(one), FindPages.path(one)))));
        }
        if (!subject.text("run").isBlank()) {
            about.add(List.of(
                    Cell.of(frame.say("office.run-head")),
                    Cell.link(
                            frame.say("office.run", subject.text("run")),
                            "/visits/" + subject.text("visit") + "/runs/" + subject.text("run"))));
        }
        List<List<Cell>> history = office.records().history(subject.id()).stream()
                .map(entry -> List.of(
                        Cell.of(frame.figures()
                                .day(entry.at().atOffset(entry.offset()).toLocalDate())),
                        Cell.of(entry.author().name()),
                        Cell.of(word(entry.property(), frame)),
                        Shown.text(
                                entry.newValue().isNull()
                                        ? ""
                                        : value(
                                                entry.property(),
                                                entry.newValue().plain(),
                                                frame)),
                        Shown.text(entry.why())))
                .toList();
        Sheet.Writer writer = new Sheet.Writer(subject.text("number"))
                .table(
                        frame.say("office.about"),
                        frame.say("office.about-none"),
                        List.of(frame.say("office.kind"), frame.say("office.name")),
                        about)
                .table(
                        frame.say("office.history"),
                        "",
                        List.of(
                                frame.say("office.day"),
                                frame.say("office.who"),
                                frame.say("office.fact"),
                                frame.say("office.value"),
                                frame.say("office.reason")),
                        history);
        boolean isMeanwhile = status == CONFLICT;
        Map<String, String> values = new LinkedHashMap<>();
        FACTS.forEach(fact -> values.put(
                fact,
                problem.isEmpty() || isMeanwhile || ask.chosen(fact).isEmpty() ? subject.text(fact) : ask.typed(fact)));
        if (isClosed(subject)) {
            // read and not typed any more
            values.computeIfPresent("until", (fact, day) -> day.isBlank() ? day : Shown.day(frame, day));
        }
        return new Reply.Page(
                "office/nonconformity.jte",
                Map.of(
                        "sheet",
                        writer.sheet(),
                        "id",
                        subject.id().toString(),
                        "values",
                        values,
                        "isClosed",
                        isClosed(subject),
                        "seen",
                        office.records().history(subject.id()).size(),
                        "problem",
                        problem),
                status);
    }

    private static String word(String fact, Frame frame) {
        return frame.words()
                .find("office.nc-" + fact)
                .or(() -> frame.words().find("office.kind-" + fact))
                .or(() -> frame.words().find("office." + fact))
                .orElse(fact);
    }

    private String value(String fact, String value, Frame frame) {
        if (List.of("opened", "until", "closed").contains(fact)) {
            return Shown.day(frame, value);
        }
        return LINKS.contains(fact) ? subject(value).map(FindPages::title).orElse(value) : value;
    }

    Reply change(Ask ask) {
        Optional<Subject> found = subject(ask.part("id")).filter(one -> one.kind() == Kind.NONCONFORMITY);
        Optional<String> problem = problem(ask);
        if (found.isEmpty() || problem.isPresent() || isClosed(found.get())) {
            return one(ask, problem.orElse(ask.frame().say("office.nc-is-closed")));
        }
        Subject subject = found.get();
        if (isMeanwhile(ask, subject)) {
            return one(ask, ask.frame().say("office.changed-meanwhile"), CONFLICT);
        }
        List<Change> changes = new ArrayList<>();
        for (String fact : FACTS) {
            String typed = ask.typed(fact);
            if (!typed.equals(subject.text(fact)) && !(typed.isBlank() && fact.equals("what"))) {
                changes.add(Change.set(
                                Kind.NONCONFORMITY,
                                subject.id(),
                                fact,
                                typed.isBlank() ? JsonText.NULL : JsonText.of(typed))
                        .expecting(subject.fact(fact).orElse(JsonText.NULL)));
            }
        }
        if (!changes.isEmpty()) {
            office.records().append(ask.author(), changes);
        }
        return new Reply.Next("/nonconformities/" + subject.id());
    }

    /** Whether it was changed since the page was made from which this comes; a page without that mark is believed. */
    private boolean isMeanwhile(Ask ask, Subject subject) {
        String seen = ask.typed("seen");
        return !seen.isBlank()
                && !seen.equals(
                        String.valueOf(office.records().history(subject.id()).size()));
    }

    Reply close(Ask ask) {
        Frame frame = ask.frame();
        Optional<Subject> found = subject(ask.part("id")).filter(one -> one.kind() == Kind.NONCONFORMITY);
        if (found.isEmpty()) {
            return one(ask);
        }
        Subject subject = found.get();
        if (isMeanwhile(ask, subject)) {
            return one(ask, frame.say("office.changed-meanwhile"), CONFLICT);
        }
        boolean isAgain = isClosed(subject);
        if (isAgain && ask.typed("reason").isBlank()) {
            return one(ask, frame.say("office.nc-reason-missing"));
        }
        List<String> missing = FOR_CLOSING.stream()
                .filter(fact -> subject.text(fact).isBlank())
                .map(fact -> frame.say("office.nc-" + fact))
                .toList();
        if (!isAgain && !missing.isEmpty()) {
            return one(ask, frame.say("office.nc-not-closable", String.join(", ", missing)));
        }
        office.records()
                .append(
                        ask.author(),
                        List.of(Change.set(
                                        Kind.NONCONFORMITY,
                                        subject.id(),
                                        "closed",
                                        isAgain
                                                ? JsonText.NULL
                                                : JsonText.of(LocalDate.now(office.clock())
                                                        .toString()))
                                .because(ask.typed("reason"))));
        return new Reply.Next("/nonconformities/" + subject.id());
    }
}
