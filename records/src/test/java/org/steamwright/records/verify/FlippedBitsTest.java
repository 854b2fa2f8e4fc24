package org.steamwright.records.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.Stores;
import org.steamwright.records.TestClock;
import org.steamwright.records.proof.Hash;

/**
 * One bit turned, anywhere in what is stored, is found and its place is named. The number of flips is
 * {@code -Drecords.flips}; the short form is for every build.
 */
class FlippedBitsTest {

    private static final int FLIPS = Integer.getInteger("records.flips", 500);

    /** Column of a table, the columns by which its row is found, and what names the place. */
    private record Column(String table, String column, List<String> key, String place) {}

    private static final List<Column> COLUMNS = List.of(
            new Column("store", "entries", List.of("one"), "counters|journal|store"),
            new Column("store", "submissions", List.of("one"), "counters"),
            new Column("store", "subjects", List.of("one"), "counters"),
            new Column("store", "latest_at", List.of("one"), "counters"),
            new Column("subject", "id", List.of("nr"), "journal entry|subject|signed issues|issue"),
            new Column("subject", "kind", List.of("nr"), "journal entry|subject|signed issues|issue"),
            new Column("submission", "id", List.of("nr"), "journal entry"),
            new Column("submission", "author_name", List.of("nr"), "journal entry"),
            new Column("submission", "author_role", List.of("nr"), "journal entry"),
            new Column("submission", "at", List.of("nr"), "journal entry"),
            new Column("submission", "utc_offset", List.of("nr"), "journal entry"),
            new Column("submission", "size", List.of("nr"), "submission ending with entry"),
            new Column("submission", "root", List.of("nr"), "submission ending with entry"),
            new Column("journal", "nr", List.of("hash"), "journal entry|submission"),
            new Column("journal", "submission", List.of("nr"), "journal entry|journal"),
            new Column("journal", "subject", List.of("nr"), "journal entry|journal"),
            new Column("journal", "property", List.of("nr"), "journal entry"),
            new Column("journal", "old_value", List.of("nr"), "journal entry"),
            new Column("journal", "new_value", List.of("nr"), "journal entry"),
            new Column("journal", "why", List.of("nr"), "journal entry"),
            new Column("journal", "stated", List.of("nr"), "journal entry"),
            new Column("journal", "hash", List.of("nr"), "journal entry"),
            new Column("tree", "place", List.of("level", "place"), "tree"),
            new Column("tree", "hash", List.of("level", "place"), "tree"),
            new Column("fact", "subject", List.of("subject", "property"), "fact"),
            new Column("fact", "property", List.of("subject", "property"), "fact"),
            new Column("fact", "value", List.of("subject", "property"), "fact"),
            new Column("fact", "entry", List.of("subject", "property"), "fact"),
            new Column("word", "subject", List.of("subject", "property", "folded"), "index|table word"),
            new Column("word", "folded", List.of("subject", "property", "folded"), "index"),
            new Column("used", "role", List.of("role", "folded", "subject", "property"), "index"),
            new Column("used", "folded", List.of("role", "folded", "subject", "property"), "index"),
            new Column("used", "subject", List.of("role", "folded", "subject", "property"), "index|table used"),
            new Column("locked_key", "id", List.of("id"), "locked key"),
            new Column("locked_key", "owner", List.of("id"), "locked key"),
            new Column("locked_key", "salt", List.of("id"), "locked key"),
            new Column("locked_key", "nonce", List.of("id"), "locked key"),
            new Column("locked_key", "locked", List.of("id"), "locked key"),
            new Column("locked_key", "sha256", List.of("id"), "locked key"));

    @TempDir
    Path folder;

    private Place sample(String name) {
        Place place = Place.folder(folder.resolve(name));
        try (Records records = Records.open(place, new TestClock())) {
            SampleRecord sample = new SampleRecord(records);
            sample.signed();
            sample.lots(30);
            records.append(
                    SampleRecord.ALEX,
                    List.of(Change.set(Kind.STERILIZER, sample.sterilizer, "model", "Ä")
                            .because("seen on the plate")
                            .statedAt(records.clock().instant().minusSeconds(9))));
        }
        return place;
    }

    @Test
    void a_flip_in_any_stored_value_is_found_and_located() throws SQLException {
        Place place = sample("values");
        SplittableRandom random = new SplittableRandom(20260302);
        int done = 0;
        try (Records records = Records.open(place, new TestClock());
                Connection raw = Stores.connect(place)) {
            try (Statement statement = raw.createStatement()) {
                statement.execute("pragma synchronous = off");
            }
            assertThat(verify(records).differences()).isEmpty();
            while (done < FLIPS) {
                Column column = COLUMNS.get(random.nextInt(COLUMNS.size()));
                List<Object[]> rows = rows(raw, column);
                Object[] row = rows.get(random.nextInt(rows.size()));
                Object flipped = flip(row[0], random);
                if (flipped.equals(row[0]) || !update(raw, column, flipped, row)) {
                    continue;
                }
                Verification verification = verify(records);
                assertThat(verification.differences())
                        .as(
                                "%s.%s of row %s, %s turned to %s",
                                column.table, column.column, Arrays.toString(row), row[0], flipped)
                        .anySatisfy(difference -> assertThat(difference.place()).containsPattern(column.place));
                Object[] back = row.clone();
                int keyPlace = column.key.indexOf(column.column);
                if (keyPlace >= 0) {
                    back[keyPlace + 1] = flipped;
                }
                assertThat(update(raw, column, row[0], back)).isTrue();
                done++;
            }
            assertThat(verify(records).differences()).isEmpty();
        }
        System.out.println("flips in values: " + done + ", all found and located");
    }

