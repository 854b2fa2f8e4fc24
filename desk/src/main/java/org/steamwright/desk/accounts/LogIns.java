package org.steamwright.desk.accounts;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import org.steamwright.desk.accounts.LogInAnswer.CodeWanted;
import org.steamwright.desk.accounts.LogInAnswer.Granted;
import org.steamwright.desk.accounts.LogInAnswer.Reason;
import org.steamwright.desk.accounts.LogInAnswer.Refused;
import org.steamwright.desk.accounts.PasswordRule.Weakness;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.AccountBook;

/**
 * Lets users in, or not, and notes it. Every attempt is counted before it is looked at, so that many at once gain nothing; a
 * name that nobody has takes as long, and waits as long, as one that somebody has.
 *
 * <p>May be used by several threads.
 */
public final class LogIns {

    /** A session ends when it was not used for so long. */
    public static final Duration IDLE = Duration.ofMinutes(30);

    /** A session ends after so long in any case: a working day. */
    public static final Duration LONGEST = Duration.ofHours(12);

    private static final int FREE_FOR_A_USER = 5;
    private static final int FREE_FOR_AN_ADDRESS = 20;

    private final AccountBook book;
    private final SecretBox box;
    private final Clock clock;
    private final Brake addresses;
    private final Brake strangers;
    private final PasswordHash hash = new PasswordHash();
    private final OneTimeCodes codes = new OneTimeCodes();
    private final SecureRandom random = new SecureRandom();

    /**
     * @param book accounts as they are kept
     * @param box seals the second factors
     * @param clock time
     */
    public LogIns(AccountBook book, SecretBox box, Clock clock) {
        this.book = book;
        this.box = box;
        this.clock = clock;
        this.addresses = new Brake(clock, FREE_FOR_AN_ADDRESS);
        this.strangers = new Brake(clock, FREE_FOR_A_USER);
    }

    /** The accounts as they are kept. */
    public AccountBook book() {
        return book;
    }

    /**
     * An attempt with name and password.
     *
     * @param name as typed
     * @param password as typed; the caller clears it
     * @param address from where
     */
    public LogInAnswer attempt(String name, char[] password, String address) {
        Optional<Instant> wait = addresses.until(address);
        if (wait.isPresent()) {
            book.note("", address, "log-in", "address has to wait");
            return new Refused(Reason.WAIT, wait);
        }
        Optional<Account> known = book.find(name);
        return known.isPresent() ? known(known.get(), password, address) : stranger(name, password, address);
    }

    private LogInAnswer stranger(String name, char[] password, String address) {
        String who = name.strip().toLowerCase(Locale.ROOT);
        Optional<Instant> wait = strangers.until(who);
        if (wait.isPresent()) {
            book.note("", address, "log-in", "has to wait");
            return new Refused(Reason.WAIT, wait);
        }
        strangers.failed(who);
        addresses.failed(address);
        hash.isOf("", password);
        book.note("", address, "log-in", "no such user");
        return new Refused(Reason.WRONG, Optional.empty());
    }

    private LogInAnswer known(Account account, char[] password, String address) {
        Optional<Instant> wait = count(account.id());
        if (wait.isPresent()) {
            book.note(account.id(), address, "log-in", "has to wait");
            return new Refused(Reason.WAIT, wait);
        }
        if (!hash.isOf(account.password(), password)) {
            addresses.failed(address);
            book.note(account.id(), address, "log-in", "wrong password");
            return new Refused(Reason.WRONG, Optional.empty());
        }
        if (!account.isActive()) {
            addresses.failed(address);
            book.note(account.id(), address, "log-in", "user is shut off");
            return new Refused(Reason.WRONG, Optional.empty());
        }
        if (!account.secondFactor().isEmpty()) {
            book.note(account.id(), address, "log-in", "password right, code wanted");
            return new CodeWanted(account.id());
        }
        return granted(account.id(), address, "granted");
    }

