package org.steamwright.intake.table;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/**
 * A file on the disk that is worth opening.
 *
 * @param path where it lies
 * @param name without folder
 * @param size bytes when it was looked at
 */
public record OrdinaryFile(Path path, String name, long size) implements ByteSource {

    /**
     * Looks at a file without reading it.
     *
     * @throws UnreadableFileException if it is missing, no ordinary file, or empty
     * @throws IOException if the disk fails
     */
    public static OrdinaryFile of(Path path) throws IOException, UnreadableFileException {
        Path last = path.getFileName();
        String name = last == null ? path.toString() : last.toString();
        if (!Files.exists(path)) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_MISSING,
                    name,
                    "",
                    "there is no such file. Check the name and the folder; is the memory card or the network drive"
                            + " still there?");
        }
        if (!Files.isRegularFile(path)) {
            throw new UnreadableFileException(
                    IntakeMessage.NOT_A_FILE,
                    name,
                    "",
                    Files.isDirectory(path)
                            ? "this is a folder, expected a recording. Name the file inside it."
                            : "this is not an ordinary file. Copy the recording to a file first.");
        }
        long size = Files.size(path);
        if (size == 0) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_EMPTY,
                    name,
                    "",
                    "the file has 0 bytes. Export the recording again; an interrupted copy leaves empty files.");
        }
        return new OrdinaryFile(path, name, size);
    }

    @Override
    public long sizeNow() throws IOException {
        return Files.size(path);
    }

    @Override
    public InputStream open() throws IOException, UnreadableFileException {
        try {
            return Files.newInputStream(path);
        } catch (AccessDeniedException denied) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_CLOSED_TO_US,
                    name,
                    "",
                    "the system does not let the program read this file. Is it open in another program, or does it"
                            + " belong to another user?");
        } catch (NoSuchFileException gone) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_MISSING, name, "", "the file vanished while it was being opened. Try again.");
        }
    }
}
