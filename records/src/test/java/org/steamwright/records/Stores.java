package org.steamwright.records;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.atomic.AtomicInteger;

/** Fresh places on both engines. The PostgreSQL server is a real one, started once for all tests of this run. */
public final class Stores {

    private static final AtomicInteger NUMBER = new AtomicInteger();

    private Stores() {}

    /** The engines under test. */
    public enum Engine {
        SQLITE,
        POSTGRESQL
    }

    private static final class Server {
        static final EmbeddedPostgres POSTGRES = start();

        private static EmbeddedPostgres start() {
            try {
                EmbeddedPostgres server = postgres().start();
                Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                    try {
                        server.close();
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                }));
                return server;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /** A server that keeps what it acknowledges; the library of the tests would switch that off. */
    public static EmbeddedPostgres.Builder postgres() {
        return EmbeddedPostgres.builder()
                .setServerConfig("fsync", "on")
                .setServerConfig("synchronous_commit", "on")
                .setServerConfig("full_page_writes", "on");
    }

    /** A place where nothing is yet. */
    public static Place fresh(Engine engine, Path folder) {
        Path own = folder.resolve("store-" + NUMBER.incrementAndGet());
        return engine == Engine.SQLITE ? Place.folder(own) : Place.server(freshDatabase(Server.POSTGRES), own);
    }

    /** A new database on a server. */
    public static String freshDatabase(EmbeddedPostgres server) {
        String name = "store" + NUMBER.incrementAndGet();
        try (Connection connection = DriverManager.getConnection(server.getJdbcUrl("postgres", "postgres"));
                Statement statement = connection.createStatement()) {
            statement.execute("create database " + name);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
        return server.getJdbcUrl("postgres", name);
    }

    /** A connection beside the program, as somebody has who reaches the tables. */
    public static Connection connect(Place place) throws SQLException {
        return DriverManager.getConnection(place.server().orElse("jdbc:sqlite:" + place.database()));
    }
}
