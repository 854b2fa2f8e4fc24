package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.folder.AfterChangeFile;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.StepKind;

/**
 * Says where the runs of a visit, or what it was asked for, would qualify no cycle however well the loaded runs go: before they are
 * made, and with what to add. What counts is said by {@link org.steamwright.visit.FitCycle}, once there are recordings.
 */
final class LoadsAlone {

    private static final String CYCLE = "cycle";
    private static final String STERILIZER = "sterilizer";
    private static final String STERILIZERS = "sterilizers";
    private static final String RUNS = "runs";
    private static final String TYPE = "type";
    private static final String LOADED = "reference-load";
    private static final String EMPTY = "empty-chamber";
    private static final String LEAK = "air-leakage";
    /** Tests that say nothing of the steriliser as it is handed back. */
    private static final Set<String> OTHER_STAGES = Set.of("as-found", "with-sensors");

    private final Draft draft;
    private final Frame frame;
    private final AfterChange.Times times = AfterChangeFile.shipped().times();

    LoadsAlone(Draft draft, Frame frame) {
        this.draft = draft;
        this.frame = frame;
    }

    /** What the runs that are written down lack, one sentence each. */
    List<String> ofRuns() {
        List<String> sentences = new ArrayList<>();
        for (int i = 1; i <= draft.count(FactPath.of(STERILIZERS)); i++) {
            String key = draft.text(FactPath.of(STERILIZERS, i, "key"));
            Set<String> loaded = cycles(key, LOADED);
            if (loaded.isEmpty()) {
                continue;
            }
            if (drawsVacuum(i) && !isLeakTested(key)) {
                sentences.add(say("alone.leak", machine(i, key), times.of(StepKind.LEAK_WITHOUT_SENSORS)));
            }
            Set<String> empty = cycles(key, EMPTY);
            for (String cycle : loaded) {
                if (empty.stream().noneMatch(cycle::equalsIgnoreCase)) {
                    sentences.add(say("alone.empty", cycle, machine(i, key), minutes(i, cycle)));
                }
            }
        }
        return sentences;
    }

    /** What was left out although loaded runs were asked for, one sentence each. */
    List<String> ofScope() {
        List<String> sentences = new ArrayList<>();
        if (isWithoutLoads()) {
            return sentences;
        }
        boolean isVacuumDrawn = false;
        for (int i = 1; i <= draft.count(FactPath.of(STERILIZERS)); i++) {
            isVacuumDrawn |= drawsVacuum(i);
        }
        if (isLeftOut("leak") && isVacuumDrawn) {
            sentences.add(say("alone.scope", say("label.scope-leak"), times.of(StepKind.LEAK_WITHOUT_SENSORS)));
        }
        if (isLeftOut("operational")) {
            sentences.add(say("alone.scope", say("label.scope-operational"), minutes(1, "")));
        }
        return sentences;
    }

    /** Whether no loaded runs were asked for, so that no cycle is qualified by the visit. */
    boolean isWithoutLoads() {
        return isLeftOut("performance");
    }

    private String say(String key, Object... parts) {
        return frame.say("path." + key, parts);
    }

    private boolean isLeftOut(String part) {
        return draft.text(FactPath.of("job-sheet", "scope", part)).equals("no");
    }

    private String machine(int place, String key) {
        return say("machine", key, draft.text(FactPath.of(STERILIZERS, place, "serial")));
    }

    private Set<String> cycles(String sterilizer, String kind) {
        Set<String> cycles = new LinkedHashSet<>();
        for (int i = 1; i <= draft.count(FactPath.of(RUNS)); i++) {
            String cycle = draft.text(FactPath.of(RUNS, i, CYCLE));
            if (isRun(i, sterilizer, kind) && !cycle.isBlank()) {
                cycles.add(cycle);
            }
        }
        return cycles;
    }

    private boolean isRun(int run, String sterilizer, String kind) {
        return draft.text(FactPath.of(RUNS, run, "kind")).equals(kind)
                && draft.text(FactPath.of(RUNS, run, STERILIZER)).equals(sterilizer);
    }

    private boolean isLeakTested(String sterilizer) {
        for (int i = 1; i <= draft.count(FactPath.of(RUNS)); i++) {
            String stage = draft.text(FactPath.of(RUNS, i, "stage")).strip().toLowerCase(Locale.ROOT);
            if (isRun(i, sterilizer, LEAK) && !OTHER_STAGES.contains(stage.replace(' ', '-'))) {
                return true;
            }
        }
        return false;
    }

    private boolean drawsVacuum(int sterilizer) {
        for (int j = 1; j <= draft.count(FactPath.of(STERILIZERS, sterilizer, "cycles")); j++) {
            boolean isB = draft.text(FactPath.of(STERILIZERS, sterilizer, "cycles", j, TYPE))
                    .equals("B");
            String pulses = draft.text(FactPath.of(STERILIZERS, sterilizer, "cycles", j, "air-removal-pulses"));
            if (isB || pulses.matches("0*[1-9][0-9]*")) {
                return true;
            }
        }
        return false;
    }

    /** About how long an empty-chamber run takes, by the type of its cycle. */
    private int minutes(int sterilizer, String cycle) {
        String type = "B";
        for (int j = 1; j <= draft.count(FactPath.of(STERILIZERS, sterilizer, "cycles")); j++) {
            FactPath path = FactPath.of(STERILIZERS, sterilizer, "cycles", j);
            if (cycle.isBlank() || draft.text(path.then("name")).equalsIgnoreCase(cycle)) {
                type = draft.text(path.then(TYPE));
                break;
            }
        }
        return times.of(StepKind.EMPTY_CHAMBER)
                + times.cycleOverhead().getOrDefault(type, 0)
                + times.usualHolding()
                + times.usualDrying();
    }
}
