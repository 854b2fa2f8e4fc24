package org.steamwright.records.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Keeps several programs from making the tables of one SQLite file at once: who comes second waits, and then finds a store that
 * is there. A lock of the operating system on a file beside the database, gone with the program that holds it.
 *
 * @source SQLite documentation, "Database File Format", section 1.3.3: bytes 18 and 19 of the file are 2 in the mode of a
 *     write-ahead log (as read in an earlier edition)
 */
final class OpeningLock {

    /** Locks of files are those of the whole program: its own threads take turns beside them. */
    private static final ReentrantLock OF_THIS_PROGRAM = new ReentrantLock();

    private static final int WRITE_VERSION = 18;
    private static final int HEADER = 20;
    private static final int WRITE_AHEAD = 2;

    private final Path file;
    private final Optional<FileChannel> channel;

    private OpeningLock(Path file, Optional<FileChannel> channel) {
        this.file = file;
        this.channel = channel;
    }

    /** Waits for its turn. Where the place lets nobody make a file there is no lock: opening the store tells what is wrong. */
    static OpeningLock of(Path database) {
        OF_THIS_PROGRAM.lock();
        Path file = database.resolveSibling(database.getFileName() + "-opening");
        try {
            return new OpeningLock(file, Optional.of(locked(file)));
        } catch (IOException noFile) {
            return new OpeningLock(file, Optional.empty());
        }
    }

    private static FileChannel locked(Path file) throws IOException {
        while (true) {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            boolean isOurs = false;
            try {
                Object before = key(file);
                FileLock lock = channel.lock();
                // who held it before has taken the file away: another may lock the one that came after
                isOurs = lock.isValid() && Files.exists(file) && Objects.equals(before, key(file));
                if (isOurs) {
                    return channel;
                }
            } finally {
                if (!isOurs) {
                    channel.close();
                }
            }
        }
    }

    /** What tells a file from another of the same name; null on systems that have no such thing. */
    private static Object key(Path file) throws IOException {
        return Files.exists(file)
                ? Objects.requireNonNullElse(
                        Files.readAttributes(file, BasicFileAttributes.class).fileKey(), "")
                : "";
    }

    /** Whether a database file is there whose mode no opening changes any more. */
    static boolean isMade(Path database) {
        try (InputStream in = Files.newInputStream(database)) {
            byte[] header = in.readNBytes(HEADER);
            return header.length == HEADER && header[WRITE_VERSION] == WRITE_AHEAD;
        } catch (IOException notThere) {
            return false;
        }
    }

    /** Lets the next one go on. */
    void release() {
        try {
            if (channel.isPresent()) {
                Files.deleteIfExists(file);
                channel.get().close();
            }
        } catch (IOException staysBehind) {
            // an empty file that the next opening takes away
            return;
        } finally {
            OF_THIS_PROGRAM.unlock();
        }
    }
}
