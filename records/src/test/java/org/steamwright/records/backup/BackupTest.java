package org.steamwright.records.backup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.records.Change;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.ResultBook;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.Stores;
import org.steamwright.records.SubjectId;
import org.steamwright.records.TestClock;
import org.steamwright.records.Use;
import org.steamwright.records.VisitResult;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

class BackupTest {

    @TempDir
    Path folder;

    final TestClock clock = new TestClock();
    final Backup backup = new Backup(clock);

    private static VisitResult unread(SubjectId visit) {
        return new VisitResult(
                visit,
                "",
                VisitResult.OUT,
                "2026-03-02",
                "",
                new VisitResult.Reason("run 1", "file gone"),
                false,
                false,
                false,
                OptionalLong.empty(),
                0,
                List.of());
    }

    @ParameterizedTest
    @CsvSource({"SQLITE, SQLITE", "SQLITE, POSTGRESQL", "POSTGRESQL, SQLITE", "POSTGRESQL, POSTGRESQL"})
    void what_is_restored_is_what_was_backed_up(Stores.Engine from, Stores.Engine to) {
        Path copy = folder.resolve("copy");
        JournalHead head;
        SampleRecord sample;
        Issue issue;
        try (Records records = Records.open(Stores.fresh(from, folder), clock)) {
            sample = new SampleRecord(records);
            issue = sample.signed();
            sample.lots(20);
            for (ResultBook.Waiting one : records.results().waiting(9)) {
                records.results().keep(Map.of(one, unread(one.visit())), Map.of(), (line, family, figures) -> {
                    throw new IllegalStateException("there are no figures");
                });
            }
            head = records.head();
            Backup.Good good = backup.make(records, copy);
            assertThat(good.head()).isEqualTo(head);
            assertThat(good.verification().isGood()).isTrue();
            assertThat(good.verification().issues()).isEqualTo(1);
        }
        Place target = Stores.fresh(to, folder);
        assertThat(backup.restore(copy, target).head()).isEqualTo(head);
        try (Records records = Records.open(target, clock)) {
            assertThat(records.head()).isEqualTo(head);
            assertThat(records.usedBy(Use.INSTRUMENT, "LOG-07", Optional.empty(), 5))
                    .hasSize(2);
            assertThat(records.find("sn0042", 5).hits()).hasSize(1);
            assertThat(records.results().unassessed(5))
                    .as("why a visit could not be assessed came along")
                    .isNotEmpty()
                    .allMatch(one -> one.why().text().equals("file gone"));
            Issues issues = new Issues(records);
            var corrected = issues.amend(issue.id(), "wrong lot", SampleRecord.ALEX);
            assertThat(issues.sign(sample.request(corrected, records), SampleRecord.secret())
                            .number())
                    .as("the locked key came along")
                    .isEqualTo(2);
            assertThat(Verifier.verify(records, List.of(head.tree()), Reassessment.NONE)
                            .differences())
                    .isEmpty();
        }
    }

    @Test
    void a_backup_is_one_moment_though_others_write() throws Exception {
        try (Records records = Records.open(Place.folder(folder.resolve("store")), clock)) {
            SampleRecord sample = new SampleRecord(records);
            AtomicBoolean isDone = new AtomicBoolean();
            Thread writer = new Thread(() -> {
                while (!isDone.get()) {
                    sample.lots(1);
                }
            });
            writer.start();
            Backup.Good good = backup.make(records, folder.resolve("copy"));
            isDone.set(true);
            writer.join();
            assertThat(records.head().tree().size())
                    .isGreaterThanOrEqualTo(good.head().tree().size());
            assertThat(Verifier.verify(records, List.of(good.head().tree()), Reassessment.NONE)
                            .isGood())
                    .isTrue();
        }
    }

    @Test
    void nothing_is_written_over() throws Exception {
        try (Records records = Records.open(Place.folder(folder.resolve("store")), clock)) {
            new SampleRecord(records);
            Path target = folder.resolve("taken");
            Files.createDirectories(target);
            Files.writeString(target.resolve("letter.txt"), "dear");
            assertThatThrownBy(() -> backup.make(records, target)).hasMessageStartingWith("RECORD-051");
            assertThatThrownBy(() -> PlainExport.write(records, target)).hasMessageStartingWith("RECORD-051");
            Path copy = folder.resolve("copy");
            backup.make(records, copy);
            assertThatThrownBy(() -> backup.restore(copy, Place.folder(target))).hasMessageStartingWith("RECORD-051");
            assertThat(Files.list(target)).hasSize(1);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"records.sqlite", "backup.json"})
    void a_backup_without_one_of_its_parts_is_none(String part) throws Exception {
        Path copy = made();
        Files.delete(copy.resolve(part));
        assertThatThrownBy(() -> backup.restore(copy, Place.folder(folder.resolve("new"))))
                .hasMessageStartingWith("RECORD-053")
                .hasMessageContaining(part);
    }

