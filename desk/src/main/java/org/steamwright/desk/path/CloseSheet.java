package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steamwright.desk.path.Field.Look;

/** What is said in words before the visit is closed. */
final class CloseSheet extends StageSheet {

    CloseSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        interim().ifPresent(blocks::add);
        if (equipment.visit().filter(visit -> !visit.unchecked().isEmpty()).isPresent() && !draft.isSigned()) {
            Block.Maker leaving = section("leaving");
            unchecked(leaving);
            blocks.add(leaving.make());
        }
        for (String list : List.of("deviations", "recommendations", "next-due", "not-tested")) {
            Block.Maker maker = section(list);
            int entries = count(list);
            for (int i = 1; i <= entries; i++) {
                maker.field(field(list + "/" + i, say("line", i), "", Look.LONG, List.of()));
            }
            if (entries == 0 && !text(list).isBlank()) {
                maker.field(field(list, say("line", 1), "", Look.LONG, List.of()));
            } else {
                maker.upload(say("add.line"), "lines", Map.of("list", list), Block.Upload.LINE);
            }
            blocks.add(maker.make());
        }
        blocks.add(section("validity")
                .field(field("job-sheet", "valid-until", Look.DAY))
                .field(field("job-sheet", "cycles-until-due", Look.COUNT))
                .make());
        Block.Maker scope = section("scope");
        for (String part : List.of("leak", "operational", "performance")) {
            scope.field(field("job-sheet/scope/" + part, "scope-" + part, Look.CHOICE, options(List.of("yes", "no"))));
        }
        if (!draft.isSigned()) {
            LoadsAlone alone = new LoadsAlone(draft, frame);
            scope.caution(String.join(" ", alone.ofScope()));
            scope.note(alone.isWithoutLoads() ? say("alone.no-load") : "");
        }
        cyclesAskedFor(scope);
        blocks.add(scope.field(field("job-sheet/scope/because", "scope-because", Look.LONG, List.of()))
                .at("job-sheet/scope")
                .make());
        blocks.add(section("failed").link(say("to.failures"), "failures").make());
        return blocks;
    }

    /** Which of several cycles the visit was asked for: all as long as none is left out. */
    private void cyclesAskedFor(Block.Maker scope) {
        List<String> all = cycles();
        List<String> asked = AskedCycles.of(draft);
        if (all.size() < 2 && asked.isEmpty()) {
            return;
        }
        for (String cycle : all) {
            boolean isAsked = AskedCycles.isAsked(asked, cycle);
            if (!asked.isEmpty()) {
                scope.note(say(isAsked ? "scope.asked" : "scope.left-out", cycle));
            }
            if (!isAsked) {
                scope.button(say("scope.ask", cycle), "scope", Map.of("cycle", cycle, "asked", "yes"));
            } else if (asked.isEmpty() || asked.size() > 1) {
                scope.button(say("scope.leave-out", cycle), "scope", Map.of("cycle", cycle));
            }
        }
    }
}
