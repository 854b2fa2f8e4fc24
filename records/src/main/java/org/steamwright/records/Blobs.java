package org.steamwright.records;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.records.proof.Hash;

/**
 * Files as they came, each under the SHA-256 of its bytes: {@code files/ab/cdef…}. Written once, never altered, read only
 * if the bytes still have their hash.
 */
public final class Blobs {

    private static final int CHUNK = 1 << 16;
    private static final String INCOMING = "incoming";
    private static final SecureRandom RANDOM = new SecureRandom();

    private final Path folder;
    private final Disk disk;

    /** @param folder made when the first file comes */
    public Blobs(Path folder) {
        this(folder, new Disk());
    }

    Blobs(Path folder, Disk disk) {
        this.folder = folder;
        this.disk = disk;
    }

    /** Where a file of that hash lies. */
    public Path path(Hash sha256) {
        return shelf(sha256).resolve(sha256.hex().substring(2));
    }

    private Path shelf(Hash sha256) {
        return folder.resolve(sha256.hex().substring(0, 2));
    }

    /** Keeps bytes; durable when this returns. */
    public KeptFile put(byte[] bytes) {
        return put(new ByteArrayInputStream(bytes), "bytes");
    }

    /** Keeps a copy of a file; durable when this returns. */
    public KeptFile put(Path file) {
        try (InputStream in = Files.newInputStream(file)) {
            return put(in, file.getFileName().toString());
        } catch (IOException e) {
            throw notKept(file.getFileName().toString(), e);
        }
    }

    private static RecordsException notKept(String name, IOException e) {
        return new RecordsException(
                RecordsMessage.FILE_NOT_KEPT,
                "%s: the file could not be kept (%s). Is the disk full? Nothing refers to it yet.".formatted(name, e),
                e);
    }

    /**
     * Keeps a copy of what a stream gives; durable when this returns. The stream is left open.
     *
     * @param name of the file, for messages only
     */
    public KeptFile put(InputStream in, String name) {
        try {
            disk.createFolder(folder.resolve(INCOMING));
            Path temporary = folder.resolve(INCOMING).resolve(temporaryName());
            try {
                MessageDigest digest = Hash.sha256();
                long size = write(in, temporary, digest);
                Hash sha256 = Hash.ofBytes(digest.digest());
                Path kept = path(sha256);
                Path shelf = shelf(sha256);
                if (Files.exists(kept)) {
                    // the same content came before; what lies there must still be it
                    check(kept, sha256);
                } else {
                    boolean isNewFolder = !Files.isDirectory(shelf);
                    disk.createFolder(shelf);
                    if (isNewFolder) {
                        disk.forceFolder(folder);
                    }
                    disk.move(temporary, kept);
                }
                disk.forceFolder(shelf);
                return new KeptFile(sha256, size);
            } finally {
                Files.deleteIfExists(temporary);
            }
        } catch (IOException e) {
            throw notKept(name, e);
        }
    }

    /** Unlike any other name, also one of another program that keeps files here at the same time. */
    private static String temporaryName() {
        byte[] bytes = new byte[16];
        RANDOM.nextBytes(bytes);
        return HexFormat.of().formatHex(bytes) + ".part";
    }

    private long write(InputStream in, Path file, MessageDigest digest) throws IOException {
        byte[] chunk = new byte[CHUNK];
        long size = 0;
        try (FileChannel channel = disk.create(file)) {
            for (int read = in.read(chunk); read >= 0; read = in.read(chunk)) {
                digest.update(chunk, 0, read);
                disk.write(channel, ByteBuffer.wrap(chunk, 0, read));
                size += read;
            }
            disk.force(channel);
        }
        return size;
    }

    /**
     * The bytes of a file.
     *
     * @throws RecordsException if it is missing, or its bytes have changed
     */
    public byte[] get(Hash sha256) {
        try {
            byte[] bytes = Files.readAllBytes(path(sha256));
            if (!Hash.ofContent(bytes).equals(sha256)) {
                throw damaged(path(sha256));
            }
            return bytes;
        } catch (NoSuchFileException e) {
            throw missing(path(sha256), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * The first bytes of a file, not checked against its hash.
     *
     * @param most how many
     * @throws RecordsException if it is missing
     */
    public byte[] start(Hash sha256, int most) {
        try (InputStream in = Files.newInputStream(path(sha256))) {
            return in.readNBytes(most);
        } catch (NoSuchFileException e) {
            throw missing(path(sha256), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Copies the bytes of a file to a place where nothing is yet, without holding them in memory.
     *
     * @throws RecordsException if it is missing, or its bytes have changed; nothing may be done with the copy then
     * @throws IOException if the copy can't be written
     */
    public void copy(Hash sha256, Path to) throws IOException {
        MessageDigest digest = Hash.sha256();
        try (InputStream in = Files.newInputStream(path(sha256));
                DigestInputStream counted = new DigestInputStream(in, digest)) {
            Files.copy(counted, to);
        } catch (NoSuchFileException e) {
            if (Files.exists(path(sha256))) {
                throw e;
            }
            throw missing(path(sha256), e);
        }
        if (!Hash.ofBytes(digest.digest()).equals(sha256)) {
            throw damaged(path(sha256));
        }
    }

    private static RecordsException missing(Path file, NoSuchFileException e) {
        return new RecordsException(
                RecordsMessage.FILE_MISSING,
                "%s: the file is missing. Restore it from a backup: it has the name of its content.".formatted(file),
                e);
    }

    private static RecordsException damaged(Path file) {
        return new RecordsException(
                RecordsMessage.FILE_DAMAGED,
                "%s: the bytes are not those that were kept. Put this file aside and restore it from a backup: it has the name of its content."
                        .formatted(file));
    }

    /** What is wrong with a kept file: missing, or damaged; empty if nothing. */
    public Optional<String> complaint(Hash sha256) {
        Path file = path(sha256);
        if (!Files.exists(file)) {
            return Optional.of("missing");
        }
        try {
            Hash found = hash(file);
            return found.equals(sha256) ? Optional.empty() : Optional.of("damaged: its bytes have the hash " + found);
        } catch (IOException e) {
            return Optional.of("unreadable: " + e);
        }
    }

    private static void check(Path file, Hash sha256) throws IOException {
        if (!hash(file).equals(sha256)) {
            throw damaged(file);
        }
    }

    private static Hash hash(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return Hash.ofContent(in);
        }
    }

    /** Hashes of all files that are kept, in order; what does not have the name of a hash is left out. */
    public List<Hash> all() {
        List<Hash> hashes = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return hashes;
        }
        try (DirectoryStream<Path> folders = Files.newDirectoryStream(folder, "[0-9a-f][0-9a-f]")) {
            for (Path inner : folders) {
                try (DirectoryStream<Path> files = Files.newDirectoryStream(inner)) {
                    for (Path file : files) {
                        String hex = inner.getFileName().toString() + file.getFileName();
                        if (hex.matches("[0-9a-f]{64}")) {
                            hashes.add(Hash.ofHex(hex));
                        }
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        hashes.sort(null);
        return hashes;
    }

    /** Files in the folder that do not have the name of a kept file, without what is on its way in. */
    public List<Path> strangers() {
        List<Path> strangers = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return strangers;
        }
        try (Stream<Path> files = Files.walk(folder)) {
            files.filter(Files::isRegularFile)
                    .filter(file -> {
                        String name = folder.relativize(file).toString().replace('\\', '/');
                        return !name.matches("[0-9a-f]{2}/[0-9a-f]{62}") && !name.startsWith(INCOMING + "/");
                    })
                    .sorted()
                    .forEach(strangers::add);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return strangers;
    }
}
