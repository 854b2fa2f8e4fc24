package org.steamwright.records.store;

import java.nio.file.Files;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jspecify.annotations.Nullable;
import org.steamwright.records.Place;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;

/**
 * Connections to the store: one that writes, a few that read. Opening brings the tables to this version and makes sure that
 * the engine keeps what it acknowledges.
 *
 * @source SQLite documentation, "pragma synchronous" and "Write-Ahead Logging": FULL keeps a commit over a loss of power;
 *     PostgreSQL documentation, "Reliability and the Write-Ahead Log" (both as read in earlier editions)
 */
public final class Database implements AutoCloseable {

    /** Number of the last migration that this program knows. */
    public static final int VERSION = 10;

    /** Number of the lock that whoever makes the tables holds on a server. Own choice, no source. */
    private static final long OPENING = 7_360_509_021L;

    private static final String HISTORY = "migration";
    private static final String MIGRATIONS = "classpath:org/steamwright/records/store";
    private static final int BUSY_MILLISECONDS = 10_000;
    private static final int FULL = 2;
    private static final int MOST_READERS = 4;

    /** Work with a session. */
    @FunctionalInterface
    public interface Work<T> {

        /** What the work gives. */
        T with(Session session) throws SQLException;
    }

    private final String address;
    private final Engine engine;
    private final Session writer;
    private final Checkpoints checkpoints = new Checkpoints(this::checkpoint);
    private final Deque<Session> readers = new ArrayDeque<>();
    private final Object turn = new Object();
    private @Nullable String stopped;

    private Database(String address, Engine engine, Session writer) {
        this.address = address;
        this.engine = engine;
        this.writer = writer;
    }

    /**
     * Opens the database of a place; makes it if there is none.
     *
     * @throws RecordsException if it can't be reached, is no record, is newer, or would not keep what it acknowledges
     */
    public static Database open(Place place) {
        String address = place.server().orElse("jdbc:sqlite:" + place.database());
        Engine engine = Engine.of(address);
        if (engine == Engine.SQLITE && Files.isDirectory(place.database())) {
            throw new RecordsException(
                    RecordsMessage.NOT_A_STORE,
                    place.database() + ": a folder stands where the database file should be.");
        }
        if (engine == Engine.SQLITE && !OpeningLock.isMade(place.database())) {
            // two that make one file would meet in the change of its mode
            OpeningLock turn = OpeningLock.of(place.database());
            try {
                return opened(address, engine, place, true);
            } finally {
                turn.release();
            }
        }
        return opened(address, engine, place, false);
    }

    private static Database opened(String address, Engine engine, Place place, boolean isAlone) {
        Session session;
        try {
            session = new Session(connect(address, engine));
        } catch (SQLException e) {
            throw unreachable(address, e);
        }
        boolean isOpened = false;
        try {
            checkDurable(session, engine, address);
            bringUpToDate(session, engine, address, place, isAlone);
            Database database = new Database(address, engine, session);
            isOpened = true;
            return database;
        } catch (SQLException e) {
            throw translate(e, address);
        } finally {
            if (!isOpened) {
                closeQuietly(session);
            }
        }
    }

    private static void closeQuietly(Session session) {
        try {
            session.close();
        } catch (SQLException e) {
            // the reason why it is closed is told already
            return;
        }
    }

    private static RecordsException unreachable(String address, SQLException e) {
        return new RecordsException(
                RecordsMessage.STORE_UNREACHABLE,
                "%s: the store can't be opened: %s. Is the place there, and may this user read and write it?"
                        .formatted(withoutSecrets(address), e.getMessage()),
                e);
    }

    /** An address may carry a password as a parameter. */
    static String withoutSecrets(String address) {
        return address.replaceAll("(?i)(password=)[^&]*", "$1…").replaceAll("\\?.*", "");
    }

    private static Connection connect(String address, Engine engine) throws SQLException {
        Connection connection = DriverManager.getConnection(address);
        if (engine == Engine.SQLITE) {
            try (var statement = connection.createStatement()) {
                statement.execute("pragma busy_timeout = " + BUSY_MILLISECONDS);
                statement.execute("pragma journal_mode = wal");
                statement.execute("pragma synchronous = full");
                statement.execute("pragma fullfsync = on");
                statement.execute("pragma wal_autocheckpoint = " + Checkpoints.PAGES_AT_MOST);
                statement.execute("pragma foreign_keys = on");
                statement.execute("pragma trusted_schema = off");
                statement.execute("pragma cell_size_check = on");
            }
        }
        return connection;
    }

    private static void checkDurable(Session session, Engine engine, String address) throws SQLException {
        if (engine == Engine.SQLITE) {
            expect(session, "pragma journal_mode", Set.of("wal"), address);
            expect(session, "pragma synchronous", Set.of(Integer.toString(FULL)), address);
            expect(session, "pragma foreign_keys", Set.of("1"), address);
        } else {
            expect(session, "show fsync", Set.of("on"), address);
            expect(session, "show full_page_writes", Set.of("on"), address);
            expect(session, "show synchronous_commit", Set.of("on", "remote_apply", "remote_write", "local"), address);
        }
    }

