package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.filing.FactPath;

/** Test runs, steam penetration tests, and every other cycle of the day. */
final class RunsSheet extends StageSheet {

    RunsSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        Block.Maker head = section("runs");
        for (Machine machine : machines()) {
            for (String kind : List.of("air-leakage", "empty-chamber", "reference-load")) {
                head.button(
                        say("add.run", say("word." + kind), machine.key()),
                        "entries",
                        cycles().size() == 1 && !kind.equals("air-leakage")
                                ? adding("runs", "kind", kind, "sterilizer", machine.key(), "cycle", cycles().get(0))
                                : adding("runs", "kind", kind, "sterilizer", machine.key()));
            }
        }
        if (Recorded.isAny(draft)) {
            head.link(say("to.failures"), "failures");
        }
        unchecked(head);
        if (!draft.isSigned()) {
            new LoadsAlone(draft, frame).ofRuns().forEach(head::note);
        }
        blocks.add(head.at("runs").make());
        for (int i = 1; i <= count("runs"); i++) {
            blocks.add(run(i));
        }
        lengths(blocks);
        Block.Maker penetration = section("penetration")
                .button(
                        say("add.penetration"),
                        "entries",
                        adding("job-sheet/penetration", "sterilizer", firstKey(), "kind", "hollow"));
        LotOffers.offer(draft, equipment.lots(), FactPath.of("job-sheet", "penetration"), frame, penetration);
        blocks.add(penetration.make());
        for (int i = 1; i <= count("job-sheet", "penetration"); i++) {
            String path = "job-sheet/penetration/" + i;
            blocks.add(removable(
                            entry(say("penetration", i))
                                    .field(named(path, "sterilizer", keys()))
                                    .field(named(path, "cycle", cycles()))
                                    .field(field(path, "machine-cycle", Look.COUNT))
                                    .field(choice(path, "kind", List.of("hollow", "porous")))
                                    .field(field(path, "device"))
                                    .field(field(path, "lot"))
                                    .field(field(path, "expires", Look.DAY))
                                    .field(choice(path, "result", List.of("pass", "fail", "unclear")))
                                    .field(field(path, "read-by"))
                                    .folded(choice(path, "when", List.of("as-found", "as-left")))
                                    .folded(field(path, "note", Look.LONG)),
                            path)
                    .make());
        }
        blocks.add(section("other-cycles")
                .button(
                        say("add.other-cycles"),
                        "entries",
                        adding("job-sheet/other-cycles", "sterilizer", firstKey(), "kind", "warm-up"))
                .make());
        for (int i = 1; i <= count("job-sheet", "other-cycles"); i++) {
            String path = "job-sheet/other-cycles/" + i;
            blocks.add(removable(
                            entry(say("other-cycles", i))
                                    .field(named(path, "sterilizer", keys()))
                                    .field(choice(
                                            path,
                                            "kind",
                                            List.of(
                                                    "warm-up",
                                                    "own-test",
                                                    "service",
                                                    "clinic",
                                                    "stopped",
                                                    "failed",
                                                    "other")))
                                    .field(field(path, "first", Look.COUNT))
                                    .field(field(path, "last", Look.COUNT))
                                    .field(field(path, "note")),
                            path)
                    .make());
        }
        for (Machine machine : machines()) {
            blocks.add(new Block.Maker(Part.SECTION, say("block.departure", machine.words()))
                    .field(field("sterilizers/" + machine.place(), "counter-at-departure", Look.COUNT))
                    .make());
        }
        return blocks;
    }

    /** How long cycles take, once for each sort of run, so that the strip can say when somebody has to be there. */
    private void lengths(List<Block> blocks) {
        Block.Maker maker = section("lengths");
        List<String> sorts = new ArrayList<>();
        for (int run = 1; run <= count("runs"); run++) {
            String sort = Running.sort(draft, run);
            if (!sorts.contains(sort) && !sort.startsWith("/") && !sort.endsWith("/")) {
                sorts.add(sort);
                String words = Running.sortWords(draft, run, frame);
                maker.folded(length(Running.LENGTH + sort, say("label.cycle-length", words)))
                        .folded(length(Running.PLATEAU + sort, say("label.cycle-plateau", words)));
            }
        }
        if (!sorts.isEmpty()) {
            blocks.add(maker.make());
        }
    }

    private Field length(String note, String label) {
        return field(Saving.NOTES + note, label, say("hint.cycle-length"), Look.TEXT, List.of());
    }

    private String firstKey() {
        return keys().isEmpty() ? "A" : keys().get(0);
    }

    private Block run(int number) {
        String path = "runs/" + number;
        String kind = text("runs", number, "kind");
        Block.Maker maker = entry(say("run", number, kindWords(kind)));
        if (Running.is(draft, number)) {
            maker.heldOpen()
                    .button(say("running.ended"), "running", Map.of("run", String.valueOf(number), "ended", "yes"));
        } else if (draft.find(FactPath.of("runs", number, "recording")).isEmpty()) {
            maker.button(say("running.start"), "running", Map.of("run", String.valueOf(number)));
        }
        maker.field(choice(path, "kind", List.of("air-leakage", "empty-chamber", "reference-load")))
                .field(named(path, "sterilizer", keys()))
                .field(named(path, "cycle", cycles()))
                .field(field(path, "machine-cycle", Look.COUNT))
                .field(field(path, "barometer"))
                .field(field(path, "machine-verdict"));
        if (kind.equals("air-leakage")) {
            maker.field(choice(path, "stage", List.of("as-found", "without-sensors", "with-sensors", "after")));
        }
        maker.folded(field(path, "start-condition")).folded(field(path, "note", Look.LONG));
        String recording = draft.find(FactPath.of("runs", number, "recording"))
                .map(value -> value instanceof String name ? name : say("recordings"))
                .orElse("");
        maker.note(recording.isBlank() ? say("recording.none") : say("recording", recording))
                .link(say("to.recordings"), "runs/" + number + "/recordings")
                .link(say("to.run"), "runs/" + number);
        if (kind.equals("reference-load")) {
            maker.link(say("to.load"), "load").link(say("to.indicators"), "indicators");
        }
        if (!Recorded.is(draft, number)) {
            return removable(maker, path).make();
        }
        Map<String, String> which = Map.of("run", String.valueOf(number));
        String because = text("runs", number, "set-aside", "because");
        if (because.isBlank()) {
            return maker.at(path)
                    .upload(say("set-aside"), "set-asides", which, Block.Upload.REASON)
                    .make();
        }
        return maker.at(path)
                .caution(say("is-set-aside", because, text("runs", number, "set-aside", "by")))
                .upload(
                        say("set-aside.again"),
                        "set-asides",
                        Map.of("run", String.valueOf(number), "again", "yes"),
                        Block.Upload.REASON)
                .make();
    }

    private String kindWords(String kind) {
        return frame.words().find("path.word." + kind).orElse(kind);
    }
}
