package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskList;

/**
 * Task lists for maintenance, safety and installation: those that come with the program, and files of the visit folder.
 *
 * <p>A list is a YAML file that anybody can copy and change. Its hash goes with the record of the visit.
 */
final class TaskLists {

    /** Lists that come with the program, to be copied and changed. */
    static final List<String> SHIPPED =
            List.of("bench-vacuum-yearly", "bench-gravity-yearly", "bench-safety", "bench-installation");

    private static final String VERSION_KEY = "steamwright-task-list";
    private static final List<String> KEYS =
            List.of(VERSION_KEY, "name", "version", "part", "family", "interval", "provenance", "tasks");
    private static final List<String> TASK_KEYS = List.of("id", "title", "caution", "limit");
    private static final List<String> LIMIT_KEYS = List.of("at-most", "at-least", "unit", "source");

    private TaskLists() {}

    /** The list that an entry names; empty after a problem was added. */
    static Optional<TaskList> read(Entry entry, FolderFiles files) {
        Optional<String> name = entry.text();
        if (name.isEmpty()) {
            return Optional.empty();
        }
        try {
            if (SHIPPED.contains(name.get())) {
                return read(shipped(name.get()), entry.source().problems().ofList(name.get() + ".yaml"));
            }
            if (!name.get().endsWith(".yaml")) {
                entry.problem(
                        Mistake.TASK_LIST,
                        Flaw.notAmong(
                                        "found the task list \"%s\", expected one of %s, or a file of the folder that ends in .yaml.",
                                        name.get(), SHIPPED)
                                .with(Nearest.didYouMean(name.get(), SHIPPED) + " Copy one and change it."));
                return Optional.empty();
            }
            Optional<Path> file = files.find(name.get(), entry);
            if (file.isEmpty()) {
                return Optional.empty();
            }
            if (Files.size(file.get()) > YamlSource.MAX_BYTES) {
                entry.problem(Mistake.TOO_LARGE, YamlSource.tooLarge(Files.size(file.get())));
                return Optional.empty();
            }
            return read(
                    Files.readAllBytes(file.get()), entry.source().problems().ofList(name.get()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The bytes of a list that comes with the program. */
    static byte[] shipped(String name) {
        try (InputStream in = TaskLists.class.getResourceAsStream("tasks/" + name + ".yaml")) {
            if (in == null) {
                throw new IllegalStateException("the task list " + name + " is missing from the installation");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Optional<TaskList> read(byte[] bytes, Problems problems) {
        return YamlSource.parse(bytes, problems).flatMap(root -> list(root, FileBytes.sha256(bytes)));
    }

    private static Optional<TaskList> list(Entry root, String sha256) {
        // problems of the visit that names the list do not make the list unreadable
        int before = root.source().problems().count();
        Optional<Map<String, Entry>> keys = known(root, KEYS);
        if (keys.isEmpty()) {
            return Optional.empty();
        }
        Optional<String> format = need(root, keys.get(), VERSION_KEY);
        if (format.isPresent() && !format.get().equals("1")) {
            root.problem(
                    Mistake.FORMAT_VERSION,
                    Flaw.of("found version \"" + format.get() + "\" of a task list, expected 1.")
                            .inFile("Begin the file with: " + VERSION_KEY + ": 1"));
        }
        Optional<String> name = need(root, keys.get(), "name");
        Optional<String> version = need(root, keys.get(), "version");
        Optional<String> family = need(root, keys.get(), "family");
        Optional<String> interval = need(root, keys.get(), "interval");
        Optional<String> provenance = need(root, keys.get(), "provenance");
        Optional<TaskList.Part> part =
                Optional.ofNullable(keys.get().get("part")).flatMap(entry -> entry.word(Words.TASK_PART));
        if (!keys.get().containsKey("part")) {
            missing(root, "part", "maintenance");
        }
        List<Task> tasks = new ArrayList<>();
        Entry tasksEntry = keys.get().get("tasks");
        if (tasksEntry == null) {
            missing(root, "tasks", "[{id: door-seal, title: Door seal}]");
        } else {
            tasksEntry.list().forEach(one -> task(one).ifPresent(tasks::add));
        }
        boolean isComplete = format.isPresent()
                && name.isPresent()
                && version.isPresent()
                && family.isPresent()
                && interval.isPresent()
                && provenance.isPresent()
                && part.isPresent()
                && tasksEntry != null;
        return isComplete && root.source().problems().count() == before
                ? Facts.checked(
                        root,
                        () -> new TaskList(
                                name.get(),
                                version.get(),
                                sha256,
                                part.get(),
                                family.get(),
                                interval.get(),
                                provenance.get(),
                                tasks))
                : Optional.empty();
    }

    private static Optional<Task> task(Entry entry) {
        Optional<Map<String, Entry>> keys = known(entry, TASK_KEYS);
        if (keys.isEmpty()) {
            return Optional.empty();
        }
        Optional<String> id = need(entry, keys.get(), "id");
        Optional<String> title = need(entry, keys.get(), "title");
        String caution = Optional.ofNullable(keys.get().get("caution"))
                .flatMap(Entry::text)
                .orElse("");
        Entry limitEntry = keys.get().get("limit");
        Optional<Task.TaskLimit> limit = limitEntry == null ? Optional.empty() : limit(limitEntry);
        return id.isEmpty() || title.isEmpty() || (limitEntry != null && limit.isEmpty())
                ? Optional.empty()
                : Facts.checked(entry, () -> new Task(id.get(), title.get(), caution, limit));
    }

    private static Optional<Task.TaskLimit> limit(Entry entry) {
        Optional<Map<String, Entry>> keys = known(entry, LIMIT_KEYS);
        if (keys.isEmpty()) {
            return Optional.empty();
        }
        Entry most = keys.get().get("at-most");
        Entry least = keys.get().get("at-least");
        if ((most == null) == (least == null)) {
            entry.problem(
                    Mistake.TASK_LIST,
                    Flaw.of("found " + (most == null ? "neither" : "both")
                                    + " of at-most and at-least, expected one of them.")
                            .inFile("Write for example: {at-most: 0.2, unit: Ω, source: local rule}"));
            return Optional.empty();
        }
        Optional<Double> value = (most == null ? least : most).number();
        Optional<String> unit = need(entry, keys.get(), "unit");
        Optional<String> source = need(entry, keys.get(), "source");
        Comparison comparison = most == null ? Comparison.AT_LEAST : Comparison.AT_MOST;
        return value.isEmpty() || unit.isEmpty() || source.isEmpty()
                ? Optional.empty()
                : Facts.checked(entry, () -> new Task.TaskLimit(comparison, value.get(), unit.get(), source.get()));
    }

    /** The keys of a mapping, the unknown ones told. */
    private static Optional<Map<String, Entry>> known(Entry entry, List<String> keys) {
        Optional<Map<String, Entry>> entries = entry.entries();
        entries.ifPresent(map -> map.forEach((key, value) -> {
            if (!keys.contains(key)) {
                String near = Nearest.didYouMean(key, keys);
                value.problem(
                        Mistake.UNKNOWN_KEY,
                        Flaw.notAmong("found the unknown key \"%s\", expected one of %s.", key, keys)
                                .with((near.isEmpty() ? " Remove it." : near)));
            }
        }));
        return entries;
    }

    private static Optional<String> need(Entry entry, Map<String, Entry> keys, String key) {
        Entry value = keys.get(key);
        if (value == null) {
            missing(entry, key, "…");
            return Optional.empty();
        }
        return value.text();
    }

    private static void missing(Entry entry, String key, String example) {
        entry.problem(
                Mistake.MISSING_KEY,
                Flaw.missing("found no \"%s\", expected it here.", key)
                        .inFile("Add a line like: " + key + ": " + example));
    }
}
