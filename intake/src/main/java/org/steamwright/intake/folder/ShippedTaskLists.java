package org.steamwright.intake.folder;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.steamwright.visit.job.TaskList;

/** The task lists that come with the program, by the names under which a visit file names them. */
public final class ShippedTaskLists {

    private static final Map<String, TaskList> READ = new ConcurrentHashMap<>();

    private ShippedTaskLists() {}

    /** Names in the order of the reference page. */
    public static List<String> names() {
        return TaskLists.SHIPPED;
    }

    /** The list of that name; empty if none of that name comes with the program. */
    public static Optional<TaskList> find(String name) {
        return names().contains(name)
                ? Optional.of(READ.computeIfAbsent(name, ShippedTaskLists::read))
                : Optional.empty();
    }

    private static TaskList read(String name) {
        return TaskLists.read(TaskLists.shipped(name), new Problems(name + ".yaml"))
                .orElseThrow(
                        () -> new IllegalStateException("the task list " + name + " of the program can't be read"));
    }
}
