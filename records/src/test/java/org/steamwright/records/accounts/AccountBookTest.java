package org.steamwright.records.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Stores;
import org.steamwright.records.TestClock;
import org.steamwright.records.backup.PlainExport;
import org.steamwright.records.store.Transfer;

class AccountBookTest {

    private static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");

    @TempDir
    Path folder;

    static Account account(AccountBook book, String name) {
        return new Account(
                book.newId(), name, "technician", "", "$hash", "", 0, 0, Optional.empty(), NOON, true, false);
    }

    @ParameterizedTest
    @EnumSource
    void keeps_an_account_and_finds_it_however_it_is_spelt(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        Account alex;
        try (Records records = Records.open(place, new TestClock())) {
            AccountBook book = new AccountBook(records);
            assertThat(book.isEmpty()).isTrue();
            alex = account(book, "Alex Example");
            assertThat(book.add(alex)).isTrue();
            assertThat(book.add(account(book, " alex EXAMPLE ")))
                    .as("one name, one account")
                    .isFalse();
        }
        try (Records records = Records.open(place, new TestClock())) {
            AccountBook book = new AccountBook(records);
            assertThat(book.find("ALEX example")).contains(alex);
            assertThat(book.findById(alex.id())).contains(alex);
            assertThat(book.all()).containsExactly(alex);
            assertThat(book.find("nobody")).isEmpty();
            assertThatThrownBy(() -> book.change("nobody", account -> account))
                    .hasMessage("there is no account nobody");
        }
    }

