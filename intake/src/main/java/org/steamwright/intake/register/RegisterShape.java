package org.steamwright.intake.register;

import java.util.List;
import org.steamwright.intake.folder.KeyedShape;

/** The mappings of register.yaml and of the two data files beside it, with the keys each accepts in the order of the page. */
enum RegisterShape implements KeyedShape {
    REGISTER(
            "register",
            "steamwright-register",
            "instruments",
            "clinics",
            "sterilizers",
            "technicians",
            "lots",
            "parts",
            "testers"),
    CLINIC("clinic", "id", "name", "reference", "contact", "sites"),
    SITE("site", "id", "name", "address", "zone", "altitude", "rules", "working-days", "closures", "rooms"),
    CLOSURE("closure", "from", "until"),
    ROOM("room", "id", "name"),
    STERILIZER(
            "sterilizer",
            "id",
            "maker",
            "model",
            "family",
            "serial",
            "year",
            "chamber",
            "chamber-size",
            "tray-levels",
            "status",
            "loaner",
            "room",
            "cycles",
            "firmware",
            "counter",
            "movements",
            "pressure-papers",
            "intervals",
            "done",
            "changes",
            "conditions"),
    CYCLE(
            "cycle",
            "name",
            "type",
            "sterilizing-temperature",
            "holding-time",
            "air-removal-pulses",
            "pulse-depth",
            "drying-time",
            "in-use"),
    FIRMWARE("firmware", "version", "since", "note"),
    COUNTER("counter", "readings", "resets"),
    COUNTER_READING("counter-reading", "on", "shows", "evidence"),
    COUNTER_RESET("counter-reset", "on", "before", "after", "evidence"),
    MOVEMENT("movement", "on", "from", "to", "reason"),
    PRESSURE_PAPER("pressure-paper", "document", "examined-on", "next-by", "by"),
    INTERVAL("interval", "duty", "every", "cycles", "because"),
    DONE("done", "duty", "on", "evidence"),
    CHANGE("change", "on", "reason", "what", "settled-on"),
    CONDITION("condition", "what", "owner", "until", "at-cycles", "met-on"),
    TECHNICIAN("technician", "id", "name", "competences"),
    COMPETENCE("competence", "families", "duties", "from", "until", "document"),
    LOT("lot", "id", "kind", "product", "number", "expires", "incubation"),
    PART("part", "id", "name", "number", "families", "duties", "stock", "shelf-life"),
    TESTER("tester", "id", "description", "serial", "certificates"),
    TESTER_CERTIFICATE("tester-certificate", "number", "laboratory", "calibrated-on", "due-on"),

    DUE_RULES("due-rules", "steamwright-due-rules", "notes", "sets"),
    RULE_SET("rule-set", "name", "title", "based-on", "rules"),
    RULE(
            "rule",
            "id",
            "duty",
            "every",
            "cycles",
            "from-cycles-per-year",
            "tolerance",
            "only-if-recorded",
            "only-for-vacuum",
            "source");

    private final String word;
    private final List<String> keys;

    RegisterShape(String word, String... keys) {
        this.word = word;
        this.keys = List.of(keys);
    }

    @Override
    public String word() {
        return word;
    }

    @Override
    public List<String> keys() {
        return keys;
    }
}
