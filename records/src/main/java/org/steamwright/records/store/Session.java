package org.steamwright.records.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

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
