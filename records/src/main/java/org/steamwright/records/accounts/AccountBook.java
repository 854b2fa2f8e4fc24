package org.steamwright.records.accounts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.text.Normalizer;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.steamwright.records.Records;
import org.steamwright.records.store.Database;
import org.steamwright.records.store.Session;

/** The users of an office as they are kept. May be used by several threads and several programs. */
public final class AccountBook {

    private static final String COLUMNS = "id, name, role, clinic, password, second_factor, last_step, failures,"
            + " locked_until, sessions_from, active, must_change";

    private final Records records;
    private final Database database;

    /** @param records opened */
    public AccountBook(Records records) {
        this.records = records;
        this.database = records.database();
    }

    /** A new identity for an account. */
    public String newId() {
        UUID id = records.newSubmission();
        return id.toString();
    }

    /** Adds an account; false if another has that name, however it is spelt. */
    public boolean add(Account account) {
        return database.write(session -> {
            if (session.find(row -> row.getString(1), "select id from account where folded = ?", folded(account.name()))
                    .isPresent()) {
                return false;
            }
            session.run(
                    "insert into account (" + COLUMNS + ", folded) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                    account.id(),
                    account.name(),
                    account.role(),
                    account.clinic(),
                    account.password(),
                    account.secondFactor(),
                    account.lastStep(),
                    (long) account.failures(),
                    text(account.lockedUntil()),
                    account.sessionsFrom().toString(),
                    whole(account.isActive()),
                    whole(account.mustChange()),
                    folded(account.name()));
            return true;
        });
    }

    /** The account of that name; case and width of letters do not matter. */
    public Optional<Account> find(String name) {
        return database.read(session -> session.find(
                AccountBook::account, "select " + COLUMNS + " from account where folded = ?", folded(name)));
    }

    /** The account of that id. */
    public Optional<Account> findById(String id) {
        return database.read(session -> byId(session, id, ""));
    }

    private static Optional<Account> byId(Session session, String id, String more) throws SQLException {
        return session.find(AccountBook::account, "select " + COLUMNS + " from account where id = ?" + more, id);
    }

    /** How many accounts there are. */
    public long count() {
        return database.read(session -> session.find(row -> row.getLong(1), "select count(*) from account"))
                .orElse(0L);
    }

    /**
     * Some of the accounts, by name.
     *
     * @param part that the name contains; empty for all
     * @param from how many are left out before
     * @param limit how many at most
     */
    public List<Account> some(String part, long from, int limit) {
        String pattern = "%" + folded(part).replaceAll("[\\\\%_]", "\\\\$0") + "%";
        return database.read(session -> session.list(
                AccountBook::account,
                "select " + COLUMNS + " from account where folded like ? escape '\\' order by folded limit ? offset ?",
                pattern,
                (long) limit,
                from));
    }

    /** All accounts, by name. */
    public List<Account> all() {
        return database.read(
                session -> session.list(AccountBook::account, "select " + COLUMNS + " from account order by folded"));
    }

    /** Whether there is none yet. */
    public boolean isEmpty() {
        return count() == 0;
    }

    /**
     * Changes an account from its newest state, with nobody between.
     *
     * @return the account as it was and as it is
     * @throws IllegalArgumentException if there is none
     */
    public Changed change(String id, UnaryOperator<Account> change) {
        return database.write(session -> {
            Account before = byId(session, id, database.isSqlite() ? "" : " for update")
                    .orElseThrow(() -> new IllegalArgumentException("there is no account " + id));
            Account after = change.apply(before);
            session.run(
                    "update account set role = ?, clinic = ?, password = ?, second_factor = ?, last_step = ?,"
                            + " failures = ?, locked_until = ?, sessions_from = ?, active = ?, must_change = ?"
                            + " where id = ?",
                    after.role(),
                    after.clinic(),
                    after.password(),
                    after.secondFactor(),
                    after.lastStep(),
                    (long) after.failures(),
                    text(after.lockedUntil()),
                    after.sessionsFrom().toString(),
                    whole(after.isActive()),
                    whole(after.mustChange()),
                    id);
            return new Changed(before, after);
        });
    }

    /**
     * @param before as the account was
     * @param after as it is now
     */
    public record Changed(Account before, Account after) {}

    /** Gives an account these recovery codes, in place of the earlier ones. */
    public void replaceRecoveryCodes(String account, List<String> sha256) {
        database.write(session -> {
            session.run("delete from recovery_code where account = ?", account);
            for (String hash : sha256) {
                session.run("insert into recovery_code (account, sha256, used_at) values (?, ?, '')", account, hash);
            }
            return true;
        });
    }

    /** Takes a recovery code; false if there is none such, or it was taken before. */
    public boolean takeRecoveryCode(String account, String sha256, Instant now) {
        return database.write(session -> session.run(
                        "update recovery_code set used_at = ? where account = ? and sha256 = ? and used_at = ''",
                        now.toString(),
                        account,
                        sha256)
                == 1);
    }

    /** Recovery codes that an account has left. */
    public int recoveryCodesLeft(String account) {
        return database.read(session -> session.find(
                        row -> row.getInt(1),
                        "select count(*) from recovery_code where account = ? and used_at = ''",
                        account))
                .orElse(0);
    }

