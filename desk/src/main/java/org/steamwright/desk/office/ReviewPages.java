package org.steamwright.desk.office;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.fleet.FigureReading;
import org.steamwright.visit.state.VisitState;

/**
 * The reviewer's pages: what is out of the ordinary first, then what differs from the visit before, each recording one step
 * away. An answer names the facts that it is about by their hash; when they change it no longer stands.
 */
final class ReviewPages {

    static final String REVIEW = "review";
    static final String APPROVED = "approved";
    static final String SENT_BACK = "sent back";

    private static final int LONGEST = 2_000;
    /** Visits that are assessed before the list is shown. */
    private static final int AT_ONCE = 24;

    private final Office office;

    ReviewPages(Office office) {
        this.office = office;
    }

    /** Hash of the facts of a visit without the answers of reviewers. */
    static String hash(Subject visit) {
        TreeMap<String, JsonText> facts = new TreeMap<>(visit.facts());
        facts.remove(REVIEW);
        return Hash.ofBytes(Hash.sha256()
                        .digest(new Subject(visit.id(), visit.kind(), facts)
                                .toJson()
                                .text()
                                .getBytes(StandardCharsets.UTF_8)))
                .hex();
    }

    /** How a visit stands with its reviewer, in a word of the texts. */
    private static String standing(Subject visit) {
        Optional<JsonText> review = visit.fact(REVIEW).filter(value -> !value.isNull());
        if (review.isEmpty()) {
            return "office.review-waits";
        }
        if (!review.get().node().path("of").asText().equals(hash(visit))) {
            return "office.review-outdated";
        }
        return review.get().node().path("answer").asText().equals(APPROVED)
                ? "office.review-approved"
                : "office.review-sent-back";
    }

