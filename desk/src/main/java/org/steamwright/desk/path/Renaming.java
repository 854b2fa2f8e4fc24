package org.steamwright.desk.path;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;

/** Names by which one fact calls another: what calls a cycle by its name follows it, and a letter that is in use stays. */
final class Renaming {

    private static final String STERILIZERS = "sterilizers";
    private static final String STERILIZER = "sterilizer";
    private static final String CYCLES = "cycles";
    private static final String CYCLE = "cycle";
    private static final String KEY = "key";
    private static final String RUNS = "runs";

    private Renaming() {}

    /** Why a name can't be written there now; empty if it can. */
    static Optional<Complaint> objection(Draft draft, FactPath target, String value, Frame frame) {
        List<String> steps = target.steps();
        String last = steps.get(steps.size() - 1);
        String before = draft.text(target);
        if (before.isBlank() || before.equals(value)) {
            return Optional.empty();
        }
        if (steps.size() == 3 && steps.get(0).equals(STERILIZERS) && last.equals(KEY) && isInUse(draft, before)) {
            return Optional.of(Complaint.said(frame.say("path.letter-in-use", before), frame.say("path.letter-stays")));
        }
        boolean isKindGone = steps.size() == 3 && steps.get(0).equals(RUNS) && last.equals("kind") && value.isBlank();
        return isKindGone
                ? Optional.of(Complaint.said(frame.say("path.kind-needed"), frame.say("path.kind-remedy")))
                : Optional.empty();
    }

    private static boolean isInUse(Draft draft, String letter) {
        return names(draft.facts(), letter)
                || draft.notes().keySet().stream()
                        .anyMatch(note -> List.of(note.split("/", -1)).contains(letter))
                || draft.files().keySet().stream().anyMatch(file -> file.contains("-" + letter + "-"));
    }

    private static boolean names(Object here, String letter) {
        if (here instanceof Map<?, ?> map) {
            return map.entrySet().stream()
                    .anyMatch(one -> (one.getKey().equals(STERILIZER) && letter.equals(one.getValue()))
                            || names(one.getValue(), letter));
        }
        return here instanceof List<?> list && list.stream().anyMatch(one -> names(one, letter));
    }

    /** Lets what calls a cycle by its name follow to the new one. */
    static void follow(Draft draft, DraftChange change, FactPath target, String value) {
        List<String> steps = target.steps();
        boolean isName = steps.size() == 5
                && steps.get(0).equals(STERILIZERS)
                && steps.get(2).equals(CYCLES)
                && steps.get(4).equals("name");
        String before = draft.text(target).strip();
        if (!isName || before.isEmpty() || value.isBlank() || before.equals(value)) {
            return;
        }
        String machine = draft.text(FactPath.of(STERILIZERS, steps.get(1), KEY));
        if (isAgain(draft, target, before, Optional.of(steps.get(1)))) {
            return;
        }
        for (int run = 1; run <= draft.count(FactPath.of(RUNS)); run++) {
            if (Running.machine(draft, run).equals(machine)) {
                put(draft, change, FactPath.of(RUNS, run, CYCLE), before, value);
            }
        }
        for (String list : List.of("penetration", "conditions")) {
            for (int i = 1; i <= draft.count(FactPath.of("job-sheet", list)); i++) {
                FactPath entry = FactPath.of("job-sheet", list, i);
                String named = draft.text(entry.then(STERILIZER));
                if (named.isBlank() || named.equals(machine)) {
                    put(draft, change, entry.then(CYCLE), before, value);
                }
            }
        }
        FactPath asked = FactPath.of("job-sheet", "scope", CYCLES);
        for (int i = 1; !isAgain(draft, target, before, Optional.empty()) && i <= draft.count(asked); i++) {
            put(draft, change, asked.then(i), before, value);
        }
        for (String note : List.of(Running.LENGTH, Running.PLATEAU)) {
            String length = draft.note(note + machine + "/" + before);
            if (!length.isBlank()) {
                change.note(note + machine + "/" + before, "").note(note + machine + "/" + value, length);
            }
        }
    }

    private static void put(Draft draft, DraftChange change, FactPath path, String before, String value) {
        if (draft.text(path).strip().equalsIgnoreCase(before)) {
            change.set(path, value);
        }
    }

    /** Whether another cycle is called the same: of that steriliser, or of any. */
    private static boolean isAgain(Draft draft, FactPath target, String name, Optional<String> sterilizer) {
        for (int i = 1; i <= draft.count(FactPath.of(STERILIZERS)); i++) {
            for (int j = 1; j <= draft.count(FactPath.of(STERILIZERS, i, CYCLES)); j++) {
                FactPath other = FactPath.of(STERILIZERS, i, CYCLES, j, "name");
                boolean isMeant = sterilizer.isEmpty() || sterilizer.get().equals(String.valueOf(i));
                if (isMeant
                        && !other.equals(target)
                        && draft.text(other).strip().equalsIgnoreCase(name)) {
                    return true;
                }
            }
        }
        return false;
    }
}