    private static void expect(Session session, String setting, Set<String> wanted, String address)
            throws SQLException {
        String found = session.find(row -> row.getString(1), setting).orElse("").toLowerCase(Locale.ROOT);
        if (!wanted.contains(found)) {
            throw new RecordsException(
                    RecordsMessage.NOT_DURABLE,
                    "%s: '%s' says '%s', needed is '%s'. Without it what is acknowledged could be lost, so the store is not opened."
                            .formatted(withoutSecrets(address), setting, found, String.join("' or '", wanted)));
        }
    }

    /** Makes the tables, or brings them to this version; one program does it, and another that comes meanwhile waits. */
    private static void bringUpToDate(Session session, Engine engine, String address, Place place, boolean isAlone)
            throws SQLException {
        Optional<Integer> version = version(session, engine);
        if (version.isPresent() && version.get() == VERSION) {
            return;
        }
        if (engine == Engine.POSTGRESQL) {
            session.find(row -> true, "select pg_advisory_lock(" + OPENING + ")");
            try {
                migrate(session, engine, address);
            } finally {
                session.find(row -> true, "select pg_advisory_unlock(" + OPENING + ")");
            }
        } else if (isAlone) {
            migrate(session, engine, address);
        } else {
            OpeningLock turn = OpeningLock.of(place.database());
            try {
                migrate(session, engine, address);
            } finally {
                turn.release();
            }
        }
    }

    private static void migrate(Session session, Engine engine, String address) throws SQLException {
        // another program may have been here meanwhile
        Optional<Integer> version = version(session, engine);
        if (version.isPresent() && version.get() == VERSION) {
            return;
        }
        if (version.isPresent() && version.get() > VERSION) {
            throw new RecordsException(
                    RecordsMessage.STORE_NEWER,
                    "%s: the store has version %s, this program knows up to %s. Use the newer program; nothing was changed."
                            .formatted(withoutSecrets(address), version.get(), VERSION));
        }
        if (version.isEmpty() && holdsOtherTables(session, engine)) {
            throw new RecordsException(
                    RecordsMessage.NOT_A_STORE,
                    withoutSecrets(address)
                            + ": there are tables in it, but not those of a record. Choose another place.");
        }
        try {
            Flyway.configure(Database.class.getClassLoader())
                    .loggers(SilentLog.class.getName())
                    .dataSource(address, null, null)
                    .locations(MIGRATIONS)
                    .table(HISTORY)
                    .placeholders(engine.words())
                    .target(Integer.toString(VERSION))
                    .load()
                    .migrate();
        } catch (FlywayException e) {
            throw new RecordsException(
                    RecordsMessage.STORE_UNREACHABLE,
                    "%s: its tables can't be brought to version %s: %s"
                            .formatted(withoutSecrets(address), VERSION, e.getMessage()),
                    e);
        }
    }

    /** Version of the tables; empty if there are none of ours. */
    private static Optional<Integer> version(Session session, Engine engine) throws SQLException {
        String tables = engine == Engine.SQLITE
                ? "select count(*) from sqlite_master where type = 'table' and name = '" + HISTORY + "'"
                : "select count(*) from pg_tables where schemaname = current_schema() and tablename = '" + HISTORY
                        + "'";
        if (session.find(row -> row.getInt(1), tables).orElse(0) == 0) {
            return Optional.empty();
        }
        return session.find(row -> row.getInt(1), "select coalesce(max(cast(version as integer)), 0) from " + HISTORY);
    }

    private static boolean holdsOtherTables(Session session, Engine engine) throws SQLException {
        String tables = engine == Engine.SQLITE
                ? "select count(*) from sqlite_master where type = 'table'"
                : "select count(*) from pg_tables where schemaname = current_schema()";
        return session.find(row -> row.getInt(1), tables).orElse(0) > 0;
    }

    /** Which engine. */
    public boolean isSqlite() {
        return engine == Engine.SQLITE;
    }

    /** Address without passwords, for messages. */
    public String name() {
        return withoutSecrets(address);
    }

    /**
     * Does the work in one transaction that is durable when this returns.
     *
     * @throws RecordsException if nothing was kept, or if it is not known whether it was
     */
    public <T> T write(Work<T> work) {
        synchronized (turn) {
            if (stopped != null) {
                throw new RecordsException(
                        RecordsMessage.STORE_STOPPED,
                        "%s: nothing more is written since an earlier write failed (%s). Close the store, look at the disk, open it again."
                                .formatted(name(), stopped));
            }
            boolean isCommitting = false;
            try {
                begin(writer, "begin immediate");
                T result = work.with(writer);
                isCommitting = true;
                commit(writer);
                if (engine == Engine.SQLITE) {
                    checkpoints.committed();
                }
                return result;
            } catch (SQLException e) {
                rollback(e);
                if (isCommitting && !isRefusedCommit(e)) {
                    stopped = e.getMessage();
                    throw new RecordsException(
                            RecordsMessage.OUTCOME_UNKNOWN,
                            "%s: the connection broke while saving (%s). It is not known whether the entries were kept. Open the store again and send the same submission: it is kept once, whatever happened."
                                    .formatted(name(), e.getMessage()),
                            e);
                }
                throw translate(e, address);
            } catch (RuntimeException | Error e) {
                rollback(e);
                throw e;
            }
        }
    }

