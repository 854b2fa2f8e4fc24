package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.filing.FactPath;
import org.steamwright.report.picture.PhotoSubject;

/** Who, where and which sterilizer, with the name plate first: nothing is touched before it was read. */
final class IdentitySheet extends StageSheet {

    IdentitySheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        for (int i = 1; i <= count("sterilizers"); i++) {
            blocks.add(gate(i));
        }
        blocks.add(section("visit")
                .field(field("report-number", "report-number", Look.TEXT, List.of()))
                .field(field("purpose", "purpose", Look.TEXT, List.of()))
                .field(field("date", "date", Look.DAY, List.of()))
                .field(field("zone", "zone", Look.TEXT, List.of()))
                .field(field(
                        "criteria-set",
                        "criteria-set",
                        Look.CHOICE,
                        new Presets()
                                .names().stream()
                                        .map(name -> new Option(name, name))
                                        .toList()))
                .field(field("company", "company", Look.TEXT, List.of()))
                .make());
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
                                    .field(field(path, "role"))
                                    .folded(field(path, "organisation"))
                                    .folded(field(path, "authorisation"))
                                    .folded(field(path, "confirms", Look.LONG)),
                            path)
                    .make());
        }
        instruments(blocks);
        blocks.add(section("sterilizers")
                .button(say("add.sterilizer"), "entries", adding("sterilizers", "key", nextKey()))
                .make());
        for (int i = 1; i <= count("sterilizers"); i++) {
            sterilizer(i, blocks);
        }
        return blocks;
    }

    /** Those of the register first; what the register has is not taken from the last visit, for its certificate may be older. */
    private void instruments(List<Block> blocks) {
        Block.Maker maker =
                new Block.Maker(Block.Part.SECTION, say("block.instruments")).note(String.join(", ", instruments()));
        List<Earlier.Offer> last =
                earlier.map(before -> before.offers(FactPath.of("instruments"), draft)).orElse(List.of()).stream()
                        .filter(offer ->
                                !register.known().contains(offer.words().get("id")))
                        .toList();
        if (!register.offers().isEmpty()) {
            maker.note(say("note.register"));
        }
        register.notes().forEach(maker::note);
        register.offers().forEach(offer -> offer(maker, "offer-register", "instruments", offer));
        if (!last.isEmpty()) {
            maker.note(say("note.instruments"));
        }
        last.forEach(offer -> offer(maker, "offer", "instruments", offer));
        if (!last.isEmpty() || !register.offers().isEmpty() || !register.notes().isEmpty()) {
            blocks.add(maker.make());
        }
    }

    private String nextKey() {
        for (char key = 'A'; key <= 'Z'; key++) {
            if (!keys().contains(String.valueOf(key))) {
                return String.valueOf(key);
            }
        }
        return String.valueOf(count("sterilizers") + 1);
    }

    private Block gate(int place) {
        String serial = text("sterilizers", place, "serial");
        String key = text("sterilizers", place, "key");
        String read = draft.note(gateNote(key));
        Block.Maker maker =
                section("gate").field(field(Saving.NOTES + gateNote(key), "plate-serial", Look.TEXT, List.of()));
        if (read.isBlank()) {
            maker.note(say("gate.unread", serial));
        } else if (isSame(serial, read)) {
            maker.note(say("gate.match", serial));
        } else {
            maker.caution(say("gate.differs", read, serial));
        }
        return key.isBlank()
                ? maker.make()
                : photos(PhotoSubject.PLATE, key, maker).make();
    }

    /** Note that holds what was read off the name plate. */
    static String gateNote(String key) {
        return "plate-serial/" + key;
    }

    /** Whether two serial numbers are the same, blanks and case aside. */
    static boolean isSame(String stated, String read) {
        return stated.replaceAll("\\s", "")
                .toLowerCase(Locale.ROOT)
                .equals(read.replaceAll("\\s", "").toLowerCase(Locale.ROOT));
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
