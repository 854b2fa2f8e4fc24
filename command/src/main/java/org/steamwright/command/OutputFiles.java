package org.steamwright.command;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.report.result.ResultJson;

/**
 * Puts the result and the report where they belong and overwrites nothing that somebody else made.
 *
 * <p>Both files of an assessment carry the same number. The first number is taken at which each file is absent, is
 * already there byte for byte, or is an earlier result of the same recordings that the caller wants replaced. A file
 * appears whole or not at all: it is written beside its place, forced to the disk and moved.
 */
final class OutputFiles {
    private static final int HIGHEST_NUMBER = 9999;

    /** What became of a file. */
    enum Fate {
        WRITTEN,
        REPLACED,
        /** It was there already with the same bytes. */
        UNCHANGED
    }

    /** A file and what became of it. */
    record Placed(Path path, Fate fate) {}

    private OutputFiles() {}

    /**
     * Places the files of one assessment.
     *
     * @param folder to put them in; made if it does not exist
     * @param files bytes by name, such as {@code result.json}
     * @param isReplacing whether an earlier result of the same recordings gives way
     * @throws IOException if the folder can't take them
     */
    static List<Placed> place(Path folder, Map<String, byte[]> files, boolean isReplacing) throws IOException {
        Files.createDirectories(folder);
        for (int number = 1; number <= HIGHEST_NUMBER; number++) {
            Optional<Map<Path, Fate>> fates = fates(folder, files, number, isReplacing);
            if (fates.isPresent()) {
                List<Placed> placed = write(fates.get(), files);
                if (placed.size() == files.size()) {
                    return placed;
                }
            }
        }
        throw new IOException("there are more than " + HIGHEST_NUMBER + " results in " + folder);
    }

    private static Optional<Map<Path, Fate>> fates(
            Path folder, Map<String, byte[]> files, int number, boolean isReplacing) throws IOException {
        Map<Path, Fate> fates = new LinkedHashMap<>();
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            Path path = folder.resolve(numbered(file.getKey(), number));
            if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
                fates.put(path, Fate.WRITTEN);
            } else if (!Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)) {
                return Optional.empty();
            } else if (Files.size(path) == file.getValue().length
                    && Arrays.equals(Files.readAllBytes(path), file.getValue())) {
                fates.put(path, Fate.UNCHANGED);
            } else if (isReplacing && isOurs(path, file.getValue())) {
                fates.put(path, Fate.REPLACED);
            } else {
                return Optional.empty();
            }
        }
        return Optional.of(fates);
    }

    /** Whether the file that is there was made by this program from the same recordings. */
    private static boolean isOurs(Path path, byte[] bytes) throws IOException {
        byte[] found = Files.readAllBytes(path);
        if (path.getFileName().toString().endsWith(".json")) {
            Optional<List<String>> there = ResultJson.findInputs(new ByteArrayInputStream(found));
            return there.isPresent() && there.equals(ResultJson.findInputs(new ByteArrayInputStream(bytes)));
        }
        String text = new String(found, StandardCharsets.ISO_8859_1);
        return text.startsWith("%PDF-") && text.contains("Steamwright");
    }

    private static String numbered(String name, int number) {
        if (number == 1) {
            return name;
        }
        int dot = name.lastIndexOf('.');
        return name.substring(0, dot) + "-" + number + name.substring(dot);
    }

    /** Fewer than asked for if another program took a name in the meantime; then the next number is tried. */
    private static List<Placed> write(Map<Path, Fate> fates, Map<String, byte[]> files) throws IOException {
        List<Placed> placed = new ArrayList<>();
        List<byte[]> bytes = List.copyOf(files.values());
        int index = 0;
        for (Map.Entry<Path, Fate> fate : fates.entrySet()) {
            Path path = fate.getKey();
            byte[] content = bytes.get(index++);
            if (fate.getValue() != Fate.UNCHANGED && !put(path, content, fate.getValue() == Fate.REPLACED)) {
                break;
            }
            placed.add(new Placed(path, fate.getValue()));
        }
        return placed;
    }

    private static boolean put(Path path, byte[] bytes, boolean isReplacing) throws IOException {
        Path folder = path.toAbsolutePath().getParent();
        if (folder == null) {
            throw new IOException(path + " has no folder");
        }
        // named after this process, so that two of them never write into one file
        Path beside = folder.resolve(
                "." + path.getFileName() + "." + ProcessHandle.current().pid() + ".part");
        try {
            try (FileChannel channel = FileChannel.open(
                    beside,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.TRUNCATE_EXISTING,
                    StandardOpenOption.WRITE)) {
                ByteBuffer buffer = ByteBuffer.wrap(bytes);
                while (buffer.hasRemaining()) {
                    channel.write(buffer);
                }
                channel.force(true);
            }
            if (isReplacing) {
                replace(beside, path);
                return true;
            }
            return takeFreeName(beside, path);
        } finally {
            Files.deleteIfExists(beside);
        }
    }

    private static void replace(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException unsupported) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** A link fails if the name is taken, which a move does not do for certain; not every disk knows links. */
    private static boolean takeFreeName(Path from, Path to) throws IOException {
        try {
            Files.createLink(to, from);
            return true;
        } catch (FileAlreadyExistsException taken) {
            return false;
        } catch (UnsupportedOperationException | IOException noLinks) {
            try {
                Files.move(from, to);
                return true;
            } catch (FileAlreadyExistsException taken) {
                return false;
            }
        }
    }
}
