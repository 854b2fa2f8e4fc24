package org.steamwright.records.store;

import java.util.Map;

/** The two database engines, and the few words in which their SQL differs. */
enum Engine {
    SQLITE(Map.of(
            "whole",
            "integer",
            "bytes",
            "blob",
            "text",
            "text",
            "table",
            "strict",
            "real",
            "real",
            "keyed",
            "strict, without rowid",
            "log_in_is_added_to",
            """
            create trigger log_in_stays before update on log_in
            begin select raise(abort, 'the log of log-ins is only added to'); end;
            create trigger log_in_remains before delete on log_in
            begin select raise(abort, 'the log of log-ins is only added to'); end;
            """)),
    POSTGRESQL(Map.of(
            "whole",
            "bigint",
            "bytes",
            "bytea",
            "text",
            "text collate \"C\"",
            "table",
            "",
            "real",
            "double precision",
            "keyed",
            "",
            "log_in_is_added_to",
            """
            create function log_in_is_added_to() returns trigger language plpgsql as
            $$ begin raise exception 'the log of log-ins is only added to'; end $$;
            create trigger log_in_stays before update or delete or truncate on log_in
            for each statement execute function log_in_is_added_to();
            """));

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
