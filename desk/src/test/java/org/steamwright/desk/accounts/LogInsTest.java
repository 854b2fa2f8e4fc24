package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.accounts.LogInAnswer.CodeWanted;
import org.steamwright.desk.accounts.LogInAnswer.Granted;
import org.steamwright.desk.accounts.LogInAnswer.Reason;
import org.steamwright.desk.accounts.LogInAnswer.Refused;
import org.steamwright.desk.accounts.LogIns.Obstacle;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.AccountBook;
import org.steamwright.records.accounts.LogInEntry;

class LogInsTest {

    private static final String PASSWORD = "basket over pouch";
    private static final String HERE = "192.0.2.7";

    @TempDir
    Path folder;

    private final HandClock clock = new HandClock();
    private final OneTimeCodes codes = new OneTimeCodes();
    private Records records;
    private AccountBook book;
    private LogIns logIns;

    @BeforeEach
    void open() throws IOException {
        records = Records.open(Place.folder(folder), clock);
        book = new AccountBook(records);
        logIns = new LogIns(book, SecretBox.open(folder.resolve("accounts.key")), clock);
        assertThat(logIns.add("Alex Example", "technician", "", PASSWORD, "office"))
                .isEmpty();
    }

    @AfterEach
    void close() {
        records.close();
    }

    private LogInAnswer attempt(String name, String password) {
        return logIns.attempt(name, password.toCharArray(), HERE);
    }

    private String alex() {
        return book.find("alex example").orElseThrow().id();
    }

