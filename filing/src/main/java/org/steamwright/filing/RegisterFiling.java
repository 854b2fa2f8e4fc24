package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.visit.register.Register;

/**
 * Takes the register of an office into the record and gives it back. Each entry becomes one subject, each of its keys one
 * fact. What a visit made known already (a machine by its serial number, a person by the name) is the same subject.
 */
public final class RegisterFiling {

    private static final String STATED = "stated/";
    private static final String ROOM = STATED + "room";
    private static final String VERSION_KEY = "steamwright-register";
    private static final String INSTRUMENTS = "instruments";
    private static final String INSTRUMENTS_FILE = "instruments.yaml";
    private static final String INSTRUMENTS_VERSION_KEY = "steamwright-instruments";
    private static final int LARGEST = 1_000_000;
    private static final int ATTEMPTS = 8;

    /**
     * One list of the file.
     *
     * @param key of the list
     * @param kind of its entries
     * @param known key by which an entry is known from elsewhere, and the fact that holds it
     */
    record Shelf(String key, Kind kind, String known) {}

    private static final List<Shelf> SHELVES = List.of(
            new Shelf("clinics", Kind.CLINIC, "name"),
            new Shelf("sterilizers", Kind.STERILIZER, "serial"),
            new Shelf("technicians", Kind.TECHNICIAN, "name"),
            new Shelf("lots", Kind.LOT, "number"),
            new Shelf("parts", Kind.PART, "number"),
            new Shelf("testers", Kind.INSTRUMENT, "id"));

    /** Key by which an instrument that measures in runs is told from a tester. */
    private static final String MEASURES = "measures";

