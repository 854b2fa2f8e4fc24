package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.filing.ChangedFact;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;

/**
 * What stays once something was recorded: the run keeps its number, its recording goes with a reason only, and so does the
 * criteria set that judges it.
 */
public final class Recorded {

    private static final String RUNS = "runs";
    private static final String RECORDING = "recording";
    private static final String CRITERIA_SET = "criteria-set";
    /** Facts of a run that are written with a reason, and by nothing else. */
    private static final Set<String> REASONED = Set.of(RECORDING, "set-aside", "taken-away");

    private Recorded() {}

    /** Whether a run has a recording, or had one. */
    static boolean is(Draft draft, int run) {
        FactPath path = FactPath.of(RUNS, run);
        return draft.find(path.then(RECORDING)).isPresent()
                || draft.count(path.then("taken-away")) > 0
                || draft.find(path.then("set-aside")).isPresent();
    }

    /** Whether any run has. */
    static boolean isAny(Draft draft) {
        for (int run = 1; run <= draft.count(FactPath.of(RUNS)); run++) {
            if (is(draft, run)) {
                return true;
            }
        }
        return false;
    }

    /** Whether a fact can't simply be written or taken away because of what was recorded. */
    static boolean isKept(Draft draft, FactPath path) {
        List<String> steps = path.steps();
        boolean isOfRun = steps.size() > 1 && steps.get(1).matches("[1-9][0-9]{0,3}");
        return switch (steps.get(0)) {
            case RUNS ->
                (steps.size() == 1 && isAny(draft))
                        || (isOfRun && steps.size() == 2 && is(draft, Integer.parseInt(steps.get(1))))
                        || (isOfRun && steps.size() > 2 && REASONED.contains(steps.get(2)));
            case CRITERIA_SET -> isAny(draft);
            case "criteria-set-changes" -> true;
            default -> false;
        };
    }

    /** Whether a step back would take a recording away again, and with no reason. */
    public static boolean isOfLastChange(Draft draft) {
        return draft.lastChange()
                .filter(step -> step.facts().stream().anyMatch(Recorded::isPutIn))
                .isPresent();
    }

    private static boolean isPutIn(ChangedFact fact) {
        List<String> steps = fact.path().steps();
        boolean isOfRecording =
                steps.size() > 2 && steps.get(0).equals(RUNS) && steps.get(2).equals(RECORDING);
        if (isOfRecording) {
            Set<String> files = files(fact.after());
            files.removeAll(files(fact.before()));
            return steps.size() < 5 && !files.isEmpty();
        }
        return false;
    }

    private static Set<String> files(Optional<Object> recordings) {
        List<Object> entries = new ArrayList<>();
        if (recordings.isPresent()) {
            if (recordings.get() instanceof List<?> list) {
                entries.addAll(list);
            } else {
                entries.add(recordings.get());
            }
        }
        Set<String> files = new LinkedHashSet<>();
        for (Object entry : entries) {
            Object name = entry instanceof Map<?, ?> map ? map.get("file") : entry;
            if (name instanceof String file) {
                files.add(file);
            }
        }
        return files;
    }
}
