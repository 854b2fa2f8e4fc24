package org.steamwright.desk.web;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.text.Told;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.folder.VisitFolderException;

/** What is wrong or missing in a visit, said as the fields of the desk are called and not as a visit file is written. */
public final class ProblemText {

    private static final Pattern MISSING = Pattern.compile("found no \"([^\"]+)\"(,| but several).*", Pattern.DOTALL);
    private static final Pattern LINE_OF_A_FILE = Pattern.compile("Add a line like: .*", Pattern.DOTALL);
    private static final Pattern DOUBT = Pattern.compile(
            "(?:Run \\d+, )?[A-Z]+-\\d{3} visit\\.yaml(?:, line \\d+)?(?:, ([^ ]+))?: (.+?)( To be answered before anybody signs\\.)?",
            Pattern.DOTALL);
    private static final int MOST_TOLD = 5;

    private ProblemText() {}

    /** What a problem misses, by its key; empty if something is wrong and not missing. */
    public static Optional<String> missing(DraftProblem problem) {
        Matcher missing = MISSING.matcher(problem.message());
        return missing.matches() ? Optional.of(missing.group(1)) : Optional.empty();
    }

    /** A problem as its reader gets it. */
    public static Told of(Frame frame, DraftProblem problem) {
        return missing(problem)
                .map(key -> missing(frame, problem, key))
                .orElseGet(() -> frame.hear(
                        problem.place(),
                        problem.message(),
                        LINE_OF_A_FILE.matcher(problem.remedy()).replaceAll("").strip()));
    }

    private static Told missing(Frame frame, DraftProblem problem, String key) {
        List<String> steps = problem.path().map(FactPath::steps).orElse(List.of());
        if (steps.isEmpty()) {
            return Told.asItIs(frame.words()
                    .find("web.problem.no-" + key)
                    .orElseGet(() -> frame.say("web.problem.alone", label(frame, steps, key))));
        }
        if (key.equals("recording")) {
            return Told.asItIs(frame.say("web.problem.no-recording", steps.get(steps.size() - 1)));
        }
        List<Told> place = Arrays.stream(problem.place().split(", ", -1))
                .map(piece -> frame.hear(piece))
                .toList();
        return new Told(
                frame.say(
                        "web.problem.missing",
                        place.stream().map(Told::text).collect(Collectors.joining(", ")),
                        label(frame, steps, key)),
                place.stream().anyMatch(Told::isEnglish));
    }

    /** What the desk calls the field: that of the list first, as a reading before is no mass before. */
    private static String label(Frame frame, List<String> steps, String key) {
        String list = steps.size() > 1 ? steps.get(steps.size() - 2) : "";
        return frame.words()
                .find("path.label." + list + "-" + key)
                .or(() -> frame.words().find("path.label." + key))
                .orElse(key);
    }

    /** An open point as its reader gets it: a doubt about reading the visit without file, line and number of the message. */
    public static Told ofPoint(Frame frame, String point) {
        Matcher doubt = DOUBT.matcher(point);
        if (!doubt.matches()) {
            return frame.hear(point);
        }
        String path = Optional.ofNullable(doubt.group(1)).orElse("");
        String tail = Optional.ofNullable(doubt.group(3)).orElse("").strip();
        return path.isEmpty()
                ? new Told(
                        (frame.heard(doubt.group(2)) + " " + frame.heard(tail)).strip(),
                        frame.hear(doubt.group(2)).isEnglish())
                : frame.hear(DraftProblem.placeOf(path), doubt.group(2), tail);
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
