package org.steamwright.desk.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.desk.text.Told;
import org.steamwright.filing.ChangedFact;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.visit.Doubt;

/** What is wrong or missing in a visit, said as the fields of the desk are called and not as a visit file is written. */
public final class ProblemText {

    private static final int MOST_TOLD = 5;

    /** Of more choices than these a reader looks at the field. */
    private static final int MOST_CHOICES = 12;

    /** Keys whose own keys are names of the user's. */
    private static final String NAMED = "channels";

    private ProblemText() {}

    /** A problem as its reader gets it: where, what, and what to do. */
    public static Told of(Frame frame, DraftProblem problem) {
        return brief(frame, problem)
                .or(() -> whole(frame, problem))
                .map(Told::asItIs)
                .orElseGet(() -> at(frame, place(frame, problem), what(frame, problem), remedy(frame, problem)));
    }

    /** What needs no place beside it. */
    private static Optional<String> brief(Frame frame, DraftProblem problem) {
        List<String> steps = problem.path().map(FactPath::steps).orElse(List.of());
        boolean isRecording = problem.missing().filter("recording"::equals).isPresent() && !steps.isEmpty();
        if (isRecording) {
            return Optional.of(frame.say("web.problem.no-recording", steps.get(steps.size() - 1)));
        }
        boolean isOfVisit = problem.missing().isPresent() ? steps.isEmpty() : isEmpty(problem) && steps.size() == 1;
        return problem.field()
                .filter(field -> isOfVisit)
                .map(field -> frame.words()
                        .find("web.problem.no-" + field)
                        .orElseGet(() -> what(frame, problem).text()));
    }

    /** What is said in a sentence of its own, with its place in it. */
    private static Optional<String> whole(Frame frame, DraftProblem problem) {
        Flaw flaw = problem.flaw();
        String place = place(frame, problem).text();
        return switch (flaw.sort()) {
            case SAME_RECORDING -> Optional.of(sameRecording(frame, place, flaw));
            case NOT_AMONG ->
                problem.path()
                        .map(path -> path.steps().get(path.steps().size() - 1))
                        .filter(thing -> frame.words()
                                .find("web.problem.no-such-" + thing)
                                .isPresent())
                        .map(thing -> frame.say("web.problem.no-such-" + thing, place, flaw.about()));
            default -> Optional.empty();
        };
    }

    private static String sameRecording(Frame frame, String place, Flaw flaw) {
        return frame.say(
                "web.problem.same-recording",
                place,
                flaw.about(),
                flaw.expected().get(0),
                flaw.expected().get(1));
    }

    private static boolean isEmpty(DraftProblem problem) {
        return problem.flaw().sort() == Flaw.Sort.EMPTY;
    }

    /** What is wrong and what to do, for a reader who sees where, of something that is no visit. */
    public static Told of(Frame frame, Flaw flaw) {
        DraftProblem problem = new DraftProblem("", "", Optional.empty(), flaw);
        return at(frame, Told.asItIs(""), what(frame, problem), remedy(frame, problem));
    }

