package org.steamwright.filing;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.time.Instant;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * A folder for the time of one piece of work. It is deleted when it is closed; what a killed program or a pulled plug left
 * behind, files of visits among it, is deleted by the next program that needs such a folder in the same place.
 *
 * <p>A file beside the work is locked as long as the folder is open. The system takes the lock from a process that ends in
 * whatever way, so a folder whose lock can be taken is left, and one that is in use is never deleted.
 */
public final class TemporaryFolder implements AutoCloseable {

    private static final String PREFIX = "steamwright-";
    private static final String IN_USE = "in-use";
    /** In a younger folder the lock may not be taken yet. */
    private static final Duration YOUNG = Duration.ofMinutes(1);

    /** Where this program has looked for what was left. */
    private static final Set<Path> LOOKED_AT = ConcurrentHashMap.newKeySet();

    private final Path outer;
    private final Path path;
    private final FileChannel inUse;

    private TemporaryFolder(Path outer, Path path, FileChannel inUse) {
        this.outer = outer;
        this.path = path;
        this.inUse = inUse;
    }

    /**
     * A new and empty folder where the system keeps what is temporary.
     *
     * @param use one word that tells somebody who looks what it is for
     * @throws IOException if it can't be made
     */
    public static TemporaryFolder create(String use) throws IOException {
        return create(Path.of(System.getProperty("java.io.tmpdir")), use);
    }

    /** The same in another place, which is made if it is not there. */
    public static TemporaryFolder create(Path place, String use) throws IOException {
        Files.createDirectories(place);
        if (LOOKED_AT.add(place.toAbsolutePath())) {
            deleteLeft(place);
        }
        Path outer = Files.createTempDirectory(place, PREFIX + use);
        FileChannel inUse =
                FileChannel.open(outer.resolve(IN_USE), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        inUse.lock();
        return new TemporaryFolder(outer, Files.createDirectory(outer.resolve(use)), inUse);
    }

    /** Where to work. */
    public Path path() {
        return path;
    }

    /** Deletes it with all that is in it. */
    @Override
    public void close() throws IOException {
        // a file that is open can't be deleted on every system
        inUse.close();
        delete(outer);
    }

    private static void deleteLeft(Path place) throws IOException {
        Instant young = Instant.now().minus(YOUNG);
        try (DirectoryStream<Path> folders = Files.newDirectoryStream(place, PREFIX + "*")) {
            for (Path folder : folders) {
                if (isLeft(folder, young)) {
                    delete(folder);
                }
            }
        }
    }

    private static boolean isLeft(Path folder, Instant young) {
        Path inUse = folder.resolve(IN_USE);
        // a link that somebody laid there is not followed
        if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
                || !Files.isRegularFile(inUse, LinkOption.NOFOLLOW_LINKS)) {
            return false;
        }
        try (FileChannel channel = FileChannel.open(inUse, StandardOpenOption.WRITE)) {
            return Files.getLastModifiedTime(inUse).toInstant().isBefore(young) && channel.tryLock() != null;
        } catch (IOException | OverlappingFileLockException notOurs) {
            return false;
        }
    }

    private static void delete(Path folder) throws IOException {
        try {
            Files.walkFileTree(folder, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
                    Files.deleteIfExists(file);
                    return FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult postVisitDirectory(Path directory, @Nullable IOException failed)
                        throws IOException {
                    if (failed != null) {
                        throw failed;
                    }
                    Files.deleteIfExists(directory);
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (NoSuchFileException gone) {
            // somebody else deleted it in the meantime
        }
    }
}
