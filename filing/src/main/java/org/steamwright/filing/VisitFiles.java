package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.steamwright.records.Blobs;
import org.steamwright.records.Subject;
import org.steamwright.records.proof.Hash;

/** The files of a visit folder, in the folder and in the record. */
final class VisitFiles {

    /** Facts of a visit that name its files begin with this. */
    static final String PREFIX = "files/";

    /** Made from the visit, and made again whenever they are wanted. */
    private static final Pattern DERIVED =
            Pattern.compile("result\\.json|report\\.pdf|certificate-[^/]*\\.pdf", Pattern.CASE_INSENSITIVE);

    private static final int DEEPEST = 6;
    private static final int MOST = 2_000;

    private VisitFiles() {}

    /** Whether a file of that name is made from the visit. */
    static boolean isDerived(String name) {
        return DERIVED.matcher(name).matches();
    }

    /**
     * Files of a folder by their name in it, parts parted by strokes. What begins with a dot is left out, and so is what is
     * made from the visit.
     *
     * @throws FilingException if there are more than a visit has
     */
    static NavigableMap<String, Path> in(Path folder) throws IOException, FilingException {
        NavigableMap<String, Path> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder, DEEPEST)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                String name = folder.relativize(file).toString().replace('\\', '/');
                if (!isDerived(name) && !name.startsWith(".") && !name.contains("/.")) {
                    files.put(name, file);
                }
            }
        }
        if (files.size() > MOST) {
            throw new FilingException(
                    "%s holds %d files; a visit has %d at most".formatted(folder, files.size(), MOST),
                    "Name the folder of one visit, and keep nothing else in it.");
        }
        return files;
    }

    /** Names and hashes of the files that a visit of the record has. */
    static NavigableMap<String, Hash> of(Subject visit) {
        NavigableMap<String, Hash> files = new TreeMap<>();
        visit.facts().forEach((property, value) -> {
            if (property.startsWith(PREFIX) && !value.isNull()) {
                files.put(
                        property.substring(PREFIX.length()),
                        Hash.ofHex(value.node().path("sha256").asText()));
            }
        });
        return files;
    }

    /** Size of all files that a visit of the record has. */
    static long bytes(Subject visit) {
        return visit.facts().entrySet().stream()
                .filter(fact ->
                        fact.getKey().startsWith(PREFIX) && !fact.getValue().isNull())
                .mapToLong(fact -> fact.getValue().node().path("size").asLong())
                .sum();
    }

    /** Gives each file to be written its place below a folder, which none may leave. */
    static void places(Path folder, Iterable<String> names, BiConsumer<String, Path> writer) throws FilingException {
        Path root = folder.toAbsolutePath().normalize();
        for (String name : names) {
            Path file = root.resolve(name).normalize();
            if (!file.startsWith(root) || file.equals(root)) {
                throw new FilingException(
                        "the record names a file '%s', which would lie outside of %s".formatted(name, folder),
                        "Verify the record; nothing more was written.");
            }
            writer.accept(name, file);
        }
    }

    /** Copies files of the record below a folder, one after the other and none of them in memory. */
    static void copy(Path folder, Blobs from, Map<String, Hash> files) throws IOException, FilingException {
        NavigableMap<String, Path> places = new TreeMap<>();
        places(folder, files.keySet(), places::put);
        for (Map.Entry<String, Path> place : places.entrySet()) {
            Path parent = place.getValue().getParent();
            if (parent != null) {
                Files.createDirectories(parent);
            }
            Hash hash = files.get(place.getKey());
            if (hash != null) {
                from.copy(hash, place.getValue());
            }
        }
    }

    /** Writes files below a folder. */
    static void write(Path folder, Map<String, byte[]> files) throws IOException, FilingException {
        NavigableMap<String, Path> places = new TreeMap<>();
        places(folder, files.keySet(), places::put);
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            Path place = places.get(file.getKey());
            if (place != null) {
                Path parent = place.getParent();
                if (parent != null) {
                    Files.createDirectories(parent);
                }
                Files.write(place, file.getValue());
            }
        }
    }
}
