package org.steamwright.simulator;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The visit of the demo: an invented service visit to an invented clinic with two sterilizers.
 *
 * <p>Steriliser A is tight, holds in the empty chamber and passes three loaded runs in a row. Steriliser B is tight and
 * passes empty, but cuts an
 * evacuation short in the loaded run and leaves air in the challenge pack: there the steam comes late and the pack stays
 * the coldest point.
 */
public final class DemoVisit {
    /** Name of the file that describes the visit. */
    public static final String VISIT_FILE = "visit.yaml";

    private static final String RECORDINGS = "recordings";

    private DemoVisit() {}

    /**
     * Writes the visit folder. Nothing is overwritten: a folder that already holds exactly this visit is left as it is
     * (missing recordings are put back), any other folder has to be empty or not yet there.
     *
     * @param folder to write into; made if it isn't there
     * @return path of the file that describes the visit
     * @throws FileAlreadyExistsException if the folder holds something else, saying what and how to mend it
     * @throws IOException if the folder can't be written to
     */
    public static Path write(Path folder) throws IOException {
        return write(folder, files());
    }

    private static Path write(Path folder, Map<String, byte[]> files) throws IOException {
        refuseForeign(folder, files);
        Files.createDirectories(folder.resolve(RECORDINGS));
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            Path path = folder.resolve(file.getKey());
            if (!Files.exists(path)) {
                Path parent = path.getParent();
                if (parent != null) {
                    Files.createDirectories(parent);
                }
                Files.write(path, file.getValue(), StandardOpenOption.CREATE_NEW);
            }
        }
        return folder.resolve(VISIT_FILE);
    }

    /**
     * Writes the year of the same clinic into folders of their own below one folder: {@code 1-interim}, the yearly visit
     * while indicators are awaited; {@code 2-final}, the same visit afterwards; {@code 3-retest}, the visit after the repair. Beside them {@code office/register.yaml}, what the office knows of the machines.
     *
     * @param folder to write into; made if it isn't there
     * @throws FileAlreadyExistsException if one of the folders holds something else
     * @throws IOException if the folder can't be written to
     */
    public static List<Path> writeYear(Path folder) throws IOException {
        List<Path> folders =
                List.of(folder.resolve("1-interim"), folder.resolve("2-final"), folder.resolve("3-retest"));
        write(folders.get(0), files(DemoStory.YEARLY_INTERIM));
        write(folders.get(1), files(DemoStory.YEARLY));
        write(folders.get(2), files(DemoStory.RETEST));
        Path office = folder.resolve("office");
        Files.createDirectories(office);
        Path register = office.resolve("register.yaml");
        if (!Files.exists(register)) {
            Files.writeString(register, DemoRegister.TEXT, StandardOpenOption.CREATE_NEW);
        }
        return folders;
    }

    /** All files of the yearly visit by their path inside the folder, the description last. */
    static Map<String, byte[]> files() {
        return files(DemoStory.YEARLY);
    }

    /** All files of a visit by their path inside the folder, the description last; the same bytes on every machine. */
    static Map<String, byte[]> files(DemoStory story) {
        DemoText text = new DemoText(story);
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (DemoRun run : DemoRun.all(story)) {
            for (LoggerFile file : run.simulated().files()) {
                files.put(RECORDINGS + "/" + file.name(), file.bytes());
            }
            text.add(run, RECORDINGS);
        }
        files.put(text.certificateFile(), CertificateXml.write(text.digital()));
        files.put(VISIT_FILE, text.write().getBytes(StandardCharsets.UTF_8));
        return files;
    }

    private static void refuseForeign(Path folder, Map<String, byte[]> files) throws IOException {
        if (Files.exists(folder) && !Files.isDirectory(folder)) {
            throw new FileAlreadyExistsException(folder + " is a file. Name a folder for the demo.");
        }
        if (!Files.exists(folder) || isEmpty(folder)) {
            return;
        }
        if (!Files.exists(folder.resolve(VISIT_FILE))) {
            throw new FileAlreadyExistsException(
                    folder + " is not empty and holds no demo visit. Name a folder that is empty or not there yet.");
        }
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            Path path = folder.resolve(file.getKey());
            if (Files.exists(path) && !Arrays.equals(Files.readAllBytes(path), file.getValue())) {
                throw new FileAlreadyExistsException(
                        path + " differs from the demo. It is left as it is; name another folder for the demo.");
            }
        }
    }

    private static boolean isEmpty(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        }
    }

    /** Zone of the invented clinic. */
    static final ZoneId ZONE = ZoneId.of("Australia/Adelaide");
}