    /** What is wrong, for a reader who sees where. */
    public static Told what(Frame frame, DraftProblem problem) {
        Flaw flaw = problem.flaw();
        String found = flaw.about();
        return switch (flaw.sort()) {
            case MISSING, NOT_CHOSEN ->
                said(
                        frame,
                        "alone",
                        label(frame, problem.field().map(FactPath::steps).orElse(List.of()))
                                .orElse(found));
            case EMPTY -> said(frame, "empty");
            case NOT_AMONG ->
                flaw.expected().size() > MOST_CHOICES
                        ? said(frame, "unknown", found)
                        : said(frame, "not-among", found, choices(frame, flaw.expected()));
            case NO_UNIT -> measured(frame, "no-unit", flaw);
            case NOT_A_QUANTITY -> measured(frame, "not-a-quantity", flaw);
            case NOT_ABSOLUTE -> said(frame, "not-absolute", found);
            case NOT_A_NUMBER -> said(frame, "not-a-number", found);
            case NOT_A_COUNT ->
                said(
                        frame,
                        "not-a-count",
                        found,
                        flaw.expected().get(0),
                        flaw.expected().get(1));
            case NOT_A_DAY -> said(frame, "not-a-day", found);
            case NOT_A_MOMENT -> said(frame, "not-a-moment", found);
            case NOT_A_ZONE -> said(frame, "not-a-zone", found);
            case OUTSIDE ->
                said(
                        frame,
                        "outside",
                        found,
                        flaw.expected().get(0),
                        flaw.expected().get(1));
            case TWICE -> said(frame, "twice", found);
            case NO_FILE -> said(frame, "no-file", found);
            case SAME_RECORDING ->
                Told.asItIs(sameRecording(frame, place(frame, problem).text(), flaw));
            case OTHER -> frame.hear(flaw.sentence());
        };
    }

    /** What to do; blank if the fields say it. */
    public static Told remedy(Frame frame, DraftProblem problem) {
        return switch (problem.flaw().sort()) {
            case MISSING, NOT_CHOSEN, EMPTY, NOT_AMONG, NOT_A_COUNT, SAME_RECORDING -> Told.asItIs("");
            case NO_FILE -> said(frame, "no-file-remedy");
            default -> frame.hear(problem.flaw().remedy());
        };
    }

    private static Told measured(Frame frame, String key, Flaw flaw) {
        Told noun = frame.hear(flaw.expected().get(0));
        return new Told(
                frame.say(
                        "web.problem." + key,
                        flaw.about(),
                        noun.text(),
                        frame.heard(flaw.expected().get(1))),
                noun.isEnglish());
    }

    private static Told said(Frame frame, String key, Object... parts) {
        return Told.asItIs(frame.say("web.problem." + key, parts));
    }

    private static String choices(Frame frame, List<String> words) {
        return words.stream()
                .map(word -> frame.words()
                        .find("path.word." + word.replace(' ', '-'))
                        .orElse(word))
                .collect(Collectors.joining(", "));
    }

    /** Where it is, from the outside to the inside. */
    public static Told place(Frame frame, DraftProblem problem) {
        List<Told> pieces = new ArrayList<>(heard(frame, problem.place()));
        problem.path()
                .filter(path -> problem.missing().isEmpty())
                .flatMap(path -> label(frame, path.steps()))
                .ifPresent(label -> pieces.set(pieces.size() - 1, Told.asItIs(label)));
        return joined(pieces);
    }

    /** Where a fact stands, as the reader gets it: each part as the desk calls it, or as the engine's place is heard. */
    public static String place(Frame frame, ChangedFact fact) {
        List<String> steps = fact.path().steps();
        List<String> pieces = fact.path().words();
        List<String> words = new ArrayList<>();
        List<String> before = new ArrayList<>();
        for (String piece : pieces) {
            String key = steps.get(before.size());
            String heard = frame.heard(piece);
            before.add(key);
            if (isCounted(steps, before.size())) {
                String number = steps.get(before.size());
                before.add(number);
                words.add(frame.words()
                        .find("path.fact." + key)
                        .map(word -> word + " " + number)
                        .orElse(heard));
            } else if (key.equals(NAMED) && before.size() < steps.size()) {
                before.add(steps.get(before.size()));
                words.add(heard);
            } else {
                words.add(
                        named(frame, before.subList(0, before.size() - 1), key).orElse(heard));
            }
        }
        if (fact.before().isEmpty() && fact.after().orElse("") instanceof Map<?, ?> only && only.size() == 1) {
            named(frame, before, String.valueOf(only.keySet().iterator().next()))
                    .ifPresent(words::add);
        }
        return String.join(", ", words);
    }

    private static boolean isCounted(List<String> steps, int at) {
        return at < steps.size() && FactPath.place(steps.get(at)).isPresent();
    }

