package org.steamwright.desk.office;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.Review;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Corrected;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.Results;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.TiedMachines;
import org.steamwright.filing.VisitStates;
import org.steamwright.filing.fleet.FigureReading;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issue;
import org.steamwright.report.document.Issued.Difference;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.state.VisitState;

/**
 * The reviewer's pages: what is out of the ordinary first, then what differs from the visit before, each recording one step
 * away. An answer names the facts that it is about by their hash; when they change it no longer stands.
 */
final class ReviewPages {

    private static final int LONGEST = 2_000;
    /** Visits that are assessed before the list is shown. */
    private static final int AT_ONCE = 24;

    private static final Pattern RUN = Pattern.compile("Run (\\d{1,4})\\b");

    private final Office office;

    ReviewPages(Office office) {
        this.office = office;
    }

    /** How a visit stands with its reviewer, in a word of the texts. */
    private static String standing(Subject visit) {
        return Review.of(visit)
                .map(review -> !review.isCurrent()
                        ? "office.review-outdated"
                        : review.isApproval() ? "office.review-approved" : "office.review-sent-back")
                .orElse("office.review-waits");
    }

    Reply list(Ask ask) throws IOException {
        Frame frame = ask.frame();
        long waiting = office.results().catchUp(AT_ONCE);
        List<List<Cell>> rows = new ArrayList<>();
        // a visit of a day to come waits for its day and for nobody's review
        String today = LocalDate.now(office.clock()).toString();
        List<VisitResult> open = office.results().book().open(Shown.ROWS).stream()
                .filter(result -> result.day().compareTo(today) <= 0)
                .toList();
        Map<SubjectId, VisitResult> results = new HashMap<>();
        open.forEach(result -> results.put(result.visit(), result));
        for (Subject visit :
                office.records().subjects(open.stream().map(VisitResult::visit).toList())) {
            Optional<VisitResult> result = Optional.ofNullable(results.get(visit.id()));
            String word = result.map(VisitResult::standing).orElse("");
            rows.add(List.of(
                    Cell.link(visit.text("number"), "/review/" + visit.id()),
                    Shown.text(visit.text("clinic-name")),
                    Cell.day(Shown.day(frame, visit.text("date"))),
                    Cell.verdict(frame, word.isBlank() ? "not assessed" : word),
                    word.isBlank()
                            ? notReady(result.map(VisitResult::why).orElse(VisitResult.Reason.NONE), frame)
                            : Cell.figure(Integer.toString(
                                    result.map(VisitResult::exceptions).orElse(0))),
                    Cell.of(frame.say(
                            word.isBlank() && Review.of(visit).isEmpty()
                                    ? "office.review-writing"
                                    : standing(visit)))));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.review"))
                .say("", List.of(frame.say("office.review-why")))
                .table(
                        "",
                        frame.say("office.review-none"),
                        List.of(
                                frame.say("office.visit"),
                                frame.say("office.place"),
                                frame.say("office.day"),
                                frame.say("office.standing"),
                                frame.say("office.exceptions"),
                                frame.say("office.state")),
                        rows);
        if (waiting > 0) {
            writer.say("", List.of(frame.say("office.results-wait", waiting)));
        }
        return writer.reply();
    }

    /** Facts that are still missing are told at the visit; what is damaged is told here too. */
    private static Cell notReady(VisitResult.Reason why, Frame frame) {
        return why.place().isBlank() && !why.text().isBlank()
                ? Shown.reason(frame, why)
                : Cell.of(frame.say("office.review-not-ready"));
    }

    private List<List<Cell>> exceptions(Subject visit, AssessedVisit assessed, Frame frame) {
        List<List<Cell>> rows = new ArrayList<>();
        for (AssessedRun run : assessed.runs()) {
            String path = "/visits/" + visit.id() + "/runs/" + run.run().number();
            String title = frame.say("office.run", run.run().number());
            if (!run.isPass()) {
                rows.add(List.of(
                        Cell.verdict(frame, run.word()), Cell.link(title, path), Cell.of(frame.hear(run.cause()))));
            } else if (!run.evaluation().guardedVerdict().isPass()) {
                rows.add(List.of(
                        Cell.of(frame.say("office.narrow")),
                        Cell.link(title, path),
                        Cell.of(frame.hear(run.evaluation().guardedVerdict().cause()))));
            }
        }
        kept(rows, assessed, frame);
        assessed.visit().remarks().stream()
                .filter(remark -> remark.rank() != Rank.NOTE)
                .forEach(remark -> rows.add(List.of(
                        Cell.of(frame.say("office.remark")),
                        Cell.of(ProblemText.place(frame, remark)),
                        Cell.of(frame.hear(remark.text())))));
        plain(rows, frame.say("office.deviation"), assessed.visit().deviations());
        plain(rows, frame.say("office.not-tested"), assessed.visit().notTested());
        assessed.openPoints().stream()
                // the cause of a run that does not pass stands with its run
                .filter(point -> assessed.runs().stream().noneMatch(run -> run.isToldBy(point)))
                .forEach(point -> rows.add(List.of(
                        Cell.of(frame.say("office.open-point")),
                        at(visit, point, frame),
                        Cell.of(ProblemText.ofPoint(frame, point, assessed.doubts())))));
        long late = office.records().history(visit.id()).stream()
                .filter(JournalEntry::isLate)
                .count();
        long setBack = office.records().history(visit.id()).stream()
                .filter(JournalEntry::isClockSetBack)
                .count();
        if (late > 0) {
            plain(rows, frame.say("office.journal"), List.of(frame.say("office.late-entries", late)));
        }
        if (setBack > 0) {
            plain(rows, frame.say("office.journal"), List.of(frame.say("office.clock-set-back", setBack)));
        }
        return rows;
    }

    /** The recording of the run that an open point speaks of, one step away. */
    private static Cell at(Subject visit, String point, Frame frame) {
        Matcher run = RUN.matcher(point);
        return run.lookingAt()
                ? Cell.link(frame.say("office.run", run.group(1)), "/visits/" + visit.id() + "/runs/" + run.group(1))
                : Cell.of("–");
    }

    /** Name plates that nobody read or that are others, runs set aside, recordings taken away, other criteria sets. */
    private static void kept(List<List<Cell>> rows, AssessedVisit assessed, Frame frame) {
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            Optional<NamePlate> read = sterilizer.plate().filter(NamePlate::isRead);
            if (read.isEmpty()) {
                row(rows, frame, "office.plate", sterilizer.serial(), frame.say("office.plate-unread"));
            } else if (sterilizer.findOtherSerial().isPresent()) {
                row(
                        rows,
                        frame,
                        "office.plate",
                        sterilizer.serial(),
                        frame.say("office.plate-differs", read.get().serial()));
            }
        }
        for (AssessedRun run : assessed.runs()) {
            String at = frame.say("office.run", run.run().number());
            run.run()
                    .setAside()
                    .ifPresent(aside -> rows.add(List.of(
                            Cell.of(frame.say("office.set-aside")),
                            Cell.of(at),
                            Cell.of(frame.hear(aside.sentence())))));
            run.run()
                    .takenAway()
                    .forEach(away -> rows.add(List.of(
                            Cell.of(frame.say("office.taken-away")),
                            Cell.of(at),
                            Cell.of(frame.hear(away.sentence())))));
        }
        assessed.visit()
                .setChanges()
                .forEach(change -> rows.add(List.of(
                        Cell.of(frame.say("office.set-changed")),
                        Cell.of("–"),
                        Cell.of(frame.hear(change.sentence())))));
    }

