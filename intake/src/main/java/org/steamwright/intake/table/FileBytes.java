package org.steamwright.intake.table;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/** The bytes of a file as they lie on the disk, with their fingerprint. */
public final class FileBytes {

    private final String name;
    private final byte[] bytes;

    private FileBytes(String name, byte[] bytes) {
        this.name = name;
        this.bytes = bytes;
    }

    /**
     * Reads it whole; what it is and how large is checked before the first byte is read.
     *
     * @param largest bytes that it may have
     * @throws UnreadableFileException if it is no ordinary file, empty, too large or closed to the program
     * @throws IOException if the disk fails
     */
    public static FileBytes read(Path path, long largest) throws IOException, UnreadableFileException {
        Path last = path.getFileName();
        String name = last == null ? path.toString() : last.toString();
        if (!Files.exists(path)) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_MISSING,
                    name,
                    "",
                    "there is no such file. Check the name and the folder; is the memory card or the network drive still there?");
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
        if (size > largest) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_TOO_LARGE,
                    name,
                    "",
                    Sentence.of(
                            "the file has %s MB, a recording may have up to %s MB. Export only the time of the run from the logger, or split the file by lines (split -l 1000000) and keep the header line in each part.",
                            size / 1_000_000, largest / 1_000_000));
        }
        if (size == 0) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_EMPTY,
                    name,
                    "",
                    "the file has 0 bytes. Export the recording again; an interrupted copy leaves empty files.");
        }
        try {
            return new FileBytes(name, Files.readAllBytes(path));
        } catch (AccessDeniedException denied) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_CLOSED_TO_US,
                    name,
                    "",
                    "the system does not let the program read this file. Is it open in another program, or does it belong to another user?");
        } catch (NoSuchFileException gone) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_MISSING, name, "", "the file vanished while it was being opened. Try again.");
        }
    }

    /** Bytes that are in memory already; not to be changed by the caller. */
    public static FileBytes of(String name, byte[] bytes) {
        return new FileBytes(name, bytes);
    }

    /** File name without folder. */
    public String name() {
        return name;
    }

    /** How many. */
    public int size() {
        return bytes.length;
    }

    /** The bytes themselves; not to be changed. */
    public byte[] raw() {
        return bytes;
    }

    /** SHA-256 in lower-case hexadecimal digits. */
    public String sha256() {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java runtime has SHA-256", impossible);
        }
    }
}
