package org.steamwright.intake.table;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/** The bytes of a file of moderate size as they lie on the disk, with their fingerprint. */
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
        OrdinaryFile file = OrdinaryFile.of(path);
        if (file.size() > largest) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_TOO_LARGE,
                    file.name(),
                    "",
                    Sentence.of(
                            "the file has %s MB, a file of this kind may have up to %s MB. Export only the time of the"
                                    + " run from the logger.",
                            file.size() / 1_000_000, largest / 1_000_000));
        }
        try (InputStream in = file.open()) {
            return new FileBytes(file.name(), in.readNBytes((int) file.size()));
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
        return sha256(bytes);
    }

    /** SHA-256 of bytes in lower-case hexadecimal digits. */
    public static String sha256(byte[] bytes) {
        return HexFormat.of().formatHex(sha256Digest().digest(bytes));
    }

    /** An empty SHA-256. */
    public static MessageDigest sha256Digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java runtime has SHA-256", impossible);
        }
    }
}