    Reply list(Ask ask) throws IOException {
        Frame frame = ask.frame();
        long waiting = office.results().catchUp(AT_ONCE);
        List<List<Cell>> rows = new ArrayList<>();
        List<VisitResult> open = office.results().book().open(Shown.ROWS);
        Map<SubjectId, VisitResult> results = new HashMap<>();
        open.forEach(result -> results.put(result.visit(), result));
        for (Subject visit :
                office.records().subjects(open.stream().map(VisitResult::visit).toList())) {
            Optional<VisitResult> result = Optional.ofNullable(results.get(visit.id()));
            String word = result.map(VisitResult::standing).orElse("");
            rows.add(List.of(
                    Cell.link(visit.text("number"), "/review/" + visit.id()),
                    Shown.text(visit.text("clinic-name")),
                    Cell.of(visit.text("date")),
                    Cell.verdict(frame, word.isBlank() ? "not assessed" : word),
                    word.isBlank()
                            ? Shown.reason(frame, result.map(VisitResult::why).orElse(VisitResult.Reason.NONE))
                            : Cell.figure(Integer.toString(
                                    result.map(VisitResult::exceptions).orElse(0))),
                    Cell.of(frame.say(standing(visit)))));
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
        assessed.visit().remarks().stream()
                .filter(remark -> remark.rank() != Rank.NOTE)
                .forEach(remark -> rows.add(List.of(
                        Cell.of(frame.say("office.remark")),
                        Cell.of(remark.where()),
                        Cell.of(frame.hear(remark.id() + " " + remark.text())))));
        plain(rows, frame.say("office.deviation"), assessed.visit().deviations());
        plain(rows, frame.say("office.not-tested"), assessed.visit().notTested());
        assessed.openPoints()
                .forEach(point -> rows.add(
                        List.of(Cell.of(frame.say("office.open-point")), Cell.of("–"), Cell.of(frame.hear(point)))));
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
        AssessedVisit assessed = office.visits().of(visit);
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.review-of", visit.text("number")))
                .hear("", assessed.summary().stream().map(frame::hear).toList())
                .table(
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
        boolean isOwn = assessed.visit().people().stream()
                .anyMatch(person -> person.name().equals(ask.person().name()));
        return new Reply.Page(
                "office/review.jte",
                Map.of(
                        "sheet",
                        writer.sheet(),
                        "id",
                        visit.id().toString(),
                        "standing",
                        frame.say(standing(visit)),
                        "said",
                        visit.fact(REVIEW)
                                .filter(value -> !value.isNull())
                                .map(value -> value.node().path("by").asText() + ": "
                                        + value.node().path("why").asText())
                                .orElse(""),
                        "isOwn",
                        isOwn,
                        "isSealed",
                        office.records().isSealed(visit.id()),
                        "problem",
                        problem),
                problem.isEmpty() ? 200 : 422);
    }

    /** Against the last earlier visit of each steriliser, the figure that lost most of its margin first. */
    private void differences(Sheet.Writer writer, Subject visit, AssessedVisit assessed, Frame frame)
            throws IOException {
        List<List<Cell>> rows = new ArrayList<>();
        List<String> facts = new ArrayList<>();
        Optional<AssessedVisit> earlier = earlier(visit);
        if (earlier.isPresent()) {
            AssessedVisit before = earlier.get();
            compare(facts, frame, "office.criteria-set", name(before), name(assessed));
            compare(
                    facts,
                    frame,
                    "office.instruments",
                    String.join(
                            ", ",
                            before.visit().instruments().keySet().stream()
                                    .sorted()
                                    .toList()),
                    String.join(
                            ", ",
                            assessed.visit().instruments().keySet().stream()
                                    .sorted()
                                    .toList()));
            Map<String, FigureReading> then = new LinkedHashMap<>();
            FigureReading.of(before).forEach(one -> then.put(key(one), one));
            record Pair(FigureReading then, FigureReading now) {
                double lost() {
                    return now.limit().margin(now.value()) - then.limit().margin(then.value());
                }
            }
            List<Pair> pairs = new ArrayList<>();
            for (FigureReading now : FigureReading.of(assessed)) {
                Optional.ofNullable(then.get(key(now))).ifPresent(one -> pairs.add(new Pair(one, now)));
            }
            pairs.stream()
                    .sorted(Comparator.comparingDouble((Pair pair) -> pair.lost()
                            / Math.max(1e-9, Math.abs(pair.now.limit().value()))))
                    .forEach(pair -> rows.add(List.of(
                            Cell.of(pair.now.serial()),
                            Shown.text(pair.now.cycle()),
                            Cell.link(
                                    frame.heard(pair.now.figure().title()),
                                    "/visits/" + visit.id() + "/runs/" + pair.now.run()),
                            Cell.figure(shown(pair.then, frame)),
                            Cell.figure(shown(pair.now, frame)),
                            Cell.figure(frame.figures().of(pair.now.limit().toString())))));
        }
        writer.say(
                frame.say("office.differences"),
                earlier.isPresent() ? facts : List.of(frame.say("office.differences-none")));
        if (!rows.isEmpty()) {
            writer.table(
                    "",
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

    private static String name(AssessedVisit assessed) {
        return assessed.visit().criteriaSet().name() + " "
                + assessed.visit().criteriaSet().version();
    }

    private static void compare(List<String> facts, Frame frame, String key, String before, String now) {
        if (!before.equals(now)) {
            facts.add(frame.say("office.changed", frame.say(key), before, now));
        }
    }

    private static String key(FigureReading one) {
        return one.serial() + "\n" + one.cycle() + "\n" + one.figure().word() + "\n"
                + one.limit().comparison();
    }

    private static String shown(FigureReading one, Frame frame) {
        return frame.figures()
                .of(Figures.shown(one.value(), one.limit().unit(), one.limit().comparison()));
    }

    private Optional<AssessedVisit> earlier(Subject visit) throws IOException {
        VisitStates states = new VisitStates(office.records());
        List<StatedVisit> all = new ArrayList<>();
        visit.fact("sterilizer")
                .ifPresent(list ->
                        list.node().forEach(id -> all.addAll(states.ofSterilizer(SubjectId.parse(id.asText())))));
        all.sort(Comparator.comparing((StatedVisit one) -> one.visit().text("date"))
                .reversed());
        for (StatedVisit one : all) {
            boolean isBefore = one.visit().text("date").compareTo(visit.text("date")) < 0;
            if (isBefore && (one.state() == VisitState.OPEN || one.state().isOut())) {
                Optional<AssessedVisit> assessed = assessed(one.visit());
                if (assessed.isPresent()) {
                    return assessed;
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
        Map<String, String> review = new LinkedHashMap<>();
        review.put("answer", isApproved ? APPROVED : SENT_BACK);
        review.put("by", ask.person().name());
        review.put("on", LocalDate.now(office.clock()).toString());
        review.put("of", hash(visit));
        review.put("why", why);
        office.records()
                .append(
                        ask.author(),
                        List.of(Change.set(Kind.VISIT, visit.id(), REVIEW, JsonText.of(review))
                                .because(why)));
        return new Reply.Next("/review");
    }
}
