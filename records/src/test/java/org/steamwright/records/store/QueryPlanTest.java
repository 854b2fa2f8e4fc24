package org.steamwright.records.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.DueStart;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;

/** What a save asks must not take longer the more there is in the store. */
class QueryPlanTest {

    private static final Author ALEX = new Author("Alex Example", "office");
    private static final DueRule ONE_DAY = (sterilizer, visits) ->
            List.of(new DueDate(sterilizer.id(), LocalDate.of(2027, 1, 1), "yearly", "fixed", ""));

    @TempDir
    Path folder;

    @Test
    void no_save_looks_through_a_table_that_grows() throws Exception {
        Place place = Place.folder(folder);
        // what is made anew at the first opening is not what a save takes
        Records.open(place, Clock.systemUTC(), ONE_DAY).close();
        Set<String> asked;
        try (Records records = Records.open(place, Clock.systemUTC(), ONE_DAY)) {
            saveOneOfEach(records);
            asked = records.database().write(session -> session.asked());
        }
        List<String> slow = new ArrayList<>();
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + place.database());
                Statement statement = connection.createStatement()) {
            for (String sql : asked) {
                try (ResultSet plan = statement.executeQuery("explain query plan " + sql.replace("?", "null"))) {
                    while (plan.next()) {
                        String step = plan.getString("detail");
                        if (isThroughAll(step) && !sql.endsWith("order by nr desc limit 1")) {
                            slow.add(step + ": " + sql);
                        }
                    }
                }
            }
        }
        assertThat(asked).anyMatch(sql -> sql.contains("from used")).hasSizeGreaterThan(15);
        assertThat(slow).isEmpty();
    }

    /** One row of counters and a constant are looked at whole; what was used is found by what it was, not by its role alone. */
    private static boolean isThroughAll(String step) {
        return step.startsWith("SCAN") && !step.equals("SCAN store") && !step.equals("SCAN sqlite_master")
                || step.endsWith("(role=?)");
    }

    private static void saveOneOfEach(Records records) {
        SubjectId clinic = records.newSubject();
        SubjectId machine = records.newSubject();
        SubjectId visit = records.newSubject();
        for (int round = 0; round < 2; round++) {
            records.append(
                    ALEX,
                    Records.changes(
                            Kind.CLINIC,
                            clinic,
                            Map.of(
                                    "name",
                                    "Harbour " + round,
                                    "stated/sites",
                                    List.of(Map.of("rooms", List.of(Map.of("id", "R1"), Map.of("id", "S" + round)))))));
            records.append(
                    ALEX,
                    Records.changes(
                            Kind.STERILIZER,
                            machine,
                            Map.of("number", "M" + round, "serial", "SN-" + round, "stated/room", "R1")));
            records.append(
                    ALEX,
                    Records.changes(
                            Kind.VISIT,
                            visit,
                            Map.of(
                                    "number",
                                    "V" + round,
                                    "date",
                                    "2026-03-0" + (1 + round),
                                    "sterilizer",
                                    List.of(machine.toString()),
                                    "instruments",
                                    List.of("LOG-" + round),
                                    "lots",
                                    List.of("LOT-" + round))));
        }
        records.append(
                ALEX,
                Records.changes(Kind.ISSUE, records.newSubject(), Map.of("visit", visit.toString(), "number", "V1/1")));
        assertThat(records.due(LocalDate.of(2028, 1, 1), 10)).hasSize(1);
        DueStart.At at =
                DueStart.At.of(records.due(LocalDate.of(2028, 1, 1), 10).get(0));
        assertThat(records.due(LocalDate.of(2028, 1, 1), new DueStart(20, Optional.of(at)), 10))
                .hasSize(1);
        assertThat(records.earlier(new DueStart(20, Optional.of(at)), at, 10)).isEqualTo(DueStart.FIRST);
        assertThat(records.usedBy(Use.ROOM, "R1", Optional.empty(), 10)).hasSize(2);
    }
}
