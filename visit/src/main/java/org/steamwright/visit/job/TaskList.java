package org.steamwright.visit.job;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The tasks of one part of a visit, as an editable data file names them. The maker's instructions come first; a list is a
 * reminder of what to look up in them.
 *
 * @param name of the list
 * @param version of the list
 * @param sha256 hash of the file it was read from, 64 hex digits
 * @param part of the visit it belongs to
 * @param family model family it is meant for, in words
 * @param interval how often, in words
 * @param provenance where its tasks come from and how sure that is
 * @param tasks in order, at least one, ids unique
 */
public record TaskList(
        String name,
        String version,
        String sha256,
        Part part,
        String family,
        String interval,
        String provenance,
        List<Task> tasks) {

    /** Parts of a visit that are worked off by lists. */
    public enum Part {
        MAINTENANCE("Preventive maintenance"),
        SAFETY("Electrical and pressure safety"),
        INSTALLATION("Installation qualification (IQ)");

        private final String title;

        Part(String title) {
            this.title = title;
        }

        public String title() {
            return title;
        }
    }

    public TaskList {
        tasks = List.copyOf(tasks);
        if (name.isBlank() || provenance.isBlank()) {
            throw new IllegalArgumentException("a task list has a name and says where its tasks come from");
        }
        if (tasks.isEmpty()) {
            throw new IllegalArgumentException("task list %s without a task".formatted(name));
        }
        Set<String> ids = new HashSet<>();
        for (Task task : tasks) {
            if (!ids.add(task.id())) {
                throw new IllegalArgumentException("task list %s names the task %s twice".formatted(name, task.id()));
            }
        }
    }

    /** The task of that id. */
    public Optional<Task> find(String id) {
        return tasks.stream().filter(task -> task.id().equals(id)).findFirst();
    }
}
