package org.steamwright.records;

import java.nio.file.Path;
import java.util.Optional;

/**
 * Where a record lies: a folder, and for an office the address of a PostgreSQL database beside it.
 *
 * @param folder holds the files of visits, and the database if no server does
 * @param server JDBC address of a PostgreSQL database; empty for one file in the folder
 */
public record Place(Path folder, Optional<String> server) {

    private static final String DATABASE = "records.sqlite";
    private static final String FILES = "files";

    public Place {
        server.filter(address -> !address.startsWith("jdbc:postgresql:")).ifPresent(address -> {
            throw new IllegalArgumentException("the address of an office begins with jdbc:postgresql:");
        });
    }

    /** One folder with all in it. */
    public static Place folder(Path folder) {
        return new Place(folder, Optional.empty());
    }

    /** A database on a server; the files of visits lie in the folder. */
    public static Place server(String address, Path folder) {
        return new Place(folder, Optional.of(address));
    }

    /** The database file, where no server is named. */
    public Path database() {
        return folder.resolve(DATABASE);
    }

    /** The files of visits, each under its SHA-256. */
    public Path files() {
        return folder.resolve(FILES);
    }
}
