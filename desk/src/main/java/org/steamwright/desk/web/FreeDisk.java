package org.steamwright.desk.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.LongSupplier;

/**
 * How much of the disk uploads leave free. A full disk keeps everybody from writing, so what is large is refused before.
 *
 * @param free bytes that may still be written
 * @param floor bytes that uploads leave
 */
public record FreeDisk(LongSupplier free, long floor) {

    /** What uploads leave where nothing is set. */
    public static final long USUAL_FLOOR = 1_000_000_000L;

    /** The disk on which least is left of those that hold these folders. */
    public static FreeDisk of(List<Path> folders, long floor) {
        return new FreeDisk(
                () -> folders.stream().mapToLong(FreeDisk::usable).min().orElse(Long.MAX_VALUE), floor);
    }

    private static long usable(Path folder) {
        try {
            return Files.getFileStore(folder.toAbsolutePath()).getUsableSpace();
        } catch (IOException unknown) {
            // a system that does not tell keeps nobody from working; what does not fit is refused when it is written
            return Long.MAX_VALUE;
        }
    }

    /** Whether an upload of that size leaves enough. */
    boolean takes(long bytes) {
        return free.getAsLong() - bytes >= floor;
    }
}