    /** Counts an attempt, unless it has to wait; until when then. */
    private Optional<Instant> count(String id) {
        Instant now = clock.instant();
        Account before = book.change(id, account -> {
                    if (account.lockedUntil().filter(now::isBefore).isPresent()) {
                        return account;
                    }
                    int count = account.failures() + 1;
                    Duration next = Brake.waitAfter(count, FREE_FOR_A_USER);
                    return account.withFailures(count, next.isZero() ? Optional.empty() : Optional.of(now.plus(next)));
                })
                .before();
        return before.lockedUntil().filter(now::isBefore);
    }

    private Granted granted(String id, String address, String how) {
        Account account =
                book.change(id, one -> one.withFailures(0, Optional.empty())).after();
        addresses.succeeded(address);
        book.note(id, address, "log-in", how);
        return new Granted(account);
    }

    /**
     * The second step: a one-time code, or a recovery code.
     *
     * @param id of the account whose password was right
     * @param typed code
     * @param address from where
     */
    public LogInAnswer secondStep(String id, String typed, String address) {
        Optional<Instant> wait = addresses.until(address).or(() -> count(id));
        if (wait.isPresent()) {
            book.note(id, address, "code", "has to wait");
            return new Refused(Reason.WAIT, wait);
        }
        Account account = book.findById(id).filter(Account::isActive).orElse(null);
        if (account != null && takesCode(account, typed)) {
            return granted(id, address, "granted with code");
        }
        if (account != null && book.takeRecoveryCode(id, RecoveryCodes.hash(typed), clock.instant())) {
            return granted(id, address, "granted with recovery code");
        }
        addresses.failed(address);
        book.note(id, address, "code", "wrong code");
        return new Refused(Reason.WRONG, Optional.empty());
    }

    private boolean takesCode(Account account, String typed) {
        Optional<byte[]> secret =
                account.secondFactor().isEmpty() ? Optional.empty() : box.unseal(account.secondFactor(), account.id());
        if (secret.isEmpty()) {
            return false;
        }
        OptionalLong step = codes.stepOf(secret.get(), typed, clock.instant(), account.lastStep());
        if (step.isEmpty()) {
            return false;
        }
        return book.change(
                                account.id(),
                                one -> one.lastStep() < step.getAsLong() ? one.withLastStep(step.getAsLong()) : one)
                        .before()
                        .lastStep()
                < step.getAsLong();
    }

    /** A user whom the office's own provider of identities has let in; empty if the user has no account or is shut off. */
    public Optional<Account> vouchedFor(String name, String address) {
        Optional<Account> account = book.find(name).filter(Account::isActive);
        if (account.isEmpty()) {
            book.note("", address, "log-in", "provider named nobody known");
            return Optional.empty();
        }
        return Optional.of(
                granted(account.get().id(), address, "granted by provider").account());
    }

    /** Whether a session of that account, begun then and last used then, still holds. */
    public boolean holds(Account account, Instant begun, Instant lastUsed) {
        Instant now = clock.instant();
        return account.isActive()
                && !begun.isBefore(account.sessionsFrom())
                && now.isBefore(begun.plus(LONGEST))
                && now.isBefore(lastUsed.plus(IDLE));
    }

    /** The user leaves; noted. */
    public void leave(Account account, String address) {
        book.note(account.id(), address, "log-out", "done");
    }

    /**
     * A new user.
     *
     * @param name by which to log in, and that stands in the journal
     * @param role word of the role
     * @param clinic for a user of a clinic; empty for others
     * @param password the first one, to be changed at the first log-in; empty if the office's provider vouches
     * @return what speaks against it; empty if the user was added
     */
    public Optional<Obstacle> add(String name, String role, String clinic, String password, String byWhom) {
        if (!password.isEmpty()) {
            Optional<Weakness> weakness = PasswordRule.weakness(password, name);
            if (weakness.isPresent()) {
                return weakness.map(Obstacle::of);
            }
        }
        Instant now = clock.instant();
        Account account = new Account(
                book.newId(),
                name.strip(),
                role,
                clinic,
                password.isEmpty() ? "" : hash.of(password.toCharArray()),
                "",
                0,
                0,
                Optional.empty(),
                now,
                true,
                !password.isEmpty());
        if (!book.add(account)) {
            return Optional.of(Obstacle.NAME_TAKEN);
        }
        book.note(account.id(), "", "user added as " + role, "by " + byWhom);
        return Optional.empty();
    }