    private void begin(Session session, String sqlite) throws SQLException {
        if (engine == Engine.SQLITE) {
            session.control(sqlite);
        } else {
            session.connection().setAutoCommit(false);
        }
    }

    private void commit(Session session) throws SQLException {
        if (engine == Engine.SQLITE) {
            session.control("commit");
        } else {
            session.connection().commit();
        }
    }

    private void rollback(Throwable reason) {
        try {
            writer.dropWaiting();
            if (engine == Engine.SQLITE) {
                writer.control("rollback");
            } else {
                writer.connection().rollback();
            }
        } catch (SQLException e) {
            // SQLite rolls back by itself after some errors; anything else leaves the connection in a state nobody
            // knows
            if (!String.valueOf(e.getMessage()).contains("no transaction is active")) {
                reason.addSuppressed(e);
                stopped = String.valueOf(e.getMessage());
            }
        }
    }

    /** Full disk and constraints: the engine says that it has kept nothing. */
    private boolean isRefusedCommit(SQLException e) {
        return engine == Engine.SQLITE
                ? Set.of(SQLITE_FULL, SQLITE_BUSY, SQLITE_CONSTRAINT).contains(e.getErrorCode() & 0xFF)
                : e.getSQLState() != null
                        && (e.getSQLState().startsWith("23") || e.getSQLState().startsWith("53"));
    }

    private static final int SQLITE_BUSY = 5;
    private static final int SQLITE_CORRUPT = 11;
    private static final int SQLITE_FULL = 13;
    private static final int SQLITE_CONSTRAINT = 19;
    private static final int SQLITE_NOT_A_DATABASE = 26;

    /** The engine's error in our words. */
    static RecordsException translate(SQLException e, String address) {
        String name = withoutSecrets(address);
        if (Engine.of(address) == Engine.SQLITE) {
            int code = e.getErrorCode() & 0xFF;
            if (code == SQLITE_BUSY) {
                return new RecordsException(
                        RecordsMessage.STORE_BUSY,
                        "%s: another program writes to the store and did not end within %s s. Nothing was kept; try again."
                                .formatted(name, BUSY_MILLISECONDS / 1000),
                        e);
            }
            if (code == SQLITE_CORRUPT || code == SQLITE_NOT_A_DATABASE) {
                return new RecordsException(
                        RecordsMessage.STORE_DAMAGED,
                        "%s: the database file is damaged (%s). Don't write to it; verify it, and restore the last good backup to a new place."
                                .formatted(name, e.getMessage()),
                        e);
            }
        }
        return new RecordsException(
                RecordsMessage.NOT_KEPT,
                "%s: %s. Nothing of this submission was kept. Is the disk full, or the server gone?"
                        .formatted(name, e.getMessage()),
                e);
    }

    /** Reads in one transaction that sees the store as it stood when it began. */
    public <T> T read(Work<T> work) {
        Session session = reader();
        boolean isSound = false;
        try {
            begin(session, "begin");
            T result = work.with(session);
            commit(session);
            isSound = true;
            return result;
        } catch (SQLException e) {
            throw translate(e, address);
        } finally {
            giveBack(session, isSound);
        }
    }

    /** Does something that no transaction may surround, on a connection of its own. */
    <T> T alone(Work<T> work) {
        try (Session session = new Session(connect(address, engine))) {
            return work.with(session);
        } catch (SQLException e) {
            throw translate(e, address);
        }
    }

    private void checkpoint() {
        alone(session -> {
            session.control("pragma wal_checkpoint(passive)");
            return true;
        });
    }

    private Session reader() {
        synchronized (readers) {
            Session session = readers.poll();
            if (session != null) {
                return session;
            }
        }
        try {
            Connection connection = connect(address, engine);
            if (engine == Engine.POSTGRESQL) {
                connection.setReadOnly(true);
                connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
            }
            return new Session(connection);
        } catch (SQLException e) {
            throw unreachable(address, e);
        }
    }

    private void giveBack(Session session, boolean isSound) {
        synchronized (readers) {
            if (isSound && readers.size() < MOST_READERS) {
                readers.push(session);
                return;
            }
        }
        closeQuietly(session);
    }

    @Override
    public void close() {
        checkpoints.close();
        synchronized (turn) {
            stopped = "closed";
            closeQuietly(writer);
        }
        synchronized (readers) {
            readers.forEach(Database::closeQuietly);
            readers.clear();
        }
    }
}
