package org.steamwright.records.signing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.Subject;
import org.steamwright.records.TestClock;
import org.steamwright.records.json.JsonText;

/** Keys in one act each: asked for, renewed, ended, and what is left when something breaks in between. */
class KeysTest {

    private static final char[] NEW = "another long secret".toCharArray();

    @TempDir
    Path folder;

    private Records records;
    private SampleRecord sample;
    private Keys keys;

    @BeforeEach
    void open() {
        records = Records.open(Place.folder(folder), new TestClock());
        sample = new SampleRecord(records);
        keys = new Keys(records);
    }

    @AfterEach
    void close() {
        records.close();
    }

    private List<PublicKeyRecord> history() {
        return Keys.history(records.subject(sample.technician));
    }

    private long locked() {
        return records.database()
                .read(session -> session.find(row -> row.getLong(1), "select count(*) from locked_key"))
                .orElse(0L);
    }

    @Test
    void nobody_takes_the_place_of_a_key_without_its_secret() {
        PublicKeyRecord first = keys.make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        assertThatThrownBy(() -> keys.make(sample.technician, NEW, SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-040");
        assertThatThrownBy(() -> keys.renew(sample.technician, "not the secret".toCharArray(), NEW, SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-032");
        assertThatThrownBy(() -> keys.replace(sample.technician, " ", NEW, SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-037");
        assertThatThrownBy(() -> keys.end(sample.technician, "", SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-037");
        assertThat(history()).containsExactly(first);
        assertThat(new Issues(records)
                        .sign(sample.request(sample.visit), SampleRecord.secret())
                        .keyId())
                .isEqualTo(first.id());
    }

    @Test
    void a_reason_ends_a_key_and_stays_in_the_journal() {
        keys.make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        keys.end(sample.technician, "the secret is lost", SampleRecord.ALEX);
        assertThat(Keys.hasKey(records.subject(sample.technician))).isFalse();
        assertThat(locked()).as("the private part is gone too").isZero();
        assertThatThrownBy(() -> keys.end(sample.technician, "again", SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-034");
        PublicKeyRecord second = keys.make(sample.technician, NEW, SampleRecord.ALEX);
        PublicKeyRecord third =
                keys.replace(sample.technician, "seen by others", SampleRecord.secret(), SampleRecord.ALEX);
        assertThat(history())
                .hasSize(3)
                .filteredOn(key -> key.until().isEmpty())
                .containsExactly(third);
        assertThat(records.history(sample.technician))
                .filteredOn(entry -> entry.property().equals(second.property()))
                .last()
                .satisfies(entry -> assertThat(entry.why()).isEqualTo("seen by others"));
        assertThat(records.history(sample.technician))
                .anySatisfy(entry -> assertThat(entry.why()).isEqualTo("the secret is lost"));
    }

    private void breakAt(String when) {
        records.database()
                .write(session -> session.run("create trigger broken before " + when
                        + " on locked_key begin select raise(abort, 'broken for a test'); end"));
    }

    @Test
    void what_breaks_while_a_key_is_made_leaves_no_key_at_all() {
        breakAt("insert");
        assertThatThrownBy(() -> keys.make(sample.technician, NEW, SampleRecord.ALEX))
                .isInstanceOf(RecordsException.class);
        assertThat(history()).isEmpty();
        assertThat(locked()).isZero();
    }

    @Test
    void what_breaks_while_a_key_is_renewed_leaves_the_old_one_in_use() {
        PublicKeyRecord first = keys.make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        breakAt("delete");
        assertThatThrownBy(() -> keys.renew(sample.technician, SampleRecord.secret(), NEW, SampleRecord.ALEX))
                .isInstanceOf(RecordsException.class);
        assertThatThrownBy(() -> keys.end(sample.technician, "lost", SampleRecord.ALEX))
                .isInstanceOf(RecordsException.class);
        assertThat(history()).containsExactly(first);
        assertThat(locked()).isEqualTo(1);
        assertThat(new Issues(records)
                        .sign(sample.request(sample.visit), SampleRecord.secret())
                        .keyId())
                .isEqualTo(first.id());
    }

    @Test
    void two_who_ask_at_once_get_one_key_between_them() throws Exception {
        ExecutorService both = Executors.newFixedThreadPool(2);
        try {
            Callable<PublicKeyRecord> make = () -> keys.make(sample.technician, NEW, SampleRecord.ALEX);
            int made = 0;
            for (Future<PublicKeyRecord> one : both.invokeAll(List.of(make, make))) {
                made += got(one).size();
            }
            assertThat(made).isEqualTo(1);
            assertThat(history()).hasSize(1);
            assertThat(locked()).isEqualTo(1);
        } finally {
            both.shutdown();
        }
    }

    private static List<PublicKeyRecord> got(Future<PublicKeyRecord> one) throws InterruptedException {
        List<PublicKeyRecord> got = new ArrayList<>();
        try {
            got.add(one.get());
        } catch (java.util.concurrent.ExecutionException refused) {
            assertThat(refused.getCause()).hasMessageStartingWith("RECORD-040");
        }
        return got;
    }

    @Test
    void a_receipt_says_of_what_it_is_and_one_that_was_altered_is_told() {
        keys.make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        Receipts receipts = new Receipts(records);
        receipts.sign(
                sample.visit, sample.technician, "received and understood", SampleRecord.secret(), SampleRecord.ALEX);
        Subject received = records.subject(sample.visit);
        assertThat(Receipts.of(received)).get().matches(Receipts.Receipt::isOfThis);
        assertThat(receipts.complaints(received)).isEmpty();
        records.append(SampleRecord.ALEX, List.of(Change.set(Kind.VISIT, sample.visit, "date", "2026-03-03")));
        assertThat(Receipts.of(records.subject(sample.visit)))
                .as("of an earlier state")
                .get()
                .matches(receipt -> !receipt.isOfThis());

        String altered = received.fact(Receipts.FACT).orElseThrow().text().replace("received and", "approved and");
        records.append(
                SampleRecord.ALEX,
                List.of(Change.set(Kind.VISIT, sample.visit, Receipts.FACT, JsonText.parse(altered))));
        Issue issue = new Issues(records).sign(sample.request(sample.visit), SampleRecord.secret());
        assertThat(new SignatureCheck(records)
                        .check(records.subject(issue.id()))
                        .complaints())
                .containsExactly("its receipt is not what was signed");
        assertThatThrownBy(() -> receipts.sign(
                        sample.visit, sample.technician, "received", SampleRecord.secret(), SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-035");
    }

    @Test
    void a_secret_is_taken_with_its_blanks_and_one_that_lost_them_once_opens_still() {
        keys.make(sample.technician, "lost its blanks".toCharArray(), SampleRecord.ALEX);
        keys.renew(
                sample.technician, "  lost its blanks ".toCharArray(), " has blanks ".toCharArray(), SampleRecord.ALEX);
        assertThatThrownBy(() -> new Issues(records).sign(sample.request(sample.visit), "has blanks".toCharArray()))
                .hasMessageStartingWith("RECORD-032");
        assertThat(new Issues(records)
                        .sign(sample.request(sample.visit), " has blanks ".toCharArray())
                        .number())
                .isEqualTo(1);
        assertThatThrownBy(() -> keys.make(sample.technician, "   short   ".toCharArray(), SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-033");
    }

    @Test
    void keys_in_use_are_found_by_index_with_their_last_signature() {
        assertThat(KeysInUse.count(records)).isZero();
        PublicKeyRecord first = keys.make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        assertThat(KeysInUse.of(records, 0, 10)).singleElement().satisfies(one -> {
            assertThat(one.key()).isEqualTo(first);
            assertThat(one.lastUsed()).as("has signed nothing yet").isEmpty();
        });
        Issue issue = new Issues(records).sign(sample.request(sample.visit), SampleRecord.secret());
        String at = new Issues(records).document(issue).node().path("at").asText();
        assertThat(KeysInUse.find(records, first.id()))
                .flatMap(KeysInUse.KeyInUse::lastUsed)
                .contains(Instant.parse(at));
        assertThat(KeysInUse.of(records, 1, 10)).as("behind the last").isEmpty();

        PublicKeyRecord second = keys.renew(sample.technician, SampleRecord.secret(), NEW, SampleRecord.ALEX);
        assertThat(KeysInUse.find(records, first.id()))
                .as("renewed, so it signs no more")
                .isEmpty();
        assertThat(KeysInUse.of(records, 0, 10)).singleElement().satisfies(one -> {
            assertThat(one.key().id()).isEqualTo(second.id());
            assertThat(one.lastUsed()).as("the new one has signed nothing").isEmpty();
        });
        keys.end(sample.technician, "left", SampleRecord.ALEX);
        assertThat(KeysInUse.count(records)).isZero();
        assertThat(KeysInUse.of(records, 0, 10)).isEmpty();
    }
}
