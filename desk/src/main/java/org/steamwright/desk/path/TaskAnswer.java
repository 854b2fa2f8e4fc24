package org.steamwright.desk.path;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;

/**
 * What somebody says of a task in one word: what became of it and how it was found are two facts, of which one follows from the
 * other. A task that was found good was done; one that is not due was not found at all.
 */
final class TaskAnswer {

    private static final String ANSWER = "/answer";
    private static final String OUTCOME = "outcome";
    private static final String CONDITION = "condition";
    private static final String DONE = "done";
    private static final Set<String> FOUND = Set.of("good", "worn", "failed");

    private TaskAnswer() {}

    /** Path of the answer to a task. */
    static String path(String task) {
        return task + ANSWER;
    }

    /** Whether a path is that of an answer, which is no fact of its own. */
    static boolean isOne(String path) {
        return path.startsWith("job-sheet/tasks/") && path.endsWith(ANSWER);
    }

    private static KeyedPath entry(String path) {
        return KeyedPath.parse(path.substring(0, path.length() - ANSWER.length()));
    }

    /** Path of the fact that tells whether the answer can be read. */
    static KeyedPath outcome(String path) {
        return KeyedPath.parse(path.substring(0, path.length() - ANSWER.length()) + "/" + OUTCOME);
    }

    /** The answer that stands; blank if none does. */
    static String text(Draft draft, String path) {
        Optional<FactPath> entry = entry(path).find(draft);
        String outcome = entry.map(one -> draft.text(one.then(OUTCOME))).orElse("");
        String condition = entry.map(one -> draft.text(one.then(CONDITION))).orElse("");
        return !condition.isBlank() && (outcome.isBlank() || outcome.equals(DONE)) ? condition : outcome;
    }

    private static Map<String, String> facts(String answer) {
        Map<String, String> facts = new LinkedHashMap<>();
        facts.put(OUTCOME, FOUND.contains(answer) ? DONE : answer);
        facts.put(CONDITION, FOUND.contains(answer) ? answer : "");
        return facts;
    }

    /** Adds what has to be done for an answer to stand. */
    static void set(Draft draft, DraftChange change, String path, String answer, String seen) {
        String standing = text(draft, path);
        if (standing.equals(answer)) {
            return;
        }
        Optional<FactPath> entry = entry(path).find(draft);
        if (!standing.equals(seen) && entry.isPresent()) {
            // somebody else answered meanwhile: that is refused, and both are shown
            facts(seen)
                    .forEach((key, value) -> change.expect(
                            entry.get().then(key), Optional.<Object>of(value).filter(one -> !one.equals(""))));
        }
        entry(path).put(draft, change, facts(answer));
    }
}
