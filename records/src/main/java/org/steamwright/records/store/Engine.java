package org.steamwright.records.store;

import java.util.Map;

/** The two database engines, and the few words in which their SQL differs. */
enum Engine {
    SQLITE(Map.of(
            "whole", "integer", "bytes", "blob", "text", "text", "table", "strict", "keyed", "strict, without rowid")),
    POSTGRESQL(Map.of("whole", "bigint", "bytes", "bytea", "text", "text collate \"C\"", "table", "", "keyed", ""));

    private final Map<String, String> words;

    Engine(Map<String, String> words) {
        this.words = words;
    }

    /** What stands for the placeholders of the migrations. */
    Map<String, String> words() {
        return words;
    }

    static Engine of(String address) {
        return address.startsWith("jdbc:sqlite:") ? SQLITE : POSTGRESQL;
    }
}
