package org.steamwright.filing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.folder.Problem;

/**
 * Something for which a visit that is being written can't be assessed yet.
 *
 * @param id stable identifier such as {@code VISIT-010}, has a page in docs/messages
 * @param file in which it stands; blank for the visit itself
 * @param path of the fact; empty for the visit as a whole, or if it stands in another file
 * @param place in words, such as "run 2, channel T3"
 * @param message what was found and what was expected
 * @param remedy what to do; may be blank
 */
public record DraftProblem(
        String id, String file, Optional<FactPath> path, String place, String message, String remedy) {

    private static final String VISIT_FILE = "visit.yaml";

    /** A problem of a visit whose facts are not at hand. */
    public static DraftProblem of(Problem problem) {
        return of(problem, FactTree.EMPTY);
    }

    /** A place in words, such as "run 2, channel T3", of a way as messages write it: {@code runs[2].channels.T3}. */
    public static String placeOf(String written) {
        return path(written, FactTree.EMPTY).map(PlaceWords::of).orElse(written);
    }

    static DraftProblem of(Problem problem, FactTree tree) {
        boolean isOfVisit = problem.file().equals(VISIT_FILE);
        Optional<FactPath> path = isOfVisit ? path(problem.path(), tree) : Optional.empty();
        int end = endOfSentence(problem.text());
        return new DraftProblem(
                problem.id(),
                isOfVisit ? "" : problem.file(),
                path,
                path.map(PlaceWords::of).orElse(isOfVisit ? "the visit" : problem.where()),
                problem.text().substring(0, end).strip(),
                problem.text().substring(end).strip());
    }

    /** Behind the first full stop that ends a sentence and does not stand between quotation marks. */
    private static int endOfSentence(String text) {
        boolean isQuoted = false;
        for (int i = 0; i + 1 < text.length(); i++) {
            isQuoted ^= text.charAt(i) == '"';
            if (!isQuoted && (text.charAt(i) == '.' || text.charAt(i) == '?') && text.charAt(i + 1) == ' ') {
                return i + 1;
            }
        }
        return text.length();
    }

    /** The path that a message of a visit file names; names of the user's own may hold full stops and brackets. */
    private static Optional<FactPath> path(String written, FactTree tree) {
        List<String> steps = new ArrayList<>();
        Object here = tree.root();
        String rest = written;
        while (!rest.isEmpty()) {
            String step;
            if (rest.startsWith("[") && rest.indexOf(']') > 0) {
                step = rest.substring(1, rest.indexOf(']'));
                rest = rest.substring(rest.indexOf(']') + 1);
            } else {
                String key = rest.startsWith(".") ? rest.substring(1) : rest;
                step = longestKey(here, key).orElse(key.split("[.\\[]", 2)[0]);
                rest = key.substring(step.length());
            }
            if (step.isEmpty()) {
                break;
            }
            steps.add(step);
            here = steps.isEmpty() ? here : tree.find(new FactPath(steps)).orElse("");
        }
        return steps.isEmpty() ? Optional.empty() : Optional.of(new FactPath(steps));
    }

    private static Optional<String> longestKey(Object here, String text) {
        if (!(here instanceof Map<?, ?> map)) {
            return Optional.empty();
        }
        return map.keySet().stream()
                .map(String::valueOf)
                .filter(key -> text.startsWith(key)
                        && (text.length() == key.length() || ".[".indexOf(text.charAt(key.length())) >= 0))
                .max(Comparator.comparingInt(String::length));
    }
}
