package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.register.Register;

/**
 * Takes the register of an office into the record and gives it back. Each entry becomes one subject, each of its keys one
 * fact. What a visit made known already (a machine by its serial number, a person by the name) is the same subject.
 */
public final class RegisterFiling {

    private static final String STATED = "stated/";
    private static final String VERSION_KEY = "steamwright-register";
    private static final String INSTRUMENTS = "instruments";
    private static final String INSTRUMENTS_FILE = "instruments.yaml";
    private static final String INSTRUMENTS_VERSION_KEY = "steamwright-instruments";
    private static final int LARGEST = 1_000_000;

    /**
     * One list of the file.
     *
     * @param key of the list
     * @param kind of its entries
     * @param known key by which an entry is known from elsewhere, and the fact that holds it
     */
    private record Shelf(String key, Kind kind, String known) {}

    private static final List<Shelf> SHELVES = List.of(
            new Shelf("clinics", Kind.CLINIC, "name"),
            new Shelf("sterilizers", Kind.STERILIZER, "serial"),
            new Shelf("technicians", Kind.TECHNICIAN, "name"),
            new Shelf("lots", Kind.LOT, "number"),
            new Shelf("parts", Kind.PART, "number"));

    private static final Shelf INSTRUMENT_SHELF = new Shelf(INSTRUMENTS, Kind.INSTRUMENT, "id");

    private final Records records;

    /** @param records opened */
    public RegisterFiling(Records records) {
        this.records = records;
    }

    /**
     * What a register brought.
     *
     * @param entries in the file
     * @param added entries that the record did not know
     * @param changed facts that changed by this, the new ones among them
     */
    public record Taken(int entries, int added, int changed) {}

    /**
     * Takes a register in, or what has changed in it. An entry that is no longer in the file stays in the record: nothing goes
     * by itself.
     *
     * @param fileOrFolder register file, or the folder with it
     * @param author who takes it in
     * @param why reason for a change; may be blank
     * @throws RegisterException if the register can't be read
     * @throws VisitFolderException if the file of the instruments is no YAML within the limits
     * @throws FilingException if a file is too large, or an instrument names a file outside of the folder
     * @throws IOException if the disk fails
     */
    public Taken take(Path fileOrFolder, Author author, String why)
            throws IOException, RegisterException, VisitFolderException, FilingException {
        Path file = Files.isDirectory(fileOrFolder) ? fileOrFolder.resolve(RegisterFile.FILE_NAME) : fileOrFolder;
        RegisterFile.Contents contents = RegisterFile.read(file);
        if (Files.size(file) > LARGEST) {
            throw new FilingException(
                    "%s has %d bytes; a register goes in with %d at most".formatted(file, Files.size(file), LARGEST),
                    "Divide it: entries of several files add up in the record.");
        }
        Map<Shelf, List<Map<?, ?>>> shelves = new LinkedHashMap<>();
        Map<String, Object> stated = StatedFacts.of(file);
        SHELVES.forEach(shelf -> shelves.put(shelf, entries(stated, shelf.key)));
        Path folder = Optional.ofNullable(file.toAbsolutePath().getParent()).orElseThrow();
        if (contents.instrumentsFile().isPresent()) {
            Map<String, Object> instruments =
                    StatedFacts.of(folder.resolve(contents.instrumentsFile().get()));
            shelves.put(INSTRUMENT_SHELF, entries(instruments, INSTRUMENTS));
        }
        List<Change> changes = new ArrayList<>();
        int entries = 0;
        int added = 0;
        for (Map.Entry<Shelf, List<Map<?, ?>>> shelf : shelves.entrySet()) {
            Map<String, Subject> known = known(shelf.getKey());
            for (Map<?, ?> entry : shelf.getValue()) {
                entries++;
                Optional<Subject> before = Optional.ofNullable(known.get(text(entry, shelf.getKey().known)));
                added += before.isEmpty() ? 1 : 0;
                changes(shelf.getKey(), entry, before, folder, why, changes);
            }
        }
        if (!changes.isEmpty()) {
            records.append(author, changes);
        }
        return new Taken(entries, added, changes.size());
    }

    private static List<Map<?, ?>> entries(Map<String, Object> stated, String key) {
        List<Map<?, ?>> entries = new ArrayList<>();
        for (int i = 1; stated.get(key + "/" + i) instanceof Map<?, ?> entry; i++) {
            entries.add(entry);
        }
        return entries;
    }

    private Map<String, Subject> known(Shelf shelf) {
        String fact = shelf.known.equals("id") ? "number" : shelf.known;
        Map<String, Subject> known = new HashMap<>();
        records.eachSubject(shelf.kind, subject -> known.put(subject.text(fact), subject));
        return known;
    }

