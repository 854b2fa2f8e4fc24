package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;

/** The cycles that a visit was asked for; none named means all. */
final class AskedCycles {

    private static final FactPath CYCLES = FactPath.parse("job-sheet/scope/cycles");

    private AskedCycles() {}

    /** By name, as they stand; empty for all. */
    static List<String> of(Draft draft) {
        List<String> asked = new ArrayList<>();
        for (int i = 1; i <= draft.count(CYCLES); i++) {
            asked.add(draft.text(CYCLES.then(i)));
        }
        String only = draft.text(CYCLES);
        if (asked.isEmpty() && !only.isBlank()) {
            asked.add(only);
        }
        return asked;
    }

    static boolean isAsked(List<String> asked, String cycle) {
        return asked.isEmpty() || asked.stream().anyMatch(cycle::equalsIgnoreCase);
    }

    /**
     * Asks for a cycle, or leaves it out.
     *
     * @param all cycles of the visit
     * @return empty if nothing would be left to ask for, or it is no cycle of the visit
     */
    static Optional<DraftChange> change(Draft draft, List<String> all, String cycle, boolean isAsked) {
        List<String> asked = new ArrayList<>(of(draft));
        if (asked.isEmpty()) {
            asked.addAll(all);
        }
        asked.removeIf(cycle::equalsIgnoreCase);
        if (isAsked) {
            asked.add(cycle);
        }
        if (!all.contains(cycle) || asked.isEmpty()) {
            return Optional.empty();
        }
        boolean isEverything = all.stream().allMatch(one -> asked.stream().anyMatch(one::equalsIgnoreCase));
        return Optional.of(
                draft.change().set(CYCLES, isEverything ? Optional.empty() : Optional.of(asked), draft.find(CYCLES)));
    }
}
