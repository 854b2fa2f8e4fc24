package org.steamwright.intake.folder;

import java.util.List;

/**
 * The mappings of a visit file and the keys each accepts, in the order of the reference page. The JSON Schema has one definition
 * for each, named {@link #word()}; a test holds the two together.
 */
enum Shape {
    VISIT(
            "visit",
            "steamwright-visit",
            "report-number",
            "purpose",
            "date",
            "zone",
            "company",
            "clinic",
            "sterilizers",
            "people",
            "conditions",
            "register",
            "instruments",
            "trust",
            "criteria-set",
            "checklists",
            "runs",
            "deviations",
            "recommendations",
            "next-due",
            "not-tested",
            "earlier"),
    CLINIC("clinic", "name", "address", "room", "contact", "reference"),
    STERILIZER(
            "sterilizer",
            "key",
            "maker",
            "model",
            "serial",
            "year",
            "chamber",
            "firmware",
            "location",
            "pressure-papers",
            "counter-at-arrival",
            "counter-at-departure",
            "cycles"),
    CYCLE(
            "cycle",
            "name",
            "type",
            "sterilizing-temperature",
            "holding-time",
            "air-removal-pulses",
            "pulse-depth",
            "drying-time"),
    PERSON("person", "name", "role", "organisation", "authorisation", "confirms"),
    CONDITIONS(
            "conditions",
            "barometer",
            "barometer-source",
            "altitude",
            "room-temperature",
            "room-humidity",
            "supply-voltage",
            "water-conductivity"),
    INSTRUMENT(
            "instrument",
            "id",
            "serial",
            "description",
            "measures",
            "range",
            "certificate",
            "certificates",
            "drift",
            "immersion",
            "contributions",
            "checks",
            "quarantine",
            "clock"),
    RANGE("range", "from", "to"),
    CERTIFICATE("certificate", "number", "laboratory", "calibrated-on", "due-on", "U", "k", "points", "as-found"),
    CERTIFICATE_FILE("certificate-file", "file", "item", "result", "due-on", "U", "k"),
    POINT("point", "reference", "indicated", "U", "k"),
    CONTRIBUTION(
            "contribution",
            "name",
            "size",
            "distribution",
            "k",
            "degrees-of-freedom",
            "per-reading",
            "common",
            "correlation",
            "origin"),
    FIELD_CHECK("field-check", "on", "when", "method", "tolerance", "readings"),
    QUARANTINE("quarantine", "from", "until", "reason"),
    CHECKLIST("checklist", "section", "sterilizer", "items"),
    CHECK_ITEM("check-item", "title", "result", "remark", "as-found", "as-left", "limit", "instrument"),
    RUN(
            "run",
            "kind",
            "sterilizer",
            "cycle",
            "recording",
            "reading",
            "channels",
            "machine-cycle",
            "machine-verdict",
            "stage",
            "start-condition",
            "load",
            "indicators",
            "weighings",
            "chemical-indicators",
            "leak-periods",
            "lethality",
            "barometer",
            "note"),
    RECORDING("recording", "file", "reading", "clock"),
    CLOCK("clock", "before", "after", "event", "offset", "half-width", "same-as", "by", "because"),
    CLOCK_READING("clock-reading", "logger", "reference"),
    READING(
            "reading",
            "delimiter",
            "decimal-mark",
            "date-order",
            "time-unit",
            "zone",
            "clock",
            "encoding",
            "start",
            "sheet",
            "from",
            "to",
            "profile",
            "units"),
    CHANNEL("channel", "role", "position", "place", "instrument", "reference", "name"),
    LOAD(
            "load",
            "description",
            "items",
            "challenge-pack",
            "challenge-place",
            "packaging",
            "mass",
            "agreed-by",
            "photos"),
    LOAD_ITEM("load-item", "name", "count", "family", "packaging"),
    INDICATOR(
            "indicator",
            "id",
            "control",
            "product",
            "lot",
            "expires",
            "population",
            "position",
            "result",
            "incubation",
            "d-value",
            "d-value-U",
            "d-value-at",
            "z",
            "channel"),
    CHEMICAL_INDICATOR(
            "chemical-indicator", "id", "type", "product", "lot", "expires", "stated-values", "position", "result"),
    STATED_VALUE("stated-value", "temperature", "time"),
    WEIGHING("weighing", "item", "kind", "before", "after"),
    LEAK_PERIODS("leak-periods", "isolation", "settled", "end"),
    LETHALITY("lethality", "reference", "z", "from");

    private final String word;
    private final List<String> keys;

    Shape(String word, String... keys) {
        this.word = word;
        this.keys = List.of(keys);
    }

    /** Name of the definition in the JSON Schema. */
    String word() {
        return word;
    }

    List<String> keys() {
        return keys;
    }
}
