package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.steamwright.intake.table.FileBytes;

/**
 * The recordings of earlier visits by their SHA-256: from results, in which they are listed, and from folders, whose files
 * are hashed. They are read and never changed.
 */
final class EarlierRecordings {

    private static final Pattern LISTED = Pattern.compile("\"sha256\"\\s*:\\s*\"([0-9a-f]{64})\"");
    private static final long MOST_BYTES = 200_000_000;
    private static final int MOST_FILES = 5_000;
    private static final int DEPTH = 6;

    private final Map<String, String> places = new HashMap<>();

    /** Where a file of that hash was used before. */
    Optional<String> find(String sha256) {
        return Optional.ofNullable(places.get(sha256));
    }

    /**
     * Adds a result or a folder.
     *
     * @param path of either
     * @param own folder of the visit itself, which is left out
     */
    void add(Path path, Path own) throws IOException {
        List<Path> files;
        if (Files.isDirectory(path)) {
            try (Stream<Path> walk = Files.walk(path, DEPTH)) {
                files = walk.filter(Files::isRegularFile)
                        .filter(file -> !isInside(file, own))
                        .sorted()
                        .limit(MOST_FILES)
                        .toList();
            }
        } else {
            files = List.of(path);
        }
        for (Path file : files) {
            if (Files.size(file) <= MOST_BYTES) {
                addFile(file);
            }
        }
    }

    /** Adds a result that was copied into the folder of the visit. */
    void addResult(Path file) throws IOException {
        addListed(String.valueOf(file.getFileName()), Files.readAllBytes(file));
    }

    private void addListed(String place, byte[] bytes) {
        Matcher matcher = LISTED.matcher(new String(bytes, StandardCharsets.UTF_8));
        while (matcher.find()) {
            places.putIfAbsent(matcher.group(1), place);
        }
    }

    private static boolean isInside(Path file, Path own) {
        return file.toAbsolutePath().normalize().startsWith(own.toAbsolutePath().normalize());
    }

    private void addFile(Path file) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        String name = String.valueOf(file.getFileName());
        Path parent = file.toAbsolutePath().getParent();
        String place = parent == null ? name : parent.getFileName() + "/" + name;
        if (name.endsWith(".json")) {
            addListed(place, bytes);
        }
        places.putIfAbsent(FileBytes.sha256(bytes), place);
    }

    /** Of a file of any size, read in pieces. */
    static String sha256Of(Path file) throws IOException {
        MessageDigest digest = FileBytes.sha256Digest();
        try (InputStream in = Files.newInputStream(file)) {
            byte[] buffer = new byte[1 << 16];
            for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
                digest.update(buffer, 0, read);
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