    /** What stands in the way of a change. */
    public enum Obstacle {
        NAME_TAKEN,
        OLD_PASSWORD_WRONG,
        CODE_WRONG,
        TOO_SHORT,
        TOO_LONG,
        COMMON,
        OWN_NAME;

        static Obstacle of(Weakness weakness) {
            return valueOf(weakness.name());
        }

        /** The word by which the texts of pages know it. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** Changes the own password; every session begun before ends. */
    public Optional<Obstacle> changePassword(String id, char[] old, String fresh, String address) {
        Account account = book.findById(id).orElseThrow();
        if (count(id).isPresent() || !hash.isOf(account.password(), old)) {
            book.note(id, address, "password change", "old password wrong");
            return Optional.of(Obstacle.OLD_PASSWORD_WRONG);
        }
        Optional<Weakness> weakness = PasswordRule.weakness(fresh, account.name());
        if (weakness.isPresent()) {
            book.change(id, one -> one.withFailures(0, Optional.empty()));
            return weakness.map(Obstacle::of);
        }
        String made = hash.of(fresh.toCharArray());
        book.change(id, one -> one.withPassword(made, false, clock.instant()));
        book.note(id, address, "password change", "done");
        return Optional.empty();
    }

    /** Gives a user a password for once, to be changed at the next log-in. */
    public Optional<Obstacle> resetPassword(String id, String fresh, String byWhom) {
        Account account = book.findById(id).orElseThrow();
        Optional<Weakness> weakness = PasswordRule.weakness(fresh, account.name());
        if (weakness.isPresent()) {
            return weakness.map(Obstacle::of);
        }
        String made = hash.of(fresh.toCharArray());
        book.change(id, one -> one.withPassword(made, true, clock.instant()));
        book.note(id, "", "password reset", "by " + byWhom);
        return Optional.empty();
    }

    /**
     * Takes a second factor into use, once its first code has proved that the user has it.
     *
     * @param secret made by {@link OneTimeCodes#newSecret}
     * @return the recovery codes, to be shown once; empty if the code was wrong
     */
    public Optional<List<String>> takeSecondFactor(String id, byte[] secret, String typed, String address) {
        OptionalLong step = codes.stepOf(secret, typed, clock.instant(), 0);
        if (step.isEmpty()) {
            book.note(id, address, "second factor", "first code wrong");
            return Optional.empty();
        }
        List<String> recovery = RecoveryCodes.fresh(random);
        book.replaceRecoveryCodes(id, recovery.stream().map(RecoveryCodes::hash).toList());
        book.change(
                id,
                one -> one.withSecondFactor(box.seal(secret, id), clock.instant())
                        .withLastStep(step.getAsLong()));
        book.note(id, address, "second factor", "taken into use");
        return Optional.of(recovery);
    }

    /** Takes the second factor away: the telephone and the paper are both lost. */
    public void dropSecondFactor(String id, String byWhom) {
        book.replaceRecoveryCodes(id, List.of());
        book.change(id, one -> one.withSecondFactor("", clock.instant()));
        book.note(id, "", "second factor", "taken away by " + byWhom);
    }

    /** Gives a user another role. */
    public void changeRole(String id, String role, String clinic, String byWhom) {
        book.change(id, one -> one.withRole(role, clinic, clock.instant()));
        book.note(id, "", "role " + role, "by " + byWhom);
    }

    /** Shuts a user off, or lets the user in again. */
    public void setActive(String id, boolean may, String byWhom) {
        book.change(id, one -> one.withActive(may, clock.instant()));
        book.note(id, "", may ? "let in again" : "shut off", "by " + byWhom);
    }

    /** Ends every session of a user. */
    public void endSessions(String id, String byWhom) {
        book.change(id, one -> one.withSessionsEnded(clock.instant()));
        book.note(id, "", "sessions ended", "by " + byWhom);
    }
}