    /**
     * States by what a provider of identities knows a user, in place of what was stated before; nothing is kept if both are
     * empty.
     *
     * @return false if another user of that provider has the subject or the address already
     */
    public boolean stateIdentity(Identity identity) {
        return database.write(session -> {
            boolean isTaken = session.find(
                            row -> row.getString(1),
                            "select account from account_identity where issuer = ? and account <> ?"
                                    + " and ((subject <> '' and subject = ?) or (mail <> '' and mail = ?))",
                            identity.issuer(),
                            identity.account(),
                            identity.subject(),
                            folded(identity.mail()))
                    .isPresent();
            if (isTaken) {
                return false;
            }
            session.run("delete from account_identity where account = ?", identity.account());
            if (!identity.subject().isEmpty() || !identity.mail().isEmpty()) {
                session.run(
                        "insert into account_identity (account, issuer, subject, mail) values (?, ?, ?, ?)",
                        identity.account(),
                        identity.issuer(),
                        identity.subject(),
                        folded(identity.mail()));
            }
            return true;
        });
    }

    /** By what a provider of identities knows a user; empty if nothing was stated. */
    public Optional<Identity> identityOf(String account) {
        return database.read(session -> session.find(
                AccountBook::identity,
                "select account, issuer, subject, mail from account_identity where account = ?",
                account));
    }

    /** All identities that were stated. */
    public List<Identity> identities() {
        return database.read(session -> session.list(
                AccountBook::identity, "select account, issuer, subject, mail from account_identity order by account"));
    }

    /** The user whom a provider calls by that subject. */
    public Optional<Identity> identityBySubject(String issuer, String subject) {
        return database.read(session -> session.find(
                AccountBook::identity,
                "select account, issuer, subject, mail from account_identity where issuer = ? and subject = ?"
                        + " and subject <> ''",
                issuer,
                subject));
    }

    /**
     * Takes a subject for the user who was stated by an address only: from now on the subject counts.
     *
     * @param mail as the provider has verified it; case does not matter
     * @return the user; empty if nobody was stated by that address, or the user has a subject already
     */
    public Optional<Identity> bindSubject(String issuer, String mail, String subject) {
        return database.write(session -> {
            int bound = session.run(
                    "update account_identity set subject = ? where issuer = ? and mail = ? and mail <> '' and subject"
                            + " = ''",
                    subject,
                    issuer,
                    folded(mail));
            return bound == 0
                    ? Optional.empty()
                    : session.find(
                            AccountBook::identity,
                            "select account, issuer, subject, mail from account_identity where issuer = ? and subject"
                                    + " = ?",
                            issuer,
                            subject);
        });
    }

    private static Identity identity(ResultSet row) throws SQLException {
        return new Identity(row.getString(1), row.getString(2), row.getString(3), row.getString(4));
    }

    /**
     * Adds a line to the log of log-ins.
     *
     * @param account id, empty if unknown
     * @param address from where
     * @param act what was attempted
     * @param result what came of it
     */
    public void note(String account, String address, String act, String result) {
        Instant now = records.clock().instant();
        database.write(session -> {
            if (!database.isSqlite()) {
                session.run("lock table log_in in share row exclusive mode");
            }
            return session.run(
                    "insert into log_in (nr, at, account, address, act, result)"
                            + " select coalesce(max(nr), 0) + 1, ?, ?, ?, ?, ? from log_in",
                    now.toString(),
                    account,
                    address,
                    act,
                    result);
        });
    }

    /** The newest lines of the log, newest first. */
    public List<LogInEntry> log(int limit) {
        return database.read(session -> session.list(
                AccountBook::entry,
                "select nr, at, account, address, act, result from log_in order by nr desc limit ?",
                (long) limit));
    }

    /**
     * Lines of the log before one, newest first.
     *
     * @param before number of the line that follows; the largest number there is for the newest
     * @param limit at most so many
     */
    public List<LogInEntry> logBefore(long before, int limit) {
        return database.read(session -> session.list(
                AccountBook::entry,
                "select nr, at, account, address, act, result from log_in where nr < ? order by nr desc limit ?",
                before,
                (long) limit));
    }

    /** The newest lines about one account, newest first. */
    public List<LogInEntry> log(String account, int limit) {
        return database.read(session -> session.list(
                AccountBook::entry,
                "select nr, at, account, address, act, result from log_in where account = ? order by nr desc limit ?",
                account,
                (long) limit));
    }

    private static LogInEntry entry(ResultSet row) throws SQLException {
        return new LogInEntry(
                row.getLong(1),
                Instant.parse(row.getString(2)),
                row.getString(3),
                row.getString(4),
                row.getString(5),
                row.getString(6));
    }

    private static Account account(ResultSet row) throws SQLException {
        String until = row.getString(9);
        return new Account(
                row.getString(1),
                row.getString(2),
                row.getString(3),
                row.getString(4),
                row.getString(5),
                row.getString(6),
                row.getLong(7),
                row.getInt(8),
                until.isEmpty() ? Optional.empty() : Optional.of(Instant.parse(until)),
                Instant.parse(row.getString(10)),
                row.getLong(11) == 1,
                row.getLong(12) == 1);
    }

    private static String folded(String name) {
        return Normalizer.normalize(name.strip(), Normalizer.Form.NFKC).toLowerCase(Locale.ROOT);
    }

    private static String text(Optional<Instant> time) {
        return time.map(Instant::toString).orElse("");
    }

    private static long whole(boolean answer) {
        return answer ? 1 : 0;
    }
}
