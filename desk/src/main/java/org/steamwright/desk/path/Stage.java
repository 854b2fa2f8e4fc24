package org.steamwright.desk.path;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Where;

/** Stages of a visit in their usual order; none has to be finished before the next is begun. */
public enum Stage {
    IDENTITY,
    AS_FOUND,
    MAINTENANCE,
    INSTALLATION,
    INSTRUMENTS,
    RUNS,
    LOAD,
    INDICATORS,
    INDICATION,
    SAFETY,
    /** In the path once something failed, or somebody wrote of it. */
    FAILURES,
    CLOSE;

    private static final Set<String> OF_FAILURES = Set.of("failures", "evidence", "conditions", "events");

    /** The stages that a visit has, in order. */
    static List<Stage> path(Draft draft) {
        boolean isWithFailures = Failing.isNeeded(draft);
        return Arrays.stream(values())
                .filter(stage -> stage != FAILURES || isWithFailures)
                .toList();
    }

    /** Word in the address and in the keys of texts. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The stage of that word. */
    static Optional<Stage> ofWord(String word) {
        return Arrays.stream(values())
                .filter(stage -> stage.word().equals(word))
                .findFirst();
    }

    /** The stage of a part of the work. */
    static Stage of(Where.Part part) {
        return switch (part) {
            case IDENTITY -> IDENTITY;
            case AS_FOUND -> AS_FOUND;
            case MAINTENANCE -> MAINTENANCE;
            case INSTALLATION -> INSTALLATION;
            case INSTRUMENTS -> INSTRUMENTS;
            case RUNS -> RUNS;
            case LOAD -> LOAD;
            case INDICATORS -> INDICATORS;
            case INDICATION -> INDICATION;
            case SAFETY -> SAFETY;
            case FAILURES -> FAILURES;
            case CLOSING -> CLOSE;
        };
    }

    /** Where the lines of a checklist are looked at. */
    static Stage of(Checklist.Section section) {
        return of(Where.part(section));
    }

    /** Where a fact is typed. */
    static Stage of(FactPath path) {
        List<String> steps = path.steps();
        String below = steps.size() > 2 ? steps.get(2) : "";
        return switch (steps.get(0)) {
            case "conditions", "checklists" -> AS_FOUND;
            case "instruments", "instrument-checks", "register" -> INSTRUMENTS;
            case "runs" ->
                switch (below) {
                    case "load", "weighings" -> LOAD;
                    case "indicators", "chemical-indicators" -> INDICATORS;
                    default -> RUNS;
                };
            case "job-sheet" ->
                switch (steps.size() > 1 ? steps.get(1) : "") {
                    case "changes" -> INSTALLATION;
                    case "tasks" -> MAINTENANCE;
                    case "indications" -> INDICATION;
                    case "penetration", "other-cycles" -> RUNS;
                    case "loads" -> LOAD;
                    default -> steps.size() > 1 && OF_FAILURES.contains(steps.get(1)) ? FAILURES : CLOSE;
                };
            case "deviations", "recommendations", "next-due", "not-tested" -> CLOSE;
            default -> IDENTITY;
        };
    }
}
