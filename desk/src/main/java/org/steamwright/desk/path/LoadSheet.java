package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.desk.shelf.ChamberPlaces;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.PhotoSubject;

/** The reference load of each loaded run, its photos, and the statement of the clinic about it. */
final class LoadSheet extends StageSheet {

    LoadSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(section("load").caution(say("note.privacy")).make());
        for (Machine machine : machines()) {
            String frameOfLoads = "job-sheet/loads/" + KeyedPath.entry("sterilizer", machine.key());
            blocks.add(new Block.Maker(Part.ROW, say("block.loads", machine.words()))
                    .folded(field(frameOfLoads, "maximum"))
                    .folded(field(frameOfLoads, "maximum-source"))
                    .folded(field(frameOfLoads, "owned", Look.LONG))
                    .folded(field(frameOfLoads, "too-little-accepted", Look.LONG))
                    .make());
        }
        List<Integer> loaded = loaded();
        if (loaded.isEmpty()) {
            blocks.add(section("no-loaded-run").link(say("to.runs"), "runs").make());
        }
        int described = 0;
        for (int run : loaded) {
            String path = "runs/" + run + "/load";
            Block.Maker maker = new Block.Maker(Part.SECTION, say("run", run, say("word.reference-load")));
            boolean isDescribed = draft.find(FactPath.parse(path)).isPresent();
            if (!isDescribed && described > 0) {
                maker.note(say("note.same-load", described))
                        .button(
                                say("take.load", described),
                                "copies",
                                Map.of(
                                        "from",
                                        "runs/" + described + "/load",
                                        "to",
                                        path,
                                        "seen-from",
                                        Saving.mark(draft, "runs/" + described + "/load"),
                                        "seen-to",
                                        Saving.mark(draft, path)));
            }
            described = isDescribed && described == 0 ? run : described;
            maker.field(field(path, "description", Look.LONG))
                    .field(field(path, "packaging"))
                    .field(field(path, "mass"))
                    .field(field(path, "trays", Look.COUNT))
                    .field(field(path, "on-levels"))
                    .field(field(path, "challenge-pack", Look.LONG))
                    .field(field(path + "/challenge-place", "challenge-place", Look.TEXT, places(run)))
                    .field(choice(path, "slowest-because", List.of("mapped", "measured", "instructions", "judged")))
                    .button(say("add.item"), "entries", adding(path + "/items", "count", "1"));
            offering(path + "/items", maker);
            photos(run, maker);
            blocks.add(maker.make());
            for (int i = 1; i <= count("runs", run, "load", "items"); i++) {
                String item = path + "/items/" + i;
                blocks.add(removable(
                                entry(say("item", i))
                                        .field(field(item, "name"))
                                        .field(field(item, "count", Look.COUNT))
                                        .field(choice(
                                                item, "family", List.of("solid", "hollow-a", "hollow-b", "porous")))
                                        .field(field(item, "packaging"))
                                        .folded(field(item, "mass"))
                                        .folded(field(item, "tray")),
                                item)
                        .make());
            }
            weighings(run, blocks);
            blocks.add(taken(run));
            blocks.add(photos(PhotoSubject.POSITIONS, String.valueOf(run), entry(say("block.positions", run)))
                    .make());
            blocks.add(statement(run));
        }
        return blocks;
    }

    /** Packs that are weighed before and after, and what follows for the moisture left. */
    private void weighings(int run, List<Block> blocks) {
        String list = "runs/" + run + "/weighings";
        int weighed = count("runs", run, "weighings");
        Block.Maker maker = new Block.Maker(Part.SECTION, say("block.weighings", run)).note(say("note.weighings"));
        draft.peek()
                .flatMap(DraftReading::assessed)
                .flatMap(assessed -> assessed.find(run))
                .flatMap(one -> one.loadFindings().stream()
                        .filter(finding -> finding.id() == CriterionId.LOAD_DRYNESS)
                        .findFirst())
                .filter(finding -> weighed > 0)
                .ifPresent(finding -> maker.note(frame.heard(finding.sentence())));
        again(run, "weighings", maker)
                .button(
                        say("add.weighing"),
                        "entries",
                        adding(list, "item", say("weighing.item", weighed + 1), "kind", "solid"));
        blocks.add(maker.make());
        for (int i = 1; i <= weighed; i++) {
            String one = list + "/" + i;
            blocks.add(removable(
                            entry(say("weighing", i))
                                    .field(field(one + "/item", "weighings-item", Look.TEXT, List.of()))
                                    .field(field(
                                            one + "/kind",
                                            "weighings-kind",
                                            Look.CHOICE,
                                            options(List.of("solid", "porous"))))
                                    .field(field(one + "/before", "weighings-before", Look.TEXT, List.of()))
                                    .field(field(one + "/after", "weighings-after", Look.TEXT, List.of())),
                            one)
                    .make());
        }
    }

    /** What is seen of the load when it is taken out. */
    private Block taken(int run) {
        String path = "runs/" + run + "/after-run";
        return new Block.Maker(Part.SECTION, say("block.after-run", run))
                .note(say("note.after-run"))
                .field(choice(path, "packs", List.of("dry", "wet")))
                .field(choice(path, "seals", List.of("intact", "not-intact")))
                .field(field(path, "closed-for"))
                .field(field(path, "looked-by"))
                .make();
    }

    /** Where a pack can lie: where the sensors of the run are, and what the chamber has. */
    private List<Option> places(int run) {
        List<Option> places = new ArrayList<>();
        ChamberPlaces.sensors(draft, run).forEach((letter, place) -> {
            if (!place.isBlank()) {
                places.add(new Option(place, letter));
            }
        });
        ChamberPlaces.places(trayLevels(run))
                .forEach(steps -> places.add(new Option(
                        String.join(", ", steps),
                        steps.stream()
                                .map(step -> ChamberPlaces.said(
                                        step, frame::say, number -> frame.say("runs.step.tray", number)))
                                .collect(Collectors.joining(", ")))));
        return places;
    }

    private int trayLevels(int run) {
        String key = Running.machine(draft, run);
        return machines().stream()
                .filter(machine -> machine.key().equals(key))
                .map(machine -> text("sterilizers", machine.place(), "tray-levels"))
                .filter(levels -> levels.matches("[1-9]|1[0-2]"))
                .map(Integer::valueOf)
                .findFirst()
                .orElse(0);
    }

    private void photos(int run, Block.Maker maker) {
        Optional<Object> photos = draft.find(FactPath.of("runs", run, "load", "photos"));
        if (photos.isPresent() && photos.get() instanceof List<?> names) {
            for (Object name : names) {
                maker.picture(String.valueOf(name), say("photo", name), true);
            }
        }
        maker.upload(say("add.photo"), "photos", Map.of("run", String.valueOf(run)), Block.Upload.PHOTO);
    }

    private Block statement(int run) {
        String path = "runs/" + run + "/load";
        String ink = DrawnSignature.name(run);
        Optional<Integer> same = draft.files().containsKey(ink)
                        || !text("runs", run, "load", "agreed-by").isBlank()
                ? Optional.empty()
                : agreedBefore(run);
        if (same.isPresent()) {
            return new Block.Maker(Part.ENTRY, say("block.statement", run))
                    .note(say("statement.same", same.get()))
                    .make();
        }
        Block.Maker maker = new Block.Maker(Part.ENTRY, say("block.statement", run))
                .note(say("statement"))
                .field(field(path, "agreed-by"));
        boolean isDrawn = draft.files().containsKey(ink);
        if (isDrawn) {
            maker.picture(ink, say("ink.there"), false);
        } else if (!draft.note(RunFiles.unsignedNote(run)).isBlank()) {
            maker.caution(say("ink.gone"));
        }
        return maker.upload(
                        say(isDrawn ? "ink.anew" : "ink.keep"),
                        "ink",
                        Map.of("run", String.valueOf(run)),
                        Block.Upload.INK)
                .make();
    }

    /** Another run with the same load in the same cycle of the same sterilizer, about which the clinic has spoken. */
    private Optional<Integer> agreedBefore(int run) {
        return loaded().stream()
                .filter(other -> other != run
                        && !text("runs", other, "load", "agreed-by").isBlank()
                        && Running.sort(draft, other).equals(Running.sort(draft, run))
                        && load(other).equals(load(run)))
                .findFirst();
    }

    /** The load of a run without what belongs to the run alone. */
    private Map<String, Object> load(int run) {
        Map<String, Object> load = new TreeMap<>();
        if (draft.find(FactPath.of("runs", run, "load")).orElse("") instanceof Map<?, ?> map) {
            map.forEach((key, value) -> load.put(String.valueOf(key), value));
        }
        load.keySet().removeAll(Set.of("agreed-by", "photos", "slowest-because"));
        return load;
    }
}