    @ParameterizedTest
    @EnumSource
    void some_accounts_are_found_by_a_part_of_the_name_page_by_page(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            for (int i = 10; i < 35; i++) {
                book.add(account(book, "Clinic " + i));
            }
            book.add(account(book, "100 % sterile\\_"));
            assertThat(book.count()).isEqualTo(26);
            assertThat(book.some("", 0, 10)).extracting(Account::name).startsWith("100 % sterile\\_", "Clinic 10");
            assertThat(book.some("", 20, 10))
                    .hasSize(6)
                    .last()
                    .extracting(Account::name)
                    .isEqualTo("Clinic 34");
            assertThat(book.some("CLINIC 1", 0, 10)).hasSize(10);
            assertThat(book.some("%", 0, 10))
                    .as("a sign of the pattern is a sign")
                    .hasSize(1);
            assertThat(book.some("_", 0, 10)).hasSize(1);
            assertThat(book.some("\\", 0, 10)).hasSize(1);
            assertThat(book.some("nobody", 0, 10)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void every_change_starts_from_the_newest_state(Stores.Engine engine) throws Exception {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            Account alex = account(book, "Alex Example");
            book.add(alex);
            int attempts = 40;
            ExecutorService crowd = Executors.newFixedThreadPool(4);
            List<Callable<Integer>> work = new ArrayList<>();
            for (int i = 0; i < attempts; i++) {
                work.add(() -> book.change(alex.id(), one -> one.withFailures(one.failures() + 1, Optional.of(NOON)))
                        .after()
                        .failures());
            }
            List<Integer> counts = new ArrayList<>();
            for (Future<Integer> count : crowd.invokeAll(work)) {
                counts.add(count.get());
            }
            crowd.shutdown();
            assertThat(counts).as("no attempt is lost").doesNotHaveDuplicates();
            assertThat(book.findById(alex.id()).orElseThrow().failures()).isEqualTo(attempts);
            assertThat(book.findById(alex.id()).orElseThrow().lockedUntil()).contains(NOON);
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_recovery_code_is_taken_once(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            Account alex = account(book, "Alex Example");
            book.add(alex);
            book.replaceRecoveryCodes(alex.id(), List.of("aa", "bb"));
            assertThat(book.takeRecoveryCode(alex.id(), "cc", NOON)).isFalse();
            assertThat(book.takeRecoveryCode(alex.id(), "aa", NOON)).isTrue();
            assertThat(book.takeRecoveryCode(alex.id(), "aa", NOON)).isFalse();
            assertThat(book.recoveryCodesLeft(alex.id())).isEqualTo(1);
            book.replaceRecoveryCodes(alex.id(), List.of("dd"));
            assertThat(book.takeRecoveryCode(alex.id(), "bb", NOON))
                    .as("replaced")
                    .isFalse();
        }
    }

    @ParameterizedTest
    @EnumSource
    void an_address_leads_to_a_subject_once_and_the_subject_counts_from_then_on(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            Account alex = account(book, "Alex Example");
            Account robin = account(book, "Robin Example");
            book.add(alex);
            book.add(robin);
            String issuer = "https://identity.example";
            assertThat(book.stateIdentity(new Identity(alex.id(), issuer, "", "Alex@Office.example")))
                    .isTrue();
            assertThat(book.stateIdentity(new Identity(robin.id(), issuer, "", "alex@office.EXAMPLE")))
                    .as("one address, one user")
                    .isFalse();
            assertThat(book.identityBySubject(issuer, ""))
                    .as("no subject is nobody")
                    .isEmpty();
            assertThat(book.bindSubject(issuer, "", "s-1")).isEmpty();
            assertThat(book.bindSubject("https://other.example", "alex@office.example", "s-1"))
                    .isEmpty();
            assertThat(book.bindSubject(issuer, "ALEX@office.example", "s-1"))
                    .contains(new Identity(alex.id(), issuer, "s-1", "alex@office.example"));
            assertThat(book.bindSubject(issuer, "alex@office.example", "s-2"))
                    .as("the address was given to somebody else since")
                    .isEmpty();
            assertThat(book.identityBySubject(issuer, "s-1").orElseThrow().account())
                    .isEqualTo(alex.id());
            assertThat(book.stateIdentity(new Identity(robin.id(), issuer, "s-1", "")))
                    .as("one subject, one user")
                    .isFalse();
            assertThat(book.stateIdentity(new Identity(alex.id(), issuer, "", "")))
                    .isTrue();
            assertThat(book.identityOf(alex.id())).isEmpty();
            assertThat(book.identities()).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void the_log_is_read_page_by_page(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            for (int i = 1; i <= 5; i++) {
                book.note("", "192.0.2.7", "log-in", "attempt " + i);
            }
            assertThat(book.logBefore(Long.MAX_VALUE, 2))
                    .extracting(LogInEntry::nr)
                    .containsExactly(5L, 4L);
            assertThat(book.logBefore(4, 10)).extracting(LogInEntry::nr).containsExactly(3L, 2L, 1L);
        }
    }

    @ParameterizedTest
    @EnumSource
    void the_log_is_only_added_to_also_by_somebody_who_reaches_the_tables(Stores.Engine engine) throws Exception {
        Place place = Stores.fresh(engine, folder);
        try (Records records = Records.open(place, new TestClock())) {
            AccountBook book = new AccountBook(records);
            book.note("", "192.0.2.7", "log-in", "no such user");
            book.note("a1", "192.0.2.7", "log-in", "granted");
            assertThat(book.log(5)).extracting(LogInEntry::nr).containsExactly(2L, 1L);
            assertThat(book.log("a1", 5)).extracting(LogInEntry::result).containsExactly("granted");
        }
        try (Connection raw = Stores.connect(place);
                Statement statement = raw.createStatement()) {
            for (String sql : List.of("update log_in set result = 'granted'", "delete from log_in where nr = 1")) {
                assertThatThrownBy(() -> statement.execute(sql))
                        .isInstanceOf(SQLException.class)
                        .hasMessageContaining("the log of log-ins is only added to");
            }
        }
    }

    @ParameterizedTest
    @EnumSource
    void accounts_move_with_the_store_and_stay_out_of_exports(Stores.Engine engine) throws Exception {
        Place target =
                Stores.fresh(engine == Stores.Engine.SQLITE ? Stores.Engine.POSTGRESQL : Stores.Engine.SQLITE, folder);
        Path export = folder.resolve("export");
        Account alex;
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            AccountBook book = new AccountBook(records);
            alex = account(book, "Alex Example");
            book.add(alex);
            book.replaceRecoveryCodes(alex.id(), List.of("aa"));
            book.stateIdentity(new Identity(alex.id(), "https://identity.example", "s-1", ""));
            book.note(alex.id(), "192.0.2.7", "log-in", "granted");
            Files.createDirectories(target.folder());
            Transfer.copy(records.database(), target);
            PlainExport.write(records, export);
        }
        try (Records records = Records.open(target, new TestClock())) {
            AccountBook book = new AccountBook(records);
            assertThat(book.all()).containsExactly(alex);
            assertThat(book.recoveryCodesLeft(alex.id())).isEqualTo(1);
            assertThat(book.identityBySubject("https://identity.example", "s-1"))
                    .isPresent();
            assertThat(book.log(5)).hasSize(1);
        }
        try (var files = Files.walk(export)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                assertThat(Files.readString(file)).doesNotContain("$hash").doesNotContain("Alex Example");
            }
        }
    }

    @Test
    void a_message_never_holds_a_secret() {
        try (Records records = Records.open(Stores.fresh(Stores.Engine.SQLITE, folder), new TestClock())) {
            assertThat(account(new AccountBook(records), "Alex Example"))
                    .hasToString("account of Alex Example (technician)");
        }
    }
}
