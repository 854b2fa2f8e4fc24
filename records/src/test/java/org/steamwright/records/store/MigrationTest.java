package org.steamwright.records.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.List;
import java.util.Optional;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.Stores;
import org.steamwright.records.SubjectId;
import org.steamwright.records.TestClock;
import org.steamwright.records.Use;
import org.steamwright.records.backup.PlainExport;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** A store of any earlier version is brought to this one, with the same journal. */
class MigrationTest {

    /** Head of the fixture when it was made; a program of any later version has to find it. */
    private static final String FIXTURE = "version-1";

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void a_store_of_version_1_is_brought_here_with_its_journal(Stores.Engine engine) throws Exception {
        Place place = Stores.fresh(engine, folder);
        Files.createDirectories(place.folder());
        String address = place.server().orElse("jdbc:sqlite:" + place.database());
        Flyway.configure(Database.class.getClassLoader())
                .loggers(SilentLog.class.getName())
                .dataSource(address, null, null)
                .locations("classpath:org/steamwright/records/store")
                .table("migration")
                .placeholders(Engine.of(address).words())
                .target("1")
                .load()
                .migrate();
        try (Connection raw = Stores.connect(place);
                Statement statement = raw.createStatement()) {
            run(statement, engine, FIXTURE + ".sql");
        }
        TreeHead head = TreeHead.parse(fixture(FIXTURE + ".head"));
        try (Records records = Records.open(place, new TestClock())) {
            assertThat(records.head().tree()).isEqualTo(head);
            assertThat(Verifier.verify(records, List.of(head), Reassessment.NONE)
                            .differences())
                    .isEmpty();
            assertThat(records.find("sn0042", 5).hits())
                    .as("what version 2 brought is derived")
                    .hasSize(1);
            assertThat(records.usedBy(Use.INSTRUMENT, "LOG-07", Optional.empty(), 5))
                    .hasSize(1);
            SubjectId id = records.newSubject();
            records.append(SampleRecord.ALEX, List.of(Change.set(Kind.LOT, id, "number", "L1")));
            assertThat(Verifier.verify(records, List.of(head), Reassessment.NONE)
                            .differences())
                    .isEmpty();
        }
    }

    /** Figures went by the serial number alone until version 8; two makers may have given the same. */
    @ParameterizedTest
    @EnumSource
    void results_of_version_8_are_thrown_away_and_every_visit_waits(Stores.Engine engine) throws Exception {
        Place place = Stores.fresh(engine, folder);
        Files.createDirectories(place.folder());
        String address = place.server().orElse("jdbc:sqlite:" + place.database());
        Flyway.configure(Database.class.getClassLoader())
                .loggers(SilentLog.class.getName())
                .dataSource(address, null, null)
                .locations("classpath:org/steamwright/records/store")
                .table("migration")
                .placeholders(Engine.of(address).words())
                .target("8")
                .load()
                .migrate();
        long visit;
        try (Connection raw = Stores.connect(place);
                Statement statement = raw.createStatement()) {
            run(statement, engine, FIXTURE + ".sql");
            try (var row = statement.executeQuery("select nr from subject where kind = 'visit'")) {
                assertThat(row.next()).isTrue();
                visit = row.getLong(1);
            }
            for (String line : fixture("version-8-results.sql").split("\n")) {
                if (!line.isBlank() && !line.startsWith("--")) {
                    statement.execute(line.replace(":visit", Long.toString(visit)));
                }
            }
        }
        try (Records records = Records.open(place, new TestClock())) {
            assertThat(records.results().waiting(9))
                    .hasSize(records.subjects(Kind.VISIT, 9).size())
                    .isNotEmpty();
            assertThat(records.results().figures())
                    .as("no line of two machines")
                    .isEmpty();
            assertThat(records.results().open(9)).isEmpty();
            assertThat(records.head().tree()).isEqualTo(TreeHead.parse(fixture(FIXTURE + ".head")));
            assertThat(Verifier.verify(records, List.of(), Reassessment.NONE).differences())
                    .isEmpty();
        }
    }

    private static void run(Statement statement, Stores.Engine engine, String fixture) throws Exception {
        for (String line : fixture(fixture).split("\n")) {
            if (!line.isBlank() && !line.startsWith("--")) {
                statement.execute(
                        engine == Stores.Engine.SQLITE ? line : line.replaceAll("x'([0-9a-f]+)'", "'\\\\x$1'"));
            }
        }
    }

    private static String fixture(String name) throws Exception {
        try (var in = MigrationTest.class.getResourceAsStream("/fixtures/" + name)) {
            assertThat(in).as("fixture %s", name).isNotNull();
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /** An export made by the first version is brought in by every later one. */
    @Test
    void the_export_of_version_1_is_brought_in() throws Exception {
        Path export = folder.resolve("export");
        Files.createDirectories(export);
        Files.writeString(export.resolve("journal.jsonl"), fixture(FIXTURE + ".jsonl"));
        Files.writeString(export.resolve("head.txt"), fixture(FIXTURE + ".head"));
        try (Records records = Records.open(Place.folder(folder.resolve("new")), new TestClock())) {
            assertThat(PlainExport.read(export, records).tree()).isEqualTo(TreeHead.parse(fixture(FIXTURE + ".head")));
        }
    }
}