    private void changes(
            Shelf shelf, Map<?, ?> entry, Optional<Subject> before, Path folder, String why, List<Change> changes)
            throws FilingException {
        SubjectId id = before.map(Subject::id).orElseGet(records::newSubject);
        NavigableMap<String, Object> facts = new TreeMap<>();
        entry.forEach((key, value) -> facts.put(STATED + key, value));
        for (String found : List.of("name", "serial", "maker", "model")) {
            if (entry.get(found) instanceof String text) {
                facts.put(found, text);
            }
        }
        facts.put("number", entry.get("number") instanceof String number ? number : text(entry, "id"));
        for (String name : certificates(entry)) {
            KeptFile kept = records.files().put(place(folder, name));
            facts.put(VisitFiles.PREFIX + name, Map.of("sha256", kept.sha256().hex(), "size", kept.size()));
        }
        changes.addAll(FactChanges.of(shelf.kind, id, before, facts, property -> property.startsWith(STATED), why));
    }

    private static String text(Map<?, ?> entry, String key) {
        return entry.get(key) instanceof String text ? text : "";
    }

    /** Certificates that lie in files of their own. */
    private static List<String> certificates(Map<?, ?> entry) {
        List<Object> all = new ArrayList<>();
        if (entry.get("certificate") != null) {
            all.add(entry.get("certificate"));
        }
        if (entry.get("certificates") instanceof List<?> list) {
            all.addAll(list);
        }
        List<String> names = new ArrayList<>();
        for (Object one : all) {
            if (one instanceof Map<?, ?> certificate && certificate.get("file") instanceof String name) {
                names.add(name);
            }
        }
        return names;
    }

    private static Path place(Path folder, String name) throws FilingException {
        List<Path> places = new ArrayList<>();
        VisitFiles.places(folder, List.of(name), (typed, place) -> places.add(place));
        return places.get(0);
    }

    /**
     * The register as the record has it.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register register() throws IOException, RegisterException, FilingException {
        try (ScratchFolder scratch = new ScratchFolder(files())) {
            return RegisterFile.read(scratch.folder()).register();
        }
    }

    /**
     * The register as far as it concerns one machine: with every clinic, and without instruments, people and lots. Empty if
     * only a visit made the machine known.
     *
     * @param sterilizer of the record
     * @throws RegisterException if this program can't read it any more
     */
    public Register register(SubjectId sterilizer) throws IOException, RegisterException, FilingException {
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        Map<String, Object> machine = statedEntry(records.subject(sterilizer));
        if (!machine.isEmpty()) {
            List<Object> clinics = stated(SHELVES.get(0), new TreeMap<>());
            if (!clinics.isEmpty()) {
                register.put(SHELVES.get(0).key, clinics);
            }
            register.put("sterilizers", List.of(machine));
        }
        NavigableMap<String, byte[]> files = new TreeMap<>();
        files.put(RegisterFile.FILE_NAME, JsonText.of(register).text().getBytes(StandardCharsets.UTF_8));
        try (ScratchFolder scratch = new ScratchFolder(files)) {
            return RegisterFile.read(scratch.folder()).register();
        }
    }

    /** The files of the register as the record has it, by name. */
    public NavigableMap<String, byte[]> files() {
        NavigableMap<String, byte[]> files = new TreeMap<>();
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        for (Shelf shelf : SHELVES) {
            List<Object> entries = stated(shelf, files);
            if (!entries.isEmpty()) {
                register.put(shelf.key, entries);
            }
        }
        List<Object> instruments = stated(INSTRUMENT_SHELF, files);
        if (!instruments.isEmpty()) {
            register.put(INSTRUMENTS, INSTRUMENTS_FILE);
            Map<String, Object> list = new LinkedHashMap<>();
            list.put(INSTRUMENTS_VERSION_KEY, "1");
            list.put(INSTRUMENTS, instruments);
            files.put(INSTRUMENTS_FILE, JsonText.of(list).text().getBytes(StandardCharsets.UTF_8));
        }
        files.put(RegisterFile.FILE_NAME, JsonText.of(register).text().getBytes(StandardCharsets.UTF_8));
        return files;
    }

    /** Entries as they were stated, in the order in which they came; what only a visit made known has none. */
    private List<Object> stated(Shelf shelf, Map<String, byte[]> files) {
        List<Object> entries = new ArrayList<>();
        records.eachSubject(shelf.kind, subject -> {
            Map<String, Object> entry = statedEntry(subject);
            if (!entry.isEmpty()) {
                entries.add(entry);
                VisitFiles.of(subject)
                        .forEach((name, hash) -> files.put(name, records.files().get(hash)));
            }
        });
        return entries;
    }

    private static Map<String, Object> statedEntry(Subject subject) {
        Map<String, Object> entry = new TreeMap<>();
        subject.facts().forEach((property, value) -> {
            if (property.startsWith(STATED) && !value.isNull()) {
                entry.put(property.substring(STATED.length()), value.node());
            }
        });
        return entry;
    }
}
