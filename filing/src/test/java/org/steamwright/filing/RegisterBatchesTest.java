package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.verify.Verifier;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterComparison.Answer;

/** Tables of machines go into the record as one batch, once, and come out again without a trace but the journal's. */
class RegisterBatchesTest {

    private static final Path OFFICE = Path.of(System.getProperty("steamwright.root"), "docs/examples/office");
    private static final Path TABLE = OFFICE.resolve("machines.csv");
    private static final Author KIM = new Author("Kim Sample (invented)", "office");

    private static final int MANY = 250;

    @TempDir
    Path folder;

    Records records;
    RegisterFiling filing;
    RegisterBatches batches;

    @BeforeEach
    void open() throws Exception {
        records = Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse("2026-03-04T09:00:00Z"), ZoneOffset.UTC));
        filing = new RegisterFiling(records);
        batches = new RegisterBatches(records);
        filing.take(OFFICE, KIM, "");
    }

    @AfterEach
    void close() {
        records.close();
    }

    /** Every fact of clinics and machines that is not taken away. */
    private Map<String, String> facts() {
        Map<String, String> facts = new TreeMap<>();
        for (Kind kind : List.of(Kind.CLINIC, Kind.STERILIZER)) {
            records.eachSubject(
                    kind,
                    subject -> subject.facts().forEach((property, value) -> {
                        if (!value.isNull()) {
                            facts.put(subject.id() + " " + property, value.text());
                        }
                    }));
        }
        return facts;
    }

    private Subject machine(String serial) {
        List<Subject> found = new ArrayList<>();
        records.eachSubject(Kind.STERILIZER, found::add);
        return found.stream()
                .filter(one -> one.text("serial").equals(serial))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void a_look_enters_nothing_and_a_table_is_entered_once() throws Exception {
        Map<String, String> before = facts();
        long entries = records.head().tree().size();
        RegisterBatches.Preview preview = batches.preview(TABLE, Optional.empty());
        assertThat(preview.comparison().count(Answer.ADDED)).isEqualTo(1);
        assertThat(preview.comparison().count(Answer.CHANGED)).isEqualTo(1);
        assertThat(preview.comparison().count(Answer.REFUSED)).isEqualTo(1);
        assertThat(records.head().tree().size()).isEqualTo(entries);

        RegisterBatches.Entered entered = batches.enter(TABLE, Optional.empty(), KIM, "new list");
        assertThat(entered.changed()).isPositive();
        assertThat(entered.batch().orElseThrow().number()).isEqualTo("B-1");
        assertThat(entered.batch().orElseThrow().rows()).isEqualTo("1 added, 1 changed, 1 same, 1 refused");
        assertThat(filing.register().findSterilizer("SN-9001")).isPresent();
        assertThat(machine("SN-0417").text("number"))
                .as("known by its id as before")
                .isEqualTo("ST-01");
        assertThat(machine("SN-0417").text("stated/firmware"))
                .as("what the table does not touch stays as it was stated")
                .isEqualTo(JsonText.parse(before.get(machine("SN-0417").id() + " stated/firmware"))
                        .plain());

        long after = records.head().tree().size();
        RegisterBatches.Entered again = batches.enter(TABLE, Optional.empty(), KIM, "once more");
        assertThat(again.preview().entered().orElseThrow().number()).isEqualTo("B-1");
        assertThat(again.changed()).isZero();
        assertThat(records.head().tree().size())
                .as("the same bytes change nothing")
                .isEqualTo(after);
        Path same = Files.write(folder.resolve("renamed.csv"), Files.readAllBytes(TABLE));
        assertThat(batches.enter(same, Optional.empty(), KIM, "").changed())
                .as("whatever its name")
                .isZero();
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    @Test
    void taken_back_every_fact_is_as_before_and_the_journal_has_both() throws Exception {
        Map<String, String> before = facts();
        Register register = filing.register();
        RegisterBatches.Batch batch =
                batches.enter(TABLE, Optional.empty(), KIM, "new list").batch().orElseThrow();
        assertThat(facts()).isNotEqualTo(before);
        assertThat(batches.undoing(batch).conflicts()).isEmpty();
        assertThatThrownBy(() -> batches.undo(batch, KIM, " ")).hasMessageContaining("no reason is stated");
        long size = records.head().tree().size();
        RegisterBatches.Undoing undone = batches.undo(batch, KIM, "list of another office");
        assertThat(facts()).isEqualTo(before);
        assertThat(filing.register()).isEqualTo(register);
        assertThat(records.head().tree().size()).isEqualTo(size + undone.facts() + 1);
        assertThat(records.history(machine("SN-0417").id()))
                .last()
                .satisfies(entry -> assertThat(entry.why()).isEqualTo("list of another office"));
        RegisterBatches.Batch now = batches.find("B-1");
        assertThat(now.undone()).contains("list of another office");
        assertThatThrownBy(() -> batches.undo(now, KIM, "again")).hasMessageContaining("was taken back already");
        assertThat(batches.enter(TABLE, Optional.empty(), KIM, "right after all")
                        .batch()
                        .orElseThrow()
                        .number())
                .as("after it the table can be entered again")
                .isEqualTo("B-2");
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    @Test
    void a_table_of_many_machines_goes_in_and_out_as_one() throws Exception {
        StringBuilder text = new StringBuilder("serial,maker,model,clinic,address,zone,room,counter,counter-on\n");
        for (int i = 0; i < MANY; i++) {
            text.append(
                    "SN-M%d,Example Works (invented),Small B18,Clinic %d (invented),,Australia/Perth,Back room,%d,2026-03-01%n"
                            .formatted(i, i / 2, 100 + i));
        }
        Path table = Files.writeString(folder.resolve("many.csv"), text);
        Map<String, String> before = facts();
        RegisterBatches.Batch batch =
                batches.enter(table, Optional.empty(), KIM, "bought").batch().orElseThrow();
        assertThat(batch.rows()).startsWith(MANY + " added, 0 changed");
        assertThat(filing.register().sterilizers()).hasSizeGreaterThan(MANY);
        assertThat(records.head().tree().size())
                .as("more than are written in one piece")
                .isGreaterThan(2_000);
        assertThat(batches.undo(batch, KIM, "sold").conflicts()).isEmpty();
        assertThat(facts()).isEqualTo(before);
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    @Test
    void what_changed_since_is_not_overwritten_but_told_with_its_place() throws Exception {
        RegisterBatches.Batch batch =
                batches.enter(TABLE, Optional.empty(), KIM, "").batch().orElseThrow();
        Subject added = machine("SN-9001");
        records.append(
                new Author("Lee Placeholder (invented)", "office"),
                List.of(Change.set(Kind.STERILIZER, added.id(), "stated/model", "Bigger 22")
                        .because("plate read")));
        Map<String, String> before = facts();
        assertThatThrownBy(() -> batches.undo(batch, KIM, "no"))
                .isInstanceOf(FilingException.class)
                .hasMessageContaining("B-1 is not taken back, because something changed since")
                .hasMessageContaining("sterilizer SN-9001, 'stated/model': the table left \"Big 22\", now it is"
                        + " \"Bigger 22\" (by Lee Placeholder (invented) at 2026-03-04T09:00:00Z)");
        assertThat(facts()).isEqualTo(before);
        assertThat(batches.find("B-1").undone()).isEmpty();
    }

    @Test
    void what_is_named_by_others_is_not_taken_away() throws Exception {
        RegisterBatches.Batch batch =
                batches.enter(TABLE, Optional.empty(), KIM, "").batch().orElseThrow();
        records.append(
                KIM,
                List.of(Change.set(
                        Kind.VISIT,
                        records.newSubject(),
                        "sterilizer",
                        machine("SN-9001").id().toString())));
        assertThatThrownBy(() -> batches.undo(batch, KIM, "no")).hasMessageContaining("sterilizer SN-9001: visit ");
    }

    @Test
    void a_room_that_a_later_machine_stands_in_is_not_taken_away() throws Exception {
        RegisterBatches.Batch batch =
                batches.enter(TABLE, Optional.empty(), KIM, "").batch().orElseThrow();
        Path next = Files.writeString(
                folder.resolve("next.csv"),
                "Serial No.,Model,Customer,Room\nSN-9002,Big 22,Hillside Vets (invented),Back room\n");
        assertThat(batches.enter(next, Optional.empty(), KIM, "").changed()).isPositive();
        assertThatThrownBy(() -> batches.undo(batch, KIM, "no"))
                .hasMessageContaining("the register without this table")
                .hasMessageContaining("SN-9002");
        assertThat(batches.undo(batches.find("B-2"), KIM, "first the last").facts())
                .isPositive();
        assertThat(batches.undo(batch, KIM, "then the first").facts()).isPositive();
        assertThat(filing.register().findSterilizer("SN-9001")).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 4, 6, 7})
    void any_table_entered_and_taken_back_leaves_the_register_as_it_was(long seed) throws Exception {
        Random random = new Random(seed);
        List<Map<String, String>> states = new ArrayList<>();
        List<RegisterBatches.Batch> entered = new ArrayList<>();
        for (int table = 0; table < 3; table++) {
            states.add(facts());
            Path file = Files.writeString(folder.resolve(table + ".csv"), table(random));
            batches.enter(file, Optional.empty(), KIM, "")
                    .batch()
                    .ifPresentOrElse(entered::add, () -> states.remove(states.size() - 1));
        }
        assertThat(entered).isNotEmpty();
        for (int i = entered.size() - 1; i >= 0; i--) {
            batches.undo(entered.get(i), KIM, "back");
            assertThat(facts()).as("table %s of seed %s", i, seed).isEqualTo(states.get(i));
        }
    }

    private static String table(Random random) {
        String[] serials = {"SN-0417", "SN-0471", "77120", "SN-1", "SN-2", "SN-3"};
        String[] customers = {
            "Riverside Dental Care (invented)", "Northgate Podiatry (invented)", "New Clinic (invented)"
        };
        StringBuilder text = new StringBuilder("serial,model,clinic,zone,room,counter,counter-on,status\n");
        for (int i = 0; i < 6; i++) {
            boolean isPlaced = random.nextBoolean();
            text.append(serials[i])
                    .append(',')
                    .append(random.nextBoolean() ? "Model " + random.nextInt(9) : "")
                    .append(',')
                    .append(isPlaced ? customers[random.nextInt(3)] : "")
                    .append(',')
                    .append(isPlaced ? "Australia/Perth" : "")
                    .append(',')
                    .append(isPlaced ? "Room " + random.nextInt(3) : "")
                    .append(',');
            boolean isRead = random.nextBoolean();
            text.append(isRead ? String.valueOf(5000 + random.nextInt(500)) : "")
                    .append(',')
                    .append(isRead ? "2026-03-0" + (1 + random.nextInt(8)) : "")
                    .append(',')
                    .append(random.nextInt(4) == 0 ? "stored" : "")
                    .append('\n');
        }
        return text.toString();
    }

    @Test
    void a_table_that_says_nothing_new_makes_no_batch() throws IOException, Exception {
        Path file = Files.writeString(folder.resolve("same.csv"), "serial,model\nSN-0417,Small B18\n");
        RegisterBatches.Entered entered = batches.enter(file, Optional.empty(), KIM, "");
        assertThat(entered.batch()).isEmpty();
        assertThat(batches.all()).isEmpty();
        assertThatThrownBy(() -> batches.find("B-1")).hasMessageContaining("no table was entered as 'B-1'");
    }
}