    @Test
    void any_bit_turned_in_a_backup_is_found_before_it_is_restored() throws Exception {
        Path copy = made();
        Path database = copy.resolve("records.sqlite");
        byte[] bytes = Files.readAllBytes(database);
        for (int offset = 0; offset < bytes.length; offset += bytes.length / 40) {
            byte[] flipped = bytes.clone();
            flipped[offset] ^= 4;
            Files.write(database, flipped);
            assertThatThrownBy(() -> backup.restore(copy, Place.folder(folder.resolve("new"))))
                    .hasMessageStartingWith("RECORD-052");
        }
    }

    @Test
    void a_record_with_a_damaged_file_gives_no_good_backup() throws Exception {
        try (Records records = Records.open(Place.folder(folder.resolve("store")), clock)) {
            new SampleRecord(records);
            Path file = records.files().path(records.files().all().get(0));
            Files.writeString(file, "something else");
            Path copy = folder.resolve("copy");
            assertThatThrownBy(() -> backup.make(records, copy)).hasMessageStartingWith("RECORD-052");
            assertThat(copy.resolve(Backup.SEAL)).doesNotExist();
        }
    }

    private Path made() {
        try (Records records = Records.open(Place.folder(folder.resolve("store")), clock)) {
            new SampleRecord(records);
            return backup.make(records, folder.resolve("copy")).folder();
        }
    }

    @ParameterizedTest
    @EnumSource
    void an_export_brought_in_elsewhere_has_the_same_head(Stores.Engine engine) throws Exception {
        Path export = folder.resolve("export");
        JournalHead head;
        try (Records records = Records.open(Stores.fresh(engine, folder), clock)) {
            SampleRecord sample = new SampleRecord(records);
            sample.signed();
            records.append(
                    SampleRecord.ALEX,
                    List.of(Change.set(Kind.STERILIZER, sample.sterilizer, "model", "=SUM(A1)")
                            .because("as on \"the\" plate")
                            .statedAt(clock.instant().minusSeconds(90_000))));
            head = PlainExport.write(records, export);
        }
        assertThat(Files.readString(export.resolve("head.txt")).strip())
                .isEqualTo(head.tree().text());
        assertThat(Files.readString(export.resolve("sterilizer.csv")))
                .contains("'=SUM(A1)")
                .contains("SN-0042");
        Stores.Engine other = engine == Stores.Engine.SQLITE ? Stores.Engine.POSTGRESQL : Stores.Engine.SQLITE;
        try (Records records = Records.open(Stores.fresh(other, folder), clock)) {
            assertThat(PlainExport.read(export, records)).isEqualTo(head);
            assertThat(Verifier.verify(records, List.of(head.tree()), Reassessment.NONE)
                            .differences())
                    .isEmpty();
            assertThatThrownBy(() -> PlainExport.read(export, records)).hasMessageStartingWith("RECORD-056");
        }
    }

    @Test
    void an_altered_export_is_refused_with_its_place() throws Exception {
        Path export = folder.resolve("export");
        try (Records records = Records.open(Place.folder(folder.resolve("store")), clock)) {
            new SampleRecord(records);
            PlainExport.write(records, export);
        }
        Path journal = export.resolve("journal.jsonl");
        List<String> lines = Files.readAllLines(journal, StandardCharsets.UTF_8);
        try (Records records = Records.open(Place.folder(folder.resolve("new")), clock)) {
            Files.writeString(journal, String.join("\n", lines).replace("SN-0042", "SN-0043") + "\n");
            assertThatThrownBy(() -> PlainExport.read(export, records)).hasMessageStartingWith("RECORD-055");
            Files.writeString(journal, String.join("\n", lines).replace("\"late\":false", "\"late\": false") + "\n");
            assertThatThrownBy(() -> PlainExport.read(export, records))
                    .hasMessageStartingWith("RECORD-054")
                    .hasMessageContaining("journal.jsonl, line 1");
            assertThat(records.head()).isEqualTo(JournalHead.EMPTY);
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {"plain | plain", "-0.3 | -0.3", "=1+1 | '=1+1", "+1 day | '+1 day", "@cmd | '@cmd", "a,b | \"a,b\""
            })
    void cells_are_safe_in_a_spreadsheet(String text, String cell) {
        assertThat(PlainExport.cell(text)).isEqualTo(cell);
    }
}