    static final Shelf CLINICS = SHELVES.get(0);
    static final Shelf STERILIZERS = SHELVES.get(1);
    private static final Set<Shelf> OF_PLACES = Set.of(CLINICS, STERILIZERS);
    /** Clinics or machines that are read together. */
    private static final int PIECE = 200;

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
        for (int attempt = 0; ; attempt++) {
            TreeHead head = records.head().tree();
            List<Change> changes = new ArrayList<>();
            Taken taken = compare(shelves, folder, why, changes);
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

    private Taken compare(Map<Shelf, List<Map<?, ?>>> shelves, Path folder, String why, List<Change> changes)
            throws FilingException {
        int entries = 0;
        int added = 0;
        for (Map.Entry<Shelf, List<Map<?, ?>>> shelf : shelves.entrySet()) {
            Known known = known(shelf.getKey());
            for (Map<?, ?> entry : shelf.getValue()) {
                entries++;
                Optional<Subject> before = known.find(entry);
                added += before.isEmpty() ? 1 : 0;
                changes(shelf.getKey(), entry, before, folder, why, changes);
            }
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

    /** Entries of a list that the record has, by their ids; and what only visits made known. */
    private record Known(
            Shelf shelf,
            Map<String, Subject> stated,
            Map<String, List<Subject>> serials,
            Map<String, List<Subject>> seen,
            Map<String, String> sites) {

        /**
         * The subject of an entry: the one of that id, else one that only visits made known.
         *
         * @throws FilingException if the entry is another one's, or it is not clear which one it is
         */
        Optional<Subject> find(Map<?, ?> entry) throws FilingException {
            String id = text(entry, "id");
            refuseOthers(entry, id);
            Optional<Subject> byId = Optional.ofNullable(stated.get(id));
            return byId.isPresent()
                    ? byId
                    : ofVisits(shelf, entry, seen.getOrDefault(text(entry, shelf.known), List.of()));
        }

        private void refuseOthers(Map<?, ?> entry, String id) throws FilingException {
            if (shelf.equals(STERILIZERS)) {
                for (Subject other : serials.getOrDefault(text(entry, "serial"), List.of())) {
                    if (!statedId(other).equals(id) && Meant.isSame(other, Meant.machine(entry))) {
                        throw new FilingException(
                                "the steriliser %s has maker, model and serial number of %s, which is in the record"
                                        .formatted(id, statedId(other)),
                                "Write the id %s; an id never changes.".formatted(statedId(other)));
                    }
                }
            } else if (shelf.equals(CLINICS) && entry.get("sites") instanceof List<?> list) {
                for (Object one : list) {
                    String site = one instanceof Map<?, ?> map ? text(map, "id") : "";
                    String owner = sites.getOrDefault(site, id);
                    if (!owner.equals(id)) {
                        throw new FilingException(
                                "the site %s of the clinic %s belongs to the clinic %s in the record"
                                        .formatted(site, id, owner),
                                "Write the id %s if it is the same clinic, for an id never changes; else give the site another id."
                                        .formatted(owner));
                    }
                }
            }
        }
    }

    private static String statedId(Subject subject) {
        return subject.text(STATED + "id");
    }

    /**
     * The one of some subjects that only visits made known that an entry describes.
     *
     * @throws FilingException if it describes several
     */
    static Optional<Subject> ofVisits(Shelf shelf, Map<?, ?> entry, List<Subject> seen) throws FilingException {
        List<Subject> fitting = seen;
        if (shelf.equals(STERILIZERS)) {
            fitting = Meant.fitting(seen, Meant.machine(entry));
        } else if (shelf.equals(CLINICS)) {
            TreeSet<SubjectId> ids = new TreeSet<>(Comparator.comparing(SubjectId::value));
            List<String> addresses = new ArrayList<>();
            if (entry.get("sites") instanceof List<?> sites) {
                sites.forEach(site -> addresses.add(site instanceof Map<?, ?> map ? text(map, "address") : ""));
            }
            if (addresses.isEmpty()) {
                addresses.add("");
            }
            addresses.forEach(address -> Meant.fitting(seen, address).forEach(one -> ids.add(one.id())));
            fitting = seen.stream().filter(one -> ids.contains(one.id())).toList();
        }
        if (fitting.size() > 1 && OF_PLACES.contains(shelf)) {
            throw new FilingException(
                    "%s may be any of %d that visits made known under %s"
                            .formatted(text(entry, "id"), fitting.size(), text(entry, shelf.known)),
                    shelf.equals(CLINICS)
                            ? "State the address of its site as one of the visits has it."
                            : "State maker and model as one of the visits has them.");
        }
        return fitting.stream().findFirst();
    }

    private Known known(Shelf shelf) {
        String fact = shelf.known.equals("id") ? "number" : shelf.known;
        Known known = new Known(shelf, new HashMap<>(), new HashMap<>(), new HashMap<>(), new HashMap<>());
        records.eachSubject(shelf.kind, subject -> {
            String id = statedId(subject);
            if (id.isBlank()) {
                known.seen
                        .computeIfAbsent(subject.text(fact), text -> new ArrayList<>())
                        .add(subject);
            } else {
                known.stated.put(id, subject);
                known.serials
                        .computeIfAbsent(subject.text("serial"), text -> new ArrayList<>())
                        .add(subject);
            }
            subject.fact(STATED + "sites")
                    .ifPresent(sites -> sites.node()
                            .forEach(site -> known.sites.put(site.path("id").asText(), id)));
        });
        return known;
    }

    /** What has to be entered so that a subject states an entry; a new subject if there was none. */
    void changes(Shelf shelf, Map<?, ?> entry, Optional<Subject> before, Path folder, String why, List<Change> changes)
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
        return contents().register();
    }

    /**
     * The register as the record has it, with the name of the file of its instruments.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public RegisterFile.Contents contents() throws IOException, RegisterException, FilingException {
        return contents(Map.of());
    }

    /**
     * The register as it would be with other facts of some subjects. Clinics and machines are read some at a time: together
     * they may be more than one file holds.
     */
    RegisterFile.Contents contents(Map<SubjectId, Map<String, JsonText>> others)
            throws IOException, RegisterException, FilingException {
        RegisterFile.Contents office;
        try (ScratchFolder scratch = new ScratchFolder(files(others, shelf -> !OF_PLACES.contains(shelf)))) {
            office = RegisterFile.read(scratch.folder());
        }
        Map<String, Subject> otherClinics = new HashMap<>();
        List<SubjectId> ids = List.copyOf(others.keySet());
        for (int from = 0; from < ids.size(); from += PIECE) {
            for (Subject one : records.subjects(ids.subList(from, Math.min(ids.size(), from + PIECE)))) {
                if (one.kind() == Kind.CLINIC) {
                    Subject clinic = with(one, others);
                    roomsOf(clinic).keySet().forEach(room -> otherClinics.putIfAbsent(room, clinic));
                }
            }
        }
        List<Register> parts = new ArrayList<>();
        for (long from = 0; ; from += PIECE) {
            List<Subject> clinics = with(records.subjects(Kind.CLINIC, from, PIECE), others);
            parts.add(register(List.of(), clinics));
            if (clinics.size() < PIECE) {
                break;
            }
        }
        for (long from = 0; ; from += PIECE) {
            List<Subject> machines = with(records.subjects(Kind.STERILIZER, from, PIECE), others);
            Map<SubjectId, Subject> clinics = new LinkedHashMap<>();
            with(clinicsOf(machines), others).forEach(clinic -> clinics.put(clinic.id(), clinic));
            for (Subject machine : machines) {
                rooms(statedEntry(machine)).stream()
                        .map(otherClinics::get)
                        .filter(Objects::nonNull)
                        .forEach(clinic -> clinics.put(clinic.id(), clinic));
            }
            parts.add(register(machines, List.copyOf(clinics.values())));
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
    private List<Subject> clinicsOf(List<Subject> machines) {
        Set<String> rooms = new TreeSet<>();
        machines.forEach(machine -> rooms.addAll(rooms(statedEntry(machine))));
        return records.usersOf(Use.ROOM, Kind.CLINIC, rooms);
    }

    /**
     * The register as far as it concerns some machines: they and the clinics in whose rooms they stand or stood, without
     * instruments, people and lots. What only a visit made known is left out.
     *
     * @param machines of the record
     * @throws RegisterException if this program can't read them any more
     */
    public Register register(List<Subject> machines) throws RegisterException {
        return register(machines, clinicsOf(machines));
    }

    /** The list of that key. */
    static Optional<Shelf> shelf(String key) {
        return Stream.concat(SHELVES.stream(), Stream.of(INSTRUMENT_SHELF))
                .filter(shelf -> shelf.key.equals(key))
                .findFirst();
    }

    /**
     * The machine that has that identity in the record, else that id in the register, else that serial number; none if several
     * have the number.
     */
    public Optional<Subject> machine(String idOrSerial) {
        String wanted = idOrSerial.strip();
        List<Subject> machines = machines(wanted);
        return machines.stream()
                .filter(one -> one.text("number").equals(wanted))
                .findFirst()
                .or(() -> machines.size() == 1 ? Optional.of(machines.get(0)) : Optional.empty());
    }

    /** The one that has that identity in the record, else all that have that id in the register or that serial number. */
    public List<Subject> machines(String idOrSerial) {
        String wanted = idOrSerial.strip();
        if (wanted.isEmpty()) {
            return List.of();
        }
        try {
            Optional<Subject> one =
                    records.find(SubjectId.parse(wanted)).filter(subject -> subject.kind() == Kind.STERILIZER);
            if (one.isPresent()) {
                return List.of(one.get());
            }
        } catch (IllegalArgumentException noIdentity) {
            // an id of the register, or a serial number
        }
        return Stream.concat(
                        records.exactly(Kind.STERILIZER, "number", wanted).stream(),
                        records.exactly(Kind.STERILIZER, STERILIZERS.known, wanted).stream())
                .distinct()
                .toList();
    }

    /** The clinic where a machine stands by the register; empty in the workshop. */
    Optional<Subject> clinic(Subject machine) {
        return Optional.ofNullable(places(List.of(machine)).get(roomOf(machine)))
                .map(Standing::clinic);
    }

    /** Machines that stand in the rooms of these clinics by the register, in the order of their making. */
    public List<Subject> machinesAt(List<Subject> clinics) {
        Set<String> rooms = new TreeSet<>();
        clinics.forEach(clinic -> rooms.addAll(roomsOf(clinic).keySet()));
        return records.usersOf(Use.ROOM, Kind.STERILIZER, rooms).stream()
                .filter(machine -> rooms.contains(roomOf(machine)))
                .toList();
    }

    /** Clinic, site and room by the register of each room in which one of these machines stands. */
    public Map<String, Standing> places(List<Subject> machines) {
        Set<String> rooms = new TreeSet<>();
        machines.forEach(machine -> rooms.add(roomOf(machine)));
        rooms.remove("");
        Map<String, Standing> places = new HashMap<>();
        for (Subject clinic : records.usersOf(Use.ROOM, Kind.CLINIC, rooms)) {
            standingsOf(clinic).forEach(places::putIfAbsent);
        }
        return places;
    }

    /**
     * Where a machine stands.
     *
     * @param clinic of the record
     * @param words clinic, site and room in one line
     * @param zone of the site, as stated; blank if it states none
     */
    public record Standing(Subject clinic, String words, String zone) {}

    /** Rooms of a clinic with what they are called. */
    public static Map<String, String> roomsOf(Subject clinic) {
        Map<String, String> rooms = new LinkedHashMap<>();
        standingsOf(clinic).forEach((id, standing) -> rooms.put(id, standing.words()));
        return rooms;
    }

    /** Rooms of a clinic by their ids. */
    private static Map<String, Standing> standingsOf(Subject clinic) {
        Map<String, Standing> rooms = new LinkedHashMap<>();
        clinic.fact(STATED + "sites")
                .ifPresent(sites -> sites.node()
                        .forEach(site -> site.path("rooms")
                                .forEach(room -> rooms.put(
                                        room.path("id").asText(),
                                        new Standing(
                                                clinic,
                                                Stream.of(
                                                                clinic.text("name"),
                                                                site.path("name")
                                                                        .asText(),
                                                                room.path("name")
                                                                        .asText())
                                                        .filter(word -> !word.isBlank())
                                                        .collect(Collectors.joining(", ")),
                                                site.path("zone").asText())))));
        rooms.remove("");
        return rooms;
    }

    /** Id of the room in which a machine stands: where it was moved to last, else where it was first; blank for none. */
    public static String roomOf(Subject machine) {
        String room = machine.text(ROOM);
        String last = "";
        for (JsonNode movement :
                machine.fact(STATED + "movements").orElse(JsonText.NULL).node()) {
            if (movement.path("on").asText().compareTo(last) >= 0) {
                last = movement.path("on").asText();
                room = movement.path("to").asText();
            }
        }
        return room;
    }

    private static List<String> rooms(Map<String, Object> machine) {
        List<String> rooms = new ArrayList<>();
        if (machine.get("room") instanceof JsonNode room) {
            rooms.add(room.asText());
        }
        if (machine.get("movements") instanceof JsonNode movements) {
            movements.forEach(movement -> rooms.add(movement.path("to").asText()));
        }
        rooms.removeIf(String::isBlank);
        return rooms;
    }

    /** The same with the clinics at hand. */
    static Register register(List<Subject> machines, List<Subject> clinics) throws RegisterException {
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        put(CLINICS, clinics, register);
        put(STERILIZERS, machines, register);
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
            register.put(shelf.key, entries);
        }
    }

    /**
     * The register without its machines and clinics: people, instruments, lots and parts.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register withoutMachines() throws IOException, RegisterException, FilingException {
        try (ScratchFolder scratch = new ScratchFolder(files(Map.of(), shelf -> !OF_PLACES.contains(shelf)))) {
            return RegisterFile.read(scratch.folder()).register();
        }
    }

    /**
     * The register as far as a visit to a machine needs it: the machine, its clinic, and everything that belongs to the office.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register around(Subject machine) throws IOException, RegisterException, FilingException {
        Register own = register(List.of(machine));
        Register office = withoutMachines();
        return new Register(
                own.clinics(),
                own.sterilizers(),
                office.technicians(),
                office.instruments(),
                office.lots(),
                office.parts(),
                office.testers());
    }

    /** The file of the instruments and those that it names, by name; empty if there are none. */
    public NavigableMap<String, byte[]> instrumentFiles() {
        NavigableMap<String, byte[]> files = files(Map.of(), shelf -> false);
        files.remove(RegisterFile.FILE_NAME);
        return files;
    }

    /** The files of the register as the record has it, by name. */
    public NavigableMap<String, byte[]> files() {
        return files(Map.of(), shelf -> true);
    }

    private NavigableMap<String, byte[]> files(
            Map<SubjectId, Map<String, JsonText>> others, Predicate<Shelf> isWanted) {
        NavigableMap<String, byte[]> files = new TreeMap<>();
        Map<String, Object> register = new LinkedHashMap<>();
        register.put(VERSION_KEY, String.valueOf(RegisterFile.FORMAT_VERSION));
        for (Shelf shelf : SHELVES) {
            List<Object> entries = isWanted.test(shelf) ? stated(shelf, others, files) : List.of();
            if (!entries.isEmpty()) {
                register.put(shelf.key, entries);
            }
        }
        List<Object> instruments = stated(INSTRUMENT_SHELF, others, files);
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
    private List<Object> stated(Shelf shelf, Map<SubjectId, Map<String, JsonText>> others, Map<String, byte[]> files) {
        List<Object> entries = new ArrayList<>();
        records.eachSubject(shelf.kind, subject -> {
            Map<String, Object> entry = statedEntry(subject);
            others.getOrDefault(subject.id(), Map.of()).forEach((property, value) -> {
                if (property.startsWith(STATED) && value.isNull()) {
                    entry.remove(property.substring(STATED.length()));
                } else if (property.startsWith(STATED)) {
                    entry.put(property.substring(STATED.length()), value.node());
                }
            });
            boolean isOfShelf =
                    shelf.kind != Kind.INSTRUMENT || entry.containsKey(MEASURES) == shelf.equals(INSTRUMENT_SHELF);
            if (!entry.isEmpty() && isOfShelf) {
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
            if (property.startsWith(STATED) && !value.isNull()) {
                entry.put(property.substring(STATED.length()), value.node());
            }
        });
        return entry;
    }
}
