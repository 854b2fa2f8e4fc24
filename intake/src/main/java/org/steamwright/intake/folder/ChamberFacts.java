package org.steamwright.intake.folder;

import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.register.ChamberSize;

/** The sides of a chamber and its tray levels, as a visit or a register states them. */
public final class ChamberFacts {

    /** Most levels of trays that are believed of a small sterilizer. */
    public static final int MOST_LEVELS = 12;

    private ChamberFacts() {}

    /** The sides inside; empty if they are not stated or can't be read, which is then a problem. */
    public static Optional<ChamberSize> size(Fields fields) {
        Optional<Entry> entry = fields.find("chamber-size");
        Optional<String> text = entry.flatMap(Entry::text);
        Optional<ChamberSize> size = text.flatMap(ChamberSize::find);
        if (text.isPresent() && size.isEmpty()) {
            entry.get()
                    .problem(
                            Mistake.NOT_A_QUANTITY,
                            Flaw.of(
                                    "found \"" + text.get() + "\", expected " + ChamberSize.EXAMPLE
                                            + ", each side from 50 mm to 2000 mm.",
                                    "Write one unit, mm or cm, at the end."));
        }
        return size;
    }

    /** How many levels trays lie on; empty if it is not stated. */
    public static OptionalInt levels(Fields fields) {
        OptionalInt levels = fields.count("tray-levels");
        if (levels.isPresent() && (levels.getAsInt() < 1 || levels.getAsInt() > MOST_LEVELS)) {
            fields.find("tray-levels")
                    .ifPresent(spot -> spot.problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.outside(
                                            "found %s, expected %s to %s levels.",
                                            String.valueOf(levels.getAsInt()), "1", String.valueOf(MOST_LEVELS))
                                    .inFile("Count the trays that lie over one another, or remove the key.")));
            return OptionalInt.empty();
        }
        return levels;
    }
}
