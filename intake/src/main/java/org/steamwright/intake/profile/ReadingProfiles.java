package org.steamwright.intake.profile;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileKind;

/** The reading profiles of one or more folders. */
public final class ReadingProfiles {

    /** Name of the folder with reading profiles beside a visit or a recording. */
    public static final String FOLDER = "readings";

    private static final String NONE = "none";
    private static final int MOST_FILES = 1000;
    private static final long LARGEST_BYTES = 262_144;

    private final List<ReadingProfile> profiles;

    private ReadingProfiles(List<ReadingProfile> profiles) {
        this.profiles = List.copyOf(profiles);
    }

    /** No profiles. */
    public static ReadingProfiles none() {
        return new ReadingProfiles(List.of());
    }

    /**
     * All files {@code *.yaml} of these folders, by name; a folder that is not there holds none.
     *
     * @throws UnreadableFileException if one of the files is no profile
     * @throws IOException if the disk fails
     */
    public static ReadingProfiles in(List<Path> folders) throws IOException, UnreadableFileException {
        List<ReadingProfile> profiles = new ArrayList<>();
        for (Path folder : folders) {
            if (!Files.isDirectory(folder)) {
                continue;
            }
            List<Path> files;
            try (Stream<Path> all = Files.list(folder)) {
                files = all.filter(file -> String.valueOf(file.getFileName()).endsWith(".yaml"))
                        .filter(Files::isRegularFile)
                        .limit(MOST_FILES)
                        .sorted()
                        .toList();
            }
            for (Path file : files) {
                profiles.add(read(file));
            }
        }
        return new ReadingProfiles(profiles);
    }

    private static ReadingProfile read(Path file) throws IOException, UnreadableFileException {
        String fileName = String.valueOf(file.getFileName());
        String name = fileName.substring(0, fileName.length() - ".yaml".length());
        if (Files.size(file) > LARGEST_BYTES) {
            throw ReadingProfile.wrong(name, "the file has " + Files.size(file) + " bytes, expected a few lines");
        }
        try {
            return ReadingProfile.of(name, Files.readString(file));
        } catch (CharacterCodingException notUtf8) {
            throw ReadingProfile.wrong(name, "its bytes are not UTF-8");
        }
    }

    /** All profiles in the order in which they are looked at. */
    public List<ReadingProfile> all() {
        return profiles;
    }

    /**
     * The choices for a file, with the answers of the profile that fits where nothing was said.
     *
     * @param said what was said for this file; {@link ReadingChoices#profile()} settles which profile is meant
     * @return {@code said} itself if no profile fits or the file can't be looked at; reading it tells why
     * @throws UnreadableFileException with a question if two profiles fit that answer otherwise, or if the profile that
     *     was named does not fit
     * @throws IOException if the disk fails
     */
    public ReadingChoices complete(Path file, ReadingChoices said) throws IOException, UnreadableFileException {
        Optional<String> named = said.profile();
        if (named.isEmpty() ? profiles.isEmpty() : named.get().equals(NONE)) {
            return said;
        }
        String fileName = String.valueOf(file.getFileName());
        List<ReadingProfile> fitting = fitting(file);
        if (named.isPresent()) {
            for (ReadingProfile profile : fitting) {
                if (profile.name().equals(named.get())) {
                    return said.withProfile(profile.name(), profile.answers());
                }
            }
            throw new UnreadableFileException(
                    IntakeMessage.CHOICE_DOES_NOT_FIT,
                    fileName,
                    "",
                    "the reading profile \"" + named.get() + "\" "
                            + (profiles.stream().anyMatch(p -> p.name().equals(named.get()))
                                    ? "is for another kind of file: its delimiter, columns, units or lines before the"
                                            + " header are others."
                                    : "is not there. The folder holds: "
                                            + (profiles.isEmpty() ? "none" : String.join(", ", names(profiles)))
                                            + "."));
        }
        if (fitting.isEmpty()) {
            return said;
        }
        ReadingProfile first = fitting.get(0);
        for (ReadingProfile other : fitting) {
            if (!other.answers().equals(first.answers())) {
                throw severalFit(fileName, fitting);
            }
        }
        return said.withProfile(first.name(), first.answers());
    }

