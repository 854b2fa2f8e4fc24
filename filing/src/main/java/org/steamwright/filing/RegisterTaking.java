package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
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
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.proof.TreeHead;

/** Writes what a register states into the record: each entry one subject, each of its keys one fact. */
final class RegisterTaking {

    private static final int LARGEST = 1_000_000;
    private static final int ATTEMPTS = 8;

    private final Records records;

    RegisterTaking(Records records) {
        this.records = records;
    }

    RegisterFiling.Taken take(Path fileOrFolder, Author author, String why)
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
        Shelf.ALL.forEach(shelf -> shelves.put(shelf, entries(stated, shelf.key())));
        Path folder = Optional.ofNullable(file.toAbsolutePath().getParent()).orElseThrow();
        if (contents.instrumentsFile().isPresent()) {
            Map<String, Object> instruments =
                    StatedFacts.of(folder.resolve(contents.instrumentsFile().get()));
            shelves.put(Shelf.INSTRUMENTS, entries(instruments, Shelf.INSTRUMENTS.key()));
        }
        for (int attempt = 0; ; attempt++) {
            TreeHead head = records.head().tree();
            List<Change> changes = new ArrayList<>();
            RegisterFiling.Taken taken = compare(shelves, folder, why, changes);
            if (changes.isEmpty()
                    || append(new Submission(records.newSubmission(), author, changes, Optional.of(head)), attempt)) {
                return taken;
            }
        }
    }

    /** Whether it was kept; not if something came between and there is another attempt. */
    private boolean append(Submission submission, int attempt) {
        try {
            records.append(submission);
            return true;
        } catch (RecordsException e) {
            if (e.id() == RecordsMessage.CHANGED_MEANWHILE && attempt < ATTEMPTS) {
                return false;
            }
            throw e;
        }
    }

    private RegisterFiling.Taken compare(
            Map<Shelf, List<Map<?, ?>>> shelves, Path folder, String why, List<Change> changes) throws FilingException {
        int entries = 0;
        int added = 0;
        for (Map.Entry<Shelf, List<Map<?, ?>>> shelf : shelves.entrySet()) {
            RegisterMatching known = RegisterMatching.of(shelf.getKey(), records);
            for (Map<?, ?> entry : shelf.getValue()) {
                entries++;
                Optional<Subject> before = known.find(entry);
                added += before.isEmpty() ? 1 : 0;
                changes(shelf.getKey(), entry, before, folder, why, changes);
            }
        }
        return new RegisterFiling.Taken(entries, added, changes.size());
    }

    private static List<Map<?, ?>> entries(Map<String, Object> stated, String key) {
        List<Map<?, ?>> entries = new ArrayList<>();
        for (int i = 1; stated.get(key + "/" + i) instanceof Map<?, ?> entry; i++) {
            entries.add(entry);
        }
        return entries;
    }

    /** What has to be entered so that a subject states an entry; a new subject if there was none. */
    void changes(Shelf shelf, Map<?, ?> entry, Optional<Subject> before, Path folder, String why, List<Change> changes)
            throws FilingException {
        SubjectId id = before.map(Subject::id).orElseGet(records::newSubject);
        NavigableMap<String, Object> facts = new TreeMap<>();
        entry.forEach((key, value) -> facts.put(Shelf.STATED + key, value));
        for (String found : List.of("name", "serial", "maker", "model")) {
            if (entry.get(found) instanceof String text) {
                facts.put(found, text);
            }
        }
        facts.put("number", entry.get("number") instanceof String number ? number : Shelf.text(entry, "id"));
        for (String name : certificates(entry)) {
            KeptFile kept = records.files().put(place(folder, name));
            facts.put(VisitFiles.PREFIX + name, Map.of("sha256", kept.sha256().hex(), "size", kept.size()));
        }
        changes.addAll(
                FactChanges.of(shelf.kind(), id, before, facts, property -> property.startsWith(Shelf.STATED), why));
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
}
