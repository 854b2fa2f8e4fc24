package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.folder.AfterChangeFile;

/** When something failed: what was done about it, where a look-back begins, and on what conditions a pass stands. */
final class FailuresSheet extends StageSheet {

    /** Kinds of evidence, by the words of a visit file. */
    static final List<String> KINDS =
            List.of("air-leakage", "steam-penetration", "biological", "thermometric", "indication", "safety");

    private static final List<String> EVENTS = List.of(
            "moved",
            "repaired",
            "adjusted",
            "firmware",
            "supply",
            "test-failed",
            "long-standstill",
            "new-load",
            "new-cycle");

    /** Reasons for a visit that are no change of the sterilizer. */
    private static final List<String> NO_CHANGES = List.of("commissioning", "yearly", "service", "re-test");

    private static final String FAILURES = "job-sheet/failures";
    private static final String STERILIZER = "sterilizer";

    FailuresSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        failures(blocks);
        evidence(blocks);
        conditions(blocks);
        events(blocks);
        return blocks;
    }

    private String firstKey() {
        return keys().isEmpty() ? "A" : keys().get(0);
    }

    private Option kind(String word) {
        return new Option(word, say("evidence." + word));
    }

    private void failures(List<Block> blocks) {
        Block.Maker head = section("failures");
        KINDS.forEach(kind -> head.button(
                say("add.failure", say("evidence." + kind)),
                "entries",
                adding(FAILURES, STERILIZER, firstKey(), "kind", kind)));
        blocks.add(head.make());
        for (int i = 1; i <= count("job-sheet", "failures"); i++) {
            String path = FAILURES + "/" + i;
            Block.Maker maker = entry(say("failure", i))
                    .field(kinds(path))
                    .field(named(path, STERILIZER, keys()))
                    .field(field(path, "cause", Look.LONG))
                    .field(field(path, "action", Look.LONG));
            changes(path + "/changes", maker);
            blocks.add(removable(
                            maker.field(field(path, "effect", Look.LONG))
                                    .field(field(path, "closed-by"))
                                    .field(field(path, "closed-on", Look.DAY)),
                            path)
                    .make());
        }
    }

    /** What was exchanged or altered, by the words of the after-change matrix. */
    private void changes(String list, Block.Maker maker) {
        List<String> chosen = new ArrayList<>();
        FactPath path = FactPath.parse(list);
        for (int i = 1; i <= draft.count(path); i++) {
            chosen.add(draft.text(path.then(i)));
        }
        if (chosen.isEmpty() && !draft.text(path).isBlank()) {
            chosen.add(draft.text(path));
        }
        Map<String, String> words = new LinkedHashMap<>();
        AfterChangeFile.shipped().rows().stream()
                .filter(row -> !NO_CHANGES.contains(row.word()))
                .forEach(row -> words.put(row.word(), frame.heard(row.title())));
        if (!chosen.isEmpty()) {
            maker.note(say(
                    "changed",
                    String.join(
                            "; ",
                            chosen.stream()
                                    .map(word -> words.getOrDefault(word, word))
                                    .toList())));
        }
        List<Option> left = words.entrySet().stream()
                .filter(word -> !chosen.contains(word.getKey()))
                .map(word -> new Option(word.getKey(), word.getValue()))
                .toList();
        maker.choosing(say("add.changed"), "lines", Map.of("list", list), left);
        if (!chosen.isEmpty()) {
            maker.button(say("remove.changed"), "removals", Map.of("path", list, "seen", Saving.mark(draft, list)));
        }
    }

    private void evidence(List<Block> blocks) {
        String list = "job-sheet/evidence";
        blocks.add(section("evidence")
                .button(say("add.evidence"), "entries", adding(list, STERILIZER, firstKey(), "kind", "thermometric"))
                .make());
        for (int i = 1; i <= count("job-sheet", "evidence"); i++) {
            String path = list + "/" + i;
            blocks.add(removable(
                            entry(say("evidence", i))
                                    .field(kinds(path))
                                    .field(named(path, STERILIZER, keys()))
                                    .field(field(path, "on", Look.DAY))
                                    .field(field(path + "/cycle", "machine-cycle", Look.COUNT, List.of()))
                                    .field(field(path + "/reference", "evidence-reference", Look.TEXT, List.of())),
                            path)
                    .make());
        }
    }

    private void conditions(List<Block> blocks) {
        String list = "job-sheet/conditions";
        blocks.add(section("pass-conditions")
                .button(say("add.condition"), "entries", adding(list, STERILIZER, firstKey()))
                .make());
        for (int i = 1; i <= count("job-sheet", "conditions"); i++) {
            String path = list + "/" + i;
            blocks.add(removable(
                            entry(say("condition", i))
                                    .field(field(path + "/text", "pass-condition", Look.LONG, List.of()))
                                    .field(named(path, STERILIZER, keys()))
                                    .field(named(path, "cycle", cycles()))
                                    .field(field(path + "/owner", "condition-owner", Look.TEXT, List.of()))
                                    .field(field(path, "until", Look.DAY))
                                    .field(field(path, "until-count", Look.COUNT))
                                    .folded(field(path, "met-on", Look.DAY))
                                    .folded(field(path + "/renewal/of", "renewal-of", Look.TEXT, List.of()))
                                    .folded(field(path + "/renewal/reason", "renewal-reason", Look.LONG, List.of()))
                                    .folded(field(
                                            path + "/renewal/reviewer", "renewal-reviewer", Look.TEXT, List.of())),
                            path)
                    .make());
        }
    }

    private void events(List<Block> blocks) {
        String list = "job-sheet/events";
        blocks.add(section("events")
                .button(say("add.event"), "entries", adding(list, STERILIZER, firstKey(), "kind", "test-failed"))
                .make());
        for (int i = 1; i <= count("job-sheet", "events"); i++) {
            String path = list + "/" + i;
            blocks.add(removable(
                            entry(say("event", i))
                                    .field(field(
                                            path + "/kind",
                                            "event-kind",
                                            Look.CHOICE,
                                            EVENTS.stream()
                                                    .map(word -> new Option(word, say("event." + word)))
                                                    .toList()))
                                    .field(named(path, STERILIZER, keys()))
                                    .field(field(path, "on", Look.DAY))
                                    .field(field(path, "note", Look.LONG)),
                            path)
                    .make());
        }
    }

    private Field kinds(String path) {
        return field(
                path + "/kind",
                "evidence-kind",
                Look.CHOICE,
                KINDS.stream().map(this::kind).toList());
    }
}
