package org.steamwright.records;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.ProofChecks;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.store.Database;

/** The record's promises, the same on both engines. */
class RecordsTest {

    static final Author ALEX = new Author("Alex Example", "technician");

    @TempDir
    Path folder;

    final TestClock clock = new TestClock();

    @ParameterizedTest
    @EnumSource
    void a_fact_is_kept_with_its_whole_history(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        SubjectId id;
        JournalHead head;
        try (Records records = Records.open(place, clock)) {
            id = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.STERILIZER, id, "serial", "SN-0042")));
            clock.forward(Duration.ofHours(1));
            head = records.append(
                    new Author("Sam Sample", "office"),
                    List.of(Change.set(Kind.STERILIZER, id, "serial", "SN-0043").because("misread plate")));
        }
        try (Records records = Records.open(place, clock)) {
            assertThat(records.head()).isEqualTo(head);
            assertThat(records.subject(id).text("serial")).isEqualTo("SN-0043");
            assertThat(records.history(id)).hasSize(2).last().satisfies(entry -> {
                assertThat(entry.number()).isEqualTo(1);
                assertThat(entry.author()).isEqualTo(new Author("Sam Sample", "office"));
                assertThat(entry.at()).isEqualTo("2026-03-02T10:00:00Z");
                assertThat(entry.offset().getId()).isEqualTo("+10:00");
                assertThat(entry.oldValue()).isEqualTo(JsonText.of("SN-0042"));
                assertThat(entry.newValue()).isEqualTo(JsonText.of("SN-0043"));
                assertThat(entry.why()).isEqualTo("misread plate");
                assertThat(entry.isLate()).isFalse();
                assertThat(entry.isClockSetBack()).isFalse();
                assertThat(entry.toJson())
                        .isEqualTo(JsonText.parse(entry.toJson().text()));
            });
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_fact_taken_away_leaves_its_history(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId id = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.CLINIC, id, "name", "Harbour Clinic")));
            records.append(
                    ALEX,
                    List.of(Change.set(Kind.CLINIC, id, "name", JsonText.NULL).because("closed")));
            assertThat(records.subject(id).facts()).isEmpty();
            assertThat(records.history(id)).hasSize(2);
            assertThat(records.find("harbour", 5).hits()).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void what_another_program_adds_is_counted_with_what_was_counted_before(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        try (Records records = Records.open(place, clock);
                Records other = Records.open(place, clock)) {
            assertThat(records.count(Kind.CLINIC)).isZero();
            for (int i = 1; i <= 3; i++) {
                Records by = i == 2 ? other : records;
                by.append(ALEX, List.of(Change.set(Kind.CLINIC, by.newSubject(), "name", "Harbour Clinic " + i)));
                by.append(ALEX, List.of(Change.set(Kind.LOT, by.newSubject(), "number", "L" + i)));
                assertThat(records.count(Kind.CLINIC)).isEqualTo(i);
            }
            assertThat(other.count(Kind.CLINIC)).isEqualTo(3);
            assertThat(other.count(Kind.LOT)).isEqualTo(3);
        }
    }

    @ParameterizedTest
    @EnumSource
    void what_is_equal_already_makes_no_entry(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId id = records.newSubject();
            JournalHead first = records.append(ALEX, List.of(Change.set(Kind.LOT, id, "number", "L1")));
            assertThat(records.append(ALEX, List.of(Change.set(Kind.LOT, id, "number", "L1"))))
                    .isEqualTo(first);
        }
    }

    @ParameterizedTest
    @EnumSource
    void the_same_submission_sent_twice_is_kept_once(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId id = records.newSubject();
            Submission submission =
                    new Submission(records.newSubmission(), ALEX, List.of(Change.set(Kind.LOT, id, "number", "L1")));
            JournalHead first = records.append(submission);
            records.append(ALEX, List.of(Change.set(Kind.LOT, id, "number", "L2")));
            assertThat(records.append(submission)).as("the head it had got").isEqualTo(first);
            assertThatThrownBy(() -> records.append(
                            new Submission(submission.id(), ALEX, List.of(Change.set(Kind.LOT, id, "number", "L3")))))
                    .hasMessageStartingWith("RECORD-013");
            assertThat(records.head().tree().size()).isEqualTo(2);
            assertThat(records.subject(id).text("number")).isEqualTo("L2");
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_submission_is_kept_whole_or_not_at_all(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId lot = records.newSubject();
            SubjectId part = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.PART, part, "number", "P1")));
            JournalHead before = records.head();
            assertThatThrownBy(() -> records.append(
                            ALEX,
                            List.of(
                                    Change.set(Kind.LOT, lot, "number", "L1"),
                                    Change.set(Kind.PART, part, "number", "P2").expecting(JsonText.of("P0")))))
                    .isInstanceOf(RecordsException.class)
                    .hasMessageStartingWith(
                            "RECORD-011 part " + part + ", 'number': was held to be \"P0\" and is \"P1\" by now.");
            assertThat(records.head()).isEqualTo(before);
            assertThat(records.find(lot)).isEmpty();
            assertThatThrownBy(() -> records.append(ALEX, List.of(Change.set(Kind.LOT, part, "number", "P2"))))
                    .hasMessageContaining("RECORD-010")
                    .hasMessageContaining("is a part, not a lot");
            records.append(ALEX, List.of(Change.set(Kind.LOT, lot, "number", "L1")));
            assertThat(records.head().tree().size()).isEqualTo(2);
        }
    }

    @ParameterizedTest
    @EnumSource
    void late_facts_and_a_clock_set_back_are_marked(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId id = records.newSubject();
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.VISIT, id, "a", 1)
                                    .statedAt(clock.instant().minus(Duration.ofHours(24))),
                            Change.set(Kind.VISIT, id, "b", 1)
                                    .statedAt(clock.instant()
                                            .minus(Duration.ofHours(24))
                                            .minusMillis(1))));
            clock.forward(Duration.ofMinutes(-1));
            records.append(ALEX, List.of(Change.set(Kind.VISIT, id, "c", 1)));
            clock.forward(Duration.ofSeconds(30));
            records.append(ALEX, List.of(Change.set(Kind.VISIT, id, "d", 1)));
            clock.forward(Duration.ofSeconds(30));
            records.append(ALEX, List.of(Change.set(Kind.VISIT, id, "e", 1)));
            assertThat(records.history(id))
                    .extracting(JournalEntry::isLate)
                    .containsExactly(false, true, false, false, false);
            assertThat(records.history(id))
                    .as("set back until it shows the latest time seen again")
                    .extracting(JournalEntry::isClockSetBack)
                    .containsExactly(false, false, true, true, false);
            assertThat(records.history(id)).extracting(JournalEntry::number).containsExactly(0L, 1L, 2L, 3L, 4L);
        }
    }

    @ParameterizedTest
    @EnumSource
    void every_head_that_was_given_out_is_proved_to_be_a_beginning_of_the_journal(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        List<TreeHead> heads = new ArrayList<>();
        try (Records records = Records.open(place, clock)) {
            SubjectId id = records.newSubject();
            for (int i = 0; i < 70; i++) {
                List<Change> changes = new ArrayList<>();
                for (int k = 0; k <= i % 5; k++) {
                    changes.add(Change.set(Kind.VISIT, id, "run/" + k, i * 100 + k));
                }
                heads.add(records.append(ALEX, changes).tree());
            }
        }
        try (Records records = Records.open(place, clock)) {
            TreeHead last = records.head().tree();
            assertThat(last.size()).isEqualTo(210);
            for (TreeHead head : heads) {
                assertThat(ProofChecks.isConsistent(records.consistency(head.size(), last.size()), head, last))
                        .isTrue();
            }
            for (JournalEntry entry : records.entries(0, 1000)) {
                assertThat(ProofChecks.isIncluded(records.inclusion(entry.number(), last.size()), entry.hash(), last))
                        .isTrue();
            }
            assertThatThrownBy(() -> records.consistency(1, 211)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_clinic_with_a_new_name_is_found_by_both(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId clinic = records.newSubject();
            SubjectId visit = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.CLINIC, clinic, "name", "Harbour Clinic")));
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.VISIT, visit, "clinic", clinic.toString()),
                            Change.set(Kind.VISIT, visit, "clinic-name", "Harbour Clinic")));
            records.append(
                    ALEX,
                    List.of(Change.set(Kind.CLINIC, clinic, "name", "Hillside Clinic")
                            .because("merged")));

            assertThat(hits(records, "harbour")).containsExactly(visit);
            assertThat(hits(records, "hillside")).containsExactly(clinic);
            assertThat(records.usedBy(Use.CLINIC, clinic.toString(), Optional.empty(), 5))
                    .extracting(Subject::id)
                    .containsExactly(visit);
        }
    }

    @ParameterizedTest
    @EnumSource
    void finds_while_one_types(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SubjectId clinic = records.newSubject();
            SubjectId sterilizer = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.CLINIC, clinic, "name", "Zahnärzte am Łódź-Straßenrand")));
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.STERILIZER, sterilizer, "serial", "AB-0123/7"),
                            Change.set(Kind.STERILIZER, sterilizer, "clinic-name", "Harbour Clinic")));
            assertThat(hits(records, "zahnarzt")).containsExactly(clinic);
            assertThat(hits(records, "lodz STRASS")).containsExactly(clinic);
            assertThat(hits(records, "ab0123")).containsExactly(sterilizer);
            assertThat(hits(records, "AB-01")).containsExactly(sterilizer);
            assertThat(hits(records, "012 harb")).containsExactly(sterilizer);
            assertThat(hits(records, "0124")).isEmpty();
            assertThat(hits(records, "harb zahn")).isEmpty();
            assertThat(hits(records, " -- ")).isEmpty();
            records.append(ALEX, List.of(Change.set(Kind.STERILIZER, sterilizer, "serial", "XY-9")));
            assertThat(hits(records, "ab0123")).isEmpty();
            assertThat(hits(records, "xy9")).containsExactly(sterilizer);
        }
    }

    @ParameterizedTest
    @EnumSource
    void says_when_there_may_be_more(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            List<Change> changes = new ArrayList<>();
            for (int i = 0; i < 6; i++) {
                changes.add(Change.set(Kind.LOT, records.newSubject(), "number", "LOT-" + i));
            }
            records.append(ALEX, changes);
            assertThat(records.find("lot", 5).isComplete()).isFalse();
            assertThat(records.find("lot", 5).hits()).hasSize(5);
            assertThat(records.find("lot", 6).isComplete()).isTrue();
        }
    }

    private static List<SubjectId> hits(Records records, String typed) {
        return records.find(typed, 10).hits().stream()
                .map(hit -> hit.subject().id())
                .toList();
    }

    @ParameterizedTest
    @EnumSource
    void says_what_used_an_instrument_a_lot_a_set_or_a_version(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            List<SubjectId> visits = new ArrayList<>();
            for (int i = 0; i < 5; i++) {
                SubjectId visit = records.newSubject();
                visits.add(visit);
                records.append(
                        ALEX,
                        Records.changes(
                                Kind.VISIT,
                                visit,
                                Map.of(
                                        "instruments",
                                        List.of("LOG-07", Map.of("id", "PRB-" + i)),
                                        "lots",
                                        List.of("L-" + i % 2),
                                        "criteria-set",
                                        "example-134@1",
                                        "algorithm-version",
                                        "0.1.0")));
            }
            assertThat(records.usedBy(Use.INSTRUMENT, "log-07", Optional.empty(), 2))
                    .extracting(Subject::id)
                    .containsExactly(visits.get(4), visits.get(3));
            assertThat(records.usedBy(Use.INSTRUMENT, "LOG-07", Optional.of(visits.get(3)), 10))
                    .extracting(Subject::id)
                    .containsExactly(visits.get(2), visits.get(1), visits.get(0));
            assertThat(records.usedBy(Use.LOT, "L-1", Optional.empty(), 10)).hasSize(2);
            assertThat(records.usedBy(Use.INSTRUMENT, "PRB-3", Optional.empty(), 10))
                    .hasSize(1);
            assertThat(records.usedBy(Use.CRITERIA_SET, "example-134@1", Optional.empty(), 10))
                    .hasSize(5);
            assertThat(records.usedBy(Use.ALGORITHM_VERSION, "0.1.1", Optional.empty(), 10))
                    .isEmpty();
        }
    }

    /** A year after the last visit; the first visit is due at once. */
    static final DueRule YEARLY = (sterilizer, visits) -> List.of(new DueDate(
            sterilizer.id(),
            visits.stream()
                    .map(visit -> LocalDate.parse(visit.text("date")).plusYears(1))
                    .max(LocalDate::compareTo)
                    .orElse(LocalDate.parse("2026-01-01")),
            "yearly",
            "fixed",
            visits.size() + " visits"));

    @ParameterizedTest
    @EnumSource
    void due_dates_follow_the_facts(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), clock, YEARLY)) {
            SubjectId one = records.newSubject();
            SubjectId two = records.newSubject();
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.STERILIZER, one, "serial", "1"),
                            Change.set(Kind.STERILIZER, two, "serial", "2")));
            SubjectId visit = records.newSubject();
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.VISIT, visit, "date", "2026-03-02"),
                            Change.set(Kind.VISIT, visit, "sterilizer", one.toString())));
            assertThat(records.due(LocalDate.parse("2027-03-02"), 10))
                    .extracting(DueDate::sterilizer, due -> due.day().toString(), DueDate::note)
                    .containsExactly(
                            org.assertj.core.groups.Tuple.tuple(two, "2026-01-01", "0 visits"),
                            org.assertj.core.groups.Tuple.tuple(one, "2027-03-02", "1 visits"));
            assertThat(records.due(LocalDate.parse("2027-03-01"), 10)).hasSize(1);
            records.append(
                    ALEX,
                    List.of(Change.set(Kind.VISIT, visit, "sterilizer", two.toString())
                            .because("mixed up")));
            assertThat(records.due(LocalDate.parse("2026-12-31"), 10))
                    .as("both sterilizers are looked at again when a visit moves")
                    .extracting(DueDate::sterilizer)
                    .containsExactly(one);
            List<DueDate> before = records.due(LocalDate.MAX.withYear(9999), 10);
            records.rebuildIndex();
            assertThat(records.due(LocalDate.MAX.withYear(9999), 10)).isEqualTo(before);
        }
    }

    /** What a machine itself says: a day for each of its facts {@code due/…}. Counts how often it was asked. */
    private static final class OwnDays implements DueRule {
        private int asked;

        @Override
        public boolean isOfVisits() {
            return false;
        }

        @Override
        public List<DueDate> due(Subject sterilizer, List<Subject> visits) {
            asked++;
            assertThat(visits).isEmpty();
            return sterilizer.facts().keySet().stream()
                    .filter(property -> property.startsWith("due/"))
                    .map(property -> new DueDate(
                            sterilizer.id(), LocalDate.parse(sterilizer.text(property)), property, "fixed", ""))
                    .toList();
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_rule_without_visits_is_asked_when_a_machine_changes(Stores.Engine engine) {
        OwnDays rule = new OwnDays();
        LocalDate late = LocalDate.parse("2030-01-01");
        try (Records records = Records.open(Stores.fresh(engine, folder), clock, rule)) {
            SubjectId machine = records.newSubject();
            records.append(
                    ALEX,
                    List.of(
                            Change.set(Kind.STERILIZER, machine, "due/service", "2027-05-01"),
                            Change.set(Kind.STERILIZER, machine, "due/validation", "2026-05-01")));
            records.append(
                    ALEX, List.of(Change.set(Kind.VISIT, records.newSubject(), "sterilizer", machine.toString())));
            assertThat(rule.asked).isEqualTo(1);
            records.append(ALEX, List.of(Change.set(Kind.STERILIZER, machine, "due/validation", "2028-05-01")));
            assertThat(records.due(late, 10))
                    .extracting(DueDate::reason, due -> due.day().toString())
                    .containsExactly(
                            org.assertj.core.groups.Tuple.tuple("due/service", "2027-05-01"),
                            org.assertj.core.groups.Tuple.tuple("due/validation", "2028-05-01"));
            records.append(
                    ALEX,
                    List.of(Change.set(Kind.STERILIZER, machine, "due/service", JsonText.NULL)
                            .because("sold")));
            assertThat(records.due(late, 10)).extracting(DueDate::reason).containsExactly("due/validation");
        }
    }

    @Test
    void a_store_that_would_not_keep_what_it_acknowledges_is_not_opened() throws SQLException {
        Place place = Stores.fresh(Stores.Engine.POSTGRESQL, folder);
        try (Connection connection = Stores.connect(place);
                var statement = connection.createStatement()) {
            statement.execute("alter database " + connection.getCatalog() + " set synchronous_commit = off");
        }
        assertThatThrownBy(() -> Records.open(place, clock))
                .isInstanceOf(RecordsException.class)
                .hasMessageStartingWith("RECORD-003")
                .hasMessageContaining("'show synchronous_commit' says 'off'");
    }

    @ParameterizedTest
    @EnumSource
    void somebody_elses_tables_are_left_alone(Stores.Engine engine) throws Exception {
        Place place = Stores.fresh(engine, folder);
        Files.createDirectories(place.folder());
        try (Connection connection = Stores.connect(place);
                var statement = connection.createStatement()) {
            statement.execute("create table cooking (recipe text)");
        }
        assertThatThrownBy(() -> Records.open(place, clock)).hasMessageStartingWith("RECORD-005");
    }

    @ParameterizedTest
    @EnumSource
    void a_store_of_a_newer_program_is_not_touched(Stores.Engine engine) throws Exception {
        Place place = Stores.fresh(engine, folder);
        Records.open(place, clock).close();
        try (Connection connection = Stores.connect(place);
                var statement = connection.createStatement()) {
            statement.execute("update migration set version = '99' where version = '4'");
        }
        assertThatThrownBy(() -> Records.open(place, clock))
                .hasMessageStartingWith("RECORD-004")
                .hasMessageContaining("has version 99, this program knows up to " + Database.VERSION);
    }

    @Test
    void a_file_that_is_no_database_is_left_alone() throws Exception {
        Place place = Stores.fresh(Stores.Engine.SQLITE, folder);
        Files.createDirectories(place.folder());
        Files.writeString(place.database(), "not a database, but a shopping list that is long enough".repeat(30));
        assertThatThrownBy(() -> Records.open(place, clock)).isInstanceOf(RecordsException.class);
        assertThat(Files.readString(place.database())).startsWith("not a database");
    }

    @ParameterizedTest
    @EnumSource
    void two_programs_that_write_in_turn_share_one_journal(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        try (Records one = Records.open(place, clock);
                Records other = Records.open(place, clock)) {
            SubjectId id = one.newSubject();
            for (int i = 0; i < 20; i++) {
                (i % 3 == 0 ? other : one).append(ALEX, List.of(Change.set(Kind.LOT, id, "number", "L-" + i)));
            }
            assertThat(one.head()).isEqualTo(other.head());
            assertThat(one.head().tree().size()).isEqualTo(20);
            assertThat(other.history(id)).extracting(JournalEntry::number).doesNotHaveDuplicates();
            JournalHead last = one.head();
            assertThatThrownBy(() -> other.append(new Submission(
                            other.newSubmission(),
                            ALEX,
                            List.of(Change.set(Kind.LOT, id, "number", "L-X")),
                            Optional.of(new TreeHead(19, last.tree().root())))))
                    .hasMessageStartingWith("RECORD-011");
        }
    }
}
