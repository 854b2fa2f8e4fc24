package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;

/**
 * The visit before this one to the same sterilizer. What was written then is a proposal, taken over one by one and never by
 * itself.
 *
 * @param visit before this one
 */
record Earlier(Draft visit) {

    private static final int LOOKED_AT = 8;

    /** The newest other visit to the first sterilizer of this one that was before it. */
    static Optional<Earlier> of(Draft draft, Office office) {
        String serial = draft.text(FactPath.of("sterilizers", 1, "serial"));
        if (serial.isBlank()) {
            return Optional.empty();
        }
        List<String> meant = new ArrayList<>();
        draft.subject().fact("sterilizer").ifPresent(all -> all.node().forEach(one -> meant.add(one.asText())));
        return office.records().exactly(Kind.STERILIZER, "serial", serial).stream()
                .filter(one -> meant.contains(one.id().toString()))
                .findFirst()
                .flatMap(machine -> before(draft, machine.id(), office));
    }

    private static Optional<Earlier> before(Draft draft, SubjectId machine, Office office) {
        String day = draft.text(FactPath.of("date"));
        for (Subject visit : office.records().usedBy(Use.STERILIZER, machine.toString(), Optional.empty(), LOOKED_AT)) {
            boolean isBefore = day.isBlank() || visit.text("date").compareTo(day) < 0;
            if (visit.kind() == Kind.VISIT && !visit.id().equals(draft.id()) && isBefore) {
                return Optional.of(new Earlier(office.drafts().of(visit.id())));
            }
        }
        return Optional.empty();
    }

    /** What stood then where this path leads now. */
    Optional<String> find(FactPath path, Draft now) {
        return counterpart(path, now).map(visit::text).filter(text -> !text.isBlank() && !text.equals(now.text(path)));
    }

    /** The same place in the earlier visit: the same sterilizer by its serial number, the same loaded run by its order. */
    Optional<FactPath> counterpart(FactPath path, Draft now) {
        List<String> steps = new ArrayList<>(path.steps());
        switch (steps.get(0)) {
            case "clinic", "company", "criteria-set" -> {
                return Optional.of(path);
            }
            case "conditions" -> {
                return steps.contains("altitude") ? Optional.of(path) : Optional.empty();
            }
            case "sterilizers" -> {
                String serial = now.text(FactPath.of("sterilizers", steps.get(1), "serial"));
                Optional<Integer> place = place("sterilizers", Map.of("serial", serial));
                // counters go on, they are not taken over
                if (place.isEmpty() || steps.get(steps.size() - 1).startsWith("counter")) {
                    return Optional.empty();
                }
                steps.set(1, String.valueOf(place.get()));
                return Optional.of(new FactPath(steps));
            }
            case "runs" -> {
                String cycle = now.text(FactPath.of("runs", steps.get(1), "cycle"));
                Optional<Integer> place = place(
                        "runs",
                        cycle.isBlank()
                                ? Map.of("kind", "reference-load")
                                : Map.of("kind", "reference-load", "cycle", cycle));
                boolean isOfLoad = steps.size() > 3 && steps.get(2).equals("load") && !steps.contains("agreed-by");
                if (place.isEmpty() || !isOfLoad) {
                    return Optional.empty();
                }
                steps.set(1, String.valueOf(place.get()));
                return Optional.of(new FactPath(steps));
            }
            default -> {
                return Optional.empty();
            }
        }
    }

    private Optional<Integer> place(String list, Map<String, String> keys) {
        for (int i = 1; i <= visit.count(FactPath.of(list)); i++) {
            int place = i;
            if (keys.entrySet().stream()
                    .allMatch(key ->
                            visit.text(FactPath.of(list, place, key.getKey())).equals(key.getValue()))) {
                return Optional.of(place);
            }
        }
        return Optional.empty();
    }
}
