package org.steamwright.desk.accounts;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import org.steamwright.desk.accounts.LogInAnswer.CodeWanted;
import org.steamwright.desk.accounts.LogInAnswer.Granted;
import org.steamwright.desk.accounts.LogInAnswer.Reason;
import org.steamwright.desk.accounts.LogInAnswer.Refused;
import org.steamwright.desk.accounts.PasswordRule.Weakness;
import org.steamwright.desk.web.Role;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.AccountBook;
import org.steamwright.records.accounts.Identity;

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

    private static final String PROVIDER = "log-in by provider";
    private static final int FREE_FOR_A_USER = 5;
    private static final int FREE_FOR_AN_ADDRESS = 20;

    private final AccountBook book;
    private final SecretBox box;
    private final Clock clock;
    private final OfficeSettings settings;
    private final OpenSessions sessions = new OpenSessions();
    private final Brake addresses;
    private final Brake strangers;
    private final PasswordHash hash = new PasswordHash();
    private final OneTimeCodes codes = new OneTimeCodes();
    private final SecureRandom random = new SecureRandom();

    /**
     * With what holds where an office has set nothing.
     *
     * @param book accounts as they are kept
     * @param box seals the second factors
     * @param clock time
     */
    public LogIns(AccountBook book, SecretBox box, Clock clock) {
        this(book, box, clock, OfficeSettings.USUAL);
    }

    /**
     * @param book accounts as they are kept
     * @param box seals the second factors
     * @param clock time
     * @param settings of the office
     */
    public LogIns(AccountBook book, SecretBox box, Clock clock, OfficeSettings settings) {
        this.settings = settings;
        this.book = book;
        this.box = box;
        this.clock = clock;
        this.addresses = new Brake(clock, FREE_FOR_AN_ADDRESS);
        this.strangers = new Brake(clock, FREE_FOR_A_USER);
    }

    /** What the office has set. */
    public OfficeSettings settings() {
        return settings;
    }

    /** Sessions that are open now. */
    OpenSessions sessions() {
        return sessions;
    }

    /** What a user still has to do before anything else. */
    public enum Left {
        NOTHING,
        PASSWORD,
        SECOND_FACTOR
    }

    /**
     * What a user who is logged in still has to do.
     *
     * @param isVouched whether the office's provider has let the user in, which then has asked for what it asks
     */
    public Left left(Account account, boolean isVouched) {
        if (isVouched) {
            return Left.NOTHING;
        }
        if (account.mustChange()) {
            return Left.PASSWORD;
        }
        return account.secondFactor().isEmpty() && settings.wantsSecondFactorOf(account.role())
                ? Left.SECOND_FACTOR
                : Left.NOTHING;
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
        if (!settings.takesPasswordOf(account.role())) {
            takeBack(account.id());
            book.note(account.id(), address, "log-in", "password right, but not taken in this role");
            return new Refused(Reason.PROVIDER, Optional.empty());
        }
        if (!account.secondFactor().isEmpty()) {
            takeBack(account.id());
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

    /** The attempt counted last was right so far: its count goes, those of wrong passwords and codes before it stay. */
    private void takeBack(String id) {
        book.change(id, one -> one.withFailures(Math.max(0, one.failures() - 1), Optional.empty()));
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

    /**
     * A user whom the office's own provider has vouched for. Who it is, the office has said: by the provider's subject, or by an
     * address that the provider has verified, which leads to the subject once. Nobody is made by logging in.
     *
     * @param issuer by which the provider names itself
     * @param subject the provider's own name for the user
     * @param mail address that the provider has verified
     * @param address from where
     * @return empty if the office has named nobody so, or the user is shut off
     */
    public Optional<Account> vouchedFor(String issuer, String subject, Optional<String> mail, String address) {
        Optional<Identity> known = book.identityBySubject(issuer, subject);
        if (known.isEmpty() && mail.isPresent()) {
            known = book.bindSubject(issuer, mail.get(), subject);
            known.ifPresent(identity -> book.note(
                    identity.account(),
                    address,
                    "identity",
                    "subject taken from the provider by its verified address"));
        }
        if (known.isEmpty()) {
            book.note("", address, PROVIDER, "provider named nobody known");
            return Optional.empty();
        }
        String id = known.get().account();
        if (book.findById(id).filter(Account::isActive).isEmpty()) {
            book.note(id, address, PROVIDER, "user is shut off");
            return Optional.empty();
        }
        Account account =
                book.change(id, one -> one.withFailures(0, Optional.empty())).after();
        book.note(id, address, PROVIDER, "granted by provider");
        return Optional.of(account);
    }

    /** The provider vouched for nobody; noted. */
    public void notVouched(IdentityProvider.Reason reason, String address) {
        book.note("", address, PROVIDER, reason.word());
    }

    /**
     * States by what the office's provider knows a user.
     *
     * @param subject the provider's own name for the user; may be empty
     * @param mail address by which the user is found at the first log-in; may be empty
     */
    public Optional<Obstacle> stateIdentity(String id, String issuer, String subject, String mail, String byWhom) {
        if (!book.stateIdentity(new Identity(id, issuer, subject, mail))) {
            return Optional.of(Obstacle.IDENTITY_TAKEN);
        }
        book.note(id, "", "identity", subject.isEmpty() && mail.isEmpty() ? "taken away by " + byWhom : "by " + byWhom);
        return Optional.empty();
    }

    /** Somebody was refused something other than a log-in; noted. */
    public void refused(String name, String address, String what, String why) {
        String id = name.isEmpty() ? "" : book.find(name).map(Account::id).orElse("");
        book.note(id, address, "refused: " + what, why);
    }

    /** A session has ended by itself, or by a change of its user; noted. */
    void ended(String id, String address) {
        book.note(id, address, "session", "ended");
    }

    /** What is set when the desk starts; noted, so that a change of it can be found. */
    public void started() {
        String provider =
                settings.provider().map(one -> one.issuer().toString()).orElse("nobody");
        book.note(
                "",
                "",
                "start",
                "passwords for %s, second factor for %s, vouched for by %s"
                        .formatted(words(settings.passwordFor()), words(settings.secondFactorFor()), provider));
    }

    private static String words(Set<Role> roles) {
        return roles.isEmpty() ? "nobody" : roles.stream().map(Role::word).collect(Collectors.joining(" "));
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
        book.note(account.id(), "", "user added", "as " + role + ", by " + byWhom);
        return Optional.empty();
    }

    /** What stands in the way of a change. */
    public enum Obstacle {
        NAME_TAKEN,
        IDENTITY_TAKEN,
        LAST_OFFICE,
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

    /** Whether somebody who is logged in shows the own password again; a wrong one counts like one at the door. */
    boolean confirms(String id, char[] password, String address) {
        Account account = book.findById(id).orElseThrow();
        if (count(id).isPresent() || !hash.isOf(account.password(), password)) {
            book.note(id, address, "password asked again", "wrong password");
            return false;
        }
        book.change(id, one -> one.withFailures(0, Optional.empty()));
        return true;
    }

    /** A user has ended one or all other own sessions; noted. */
    void sessionEnded(String id, String which, String address) {
        book.note(id, address, "sessions ended", which + " by the user");
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

    /** Gives a user another role; not to the last one of the office, who lets others in. */
    public synchronized Optional<Obstacle> changeRole(String id, String role, String clinic, String byWhom) {
        if (!role.equals(Role.OFFICE.word()) && isLastOfOffice(id)) {
            return Optional.of(Obstacle.LAST_OFFICE);
        }
        Account before = book.change(id, one -> one.withRole(role, clinic, clock.instant()))
                .before();
        book.note(id, "", "role", before.role() + " to " + role + ", by " + byWhom);
        return Optional.empty();
    }

    /** Shuts a user off, or lets the user in again; the last one of the office stays. */
    public synchronized Optional<Obstacle> setActive(String id, boolean may, String byWhom) {
        if (!may && isLastOfOffice(id)) {
            return Optional.of(Obstacle.LAST_OFFICE);
        }
        book.change(id, one -> one.withActive(may, clock.instant()));
        book.note(id, "", may ? "let in again" : "shut off", "by " + byWhom);
        return Optional.empty();
    }

    private boolean isLastOfOffice(String id) {
        List<String> office = book.all().stream()
                .filter(account -> account.isActive() && account.role().equals(Role.OFFICE.word()))
                .map(Account::id)
                .toList();
        return office.equals(List.of(id));
    }

    /** The office has ended the key with which a user signs; noted. */
    void keyEnded(String id, String byWhom) {
        book.note(id, "", "signing key", "ended by " + byWhom);
    }

    /** Ends every session of a user. */
    public void endSessions(String id, String byWhom) {
        book.change(id, one -> one.withSessionsEnded(clock.instant()));
        book.note(id, "", "sessions ended", "by " + byWhom);
    }
}