    private static Verification verify(Records records) {
        return Verifier.verify(records, List.of(), Reassessment.NONE);
    }

    /** Value and key of every row. */
    private static List<Object[]> rows(Connection raw, Column column) throws SQLException {
        List<Object[]> rows = new ArrayList<>();
        try (Statement statement = raw.createStatement();
                ResultSet result = statement.executeQuery(
                        "select " + column.column + ", " + String.join(", ", column.key) + " from " + column.table)) {
            while (result.next()) {
                Object[] row = new Object[column.key.size() + 1];
                for (int i = 0; i < row.length; i++) {
                    row[i] = result.getObject(i + 1);
                }
                rows.add(row);
            }
        }
        return rows;
    }

    private static Object flip(Object value, SplittableRandom random) {
        if (value instanceof byte[] bytes) {
            byte[] flipped = bytes.clone();
            flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
            return flipped;
        }
        if (value instanceof String text) {
            if (text.isEmpty()) {
                return text;
            }
            byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
            // the highest bit would make a text that JDBC can't bring back; raw flips below take it
            bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(7));
            String flipped = new String(bytes, StandardCharsets.UTF_8);
            return flipped.indexOf(0) >= 0 || flipped.indexOf('\uFFFD') >= 0 ? text : flipped;
        }
        return ((Number) value).longValue() ^ (1L << random.nextInt(16));
    }

    private static boolean update(Connection raw, Column column, Object value, Object[] row) throws SQLException {
        StringBuilder sql = new StringBuilder("update " + column.table + " set " + column.column + " = ? where 1 = 1");
        column.key.forEach(key -> sql.append(" and ").append(key).append(" = ?"));
        try (PreparedStatement statement = raw.prepareStatement(sql.toString())) {
            statement.setObject(1, value);
            for (int i = 1; i < row.length; i++) {
                statement.setObject(i + 1, row[i]);
            }
            return statement.executeUpdate() == 1;
        } catch (SQLException e) {
            if ((e.getErrorCode() & 0xFF) == 19) {
                return false;
            }
            throw e;
        }
    }

    @Test
    void a_flip_in_any_file_is_found_and_located() throws IOException {
        Place place = sample("files");
        SplittableRandom random = new SplittableRandom(7);
        try (Records records = Records.open(place, new TestClock())) {
            List<Hash> files = records.files().all();
            assertThat(files).hasSize(2);
            for (int i = 0; i < FLIPS; i++) {
                Hash file = files.get(random.nextInt(files.size()));
                Path path = records.files().path(file);
                byte[] bytes = Files.readAllBytes(path);
                byte[] flipped = bytes.clone();
                flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
                Files.write(path, flipped);
                assertThat(records.files().complaint(file)).get().asString().startsWith("damaged");
                if (i < 20) {
                    assertThat(verify(records).differences())
                            .anySatisfy(
                                    difference -> assertThat(difference.place()).contains(file.hex()));
                }
                Files.write(path, bytes);
            }
        }
        System.out.println("flips in files: " + FLIPS + ", all found and located");
    }

    @Test
    void a_flip_in_the_bytes_of_the_database_file_is_found_or_changes_nothing_that_is_kept() throws Exception {
        Place place = sample("raw");
        byte[] good = Files.readAllBytes(place.database());
        Map<String, String> content = content(place);
        SplittableRandom random = new SplittableRandom(99);
        int found = 0;
        int harmless = 0;
        for (int i = 0; i < Math.max(100, FLIPS / 5); i++) {
            byte[] flipped = good.clone();
            int offset = random.nextInt(flipped.length);
            flipped[offset] ^= (byte) (1 << random.nextInt(8));
            Files.write(place.database(), flipped);
            Files.deleteIfExists(place.folder().resolve("records.sqlite-wal"));
            Files.deleteIfExists(place.folder().resolve("records.sqlite-shm"));
            boolean isFound;
            try (Records records = Records.open(place, new TestClock())) {
                isFound = !verify(records).isGood();
            } catch (RecordsException e) {
                isFound = true;
            }
            if (isFound) {
                found++;
            } else {
                harmless++;
                assertThat(content(place))
                        .as("byte %s was turned unseen", offset)
                        .isEqualTo(content);
            }
        }
        System.out.println("flips in the database file: " + found + " found, " + harmless
                + " in bytes that carry nothing (free space, counters)");
        assertThat(found).isPositive();
    }

    /** Everything that the tables say, without the notes of the migrations. */
    private static Map<String, String> content(Place place) throws SQLException {
        Map<String, String> content = new java.util.TreeMap<>();
        try (Connection raw = Stores.connect(place);
                Statement statement = raw.createStatement()) {
            for (String table : List.of(
                    "store", "subject", "submission", "journal", "tree", "fact", "word", "used", "locked_key")) {
                StringBuilder rows = new StringBuilder();
                try (ResultSet result = statement.executeQuery("select * from " + table + " order by 1, 2, 3")) {
                    while (result.next()) {
                        for (int i = 1; i <= result.getMetaData().getColumnCount(); i++) {
                            Object value = result.getObject(i);
                            rows.append(value instanceof byte[] bytes ? Arrays.toString(bytes) : value)
                                    .append('|');
                        }
                        rows.append('\n');
                    }
                }
                content.put(table, rows.toString());
            }
        }
        return content;
    }
}