    private static void row(List<List<Cell>> rows, Frame frame, String kind, String at, String text) {
        rows.add(List.of(Cell.of(frame.say(kind)), Cell.of(at), Cell.of(text)));
    }

    private static void plain(List<List<Cell>> rows, String kind, List<String> texts) {
        texts.forEach(text -> rows.add(List.of(Cell.of(kind), Cell.of("–"), Cell.of(text))));
    }

    private Optional<Subject> visit(Ask ask) {
        try {
            return office.records()
                    .find(SubjectId.parse(ask.part("visit")))
                    .filter(subject -> subject.kind() == Kind.VISIT);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    Reply one(Ask ask) throws IOException, FilingException, VisitFolderException {
        return one(ask, "");
    }

    private Reply one(Ask ask, String problem) throws IOException, FilingException, VisitFolderException {
        Frame frame = ask.frame();
        Optional<Subject> found = visit(ask);
        if (found.isEmpty()) {
            return new Reply.Refusal(404, frame.say("office.visit-unknown"), frame.say("office.visit-unknown-remedy"));
        }
        Subject visit = found.get();
        DraftReading reading = office.drafts().of(visit.id()).read();
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.review-of", visit.text("number")));
        unfinished(writer, visit, reading, frame);
        if (reading.assessed().isEmpty()) {
            return page(ask, visit, writer.sheet(), problem, Hurdle.UNFINISHED);
        }
        AssessedVisit assessed = reading.assessed().get();
        writer.hear("", assessed.summary().stream().map(frame::hear).toList());
        corrected(writer, visit, assessed, frame);
        writer.table(
                frame.say("office.exceptions"),
                frame.say("office.exceptions-none"),
                List.of(frame.say("office.kind"), frame.say("office.at"), frame.say("office.what")),
                exceptions(visit, assessed, frame));
        differences(writer, visit, assessed, frame);
        List<List<Cell>> runs = assessed.runs().stream()
                .map(run -> List.of(
                        Cell.link(
                                frame.say("office.run", run.run().number()),
                                "/visits/" + visit.id() + "/runs/" + run.run().number()),
                        Cell.of(run.run().test().cycle().name()),
                        Cell.verdict(frame, run.word())))
                .toList();
        writer.table(
                frame.say("office.recordings"),
                frame.say("office.recordings-none"),
                List.of(frame.say("office.run-head"), frame.say("office.cycle"), frame.say("office.verdict")),
                runs);
        return page(ask, visit, writer.sheet(), problem, Hurdle.of(reading));
    }

    /** What stands in the way of an approval. */
    private enum Hurdle {
        NONE,
        /** Points are open: it takes a reason. */
        OPEN_POINTS,
        /** Entries are not finished, or nothing can be assessed: nobody can sign it, so there is nothing to approve. */
        UNFINISHED;

        static Hurdle of(DraftReading reading) {
            if (!reading.isWhole()) {
                return UNFINISHED;
            }
            return reading.assessed()
                            .filter(assessed -> !assessed.openPoints().isEmpty())
                            .isPresent()
                    ? OPEN_POINTS
                    : NONE;
        }
    }

    /** Entries that somebody began; each leads to its visit. */
    private static void unfinished(Sheet.Writer writer, Subject visit, DraftReading reading, Frame frame) {
        if (reading.isWhole()) {
            return;
        }
        writer.table(
                frame.say("office.review-unfinished-head"),
                "",
                List.of(frame.say("office.at"), frame.say("office.what")),
                reading.problems().stream()
                        .map(problem -> List.of(
                                Cell.link(ProblemText.place(frame, problem).text(), "/visits/" + visit.id()),
                                Cell.of(ProblemText.what(frame, problem))))
                        .toList());
    }

    /** What a correction changes against the issue that it corrects, computed. */
    private void corrected(Sheet.Writer writer, Subject visit, AssessedVisit assessed, Frame frame) throws IOException {
        Corrected corrected = new Corrected(office.records());
        Optional<Issue> before = corrected.corrects(visit);
        if (before.isEmpty()) {
            return;
        }
        StatedVisit stated = new VisitStates(office.records()).of(visit);
        Optional<JsonText> result = corrected.signedResult(stated);
        List<Difference> differences =
                corrected.differences(visit, result.isPresent() ? result : Optional.of(Results.of(assessed)));
        writer.say(
                frame.say("office.corrected", before.get().number()),
                List.of(frame.say(
                        "office.corrected-why",
                        visit.fact("amends")
                                .map(amends -> amends.node().path("reason").asText())
                                .orElse(""))));
        List<List<Cell>> rows = differences.stream()
                .map(one -> List.of(
                        Cell.of(frame.say(one.isResult() ? "office.corrected-result" : "office.corrected-fact")),
                        Cell.of(where(frame, one)),
                        Cell.of(said(frame, one.before())),
                        Cell.of(said(frame, one.after()))))
                .toList();
        writer.table(
                "",
                frame.say("office.corrected-none"),
                List.of(
                        frame.say("office.kind"),
                        frame.say("office.at"),
                        frame.say("office.then"),
                        frame.say("office.now")),
                rows);
    }

    /** That nothing was said is a part of the comparison, so it is a word. */
    private static String said(Frame frame, List<String> texts) {
        return texts.isEmpty() ? frame.say("office.corrected-nothing") : Shown.parts(frame, texts, "; ");
    }

    private static String where(Frame frame, Difference one) {
        String places = one.apart().stream()
                .map(place -> Shown.parts(frame, place, ", "))
                .collect(Collectors.joining("; "));
        return one.common().isEmpty() ? places : frame.say("office.corrected-at", frame.heard(one.common()), places);
    }

    private Reply page(Ask ask, Subject visit, Sheet sheet, String problem, Hurdle hurdle) {
        Frame frame = ask.frame();
        return new Reply.Page(
                "office/review.jte",
                Map.of(
                        "sheet",
                        sheet,
                        "hurdle",
                        hurdle == Hurdle.NONE
                                ? ""
                                : "office.review-" + (hurdle == Hurdle.UNFINISHED ? "unfinished" : "open"),
                        "id",
                        visit.id().toString(),
                        "standing",
                        frame.say(
                                office.records().isSealed(visit.id())
                                                && Review.of(visit).isEmpty()
                                        ? "office.review-not-made"
                                        : standing(visit)),
                        "said",
                        Review.of(visit)
                                .map(review -> review.by() + ": " + review.why())
                                .orElse(""),
                        "own",
                        isOwn(visit, ask)
                                ? (office.rules().isWithUsers() ? "office.review-own-not" : "office.review-own")
                                : "",
                        "seen",
                        Review.hash(visit),
                        "isSealed",
                        office.records().isSealed(visit.id()),
                        "problem",
                        problem),
                problem.isEmpty() ? 200 : 422);
    }

    /** Whether the person of this session has a part in the visit, or wrote any of it. */
    private boolean isOwn(Subject visit, Ask ask) {
        String name = ask.person().name();
        Draft draft = office.drafts().of(visit.id());
        FactPath people = FactPath.of("people");
        boolean isNamed = IntStream.rangeClosed(1, draft.count(people))
                .mapToObj(people::then)
                .filter(one -> !draft.text(one.then("role")).equals("reviewer"))
                .anyMatch(one -> draft.text(one.then("name")).equals(name));
        return isNamed
                || office.records().history(visit.id()).stream()
                        .filter(entry -> Review.isOfFacts(entry.property()))
                        .anyMatch(entry -> entry.author().name().equals(name));
    }

    /** An earlier visit to a machine, and the key that the machine has there. */
    private record Before(Subject visit, AssessedVisit assessed, String key) {}

    /** Against the last earlier visit of each steriliser by its own facts; then the figure that lost most of its margin first. */
    private void differences(Sheet.Writer writer, Subject visit, AssessedVisit assessed, Frame frame)
            throws IOException {
        record Pair(String serial, FigureReading then, FigureReading now) {
            double lost() {
                return now.limit().margin(now.value()) - then.limit().margin(then.value());
            }
        }
        List<Pair> pairs = new ArrayList<>();
        TiedMachines tied = TiedMachines.of(visit, assessed.visit(), office.records());
        for (Sterilizer machine : assessed.visit().sterilizers()) {
            Optional<Subject> known = tied.find(machine.key());
            Optional<Before> earlier = known.isEmpty()
                    ? Optional.empty()
                    : earlier(visit, known.get().id());
            String heading = assessed.visit().sterilizers().size() == 1
                    ? frame.say("office.differences")
                    : frame.say("office.differences-of", machine.serial());
            if (earlier.isEmpty()) {
                writer.say(heading, List.of(frame.say("office.differences-none")));
                continue;
            }
            AssessedVisit before = earlier.get().assessed();
            writer.say(
                    heading,
                    List.of(frame.say(
                            "office.differences-from",
                            earlier.get().visit().text("number"),
                            Shown.day(frame, earlier.get().visit().text("date")))));
            writer.links(new Sheet.Link(
                    frame.say("office.differences-open", earlier.get().visit().text("number")),
                    "/visits/" + earlier.get().visit().id()));
            Map<String, String> then = VisitFeatures.of(
                    before, earlier.get().visit(), earlier.get().key(), frame);
            List<List<Cell>> facts = new ArrayList<>();
            VisitFeatures.of(assessed, visit, machine.key(), frame)
                    .forEach((key, now) -> compare(
                            facts,
                            frame.say(key),
                            then.getOrDefault(key, ""),
                            now,
                            frame.say("office.corrected-nothing")));
            writer.table(
                    "",
                    frame.say("office.differences-no-other"),
                    List.of(frame.say("office.what"), frame.say("office.then"), frame.say("office.now")),
                    facts);
            Map<String, FigureReading> figures = new LinkedHashMap<>();
            FigureReading.of(before).stream()
                    .filter(one -> one.sterilizer().equals(earlier.get().key()))
                    .forEach(one -> figures.put(key(one), one));
            for (FigureReading figure : FigureReading.of(assessed)) {
                if (figure.sterilizer().equals(machine.key())) {
                    Optional.ofNullable(figures.get(key(figure)))
                            .ifPresent(one -> pairs.add(new Pair(machine.serial(), one, figure)));
                }
            }
        }
        List<List<Cell>> rows = pairs.stream()
                .sorted(Comparator.comparingDouble((Pair pair) ->
                        pair.lost() / Math.max(1e-9, Math.abs(pair.now.limit().value()))))
                .map(pair -> List.of(
                        Cell.of(pair.serial),
                        Shown.text(pair.now.cycle()),
                        Cell.link(
                                frame.heard(pair.now.figure().title()),
                                "/visits/" + visit.id() + "/runs/" + pair.now.run()),
                        Cell.figure(shown(pair.then, frame)),
                        Cell.figure(shown(pair.now, frame)),
                        Cell.figure(frame.figures().of(pair.now.limit().toString()))))
                .toList();
        if (!rows.isEmpty()) {
            writer.table(
                    frame.say("office.differences-figures"),
                    "",
                    List.of(
                            frame.say("office.serial"),
                            frame.say("office.cycle"),
                            frame.say("office.figure"),
                            frame.say("office.then"),
                            frame.say("office.now"),
                            frame.say("office.limit")),
                    rows);
        }
    }

    private static void compare(List<List<Cell>> facts, String what, String before, String now, String nothing) {
        if (!before.equals(now)) {
            facts.add(List.of(
                    Cell.of(FleetPages.sentence(what)),
                    Cell.of(before.isBlank() ? nothing : before),
                    Cell.of(now.isBlank() ? nothing : now)));
        }
    }

    private static String key(FigureReading one) {
        return one.cycle() + "\n" + one.figure().word() + "\n" + one.limit().comparison();
    }

    private static String shown(FigureReading one, Frame frame) {
        return frame.figures()
                .of(Figures.shown(one.value(), one.limit().unit(), one.limit().comparison()));
    }

    /** The last visit to a steriliser before the day of this one that can be assessed; those that are gone do not count. */
    private Optional<Before> earlier(Subject visit, SubjectId machine) throws IOException {
        for (StatedVisit one : new VisitStates(office.records()).ofSterilizer(machine)) {
            boolean isBefore = one.visit().text("date").compareTo(visit.text("date")) < 0;
            if (isBefore && (one.state() == VisitState.OPEN || one.state().isOut())) {
                Optional<AssessedVisit> assessed = assessed(one.visit());
                Optional<String> key =
                        assessed.flatMap(then -> TiedMachines.of(one.visit(), then.visit(), office.records())
                                .key(machine));
                if (key.isPresent()) {
                    return Optional.of(new Before(one.visit(), assessed.get(), key.get()));
                }
            }
        }
        return Optional.empty();
    }

    /** What follows from a visit; empty while its facts can't be read as one. */
    private Optional<AssessedVisit> assessed(Subject visit) throws IOException {
        try {
            return Optional.of(office.visits().of(visit));
        } catch (FilingException | VisitFolderException incomplete) {
            return Optional.empty();
        }
    }

    Reply answer(Ask ask) throws IOException, FilingException, VisitFolderException {
        Frame frame = ask.frame();
        Optional<Subject> found = visit(ask);
        String answer = ask.typed("answer");
        String why = ask.typed("why");
        if (found.isEmpty() || !List.of("approve", "send-back").contains(answer)) {
            return one(ask, frame.say("office.review-no-answer"));
        }
        boolean isApproved = answer.equals("approve");
        if (!isApproved && why.isBlank()) {
            return one(ask, frame.say("office.review-reason-missing"));
        }
        if (why.length() > LONGEST || why.indexOf(0) >= 0) {
            return one(ask, frame.say("office.nc-too-long", LONGEST));
        }
        Subject visit = found.get();
        if (!ask.typed("seen").equals(Review.hash(visit))) {
            return one(ask, frame.say("office.review-changed"));
        }
        if (isApproved && office.rules().isWithUsers() && isOwn(visit, ask)) {
            return one(ask, frame.say("office.review-own-not"));
        }
        Hurdle hurdle = isApproved ? Hurdle.of(office.drafts().of(visit.id()).read()) : Hurdle.NONE;
        if (hurdle == Hurdle.UNFINISHED) {
            return one(ask, frame.say("office.review-unfinished"));
        }
        if (hurdle == Hurdle.OPEN_POINTS && why.isBlank()) {
            return one(ask, frame.say("office.review-open"));
        }
        Map<String, String> review = new LinkedHashMap<>();
        review.put("answer", isApproved ? Review.APPROVED : Review.SENT_BACK);
        review.put("by", ask.person().name());
        review.put("on", LocalDate.now(office.clock()).toString());
        review.put("of", Review.hash(visit));
        review.put("why", why);
        office.records()
                .append(
                        ask.author(),
                        List.of(Change.set(Kind.VISIT, visit.id(), Review.FACT, JsonText.of(review))
                                .because(why)));
        return new Reply.Next("/review");
    }
}
