package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.register.Register;

/** Reads the register out of the record, as a whole or as far as it is wanted. */
final class RegisterReading {

    static final String VERSION_KEY = "steamwright-register";
    private static final String INSTRUMENTS_FILE = "instruments.yaml";
    private static final String INSTRUMENTS_VERSION_KEY = "steamwright-instruments";
    /** Clinics or machines that are read together. */
    private static final int PIECE = 200;

    private final Records records;

    RegisterReading(Records records) {
        this.records = records;
    }

    /** The register with the name of the file of its instruments, as it would be with other facts of some subjects. */
    RegisterFile.Contents contents(Map<SubjectId, Map<String, JsonText>> others)
            throws IOException, RegisterException, FilingException {
        RegisterFile.Contents office;
        try (ScratchFolder scratch = new ScratchFolder(files(others, shelf -> !Shelf.OF_PLACES.contains(shelf)))) {
            office = RegisterFile.read(scratch.folder());
        }
        Map<String, Subject> otherClinics = new HashMap<>();
        List<SubjectId> ids = List.copyOf(others.keySet());
        for (int from = 0; from < ids.size(); from += PIECE) {
            for (Subject one : records.subjects(ids.subList(from, Math.min(ids.size(), from + PIECE)))) {
                if (one.kind() == Kind.CLINIC) {
                    Subject clinic = with(one, others);
                    RegisterRooms.roomsOf(clinic).keySet().forEach(room -> otherClinics.putIfAbsent(room, clinic));
                }
            }
        }
        List<Register> parts = new ArrayList<>();
        for (long from = 0; ; from += PIECE) {
            List<Subject> clinics = with(records.subjects(Kind.CLINIC, from, PIECE), others);
            parts.add(asStated(List.of(), clinics));
            if (clinics.size() < PIECE) {
                break;
            }
        }
        for (long from = 0; ; from += PIECE) {
            List<Subject> machines = with(records.subjects(Kind.STERILIZER, from, PIECE), others);
            Map<SubjectId, Subject> clinics = new LinkedHashMap<>();
            with(clinicsOf(machines), others).forEach(clinic -> clinics.put(clinic.id(), clinic));
            for (Subject machine : machines) {
                RegisterRooms.rooms(statedEntry(machine)).stream()
                        .map(otherClinics::get)
                        .filter(Objects::nonNull)
                        .forEach(clinic -> clinics.put(clinic.id(), clinic));
            }
            parts.add(asStated(machines, List.copyOf(clinics.values())));
            if (machines.size() < PIECE) {
                break;
            }
        }
        parts.add(office.register());
        return new RegisterFile.Contents(RegisterFile.joined(parts, RegisterFile.FILE_NAME), office.instrumentsFile());
    }

    private static List<Subject> with(List<Subject> subjects, Map<SubjectId, Map<String, JsonText>> others) {
        return others.isEmpty()
                ? subjects
                : subjects.stream().map(subject -> with(subject, others)).toList();
    }

    private static Subject with(Subject subject, Map<SubjectId, Map<String, JsonText>> others) {
        Map<String, JsonText> other = others.getOrDefault(subject.id(), Map.of());
        if (other.isEmpty()) {
            return subject;
        }
        NavigableMap<String, JsonText> facts = new TreeMap<>(subject.facts());
        other.forEach((property, value) -> {
            if (value.isNull()) {
                facts.remove(property);
            } else {
                facts.put(property, value);
            }
        });
        return new Subject(subject.id(), subject.kind(), facts);
    }

    /** Clinics that have a room in which one of these machines stands or stood. */
    List<Subject> clinicsOf(List<Subject> machines) {
        Set<String> rooms = new TreeSet<>();
        machines.forEach(machine -> rooms.addAll(RegisterRooms.rooms(statedEntry(machine))));
        return records.usersOf(Use.ROOM, Kind.CLINIC, rooms);
    }

    /** Machines and clinics at hand, with what signed visits showed of the machines. */
    static Register register(List<Subject> machines, List<Subject> clinics) throws RegisterException {
        return VisitEvidence.in(asStated(machines, clinics), machines);
    }

    private static Register asStated(List<Subject> machines, List<Subject> clinics) throws RegisterException {
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        put(Shelf.CLINICS, clinics, register);
        put(Shelf.STERILIZERS, machines, register);
        return RegisterFile.read(JsonText.of(register).text().getBytes(StandardCharsets.UTF_8), RegisterFile.FILE_NAME);
    }

    private static void put(Shelf shelf, List<Subject> subjects, Map<String, Object> register) {
        List<Object> entries = new ArrayList<>();
        for (Subject subject : subjects) {
            Map<String, Object> entry = statedEntry(subject);
            if (!entry.isEmpty()) {
                entries.add(entry);
            }
        }
        if (!entries.isEmpty()) {
            register.put(shelf.key(), entries);
        }
    }

    /** The files of the register as it would be with other facts of some subjects, by name; of the lists that are wanted. */
    NavigableMap<String, byte[]> files(Map<SubjectId, Map<String, JsonText>> others, Predicate<Shelf> isWanted) {
        NavigableMap<String, byte[]> files = new TreeMap<>();
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        for (Shelf shelf : Shelf.ALL) {
            List<Object> entries = isWanted.test(shelf) ? stated(shelf, others, files) : List.of();
            if (!entries.isEmpty()) {
                register.put(shelf.key(), entries);
            }
        }
        List<Object> instruments = stated(Shelf.INSTRUMENTS, others, files);
        if (!instruments.isEmpty()) {
            register.put(Shelf.INSTRUMENTS.key(), INSTRUMENTS_FILE);
            Map<String, Object> list = new LinkedHashMap<>();
            list.put(INSTRUMENTS_VERSION_KEY, "1");
            list.put(Shelf.INSTRUMENTS.key(), instruments);
            files.put(INSTRUMENTS_FILE, JsonText.of(list).text().getBytes(StandardCharsets.UTF_8));
        }
        files.put(RegisterFile.FILE_NAME, JsonText.of(register).text().getBytes(StandardCharsets.UTF_8));
        return files;
    }

    /** Entries as they were stated, in the order in which they came; what only a visit made known has none. */
    private List<Object> stated(Shelf shelf, Map<SubjectId, Map<String, JsonText>> others, Map<String, byte[]> files) {
        List<Object> entries = new ArrayList<>();
        records.eachSubject(shelf.kind(), subject -> {
            Map<String, Object> entry = statedEntry(subject);
            others.getOrDefault(subject.id(), Map.of()).forEach((property, value) -> {
                if (property.startsWith(Shelf.STATED) && value.isNull()) {
                    entry.remove(property.substring(Shelf.STATED.length()));
                } else if (property.startsWith(Shelf.STATED)) {
                    entry.put(property.substring(Shelf.STATED.length()), value.node());
                }
            });
            if (!entry.isEmpty() && shelf.holds(entry)) {
                entries.add(entry);
                VisitFiles.of(subject)
                        .forEach((name, hash) -> files.put(name, records.files().get(hash)));
            }
        });
        return entries;
    }

    /** An entry as it was stated; empty if only a visit made the subject known. */
    static Map<String, Object> statedEntry(Subject subject) {
        Map<String, Object> entry = new TreeMap<>();
        subject.facts().forEach((property, value) -> {
            if (property.startsWith(Shelf.STATED) && !value.isNull()) {
                entry.put(property.substring(Shelf.STATED.length()), value.node());
            }
        });
        return entry;
    }
}
