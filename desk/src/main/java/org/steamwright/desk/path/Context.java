package org.steamwright.desk.path;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.desk.shelf.ReadOutText;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.ReadOut;
import org.steamwright.intake.folder.ShippedTaskLists;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Doubt;
import org.steamwright.visit.OpenPoint;
import org.steamwright.visit.Where;
import org.steamwright.visit.job.TaskList;

/**
 * What stands beside the work.
 *
 * @param missing what is missing before anybody signs, each with the place where it is mended
 * @param isComplete whether the recordings were looked at for it, and not only the typed facts
 * @param awaited indicators that are still to be read, in words
 * @param coming what comes, in words
 */
public record Context(List<Missing> missing, boolean isComplete, List<String> awaited, List<String> coming) {

    /**
     * One thing that is missing.
     *
     * @param text what
     * @param href where it is mended
     */
    public record Missing(Told text, String href) {}

    public Context {
        missing = List.copyOf(missing);
        awaited = List.copyOf(awaited);
        coming = List.copyOf(coming);
    }

    static Context of(Draft draft, Frame frame, Optional<DraftReading> reading, List<DraftProblem> glance)
            throws IOException, FilingException {
        String visit = address(draft);
        List<Missing> missing = gates(draft, frame, visit);
        missing.addAll(unchecked(draft, frame, visit));
        reading.map(DraftReading::problems)
                .orElse(glance)
                .forEach(problem ->
                        missing.add(new Missing(ProblemText.of(frame, problem), visit + "/" + place(problem, draft))));
        reading.flatMap(DraftReading::assessed)
                .ifPresent(assessed -> assessed.points().stream()
                        .filter(point -> !isSaidAbove(point, assessed, draft))
                        .forEach(point -> missing.add(new Missing(
                                ProblemText.ofPoint(frame, point.sentence(), assessed.doubts()),
                                visit + "/" + place(point, assessed, draft)))));
        return new Context(missing, reading.isPresent(), awaited(draft, frame), coming(draft, frame, reading));
    }

    /** Address of a visit. */
    static String address(Draft draft) {
        return "/visits/" + draft.id();
    }

    private static List<Missing> gates(Draft draft, Frame frame, String visit) {
        List<Missing> missing = new ArrayList<>();
        for (Gate gate : Gate.of(draft)) {
            if (!gate.isOpen()) {
                missing.add(new Missing(
                        Told.asItIs(frame.say("path." + gate.words(), gate.parts())),
                        visit + "/" + Stage.IDENTITY.word() + "#" + Field.id(gate.path())));
            }
        }
        return missing;
    }

    /** Instruments that measured and were not looked at again, with the first field that wants it. */
    private static List<Missing> unchecked(Draft draft, Frame frame, String visit) throws IOException, FilingException {
        List<Missing> missing = new ArrayList<>();
        if (!draft.isSigned() && draft.count(FactPath.of("runs")) > 0) {
            List<String> ids = List.copyOf(draft.instruments().unchecked());
            if (!ids.isEmpty()) {
                String words = ids.size() == 1 ? "path.checked.missing" : "path.checked.missing-several";
                missing.add(new Missing(
                        Told.asItIs(frame.say(words, String.join(", ", ids))),
                        visit + "/" + Stage.INSTRUMENTS.word() + "#"
                                + Field.id(CheckFacts.check(ids.get(0), FieldCheck.Moment.AFTER, "indicated"))));
            }
        }
        return missing;
    }

    private static List<String> awaited(Draft draft, Frame frame) {
        return ReadOut.of(draft).stream()
                .map(one -> frame.say("path.coming.read", one.run(), ReadOutText.when(frame, one)))
                .toList();
    }

    private static List<String> coming(Draft draft, Frame frame, Optional<DraftReading> reading) {
        List<String> coming = new ArrayList<>(awaited(draft, frame));
        reading.flatMap(DraftReading::assessed)
                .flatMap(assessed -> assessed.validUntil())
                .ifPresent(day -> coming.add(
                        frame.say("path.coming.valid", frame.figures().day(day))));
        return coming;
    }

