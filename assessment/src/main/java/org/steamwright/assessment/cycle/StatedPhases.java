package org.steamwright.assessment.cycle;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.cycle.StatedBorder.End;

/**
 * The phases as they follow from stated borders, beside those that were found.
 *
 * <p>A phase that was found more than once begins with its first part and ends with its last. Where two phases were found to
 * meet, the border between them is one: stating it for either moves it for both, unless both are stated, or the other one is
 * the plateau, which stays. A phase that was not found needs both of its borders.
 *
 * @param borders as they were stated
 * @param phases in order of time; empty if the borders can't stand
 * @param refusal why the borders can't stand; empty if they can
 */
public record StatedPhases(List<StatedBorder> borders, List<Phase> phases, Optional<String> refusal) {

    public StatedPhases {
        borders = List.copyOf(borders);
        phases = List.copyOf(phases);
    }

    /**
     * The phases that follow.
     *
     * @param found in order of time
     * @param borders at least one
     * @param firstSeconds first sample of the recording
     * @param lastSeconds last sample
     */
    public static StatedPhases of(
            List<Phase> found, List<StatedBorder> borders, double firstSeconds, double lastSeconds) {
        Optional<String> objection = objection(borders, firstSeconds, lastSeconds);
        if (objection.isPresent()) {
            return new StatedPhases(borders, List.of(), objection);
        }
        List<Phase> phases = new ArrayList<>(found);
        for (Phase.Kind kind : Phase.Kind.values()) {
            Optional<StatedBorder> from = find(borders, kind, End.FROM);
            Optional<StatedBorder> to = find(borders, kind, End.TO);
            boolean isFound = found.stream().anyMatch(phase -> phase.kind() == kind);
            if (from.isEmpty() && to.isEmpty()) {
                continue;
            }
            if (isFound) {
                from.ifPresent(border -> moveBegin(phases, found, border, borders));
                to.ifPresent(border -> moveEnd(phases, found, border, borders));
            } else if (from.isPresent() && to.isPresent()) {
                insert(phases, new Phase(kind, from.get().atSeconds(), to.get().atSeconds()));
            } else {
                return new StatedPhases(
                        borders,
                        List.of(),
                        Optional.of("no %s was found, so both its begin and its end have to be stated"
                                .formatted(kind.words())));
            }
        }
        Optional<String> disorder = disorder(phases);
        return disorder.isPresent()
                ? new StatedPhases(borders, List.of(), disorder)
                : new StatedPhases(borders, phases, Optional.empty());
    }

    /** The whole of a phase as stated, from the begin of its first part to the end of its last. */
    public Optional<Phase> find(Phase.Kind kind) {
        return whole(phases, kind);
    }

    /** The stated borders that a phase has, its own and those of phases that meet it. */
    public List<StatedBorder> bordersOf(Phase.Kind kind) {
        Optional<Phase> stated = find(kind);
        return borders.stream()
                .filter(border -> border.phase() == kind
                        || stated.filter(phase -> (border.end() == End.TO && phase.fromSeconds() == border.atSeconds())
                                        || (border.end() == End.FROM && phase.toSeconds() == border.atSeconds()))
                                .isPresent())
                .toList();
    }

    /** From the begin of the first phase of a kind to the end of the last one. */
    static Optional<Phase> whole(List<Phase> phases, Phase.Kind kind) {
        List<Phase> parts =
                phases.stream().filter(phase -> phase.kind() == kind).toList();
        return parts.isEmpty()
                ? Optional.empty()
                : Optional.of(new Phase(
                        kind,
                        parts.get(0).fromSeconds(),
                        parts.get(parts.size() - 1).toSeconds()));
    }

    private static Optional<StatedBorder> find(List<StatedBorder> borders, Phase.Kind kind, End end) {
        return borders.stream().filter(border -> border.isOf(kind, end)).findFirst();
    }

    /** What is wrong with the borders whatever was found. */
    private static Optional<String> objection(List<StatedBorder> borders, double first, double last) {
        Set<String> seen = new HashSet<>();
        for (StatedBorder border : borders) {
            if (!seen.add(border.words())) {
                return Optional.of("the " + border.words() + " is stated twice");
            }
            if (border.atSeconds() < first || border.atSeconds() > last) {
                return Optional.of("the %s is stated at %s, outside of the recording, which goes from %s to %s"
                        .formatted(border.words(), seconds(border.atSeconds()), seconds(first), seconds(last)));
            }
        }
        return Optional.empty();
    }