    private static UnreadableFileException severalFit(String file, List<ReadingProfile> fitting) {
        List<String> options = new ArrayList<>(names(fitting));
        List<String> shown = new ArrayList<>();
        for (ReadingProfile profile : fitting) {
            List<String> answers = new ArrayList<>();
            profile.answers().forEach((key, value) -> answers.add(key + " = " + value));
            shown.add("\"" + profile.name() + "\" says " + String.join(", ", answers));
        }
        options.add(NONE);
        return new UnreadableFileException(
                IntakeMessage.QUESTIONS_OPEN,
                file,
                "",
                "more than one reading profile fits this file. Say which one is meant.",
                List.of(new Question(
                        "profile",
                        "Which reading profile is meant?",
                        "All have this file's delimiter, columns, units and lines before the header: "
                                + String.join("; ", shown) + ".",
                        options)));
    }

    private static List<String> names(List<ReadingProfile> profiles) {
        return profiles.stream().map(ReadingProfile::name).toList();
    }

    /** Profiles of the file's kind. The file is looked at as each profile tells: on its sheet, with its marks between cells. */
    private List<ReadingProfile> fitting(Path file) throws IOException {
        Map<List<String>, Optional<FileKind>> kinds = new HashMap<>();
        List<ReadingProfile> fitting = new ArrayList<>();
        for (ReadingProfile profile : profiles) {
            List<String> parting = List.of(
                    profile.answers().getOrDefault("delimiter", ""),
                    profile.answers().getOrDefault("charset", ""),
                    profile.answers().getOrDefault("sheet", ""));
            Optional<FileKind> kind = kinds.get(parting);
            if (kind == null) {
                kind = findKind(file, profile.answers());
                kinds.put(parting, kind);
            }
            if (kind.isPresent() && kind.get().isSameAs(profile.kind())) {
                fitting.add(profile);
            }
        }
        return fitting;
    }

    private static Optional<FileKind> findKind(Path file, Map<String, String> answers) throws IOException {
        try {
            return Optional.of(Recordings.kind(file, parting(answers)));
        } catch (UnreadableFileException otherwise) {
            return Optional.empty();
        }
    }

    /** Of all answers those that tell where the table lies and how characters and cells are parted. */
    private static ReadingChoices parting(Map<String, String> answers) {
        ReadingChoices.Builder builder = ReadingChoices.inZone(ZoneOffset.UTC);
        for (String key : List.of("delimiter", "charset", "sheet")) {
            if (answers.containsKey(key)) {
                builder.answer(key, answers.get(key));
            }
        }
        return builder.build();
    }

    /**
     * Keeps the answers that were given for a file, so that the same kind of file finds them again. Answers that belong to
     * one run (the moment it began, the part of a long file) are left out.
     *
     * @param folder where; made if it is not there
     * @param name of the profile
     * @param file for which the answers were given
     * @param answers by key
     * @return the new file, or the one that is there already with the same content
     * @throws FileAlreadyExistsException if there is another profile of that name; it is left as it is
     * @throws IllegalArgumentException if the name can't be used or no answer can be kept
     * @throws UnreadableFileException if the file can't be looked at
     * @throws IOException if the disk fails
     */
    public static Path keep(Path folder, String name, Path file, Map<String, String> answers)
            throws IOException, UnreadableFileException {
        Map<String, String> kept = new LinkedHashMap<>();
        answers.forEach((key, value) -> {
            if (ReadingProfile.isKept(key)) {
                kept.put(key, value);
            }
        });
        if (kept.isEmpty()) {
            throw new IllegalArgumentException(
                    "nothing was answered that would hold for the next file of this kind, so that there is nothing to"
                            + " keep");
        }
        FileKind kind = Recordings.kind(file, parting(kept));
        String text = new ReadingProfile(name, kind, kept).text();
        Files.createDirectories(folder);
        Path target = folder.resolve(name + ".yaml");
        if (Files.exists(target) && Files.readString(target).equals(text)) {
            return target;
        }
        return Files.write(target, text.getBytes(StandardCharsets.UTF_8), StandardOpenOption.CREATE_NEW);
    }
}
