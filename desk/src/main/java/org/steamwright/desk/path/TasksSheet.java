package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.intake.folder.ShippedTaskLists;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskList;

/** Task lists of a part of the work: maintenance, installation with what changed since last time, safety. */
final class TasksSheet extends StageSheet {

    private static final Set<String> NEEDING_REASON = Set.of("not-due", "not-applicable", "not-possible");

    private final TaskList.Part part;

    TasksSheet(TaskList.Part part, Seen seen) {
        super(seen);
        this.part = part;
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        if (part == TaskList.Part.INSTALLATION) {
            changes(blocks);
        }
        String word = part.name().toLowerCase(Locale.ROOT);
        for (Machine machine : machines()) {
            Map<String, TaskList> lists = new LinkedHashMap<>();
            ShippedTaskLists.names()
                    .forEach(name -> ShippedTaskLists.find(name)
                            .filter(list -> list.part() == part)
                            .ifPresent(list -> lists.put(name, list)));
            Block.Maker head = new Block.Maker(Part.SECTION, machine.words());
            Optional<String> chosen = chosen(machine, word, lists);
            Optional<TaskList> found = chosen.flatMap(name -> Optional.ofNullable(lists.get(name)));
            if (found.isEmpty()) {
                head.note(say("note.no-cycle")).link(say("to.identity"), "identity");
            }
            found.ifPresent(list -> head.note(say(
                    "note.tasks",
                    frame.heard(list.family()),
                    frame.heard(list.interval()),
                    frame.heard(list.provenance().strip()))));
            if (lists.size() > 1) {
                head.field(field(
                        Saving.NOTES + LIST + word + "/" + machine.key(),
                        "task-list",
                        Look.CHOICE,
                        lists.keySet().stream()
                                .map(name -> new Option(name, name))
                                .toList()));
            }
            blocks.add(head.make());
            found.ifPresent(list -> {
                String tasks = "job-sheet/tasks/"
                        + KeyedPath.entry("list", chosen.orElse(""), "sterilizer", machine.key()) + "/entries/";
                list.tasks().forEach(task -> blocks.add(task(tasks + KeyedPath.entry("task", task.id()), task)));
            });
        }
        if (machines().isEmpty()) {
            blocks.add(section("no-sterilizer")
                    .link(say("to.identity"), "identity")
                    .make());
        }
        return blocks;
    }

    /** What changed since last time, which decides what is qualified anew. */
    private void changes(List<Block> blocks) {
        for (Machine machine : machines()) {
            String changes = "job-sheet/changes/" + KeyedPath.entry("sterilizer", machine.key());
            blocks.add(new Block.Maker(Part.SECTION, say("block.changes", machine.words()))
                    .note(say("note.changes"))
                    .field(choice(changes, "moved", YES_NO))
                    .field(choice(changes, "added", YES_NO))
                    .field(choice(changes, "changed", YES_NO))
                    .field(field(changes + "/note", "changes-note", Look.LONG, List.of()))
                    .make());
        }
    }

    /** The list that fits; empty while it follows from cycles that nobody has typed. */
    private Optional<String> chosen(Machine machine, String part, Map<String, TaskList> lists) {
        String noted = draft.note(LIST + part + "/" + machine.key());
        if (lists.containsKey(noted)) {
            return Optional.of(noted);
        }
        for (int i = 1; i <= count("job-sheet", "tasks"); i++) {
            String name = text("job-sheet", "tasks", i, "list");
            if (text("job-sheet", "tasks", i, "sterilizer").equals(machine.key()) && lists.containsKey(name)) {
                return Optional.of(name);
            }
        }
        if (lists.size() == 1) {
            return lists.keySet().stream().findFirst();
        }
        List<String> types = new ArrayList<>();
        for (int j = 1; j <= count("sterilizers", machine.place(), "cycles"); j++) {
            String type = text("sterilizers", machine.place(), "cycles", j, "type");
            if (!type.isBlank()) {
                types.add(type);
            }
        }
        if (types.isEmpty()) {
            return Optional.empty();
        }
        String wanted = types.stream().allMatch(type -> type.equals("N")) ? "gravity" : "vacuum";
        return lists.keySet().stream().filter(name -> name.contains(wanted)).findFirst();
    }

    private Block task(String path, Task task) {
        Field answered = answer(path);
        Block.Maker row = new Block.Maker(Part.ROW, frame.heard(task.title()))
                .caution(frame.heard(task.caution()))
                .field(answered);
        task.limit()
                .ifPresentOrElse(
                        limit -> row.field(field(
                                path + "/reading",
                                say("label.reading"),
                                say(
                                        limit.comparison().name().equals("AT_LEAST") ? "hint.at-least" : "hint.at-most",
                                        frame.figures().of(String.valueOf(limit.value())),
                                        limit.unit(),
                                        frame.heard(limit.source())),
                                Look.TEXT,
                                List.of())),
                        () -> row.folded(field(path, "before")).folded(field(path, "after")));
        Field why = field(path + "/why", "why", Look.TEXT, List.of());
        // left out or not possible: the reason is asked for
        return (NEEDING_REASON.contains(answered.value()) ? row.field(why) : row.folded(why))
                .folded(field(path + "/part/number", "part-number", Look.TEXT, List.of()))
                .folded(field(path + "/part/lot", "part-lot", Look.TEXT, List.of()))
                .folded(named(path, "instrument", instruments()))
                .make();
    }

    /** How it was found, of a check whether it is good, or why it was not done: one answer, and the usual one at one touch. */
    private Field answer(String path) {
        boolean isCheck = part != TaskList.Part.MAINTENANCE;
        String found = isCheck ? "check." : "word.";
        List<Option> words = new ArrayList<>();
        for (String word : List.of("good", "worn", "failed")) {
            words.add(new Option(word, say(found + word)));
        }
        for (String word : List.of("not-due", "not-applicable", "not-possible", "done")) {
            words.add(new Option(word, say("word." + word)));
        }
        Field field = field(TaskAnswer.path(path), isCheck ? "verdict" : "condition", Look.CHOICE, words);
        return field.value().isBlank()
                ? field.quickly(List.of(new Option("good", say("task." + (isCheck ? "good" : "done-good")))))
                : field;
    }
}
