package org.steamwright.visit.job;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A task list as it was worked off at one steriliser. Every task of the list is answered or named as unanswered.
 *
 * @param sterilizer key
 * @param list that was worked off
 * @param entries at most one for each task, for tasks of the list only
 */
public record TaskRecord(String sterilizer, TaskList list, List<TaskEntry> entries) {

    private static final int FEWEST_LETTERS = 3;

    /** How a task stands. */
    public enum Standing {
        GOOD("good"),
        BAD("not good"),
        /** Done, but nothing says how it was found: a limit without a reading. */
        NOT_READ("no reading"),
        /** Done, and nobody said whether it is good, where the list is one of checks. */
        NOT_SAID("nobody said whether it is good"),
        LEFT_OUT("left out"),
        /** A check that was left out, and nobody says why. */
        UNEXPLAINED("left out, and nobody says why"),
        NOT_POSSIBLE("not possible"),
        UNANSWERED("not answered");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /**
     * A task beside its entry.
     *
     * @param task of the list
     * @param entry empty if it was not answered
     * @param standing what follows
     */
    public record Line(Task task, Optional<TaskEntry> entry, Standing standing) {}

    public TaskRecord {
        entries = List.copyOf(entries);
        Set<String> answered = new HashSet<>();
        for (TaskEntry entry : entries) {
            if (list.find(entry.task()).isEmpty()) {
                throw new IllegalArgumentException("the list %s has no task %s".formatted(list.name(), entry.task()));
            }
            if (!answered.add(entry.task())) {
                throw new IllegalArgumentException("the task %s is answered twice".formatted(entry.task()));
            }
        }
    }

    /** Every task of the list in its order. */
    public List<Line> lines() {
        List<Line> lines = new ArrayList<>();
        for (Task task : list.tasks()) {
            Optional<TaskEntry> entry =
                    entries.stream().filter(one -> one.task().equals(task.id())).findFirst();
            lines.add(new Line(task, entry, standing(task, entry, list.part())));
        }
        return List.copyOf(lines);
    }

    /** Whether any task is not good. */
    public boolean isBad() {
        return lines().stream().anyMatch(line -> line.standing() == Standing.BAD);
    }

    private static Standing standing(Task task, Optional<TaskEntry> answered, TaskList.Part part) {
        if (answered.isEmpty()) {
            return Standing.UNANSWERED;
        }
        TaskEntry entry = answered.get();
        return switch (entry.outcome()) {
            case NOT_POSSIBLE -> Standing.NOT_POSSIBLE;
            case NOT_DUE, NOT_APPLICABLE ->
                part == TaskList.Part.MAINTENANCE || isReason(entry.why()) ? Standing.LEFT_OUT : Standing.UNEXPLAINED;
            case DONE -> done(task, entry, part);
        };
    }

    /** A stroke is no reason. */
    private static boolean isReason(String why) {
        return why.chars().filter(Character::isLetter).count() >= FEWEST_LETTERS;
    }

    /** A failed thing is good again only once a part was fitted or a reading meets the limit. */
    private static Standing done(Task task, TaskEntry entry, TaskList.Part part) {
        boolean isMended = entry.part().isPresent() || !entry.after().isBlank();
        if (entry.condition() == TaskEntry.Condition.FAILED && !isMended) {
            return Standing.BAD;
        }
        if (task.limit().isPresent()) {
            return entry.reading()
                    .map(reading -> task.limit().get().isMetBy(reading) ? Standing.GOOD : Standing.BAD)
                    .orElse(Standing.NOT_READ);
        }
        boolean isSaid = part == TaskList.Part.MAINTENANCE || isMended;
        return isSaid || entry.condition() != TaskEntry.Condition.NOT_STATED ? Standing.GOOD : Standing.NOT_SAID;
    }
}
