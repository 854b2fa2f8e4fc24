package org.steamwright.records;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.stream.Stream;

/**
 * A record in which everything is invented, clinics, people and signatures too: a folder with a mark in it. There, and only
 * there, visits with simulated recordings are signed, and no other visit is. What is signed says so. Without its mark such a
 * record is one that holds invented visits by mistake: nothing more is signed, and nothing that was is relied on.
 */
public final class InventedRecord {

    /** What every document that is signed there says of itself. */
    public static final String SIGNED = "everything is invented: recordings, people and this signature";

    private static final String MARK = "INVENTED.txt";
    private static final String SAYS =
            "Everything in this record is invented, the signatures too. This folder may be deleted as a whole.\n";

    private InventedRecord() {}

    /**
     * Makes a folder the place of an invented record.
     *
     * @param folder not there yet, or empty
     * @throws IOException if something lies in it, or the disk fails
     */
    public static void prepare(Path folder) throws IOException {
        if (Files.exists(folder)) {
            try (Stream<Path> held = Files.list(folder)) {
                if (held.findAny().isPresent()) {
                    throw new IOException(folder + " is not empty; an invented record begins in a folder of its own.");
                }
            }
        }
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(MARK), SAYS, StandardCharsets.UTF_8);
    }

    /** Whether a folder is the place of an invented record. */
    public static boolean isAt(Path folder) {
        return Files.isRegularFile(folder.resolve(MARK), LinkOption.NOFOLLOW_LINKS);
    }

    /** Whether everything in a record is invented. */
    public static boolean isIn(Records records) {
        return isAt(records.place().folder());
    }
}