    private static String place(DraftProblem problem, Draft draft) {
        return problem.field().map(path -> place(path, draft)).orElse(Stage.IDENTITY.word());
    }

    private static String place(FactPath path, Draft draft) {
        List<String> steps = path.steps();
        if (isOfRecording(path)) {
            return "runs/" + steps.get(1) + "/recordings";
        }
        if (steps.size() > 2 && steps.get(0).equals("job-sheet") && steps.get(1).equals("tasks")) {
            TaskList.Part part = ShippedTaskLists.find(
                            draft.text(FactPath.of("job-sheet", "tasks", steps.get(2), "list")))
                    .map(TaskList::part)
                    .orElse(TaskList.Part.MAINTENANCE);
            return part.name().toLowerCase(Locale.ROOT);
        }
        if (steps.size() > 1 && steps.get(0).equals("checklists")) {
            Stage stage = FactPath.place(steps.get(1)).stream()
                    .boxed()
                    .flatMap(list -> ChecksSheet.section(draft, list).stream())
                    .map(Stage::of)
                    .findFirst()
                    .orElse(Stage.AS_FOUND);
            return stage.word() + "#" + Field.id(shown(draft, path));
        }
        return Stage.of(path).word() + "#" + Field.id(shown(draft, path));
    }

    /** Whether it stands above with its own place: what could not be read, and instruments that nobody checked. */
    private static boolean isSaidAbove(OpenPoint point, AssessedVisit assessed, Draft draft) {
        return switch (point.sort()) {
            case LEFT_OUT -> true;
            case UNCHECKED -> !draft.isSigned();
            case DOUBT ->
                doubt(point, assessed)
                        .filter(doubt -> doubt.remark()
                                .id()
                                .equals(VisitFolder.unfinished(1).id()))
                        .isPresent();
            case OTHER -> false;
        };
    }

    private static Optional<Doubt> doubt(OpenPoint point, AssessedVisit assessed) {
        return assessed.doubts().stream()
                .filter(doubt -> doubt.sentence().equals(point.sentence()))
                .findFirst();
    }

    /** Where an open point is mended: at its fact, or in its part of the work. */
    private static String place(OpenPoint point, AssessedVisit assessed, Draft draft) {
        return doubt(point, assessed)
                .filter(doubt -> point.sort() == OpenPoint.Sort.DOUBT)
                .flatMap(doubt -> place(doubt, draft))
                .orElseGet(() -> place(point.where(), draft));
    }

    private static String place(Where where, Draft draft) {
        List<String> way = where.way();
        if (way.isEmpty()) {
            return Stage.of(where.part()).word();
        }
        FactPath path = new FactPath(way);
        if (isRun(path) || isOfRecording(path)) {
            return isRun(path) ? "runs/" + path.last() : place(path, draft);
        }
        return Stage.of(where.part()).word() + "#" + Field.id(shown(draft, path));
    }

    private static boolean isOfRecording(FactPath path) {
        List<String> steps = path.steps();
        return steps.get(0).equals("runs")
                && steps.size() > 2
                && List.of("recording", "reading", "channels").contains(steps.get(2));
    }

    /** The path under which a sheet shows a fact. */
    private static String shown(Draft draft, FactPath path) {
        String fact = path.toString();
        if (path.steps().get(0).equals("checklists") && path.steps().size() > 1) {
            return AsFoundSheet.shown(draft, path);
        }
        return CheckFacts.isOne(fact) ? CheckFacts.shown(draft, path) : fact;
    }

    /** Where a doubt is mended: at the recordings of its run, or at the first fact that it is about. */
    private static Optional<String> place(Doubt doubt, Draft draft) {
        return doubt.run().isPresent()
                ? Optional.of("runs/" + doubt.run().getAsInt() + "/recordings")
                : doubt.remark().ways().stream()
                        .filter(way -> !way.isEmpty())
                        .findFirst()
                        .map(FactPath::new)
                        .map(path -> isRun(path) ? "runs/" + path.last() + "/recordings" : place(path, draft));
    }

    private static boolean isRun(FactPath path) {
        return path.steps().size() == 2 && path.steps().get(0).equals("runs");
    }
}
