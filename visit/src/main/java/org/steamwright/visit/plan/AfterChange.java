package org.steamwright.visit.plan;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.cycle.CycleDefinition;

/**
 * Which tests follow from which reason for a visit, and about how long they take.
 *
 * @param rows in the order of their file
 * @param times of the steps
 */
public record AfterChange(List<Row> rows, Times times) {

    /** Which cycles a test is made with. */
    public enum Extent {
        NONE("none"),
        /** The cycle that is hardest to do right. */
        ONE_RUN("one-run"),
        /** The cycles that were named; all in use if none was. */
        NAMED("named"),
        /** The cycles in use that draw a vacuum. */
        VACUUM("vacuum"),
        ALL("all");

        private final String word;

        Extent(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    /**
     * What one reason asks for.
     *
     * @param word by which it is chosen
     * @param title for people
     * @param checks steps that are no runs
     * @param penetration with which cycles, among those that draw a vacuum
     * @param empty empty chamber
     * @param loaded reference load
     * @param note what else has to be thought of; may be blank
     * @param source where the row comes from
     */
    public record Row(
            String word,
            String title,
            Set<StepKind> checks,
            Extent penetration,
            Extent empty,
            Extent loaded,
            String note,
            Source source) {
        public Row {
            checks = Set.copyOf(checks);
        }
    }

    /**
     * About how long things take, in minutes.
     *
     * @param steps each kind of step; for a run only what its cycle does not take
     * @param cycleOverhead of a cycle beside its holding and drying time, by the letter of its type
     * @param usualHolding of a cycle that declares none
     * @param usualDrying of a cycle that declares none
     * @param presence at the beginning and end of a run, in which nothing else can be done
     * @param emptyRuns with the empty chamber for each cycle
     * @param indicatorsPerRun biological indicators in each loaded run
     * @param source where they come from
     */
    public record Times(
            Map<StepKind, Integer> steps,
            Map<String, Integer> cycleOverhead,
            int usualHolding,
            int usualDrying,
            int presence,
            int emptyRuns,
            int indicatorsPerRun,
            Source source) {

        private static final int MINUTE_SECONDS = 60;

        public Times {
            steps = Map.copyOf(steps);
            cycleOverhead = Map.copyOf(cycleOverhead);
            for (StepKind kind : StepKind.values()) {
                if (!steps.containsKey(kind)) {
                    throw new IllegalArgumentException("no time for the step " + kind.word());
                }
            }
        }

        /** Minutes of a step without its cycle. */
        public int of(StepKind kind) {
            return steps.getOrDefault(kind, 0);
        }

        /** Minutes of a run with its cycle. */
        public int of(StepKind kind, CycleDefinition cycle) {
            return of(kind)
                    + cycleOverhead.getOrDefault(cycle.type().name(), 0)
                    + cycle.holdingTime().map(Times::minutes).orElse(usualHolding)
                    + cycle.dryingTime().map(Times::minutes).orElse(usualDrying);
        }

        private static int minutes(Duration duration) {
            return (int) ((duration.toSeconds() + MINUTE_SECONDS - 1) / MINUTE_SECONDS);
        }
    }

    public AfterChange {
        rows = List.copyOf(rows);
        Set<String> words = new HashSet<>();
        for (Row row : rows) {
            if (!words.add(row.word())) {
                throw new IllegalArgumentException("two rows for " + row.word());
            }
        }
    }

    public List<String> words() {
        return rows.stream().map(Row::word).toList();
    }

    public Optional<Row> find(String word) {
        return rows.stream().filter(row -> row.word().equals(word)).findFirst();
    }
}