    private static Optional<String> named(Frame frame, List<String> steps, String key) {
        String list =
                steps.stream().filter(step -> FactPath.place(step).isEmpty()).reduce("", (one, later) -> later);
        return frame.words()
                .find("path.label." + list + "-" + key)
                .or(() -> frame.words().find("path.label." + key))
                .or(() -> frame.words().find("path.block." + key).filter(words -> !words.contains("{0}")))
                .or(() -> frame.words().find("path.fact." + key));
    }

    private static List<Told> heard(Frame frame, List<String> pieces) {
        return pieces.stream().map(frame::hear).toList();
    }

    private static Told joined(List<Told> pieces) {
        return new Told(
                pieces.stream().map(Told::text).collect(Collectors.joining(", ")),
                pieces.stream().anyMatch(Told::isEnglish));
    }

    /** What the desk calls the field: that of the list first, as a reading before is no mass before. */
    private static Optional<String> label(Frame frame, List<String> steps) {
        if (steps.isEmpty()) {
            return Optional.empty();
        }
        List<String> before = steps.subList(0, steps.size() - 1);
        boolean isNameOfTheUsers =
                steps.size() > 1 && steps.get(steps.size() - 2).equals(NAMED);
        return isNameOfTheUsers ? Optional.empty() : named(frame, before, steps.get(steps.size() - 1));
    }

    /** A place and sentences about it. */
    private static Told at(Frame frame, Told place, Told... sentences) {
        String text = Arrays.stream(sentences)
                .map(Told::text)
                .collect(Collectors.joining(" "))
                .strip();
        boolean isEnglish = place.isEnglish() || Arrays.stream(sentences).anyMatch(Told::isEnglish);
        return new Told(place.text().isEmpty() ? text : frame.say("web.problem.at", place.text(), text), isEnglish);
    }

    /** An open point as its reader gets it: a doubt about reading the visit without file, line and number of the message. */
    public static Told ofPoint(Frame frame, String point, List<Doubt> doubts) {
        return doubts.stream()
                .filter(doubt -> doubt.sentence().equals(point))
                .findFirst()
                .map(doubt -> of(frame, doubt))
                .orElseGet(() -> frame.hear(point));
    }

    /** As a sentence begins, but for the name of a file. */
    private static Told begun(Told place) {
        String text = place.text();
        return text.isEmpty() || text.indexOf('.') >= 0
                ? place
                : new Told(text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1), place.isEnglish());
    }

    private static Told of(Frame frame, Doubt doubt) {
        List<Told> place = new ArrayList<>();
        doubt.run().ifPresent(run -> place.add(frame.hear("run " + run)));
        place.add(place(frame, doubt.remark()));
        place.removeIf(piece -> piece.text().isEmpty());
        return at(frame, begun(joined(place)), frame.hear(doubt.remark().text()), frame.hear(Doubt.TO_BE_ANSWERED));
    }

    /** Where a remark belongs; blank if it is about the visit as a whole. */
    public static Told place(Frame frame, Remark remark) {
        return remark.ways().isEmpty()
                ? frame.hear(remark.where())
                : joined(remark.ways().stream()
                        .filter(way -> !way.isEmpty())
                        .flatMap(way -> heard(frame, new FactPath(way).words()).stream())
                        .toList());
    }

    /** Why a register or a table can't be read, in a few sentences. */
    public static String of(Frame frame, RegisterException unreadable) {
        return unreadable.problems().stream()
                .limit(MOST_TOLD)
                .map(problem -> frame.hear(problem.where(), problem.text()).text())
                .collect(Collectors.joining(" "));
    }

    /** Why a visit can't be read, in a few sentences. */
    public static String of(Frame frame, VisitFolderException unreadable) {
        String told = unreadable.problems().stream()
                .limit(MOST_TOLD)
                .map(problem -> of(frame, DraftProblem.of(problem)).text())
                .collect(Collectors.joining(" "));
        return frame.say("web.problem.unread") + " " + told;
    }
}
