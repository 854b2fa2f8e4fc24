package org.steamwright.records.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** One connection with its prepared statements, which are kept. Not for several threads at once. */
public final class Session implements AutoCloseable {

    /** Reads one row. */
    @FunctionalInterface
    public interface Row<T> {

        /** The row as a value. */
        T read(ResultSet row) throws SQLException;
    }

    /** Takes one row after the other. */
    @FunctionalInterface
    public interface Taker {

        /** Whether the next row is wanted too. */
        boolean take(ResultSet row) throws SQLException;
    }

    private static final int ROWS_AT_ONCE = 2_000;

    private final Connection connection;
    private final Map<String, PreparedStatement> prepared = new HashMap<>();

    Session(Connection connection) {
        this.connection = connection;
    }

    Connection connection() {
        return connection;
    }

    /** What was asked or told so far, each once. */
    Set<String> asked() {
        return Set.copyOf(prepared.keySet());
    }

    private PreparedStatement statement(String sql, Object... values) throws SQLException {
        PreparedStatement statement = prepared.get(sql);
        if (statement == null) {
            statement = connection.prepareStatement(sql);
            prepared.put(sql, statement);
        }
        for (int i = 0; i < values.length; i++) {
            statement.setObject(i + 1, values[i]);
        }
        return statement;
    }

    /** A driver closes a statement that has failed; it must not be met again. */
    private void forget(String sql, SQLException reason) {
        PreparedStatement statement = prepared.remove(sql);
        if (statement != null) {
            try {
                statement.close();
            } catch (SQLException e) {
                reason.addSuppressed(e);
            }
        }
    }

    /** Runs a statement that gives no rows; the number of rows it touched. */
    public int run(String sql, Object... values) throws SQLException {
        try {
            return statement(sql, values).executeUpdate();
        } catch (SQLException e) {
            forget(sql, e);
            throw e;
        }
    }

    /** Runs a word of transaction control, which is not prepared. */
    void control(String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    /** Adds a row to the batch of a statement; {@link #flush} sends them. */
    public void add(String sql, Object... values) throws SQLException {
        statement(sql, values).addBatch();
    }

    /** Sends the rows added for a statement. */
    public void flush(String sql) throws SQLException {
        PreparedStatement statement = prepared.get(sql);
        if (statement != null) {
            try {
                statement.executeBatch();
            } catch (SQLException e) {
                forget(sql, e);
                throw e;
            }
        }
    }

    /** Forgets rows that wait to be sent: the transaction that they belonged to is no more. */
    void dropWaiting() throws SQLException {
        for (PreparedStatement statement : prepared.values()) {
            statement.clearBatch();
        }
    }

    /** Work with some of many values. */
    @FunctionalInterface
    interface Piece {
        void with(List<Object> values) throws SQLException;
    }

    /** Many values for one question, in pieces whose lengths are few, so that few statements are prepared. */
    static void inPieces(List<Object> values, Piece piece) throws SQLException {
        for (int from = 0; from < values.size(); from += LARGEST_PIECE) {
            List<Object> some = new ArrayList<>(values.subList(from, Math.min(values.size(), from + LARGEST_PIECE)));
            int length = 1;
            while (length < some.size()) {
                length *= PIECE_STEP;
            }
            while (some.size() < length) {
                some.add(some.get(0));
            }
            piece.with(some);
        }
    }

    /** Question marks, comma between. */
    static String places(int count) {
        return String.join(", ", Collections.nCopies(count, "?"));
    }

    private static final int LARGEST_PIECE = 64;
    private static final int PIECE_STEP = 4;

    /** All rows. */
    public <T> List<T> list(Row<T> reader, String sql, Object... values) throws SQLException {
        List<T> rows = new ArrayList<>();
        try (ResultSet result = statement(sql, values).executeQuery()) {
            while (result.next()) {
                rows.add(reader.read(result));
            }
        } catch (SQLException e) {
            forget(sql, e);
            throw e;
        }
        return rows;
    }

    /** The first row, if there is one. */
    public <T> Optional<T> find(Row<T> reader, String sql, Object... values) throws SQLException {
        try (ResultSet result = statement(sql, values).executeQuery()) {
            return result.next() ? Optional.of(reader.read(result)) : Optional.empty();
        } catch (SQLException e) {
            forget(sql, e);
            throw e;
        }
    }

    /** One row after the other, without holding them all; inside a transaction. */
    public void each(Taker taker, String sql, Object... values) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql)) {
            statement.setFetchSize(ROWS_AT_ONCE);
            for (int i = 0; i < values.length; i++) {
                statement.setObject(i + 1, values[i]);
            }
            try (ResultSet result = statement.executeQuery()) {
                while (result.next()) {
                    if (!taker.take(result)) {
                        return;
                    }
                }
            }
        }
    }

    @Override
    public void close() throws SQLException {
        prepared.clear();
        connection.close();
    }
}
