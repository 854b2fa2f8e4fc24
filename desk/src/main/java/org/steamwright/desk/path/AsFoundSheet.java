package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.report.picture.PhotoSubject;
import org.steamwright.visit.Checklist;

/** The surroundings, and what is looked at before anything is touched. */
final class AsFoundSheet extends StageSheet {

    /** What is looked at before anything is touched; titles stand in the visit and do not change with the reader's language. */
    private static final Map<String, String> AS_FOUND = asFound();

    AsFoundSheet(Seen seen) {
        super(seen);
    }

    /** Titles of the lines that it shows. */
    static List<String> titles() {
        return List.copyOf(AS_FOUND.values());
    }

    /** The path of a fact of a checklist as a sheet shows it: those that this one begins are named by their keys. */
    static String shown(Draft draft, FactPath path) {
        List<String> steps = path.steps();
        String machine = draft.text(FactPath.of("checklists", steps.get(1), "sterilizer"));
        boolean isOfThis =
                draft.text(FactPath.of("checklists", steps.get(1), "section")).equals("as-found");
        if (!isOfThis || machine.isBlank() || steps.size() < 5) {
            return path.toString();
        }
        String title = draft.text(FactPath.of("checklists", steps.get(1), "items", steps.get(3), "title"));
        return AS_FOUND.containsValue(title) ? item(machine, title) + "/" + steps.get(4) : path.toString();
    }

    private static String item(String machine, String title) {
        return "checklists/" + KeyedPath.entry("section", "as-found", "sterilizer", machine) + "/items/"
                + KeyedPath.entry("title", title);
    }

    private static Map<String, String> asFound() {
        Map<String, String> titles = new LinkedHashMap<>();
        titles.put("log-book", "Log book of the clinic: tests of the days and weeks are there");
        titles.put("own-failures", "Failed cycles and messages since the last visit");
        titles.put("complaints", "What the staff noticed");
        titles.put("last-indicator", "Last result of the clinic's own indicator");
        titles.put("display-at-rest", "Display at rest: room temperature and ambient pressure");
        titles.put("own-clock", "Clock of the steriliser against the reference clock");
        titles.put("chamber", "Chamber, door and seal before anything is touched");
        return titles;
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(section("conditions")
                .field(field("conditions", "barometer"))
                .field(field("conditions", "barometer-source"))
                .field(field("conditions", "altitude"))
                .field(field("conditions", "room-temperature"))
                .field(field("conditions", "room-humidity"))
                .folded(field("conditions", "supply-voltage"))
                .folded(field("conditions", "water-conductivity"))
                .make());
        for (Machine machine : machines()) {
            blocks.add(photos(
                            PhotoSubject.COUNTER,
                            machine.key(),
                            new Block.Maker(Part.SECTION, machine.words())
                                    .note(say("note.as-found"))
                                    .field(field("sterilizers/" + machine.place(), "counter-at-arrival", Look.COUNT)))
                    .make());
            AS_FOUND.forEach((id, title) -> {
                String item = item(machine.key(), title);
                blocks.add(new Block.Maker(Part.ROW, say("as-found." + id))
                        .field(result(check(item, Checklist.Section.AS_FOUND)))
                        .folded(field(item, "remark", Look.LONG))
                        .folded(field(item, "as-found"))
                        .folded(named(item, "instrument", instruments()))
                        .make());
            });
        }
        blocks.add(section("as-found-tests").link(say("to.runs"), "runs").make());
        return blocks;
    }

    /** The usual answer takes one touch. */
    private Field result(Field field) {
        return field.value().isBlank() ? field.quickly(List.of(new Field.Option("good", say("task.good")))) : field;
    }
}
