package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.Flaw.Sort;
import org.steamwright.intake.profile.ReadingProfiles;

/** The files beside the visit file. A name can only lead to a file inside the folder, through links neither. */
final class FolderFiles {

    private final Path folder;
    private final List<Path> profileFolders;

    /**
     * @param profileFolders where reading profiles lie besides those of the folder itself
     */
    FolderFiles(Path folder, List<Path> profileFolders) {
        this.folder = folder;
        this.profileFolders = List.copyOf(profileFolders);
    }

    /** The reading profiles of the folder, and then those of the other ones; none after a problem was added. */
    ReadingProfiles profiles(Spot spot) throws IOException {
        List<Path> folders = new ArrayList<>();
        folders.add(folder.resolve(ReadingProfiles.FOLDER));
        folders.addAll(profileFolders);
        try {
            return ReadingProfiles.in(folders);
        } catch (UnreadableFileException e) {
            spot.problem(
                    Mistake.UNREADABLE_RECORDING,
                    Flaw.of("found the reading profile " + e.file() + " but can't use it: " + e.id().id() + ": "
                            + e.text()));
            return ReadingProfiles.none();
        }
    }

    /** Whether a file of that name can be used; says nothing if not. */
    boolean has(String name) {
        return leadsOutside(name).isEmpty() && Files.isRegularFile(folder.resolve(name));
    }

    /** The file of that name inside the folder; empty after a problem was added. */
    Optional<Path> find(String name, Spot spot) throws IOException {
        return find(name, spot, true);
    }

    /** The folder of that name inside the folder; empty after a problem was added. */
    Optional<Path> findFolder(String name, Spot spot) throws IOException {
        return find(name, spot, false);
    }

    private Optional<Path> find(String name, Spot spot, boolean isFile) throws IOException {
        Optional<String> outside = leadsOutside(name);
        if (outside.isPresent()) {
            spot.problem(
                    Mistake.OUTSIDE_FOLDER,
                    Flaw.of(
                            "found \"" + name.replace("\u0000", "\\0") + "\", " + outside.get()
                                    + ", expected a file inside the visit folder.",
                            "Copy it there and write its name," + " with / between a subfolder and the file."));
            return Optional.empty();
        }
        Path file = folder.resolve(name);
        if (!Files.exists(file)) {
            List<String> there = names();
            String near = Nearest.didYouMean(name, there);
            spot.problem(
                    Mistake.NO_FILE,
                    Flaw.found(Sort.NO_FILE, "found no file \"%s\" in the visit folder, expected it there.", name)
                            .with(near.isEmpty() ? "Copy it into the folder, or correct the name." : near));
            return Optional.empty();
        }
        if (isFile != Files.isRegularFile(file)) {
            spot.problem(
                    Mistake.NO_FILE,
                    isFile
                            ? Flaw.of(
                                    "found the folder \"" + name + "\", expected a file.",
                                    "Write the name of the file in it.")
                            : Flaw.of(
                                    "found the file \"" + name + "\", expected a folder.",
                                    "Write the name of the folder."));
            return Optional.empty();
        }
        if (!file.toRealPath().startsWith(folder.toRealPath())) {
            spot.problem(
                    Mistake.OUTSIDE_FOLDER,
                    Flaw.of(
                            "found \"" + name + "\", a link that leads out of the folder"
                                    + ", expected a file inside the visit folder.",
                            "Copy the file itself into the folder."));
            return Optional.empty();
        }
        return Optional.of(file);
    }

    /** Why a name leads out of the folder, judged by the name alone and the same on every system. */
    static Optional<String> leadsOutside(String name) {
        if (name.indexOf('\\') >= 0) {
            return Optional.of("a name with a backslash");
        }
        if (name.contains("://") || name.startsWith("file:")) {
            return Optional.of("an address");
        }
        if (name.startsWith("/") || name.startsWith("~") || (name.length() > 1 && name.charAt(1) == ':')) {
            return Optional.of("a path that does not begin in the folder");
        }
        for (String part : name.split("/", -1)) {
            if (part.equals("..") || part.equals(".") || part.isBlank()) {
                return Optional.of("a path with an empty step, . or ..");
            }
        }
        try {
            return Path.of(name).isAbsolute() ? Optional.of("an absolute path") : Optional.empty();
        } catch (InvalidPathException e) {
            return Optional.of("a name that no file can have");
        }
    }

    private List<String> names() throws IOException {
        List<String> names = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder)) {
            files.limit(1000).forEach(file -> names.add(String.valueOf(file.getFileName())));
        }
        names.sort(null);
        return names;
    }
}