    @Test
    void lets_in_by_name_and_password_and_says_only_wrong_otherwise() {
        assertThat(attempt("alex example", PASSWORD)).isInstanceOf(Granted.class);
        Refused wrong = new Refused(Reason.WRONG, Optional.empty());
        assertThat(attempt("Alex Example", "basket under pouch")).isEqualTo(wrong);
        assertThat(attempt("Nobody", PASSWORD)).isEqualTo(wrong);
        assertThat(book.log(10))
                .extracting(LogInEntry::account, LogInEntry::address, LogInEntry::result)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("", HERE, "no such user"),
                        org.assertj.core.groups.Tuple.tuple(alex(), HERE, "wrong password"),
                        org.assertj.core.groups.Tuple.tuple(alex(), HERE, "granted"),
                        org.assertj.core.groups.Tuple.tuple(alex(), "", "as technician, by office"));
    }

    @Test
    void five_failures_bring_a_wait_that_doubles_even_for_the_right_password() {
        for (int i = 0; i < 5; i++) {
            assertThat(attempt("Alex Example", "wrong " + i)).isEqualTo(new Refused(Reason.WRONG, Optional.empty()));
        }
        Instant inAMinute = clock.instant().plus(Duration.ofMinutes(1));
        assertThat(attempt("Alex Example", PASSWORD)).isEqualTo(new Refused(Reason.WAIT, Optional.of(inAMinute)));
        clock.forward(Duration.ofMinutes(1));
        assertThat(attempt("Alex Example", "wrong")).isEqualTo(new Refused(Reason.WRONG, Optional.empty()));
        assertThat(attempt("Alex Example", PASSWORD))
                .isEqualTo(new Refused(Reason.WAIT, Optional.of(clock.instant().plus(Duration.ofMinutes(2)))));
        clock.forward(Duration.ofMinutes(2));
        assertThat(attempt("Alex Example", PASSWORD)).isInstanceOf(Granted.class);
        assertThat(attempt("Alex Example", "wrong"))
                .as("a log-in begins the count anew")
                .isEqualTo(new Refused(Reason.WRONG, Optional.empty()));
    }

    @Test
    void the_wait_ends_at_an_hour() {
        assertThat(Brake.waitAfter(4, 5)).isZero();
        assertThat(Brake.waitAfter(10, 5)).hasMinutes(32);
        assertThat(Brake.waitAfter(11, 5)).hasMinutes(60);
        assertThat(Brake.waitAfter(5_000, 5)).hasMinutes(60);
    }

    @Test
    void a_name_that_nobody_has_waits_like_one_that_somebody_has() {
        for (int i = 0; i < 5; i++) {
            attempt("Nobody", "wrong");
        }
        assertThat(attempt("nobody ", PASSWORD))
                .isEqualTo(new Refused(Reason.WAIT, Optional.of(clock.instant().plus(Duration.ofMinutes(1)))));
    }

    @Test
    void an_address_that_tries_many_names_has_to_wait_and_others_have_not() {
        for (int i = 0; i < 20; i++) {
            attempt("stranger " + i, "wrong");
        }
        assertThat(attempt("Alex Example", PASSWORD)).isInstanceOf(Refused.class);
        assertThat(logIns.attempt("Alex Example", PASSWORD.toCharArray(), "192.0.2.8"))
                .isInstanceOf(Granted.class);
    }

    @Test
    void a_second_factor_is_asked_after_the_password_and_each_code_is_good_once() {
        byte[] secret = codes.newSecret();
        assertThat(logIns.takeSecondFactor(alex(), secret, "000000", HERE)).isEmpty();
        List<String> recovery = logIns.takeSecondFactor(alex(), secret, codes.code(secret, clock.instant()), HERE)
                .orElseThrow();
        assertThat(recovery)
                .hasSize(8)
                .doesNotHaveDuplicates()
                .allMatch(code -> code.matches("([A-Z2-7]{4}-){5}[A-Z2-7]{4}"));

        assertThat(attempt("Alex Example", PASSWORD)).isEqualTo(new CodeWanted(alex()));
        assertThat(logIns.secondStep(alex(), codes.code(secret, clock.instant()), HERE))
                .as("the code that proved the set-up is used up")
                .isEqualTo(new Refused(Reason.WRONG, Optional.empty()));
        clock.forward(Duration.ofSeconds(30));
        String code = codes.code(secret, clock.instant());
        assertThat(logIns.secondStep(alex(), code, HERE)).isInstanceOf(Granted.class);
        assertThat(logIns.secondStep(alex(), code, HERE)).isInstanceOf(Refused.class);

        String lower = recovery.get(0).toLowerCase(java.util.Locale.ROOT).replace('-', ' ');
        assertThat(logIns.secondStep(alex(), lower, HERE)).isInstanceOf(Granted.class);
        assertThat(logIns.secondStep(alex(), recovery.get(0), HERE)).isInstanceOf(Refused.class);
        assertThat(book.recoveryCodesLeft(alex())).isEqualTo(7);

        logIns.dropSecondFactor(alex(), "office");
        assertThat(attempt("Alex Example", PASSWORD)).isInstanceOf(Granted.class);
        assertThat(logIns.secondStep(alex(), recovery.get(1), HERE)).isInstanceOf(Refused.class);
    }

    @Test
    void guessing_codes_is_braked_like_guessing_passwords() {
        byte[] secret = codes.newSecret();
        logIns.takeSecondFactor(alex(), secret, codes.code(secret, clock.instant()), HERE);
        clock.forward(Duration.ofMinutes(1));
        for (int i = 0; i < 5; i++) {
            logIns.secondStep(alex(), "00000" + i, HERE);
        }
        assertThat(logIns.secondStep(alex(), codes.code(secret, clock.instant()), HERE))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.reason()).isEqualTo(Reason.WAIT));
    }

    @Test
    void a_right_password_is_no_failure_and_forgives_no_wrong_code() {
        byte[] secret = codes.newSecret();
        logIns.takeSecondFactor(alex(), secret, codes.code(secret, clock.instant()), HERE);
        clock.forward(Duration.ofMinutes(1));
        for (int i = 0; i < 4; i++) {
            assertThat(attempt("Alex Example", PASSWORD)).isEqualTo(new CodeWanted(alex()));
        }
        for (int i = 0; i < 4; i++) {
            logIns.secondStep(alex(), "00000" + i, HERE);
        }
        assertThat(attempt("Alex Example", PASSWORD)).isEqualTo(new CodeWanted(alex()));
        assertThat(book.findById(alex()).orElseThrow().failures())
                .as("four codes were wrong, five passwords right")
                .isEqualTo(4);
        assertThat(logIns.secondStep(alex(), codes.code(secret, clock.instant()), HERE))
                .as("the right code after the right password")
                .isInstanceOf(Granted.class);
        for (int i = 0; i < 5; i++) {
            logIns.secondStep(alex(), "00000" + i, HERE);
            attempt("Alex Example", PASSWORD);
        }
        assertThat(attempt("Alex Example", PASSWORD))
                .as("passwords between them do not loosen the brake")
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.reason()).isEqualTo(Reason.WAIT));
    }

    @Test
    void long_names_of_strangers_fill_no_memory() {
        Brake brake = new Brake(clock, 2);
        String one = "x".repeat(1_000_000) + "1";
        String other = "x".repeat(1_000_000) + "2";
        brake.failed(one);
        brake.failed(one);
        assertThat(brake.longestKey()).isLessThan(300);
        assertThat(brake.until(one)).isPresent();
        assertThat(brake.until(other)).as("another long name").isEmpty();
    }

    @Test
    void the_tables_alone_give_no_second_factor() throws IOException {
        byte[] secret = codes.newSecret();
        logIns.takeSecondFactor(alex(), secret, codes.code(secret, clock.instant()), HERE);
        String sealed = book.findById(alex()).orElseThrow().secondFactor();
        assertThat(sealed).doesNotContain(OneTimeCodes.typed(secret));
        SecretBox box = SecretBox.open(folder.resolve("accounts.key"));
        assertThat(box.unseal(sealed, alex())).contains(secret);
        assertThat(box.unseal(sealed, "somebody else")).isEmpty();
        assertThat(SecretBox.open(folder.resolve("other.key")).unseal(sealed, alex()))
                .isEmpty();
        assertThat(Files.getPosixFilePermissions(folder.resolve("accounts.key")))
                .isEqualTo(PosixFilePermissions.fromString("rw-------"));
        Files.writeString(folder.resolve("other.key"), "short");
        assertThatThrownBy(() -> SecretBox.open(folder.resolve("other.key")))
                .hasMessageContaining("a key of 32 bytes is expected here, found are 5");
    }

    @Test
    void a_session_ends_when_idle_after_a_day_and_with_every_change_of_the_account() {
        Account account = book.findById(alex()).orElseThrow();
        Instant begun = clock.instant();
        assertThat(logIns.holds(account, begun, begun)).isTrue();
        clock.forward(LogIns.IDLE);
        assertThat(logIns.holds(account, begun, begun)).as("idle").isFalse();
        assertThat(logIns.holds(account, begun, clock.instant())).isTrue();
        clock.forward(LogIns.LONGEST);
        assertThat(logIns.holds(account, begun, clock.instant())).as("a day").isFalse();

        Instant now = clock.instant();
        clock.forward(Duration.ofSeconds(1));
        logIns.endSessions(alex(), "office");
        assertThat(logIns.holds(book.findById(alex()).orElseThrow(), now, now)).isFalse();
        Instant later = clock.instant();
        logIns.setActive(alex(), false, "office");
        assertThat(logIns.holds(book.findById(alex()).orElseThrow(), later, later))
                .isFalse();
        assertThat(attempt("Alex Example", PASSWORD)).isEqualTo(new Refused(Reason.WRONG, Optional.empty()));
    }

    @Test
    void a_password_is_changed_by_who_knows_the_old_one() {
        assertThat(book.findById(alex()).orElseThrow().mustChange())
                .as("the office knows the first one")
                .isTrue();
        assertThat(logIns.changePassword(alex(), "wrong".toCharArray(), "pouch over basket", HERE))
                .contains(Obstacle.OLD_PASSWORD_WRONG);
        assertThat(logIns.changePassword(alex(), PASSWORD.toCharArray(), "password", HERE))
                .contains(Obstacle.COMMON);
        assertThat(logIns.changePassword(alex(), PASSWORD.toCharArray(), "pouch over basket", HERE))
                .isEmpty();
        assertThat(book.findById(alex()).orElseThrow().mustChange()).isFalse();
        assertThat(attempt("Alex Example", PASSWORD)).isInstanceOf(Refused.class);
        assertThat(attempt("Alex Example", "pouch over basket")).isInstanceOf(Granted.class);
        assertThat(logIns.resetPassword(alex(), "one for today", "office")).isEmpty();
        assertThat(attempt("Alex Example", "one for today"))
                .isInstanceOfSatisfying(
                        Granted.class,
                        in -> assertThat(in.account().mustChange()).isTrue());
    }

    @Test
    void a_name_is_given_once_and_a_user_of_the_provider_has_no_password() {
        assertThat(logIns.add("ALEX example", "office", "", PASSWORD, "office")).contains(Obstacle.NAME_TAKEN);
        assertThat(logIns.add("Robin Sample", "office", "", "", "office")).isEmpty();
        assertThat(attempt("Robin Sample", "")).isInstanceOf(Refused.class);
        String issuer = "https://identity.example";
        assertThat(logIns.vouchedFor(issuer, "s-7", Optional.of("robin@office.example"), HERE))
                .as("nobody is made by logging in")
                .isEmpty();
        String robin = book.find("robin sample").orElseThrow().id();
        assertThat(logIns.stateIdentity(robin, issuer, "s-7", "", "office")).isEmpty();
        assertThat(logIns.stateIdentity(alex(), issuer, "s-7", "", "office")).contains(Obstacle.IDENTITY_TAKEN);
        assertThat(logIns.vouchedFor(issuer, "s-7", Optional.empty(), HERE)).isPresent();
        assertThat(logIns.vouchedFor("https://other.example", "s-7", Optional.empty(), HERE))
                .as("a subject is worth something with its issuer only")
                .isEmpty();
        assertThat(logIns.setActive(robin, false, "office"))
                .as("the only user of the office stays")
                .contains(Obstacle.LAST_OFFICE);
        logIns.add("Sam Sample", "office", "", "", "office");
        assertThat(logIns.setActive(robin, false, "office")).isEmpty();
        assertThat(logIns.vouchedFor(issuer, "s-7", Optional.empty(), HERE)).isEmpty();
    }

    @Test
    void the_owner_of_a_laptop_is_asked_once_and_stands_in_the_journal() {
        assertThat(Owner.find(records)).isEmpty();
        Owner.state(records, "Kim Placeholder", "technician");
        assertThat(Owner.find(records)).contains(new Author("Kim Placeholder", "technician"));
        assertThat(records.entries(1, 1).get(0).author().name()).isEqualTo("Kim Placeholder");
        Owner.state(records, "Lee Placeholder", "technician");
        assertThat(Owner.find(records)).contains(new Author("Lee Placeholder", "technician"));
    }
}
