package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.ReadOut;
import org.steamwright.report.picture.PhotoSubject;

/** Biological and chemical indicators of each loaded run, with their controls. */
final class IndicatorsSheet extends StageSheet {

    /** The last day of an interim report. */
    static final String INTERIM = "job-sheet/interim-until";

    IndicatorsSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        List<Integer> loaded = loaded();
        if (loaded.isEmpty()) {
            blocks.add(section("no-loaded-run").link(say("to.runs"), "runs").make());
        }
        interim().ifPresent(blocks::add);
        for (int run : loaded) {
            String path = "runs/" + run + "/indicators";
            String chemical = "runs/" + run + "/chemical-indicators";
            Block.Maker maker = new Block.Maker(Part.SECTION, say("run", run, say("word.reference-load")))
                    .note(say("note.indicators"));
            if (!isEndStated(run)) {
                maker.field(field(Saving.NOTES + ReadOut.note(run), "read-at", Look.DAY, List.of()));
            }
            again(run, "indicators", maker)
                    .button(say("add.exposed"), "entries", adding(path, "control", "no", "result", "awaited"))
                    .button(say("add.control"), "entries", adding(path, "control", "yes", "result", "awaited"));
            again(run, "chemical-indicators", maker).button(say("add.chemical"), "entries", adding(chemical));
            LotOffers.offer(draft, equipment.lots(), FactPath.parse(path), frame, maker);
            LotOffers.offer(draft, equipment.lots(), FactPath.parse(chemical), frame, maker);
            blocks.add(offering(path, offering(chemical, maker)).make());
            blocks.add(photos(PhotoSubject.INDICATORS, String.valueOf(run), entry(say("block.indicator-photos", run)))
                    .make());
            for (int i = 1; i <= count("runs", run, "indicators"); i++) {
                String one = path + "/" + i;
                boolean isControl =
                        text("runs", run, "indicators", i, "control").equals("yes");
                blocks.add(removable(
                                entry(say(isControl ? "control" : "exposed", i))
                                        .field(field(one, "id"))
                                        .field(field(one, "lot"))
                                        .field(field(one, "expires", Look.DAY))
                                        .field(field(one + "/position", "position", Look.TEXT, letters(run)))
                                        .field(choice(one, "result", List.of("awaited", "no-growth", "growth")))
                                        .field(field(one, "incubation"))
                                        .field(field(one, "incubated-until"))
                                        .field(field(one, "read-on"))
                                        .field(field(one, "read-by"))
                                        .folded(field(one, "product"))
                                        .folded(choice(one, "control", YES_NO))
                                        .folded(field(one, "population"))
                                        .folded(field(one, "d-value"))
                                        .folded(field(one, "d-value-at"))
                                        .folded(field(one, "z")),
                                one)
                        .make());
            }
            for (int i = 1; i <= count("runs", run, "chemical-indicators"); i++) {
                String one = "runs/" + run + "/chemical-indicators/" + i;
                blocks.add(removable(
                                entry(say("chemical", i))
                                        .field(field(one, "id"))
                                        .field(choice(one, "type", List.of("1", "2", "3", "4", "5", "6")))
                                        .field(field(one, "lot"))
                                        .field(field(one, "expires", Look.DAY))
                                        .field(field(one + "/position", "position", Look.TEXT, letters(run)))
                                        .field(choice(one, "result", List.of("reached", "not-reached", "unclear")))
                                        .folded(field(one, "product")),
                                one)
                        .make());
            }
        }
        return blocks;
    }

    /** Whether each indicator that is awaited says when its incubation ends, so that no day is asked for beside it. */
    private boolean isEndStated(int run) {
        int indicators = count("runs", run, "indicators");
        for (int i = 1; i <= indicators; i++) {
            if (text("runs", run, "indicators", i, "incubated-until").isBlank()
                    && text("runs", run, "indicators", i, "result").equals("awaited")) {
                return false;
            }
        }
        return indicators > 0;
    }
}
