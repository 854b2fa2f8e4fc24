package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.report.picture.PhotoSubject;

/** Who, where and which sterilizer, with the name plate first: nothing is touched before it was read. */
final class IdentitySheet extends StageSheet {

    private static final List<String> ROLES =
            List.of("technician", "reviewer", "representative of the clinic", "practice manager");

    IdentitySheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        Gate.of(draft).forEach(gate -> blocks.add(gate(gate)));
        blocks.add(visit());
        blocks.add(section("clinic")
                .field(field("clinic", "name"))
                .field(field("clinic", "address"))
                .field(field("clinic", "room"))
                .field(field("clinic", "contact"))
                .field(field("clinic", "reference"))
                .make());
        blocks.add(offering(
                        "people",
                        section("people")
                                .button(say("add.technician"), "entries", adding("people", "role", "technician"))
                                .button(
                                        say("add.clinic-person"),
                                        "entries",
                                        adding("people", "role", "representative of the clinic")))
                .make());
        for (int i = 1; i <= count("people"); i++) {
            String path = "people/" + i;
            blocks.add(removable(
                            entry(say("person", i))
                                    .field(field(path, "name"))
                                    .field(choice(path, "role", ROLES))
                                    .folded(field(path, "organisation"))
                                    .folded(field(path, "authorisation"))
                                    .folded(field(path, "confirms", Look.LONG)),
                            path)
                    .make());
        }
        blocks.add(section("sterilizers")
                .button(say("add.sterilizer"), "entries", adding("sterilizers", "key", nextKey()))
                .make());
        for (int i = 1; i <= count("sterilizers"); i++) {
            sterilizer(i, blocks);
        }
        return blocks;
    }

    private Block visit() {
        Block.Maker maker = section("visit")
                .field(field("report-number", "report-number", Look.TEXT, List.of()))
                .field(field("purpose", "purpose", Look.TEXT, List.of()))
                .field(field("date", "date", Look.DAY, List.of()))
                .field(field("zone", "zone", Look.TEXT, List.of()));
        if (Recorded.isAny(draft)) {
            maker.note(say("set-stays", text("criteria-set")));
            for (int i = 1; i <= count("criteria-set-changes"); i++) {
                maker.note(say(
                        "set-changed",
                        text("criteria-set-changes", i, "from"),
                        text("criteria-set-changes", i, "to"),
                        text("criteria-set-changes", i, "because"),
                        text("criteria-set-changes", i, "by")));
            }
            maker.upload(say("set-change"), "criteria-sets", Map.of(), Block.Upload.SET);
        } else {
            maker.field(field(
                    "criteria-set",
                    "criteria-set",
                    Look.CHOICE,
                    new Presets()
                            .names().stream()
                                    .map(name -> new Option(name, name))
                                    .toList()));
        }
        return maker.field(field("company", "company", Look.TEXT, List.of())).make();
    }

    private String nextKey() {
        for (char key = 'A'; key <= 'Z'; key++) {
            if (!keys().contains(String.valueOf(key))) {
                return String.valueOf(key);
            }
        }
        return String.valueOf(count("sterilizers") + 1);
    }

    private Block gate(Gate gate) {
        Field read = field(gate.path(), "plate-serial", Look.TEXT, List.of());
        String noted = draft.note(Gate.formerNote(gate.key()));
        Block.Maker maker = section("gate")
                .at(gate.path())
                .field(gate.isUnread() && !noted.isBlank() ? read.proposing(noted) : read)
                .field(field(
                        Gate.plate(gate.place()).then("read-by").toString(), "plate-read-by", Look.TEXT, List.of()));
        if (gate.isUnread() || gate.isOpen()) {
            maker.note(say(gate.words(), gate.parts()));
        } else {
            maker.caution(say(gate.words(), gate.parts()));
        }
        return gate.key().isBlank()
                ? maker.make()
                : photos(PhotoSubject.PLATE, gate.key(), maker).make();
    }

    private void sterilizer(int place, List<Block> blocks) {
        String path = "sterilizers/" + place;
        blocks.add(offering(
                        path + "/cycles",
                        removable(
                                        entry(say(
                                                        "machine",
                                                        text("sterilizers", place, "key"),
                                                        text("sterilizers", place, "serial")))
                                                .field(field(path, "key"))
                                                .field(field(path, "serial"))
                                                .field(field(path, "maker"))
                                                .field(field(path, "model"))
                                                .field(field(path, "year"))
                                                .field(field(path, "chamber"))
                                                .field(field(path, "chamber-size"))
                                                .field(field(path, "tray-levels", Look.COUNT))
                                                .field(field(path, "firmware"))
                                                .field(field(path, "location"))
                                                .field(field(path, "pressure-papers")),
                                        path)
                                .button(say("add.cycle"), "entries", adding(path + "/cycles", "type", "B")))
                .make());
        for (int i = 1; i <= count("sterilizers", place, "cycles"); i++) {
            String cycle = path + "/cycles/" + i;
            blocks.add(removable(
                            entry(say("cycle", text("sterilizers", place, "key"), i))
                                    .field(field(cycle, "name"))
                                    .field(choice(cycle, "type", List.of("B", "N", "S")))
                                    .field(field(cycle, "sterilizing-temperature"))
                                    .field(field(cycle, "holding-time"))
                                    .folded(field(cycle, "air-removal-pulses", Look.COUNT))
                                    .folded(field(cycle, "pulse-depth"))
                                    .folded(field(cycle, "drying-time")),
                            cycle)
                    .make());
        }
    }
}