    private static void moveBegin(
            List<Phase> phases, List<Phase> found, StatedBorder border, List<StatedBorder> borders) {
        int own = first(phases, border.phase());
        double was = found.get(first(found, border.phase())).fromSeconds();
        Phase phase = phases.get(own);
        phases.set(own, new Phase(phase.kind(), border.atSeconds(), phase.toSeconds()));
        if (own > 0) {
            Phase before = phases.get(own - 1);
            if (before.toSeconds() == was
                    && StatedBorder.isStatable(before.kind())
                    && !isStated(phases, own - 1, End.TO, borders)) {
                phases.set(own - 1, new Phase(before.kind(), before.fromSeconds(), border.atSeconds()));
            }
        }
    }

    private static void moveEnd(
            List<Phase> phases, List<Phase> found, StatedBorder border, List<StatedBorder> borders) {
        int own = last(phases, border.phase());
        double was = found.get(last(found, border.phase())).toSeconds();
        Phase phase = phases.get(own);
        phases.set(own, new Phase(phase.kind(), phase.fromSeconds(), border.atSeconds()));
        if (own + 1 < phases.size()) {
            Phase after = phases.get(own + 1);
            if (after.fromSeconds() == was
                    && StatedBorder.isStatable(after.kind())
                    && !isStated(phases, own + 1, End.FROM, borders)) {
                phases.set(own + 1, new Phase(after.kind(), border.atSeconds(), after.toSeconds()));
            }
        }
    }

    /** Whether that end of the part at a place is one that was stated for its phase. */
    private static boolean isStated(List<Phase> phases, int place, End end, List<StatedBorder> borders) {
        Phase.Kind kind = phases.get(place).kind();
        boolean isOutermost = end == End.FROM ? first(phases, kind) == place : last(phases, kind) == place;
        return isOutermost && find(borders, kind, end).isPresent();
    }

    private static int first(List<Phase> phases, Phase.Kind kind) {
        for (int i = 0; i < phases.size(); i++) {
            if (phases.get(i).kind() == kind) {
                return i;
            }
        }
        return -1;
    }

    private static int last(List<Phase> phases, Phase.Kind kind) {
        for (int i = phases.size() - 1; i >= 0; i--) {
            if (phases.get(i).kind() == kind) {
                return i;
            }
        }
        return -1;
    }

    /** Puts a phase that was not found to its place; a conditioning step divides the heating that it lies in. */
    private static void insert(List<Phase> phases, Phase added) {
        if (added.kind() == Phase.Kind.CONDITIONING) {
            for (int i = 0; i < phases.size(); i++) {
                Phase heating = phases.get(i);
                if (heating.kind() == Phase.Kind.HEATING
                        && heating.fromSeconds() < added.fromSeconds()
                        && added.toSeconds() < heating.toSeconds()) {
                    phases.set(i, new Phase(Phase.Kind.HEATING, heating.fromSeconds(), added.fromSeconds()));
                    phases.add(i + 1, added);
                    phases.add(i + 2, new Phase(Phase.Kind.HEATING, added.toSeconds(), heating.toSeconds()));
                    return;
                }
            }
        }
        int place = 0;
        while (place < phases.size() && phases.get(place).kind().compareTo(added.kind()) < 0) {
            place++;
        }
        phases.add(place, added);
    }

    private static Optional<String> disorder(List<Phase> phases) {
        for (Phase phase : phases) {
            if (!(phase.fromSeconds() < phase.toSeconds())) {
                return Optional.of("%s would end at %s, not after its begin at %s"
                        .formatted(phase.kind().words(), seconds(phase.toSeconds()), seconds(phase.fromSeconds())));
            }
        }
        for (int i = 1; i < phases.size(); i++) {
            Phase before = phases.get(i - 1);
            Phase after = phases.get(i);
            if (before.toSeconds() > after.fromSeconds()) {
                return Optional.of("%s would begin at %s, before %s ends at %s"
                        .formatted(
                                after.kind().words(),
                                seconds(after.fromSeconds()),
                                before.kind().words(),
                                seconds(before.toSeconds())));
            }
        }
        return Optional.empty();
    }

    private static String seconds(double value) {
        return String.format(Locale.ROOT, "%.3f s", value);
    }
}
