package org.steamwright.records.store;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.steamwright.records.Place;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;

/** Takes all tables of one store to another, also from one engine to the other. */
public final class Transfer {

    private record Table(String name, List<String> columns) {}

    /** In an order in which what is referred to comes first. */
    private static final List<Table> TABLES = List.of(
            new Table("subject", List.of("nr", "id", "kind")),
            new Table(
                    "submission",
                    List.of(
                            "nr",
                            "id",
                            "author_name",
                            "author_role",
                            "at",
                            "utc_offset",
                            "clock_set_back",
                            "size",
                            "root")),
            new Table(
                    "journal",
                    List.of(
                            "nr",
                            "submission",
                            "subject",
                            "property",
                            "old_value",
                            "new_value",
                            "why",
                            "stated",
                            "late",
                            "hash")),
            new Table("tree", List.of("level", "place", "hash")),
            new Table("fact", List.of("subject", "property", "value", "entry")),
            new Table("word", List.of("subject", "property", "folded")),
            new Table("used", List.of("role", "folded", "subject", "property")),
            new Table("due", List.of("subject", "reason", "day", "certainty", "note", "late_from")),
            new Table("ahead", List.of("subject", "state", "day", "awaits")),
            new Table("waiting", List.of("subject", "entries")),
            new Table(
                    "result",
                    List.of(
                            "subject",
                            "made_from",
                            "state",
                            "day",
                            "standing",
                            "as_found",
                            "as_found_failed",
                            "is_correction",
                            "turn_around",
                            "exceptions",
                            "sha256",
                            "why")),
            new Table(
                    "figure",
                    List.of(
                            "subject",
                            "figure",
                            "machine",
                            "serial",
                            "cycle",
                            "comparison",
                            "day",
                            "run",
                            "value",
                            "bound",
                            "unit")),
            new Table("line", List.of("figure", "machine", "cycle", "serial", "family", "last", "pressing", "sha256")),
            new Table("locked_key", List.of("id", "owner", "salt", "nonce", "locked", "sha256")),
            new Table(
                    "account",
                    List.of(
                            "id",
                            "name",
                            "folded",
                            "role",
                            "clinic",
                            "password",
                            "second_factor",
                            "last_step",
                            "failures",
                            "locked_until",
                            "sessions_from",
                            "active",
                            "must_change")),
            new Table("recovery_code", List.of("account", "sha256", "used_at")),
            new Table("account_identity", List.of("account", "issuer", "subject", "mail")),
            new Table("log_in", List.of("nr", "at", "account", "address", "act", "result")));

    private static final int ROWS_AT_ONCE = 1_000;

    private Transfer() {}

    /** Writes one consistent state of a SQLite store to a new file, beside its writers. */
    public static void vacuumInto(Database database, Path file) {
        database.alone(session -> session.run("vacuum into ?", file.toString()));
    }

    /**
     * Copies all tables, as they stand at one moment, to a place without entries.
     *
     * @throws RecordsException if there are entries already
     */
    public static void copy(Database from, Place place) {
        try (Database to = Database.open(place)) {
            from.read(source -> to.write(target -> {
                long entries = target.find(row -> row.getLong(1), "select entries from store")
                        .orElse(0L);
                if (entries > 0) {
                    throw new RecordsException(
                            RecordsMessage.STORE_NOT_EMPTY,
                            "%s: there are %s entries already. Name an empty place; nothing is written over."
                                    .formatted(to.name(), entries));
                }
                for (Table table : TABLES) {
                    copy(source, target, table);
                }
                List<Object> counters = source.find(
                                row -> List.<Object>of(
                                        row.getLong(1),
                                        row.getLong(2),
                                        row.getLong(3),
                                        row.getString(4),
                                        row.getLong(5)),
                                "select entries, submissions, subjects, latest_at, derivation from store")
                        .orElseThrow();
                target.run(
                        "update store set entries = ?, submissions = ?, subjects = ?, latest_at = ?, derivation = ?",
                        counters.toArray());
                return true;
            }));
        }
    }

    private static void copy(Session source, Session target, Table table) throws SQLException {
        String columns = String.join(", ", table.columns);
        String insert = "insert into " + table.name + " (" + columns + ") values ("
                + String.join(", ", Collections.nCopies(table.columns.size(), "?")) + ")";
        int width = table.columns.size();
        long[] rows = {0};
        source.each(
                row -> {
                    List<Object> values = new ArrayList<>(width);
                    for (int i = 1; i <= width; i++) {
                        Object value = row.getObject(i);
                        values.add(value instanceof Integer number ? Long.valueOf(number) : value);
                    }
                    target.add(insert, values.toArray());
                    if (++rows[0] % ROWS_AT_ONCE == 0) {
                        target.flush(insert);
                    }
                    return true;
                },
                "select " + columns + " from " + table.name);
        target.flush(insert);
    }
}
