package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.steamwright.filing.RegisterField.Listed;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
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

/**
 * Single entries of the register in the record, entered and changed one at a time. An entry is read as a file would be before
 * anything of it is kept; every value that ever stood stays in the journal.
 */
public final class RegisterEntries {

    private static final String STATED = "stated/";
    /** Key of the words with which a door says that a reason is missing. */
    public static final String NO_REASON = "office.why-needed";

    /** Key of the words with which a door says that somebody else was there meanwhile. */
    public static final String MEANWHILE = "office.changed-meanwhile";

    /** Key of the words with which a door says that a field is needed. */
    public static final String NEEDED = "office.missing";

    private static final int ATTEMPTS = 8;
    private static final int MOST_SLUGS = 10_000;
    /** Facts by which an entry is found, beside what it states. */
    private static final List<String> FOUND_BY = List.of("name", "serial", "maker", "model");

    private static final Map<Listed, Kind> KINDS = Map.of(
            Listed.CLINICS, Kind.CLINIC,
            Listed.STERILIZERS, Kind.STERILIZER,
            Listed.INSTRUMENTS, Kind.INSTRUMENT,
            Listed.TESTERS, Kind.INSTRUMENT,
            Listed.TECHNICIANS, Kind.TECHNICIAN,
            Listed.LOTS, Kind.LOT,
            Listed.PARTS, Kind.PART);

    /** From what an id is made that nobody wrote. */
    private static final Map<Listed, String> ID_FROM = Map.of(
            Listed.CLINICS, "name",
            Listed.STERILIZERS, "serial",
            Listed.INSTRUMENTS, "serial",
            Listed.TESTERS, "serial",
            Listed.TECHNICIANS, "name",
            Listed.LOTS, "number",
            Listed.PARTS, "name");

    private final Records records;

    /** @param records opened */
    public RegisterEntries(Records records) {
        this.records = records;
    }

    /**
     * An entry as it stands.
     *
     * @param list in which it is
     * @param subject of the record
     * @param stated by key; empty if only visits made it known
     * @param changes that it has had, by which it is told whether somebody else was there meanwhile
     */
    public record Entry(Listed list, Subject subject, ObjectNode stated, int changes) {}

    /**
     * Something that keeps an entry from being kept.
     *
     * @param field under which it stands, such as {@code counter/readings/2/shows}; blank for the entry as a whole
     * @param text what was found, and what was expected
     * @param flaw the same as data, where a register was read with it; empty if the text says it
     */
    public record Complaint(String field, String text, Optional<Flaw> flaw) {

        Complaint(String field, String text) {
            this(field, text, Optional.empty());
        }
    }

    /** An entry was not kept; nothing of it was. */
    public static final class Refused extends Exception {
        private static final long serialVersionUID = 1L;
        private final transient List<Complaint> complaints;
        private final boolean isMeanwhile;

        private Refused(List<Complaint> complaints, boolean isMeanwhile) {
            super(complaints.stream().map(Complaint::text).collect(Collectors.joining(" ")));
            this.complaints = List.copyOf(complaints);
            this.isMeanwhile = isMeanwhile;
        }

        private Refused(String field, String text) {
            this(List.of(new Complaint(field, text)), false);
        }

        /** For one field. */
        public static Refused of(String field, String text) {
            return new Refused(field, text);
        }

        /** What is wrong, each with its place. */
        public List<Complaint> complaints() {
            return complaints;
        }

        /** Whether somebody else changed the entry since it was looked at. */
        public boolean isMeanwhile() {
            return isMeanwhile;
        }
    }

    /** The entry of a subject; empty if it is none of a register. */
    public Optional<Entry> find(SubjectId id) {
        return records.find(id).flatMap(subject -> list(subject).map(list -> entry(list, subject)));
    }

    private Entry entry(Listed list, Subject subject) {
        return new Entry(
                list, subject, stated(subject), records.history(subject.id()).size());
    }

    private static ObjectNode stated(Subject subject) {
        ObjectNode stated = com.fasterxml.jackson.databind.node.JsonNodeFactory.instance.objectNode();
        RegisterReading.statedEntry(subject).forEach((key, value) -> stated.set(key, (JsonNode) value));
        return stated;
    }

    private static Optional<Listed> list(Subject subject) {
        return KINDS.keySet().stream()
                .filter(list -> KINDS.get(list) == subject.kind())
                .filter(list -> subject.kind() != Kind.INSTRUMENT
                        || subject.fact(STATED + "measures").isPresent() == (list == Listed.INSTRUMENTS))
                .findFirst();
    }

    /** What happened to an entry, the newest first. */
    public List<JournalEntry> history(Entry entry) {
        List<JournalEntry> history = new ArrayList<>(records.history(entry.subject.id()));
        history.removeIf(one -> !one.property().startsWith(STATED));
        java.util.Collections.reverse(history);
        return history;
    }

    /**
     * Enters a new entry.
     *
     * @param list in which it shall be
     * @param wanted as a register would state it; a blank id is made from what it is called
     * @return its subject
     * @throws Refused if it can't be read, or is another one's
     */
    public SubjectId add(Listed list, ObjectNode wanted, Author author, String why)
            throws Refused, IOException, FilingException {
        return add(list, wanted, new TreeMap<>(), author, why);
    }

    /**
     * The same with files that the entry names, such as a digital certificate.
     *
     * @param files by the names by which the entry names them
     */
    public SubjectId add(Listed list, ObjectNode wanted, NavigableMap<String, byte[]> files, Author author, String why)
            throws Refused, IOException, FilingException {
        for (int attempt = 0; ; attempt++) {
            TreeHead head = records.head().tree();
            ObjectNode entry = wanted.deepCopy();
            identify(list, entry);
            Optional<Subject> seen = refuseOthers(list, entry, Optional.empty());
            Subject before = seen.orElseGet(() -> new Subject(records.newSubject(), kind(list), new TreeMap<>()));
            List<Change> changes = changes(list, before, entry, why);
            check(list, before, entry, files);
            changes.addAll(0, kept(list, before, files, why));
            if (append(changes, author, head, attempt)) {
                return before.id();
            }
        }
    }

    /**
     * Changes an entry.
     *
     * @param seen the entry as it was looked at
     * @param wanted as a register would state it
     * @param why needed where something that stood becomes something else or goes
     * @throws Refused if it can't be read, is another one's, has no reason, or was changed meanwhile
     */
    public void change(Entry seen, ObjectNode wanted, Author author, String why)
            throws Refused, IOException, FilingException {
        change(seen, wanted, new TreeMap<>(), author, why);
    }

    /**
     * The same with files that the entry names by now.
     *
     * @param files by the names by which the entry names them
     */
    public void change(Entry seen, ObjectNode wanted, NavigableMap<String, byte[]> files, Author author, String why)
            throws Refused, IOException, FilingException {
        SubjectId id = seen.subject.id();
        for (int attempt = 0; ; attempt++) {
            TreeHead head = records.head().tree();
            List<JournalEntry> history = records.history(id);
            if (history.size() != seen.changes) {
                throw new Refused(List.of(new Complaint("", MEANWHILE)), true);
            }
            Subject before = records.subject(id);
            ObjectNode entry = wanted.deepCopy();
            identify(seen.list, entry);
            refuseOthers(seen.list, entry, Optional.of(id));
            List<Change> changes = changes(seen.list, before, entry, why);
            if (changes.isEmpty()) {
                return;
            }
            boolean isAnother = changes.stream()
                    .anyMatch(change -> change.property().startsWith(STATED)
                            && change.expected()
                                    .filter(value -> !value.isNull())
                                    .isPresent()
                            && !isGrown(change));
            if (isAnother && why.isBlank()) {
                throw new Refused("why", NO_REASON);
            }
            check(seen.list, before, entry, files);
            changes.addAll(0, kept(seen.list, before, files, why));
            if (append(changes, author, head, attempt)) {
                return;
            }
        }
    }

    /** Keeps files, and says that the entry has them. */
    private List<Change> kept(Listed list, Subject before, NavigableMap<String, byte[]> files, String why) {
        List<Change> changes = new ArrayList<>();
        files.forEach((name, bytes) -> {
            KeptFile kept = records.files().put(bytes);
            JsonText value = JsonText.of(Map.of("sha256", kept.sha256().hex(), "size", kept.size()));
            JsonText stands = before.fact(VisitFiles.PREFIX + name).orElse(JsonText.NULL);
            if (!stands.equals(value)) {
                changes.add(Change.set(kind(list), before.id(), VisitFiles.PREFIX + name, value)
                        .because(why)
                        .expecting(stands));
            }
        });
        return changes;
    }

    /** Whether a list only got more entries. */
    private static boolean isGrown(Change change) {
        return isGrown(
                change.expected().orElse(JsonText.NULL).node(), change.value().node());
    }

    private static boolean isGrown(JsonNode before, JsonNode after) {
        if (before.isArray() && after.isArray() && before.size() <= after.size()) {
            for (int i = 0; i < before.size(); i++) {
                if (!isGrown(before.get(i), after.get(i))) {
                    return false;
                }
            }
            return true;
        }
        if (before.isObject() && after.isObject()) {
            List<String> keys = new ArrayList<>();
            before.fieldNames().forEachRemaining(keys::add);
            return keys.stream().allMatch(key -> isGrown(before.path(key), after.path(key)));
        }
        return before.equals(after);
    }

    private boolean append(List<Change> changes, Author author, TreeHead head, int attempt) {
        try {
            records.append(new Submission(records.newSubmission(), author, changes, Optional.of(head)));
            return true;
        } catch (RecordsException e) {
            if (e.id() == RecordsMessage.CHANGED_MEANWHILE && attempt < ATTEMPTS) {
                return false;
            }
            throw e;
        }
    }

    private static Kind kind(Listed list) {
        return Objects.requireNonNull(KINDS.get(list));
    }

    private static List<Change> changes(Listed list, Subject before, ObjectNode entry, String why) {
        NavigableMap<String, JsonText> facts = new TreeMap<>();
        entry.properties().forEach(field -> facts.put(STATED + field.getKey(), JsonText.of(field.getValue())));
        for (String found : FOUND_BY) {
            if (entry.path(found).isTextual()) {
                facts.put(found, JsonText.of(entry.path(found).asText()));
            }
        }
        String id = entry.path("id").asText();
        facts.put(
                "number",
                JsonText.of(
                        entry.path("number").isTextual() ? entry.path("number").asText() : id));
        List<Change> changes = new ArrayList<>();
        facts.forEach((property, value) -> {
            JsonText stands = before.fact(property).orElse(JsonText.NULL);
            if (!stands.equals(value)) {
                changes.add(Change.set(kind(list), before.id(), property, value)
                        .because(why)
                        .expecting(stands));
            }
        });
        before.facts().forEach((property, value) -> {
            boolean isOfEntry = property.startsWith(STATED)
                    || (FOUND_BY.contains(property)
                            && before.fact(STATED + property).isPresent());
            if (isOfEntry && !value.isNull() && !facts.containsKey(property)) {
                changes.add(Change.set(kind(list), before.id(), property, JsonText.NULL)
                        .because(why)
                        .expecting(value));
            }
        });
        return changes;
    }

    // ---- ids

    private void identify(Listed list, ObjectNode entry) {
        if (entry.path("id").asText().isBlank()) {
            String from = entry.path(ID_FROM.getOrDefault(list, "name")).asText();
            // the name plate's own number needs no other word
            String wish = list == Listed.STERILIZERS || list == Listed.LOTS ? from.strip() : slug(from);
            if (!wish.isBlank()) {
                entry.put("id", free(wish, ids(list, wish)));
            }
        }
        if (list == Listed.CLINICS) {
            Set<String> own = new LinkedHashSet<>();
            for (JsonNode site : entry.path("sites")) {
                String id = identify(site, entry.path("id").asText(), "site", own);
                for (JsonNode room : site.path("rooms")) {
                    identify(room, id, "room", own);
                }
            }
        }
    }

    private static String identify(JsonNode part, String within, String word, Set<String> taken) {
        if (part instanceof ObjectNode object && object.path("id").asText().isBlank()) {
            String name = slug(object.path("name").asText());
            object.put("id", free(within + "-" + (name.isBlank() ? word : name), taken));
        }
        taken.add(part.path("id").asText());
        return part.path("id").asText();
    }

    private static String free(String wish, Set<String> taken) {
        for (int i = 2; taken.contains(wish) && i < MOST_SLUGS; i++) {
            String next = wish + "-" + i;
            if (!taken.contains(next)) {
                return next;
            }
        }
        return wish;
    }

    private static String slug(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-").replaceAll("^-|-$", "");
    }

    /** Ids that are taken in a list; of clinics and machines, which may be very many, those that begin like a wish. */
    private Set<String> ids(Listed list, String wish) {
        Set<String> ids = new TreeSet<>();
        if (list == Listed.CLINICS || list == Listed.STERILIZERS) {
            for (int i = 1; i < MOST_SLUGS; i++) {
                String one = i == 1 ? wish : wish + "-" + i;
                if (stated(list, one).isEmpty()) {
                    return ids;
                }
                ids.add(one);
            }
            return ids;
        }
        records.eachSubject(kind(list), subject -> ids.add(subject.text(STATED + "id")));
        return ids;
    }

    private Optional<Subject> stated(Listed list, String id) {
        if (list == Listed.CLINICS || list == Listed.STERILIZERS) {
            return records.exactly(kind(list), "number", id).stream()
                    .filter(one -> one.text(STATED + "id").equals(id))
                    .findFirst();
        }
        List<Subject> found = new ArrayList<>();
        records.eachSubject(kind(list), subject -> {
            if (subject.text(STATED + "id").equals(id)) {
                found.add(subject);
            }
        });
        return found.stream().findFirst();
    }

    /**
     * Refuses what belongs to another entry.
     *
     * @return of a new entry, what only visits made known and the entry describes
     */
    private Optional<Subject> refuseOthers(Listed list, ObjectNode entry, Optional<SubjectId> own)
            throws Refused, FilingException {
        String id = entry.path("id").asText();
        Optional<Subject> same =
                id.isBlank() ? Optional.empty() : stated(list, id).filter(one -> !own.equals(Optional.of(one.id())));
        if (same.isPresent()) {
            throw new Refused("id", "The id %s is taken. Write another one, or open that entry.".formatted(id));
        }
        Map<String, Object> plain = plain(entry);
        if (list == Listed.STERILIZERS) {
            for (Subject other : records.exactly(
                    Kind.STERILIZER, "serial", entry.path("serial").asText())) {
                if (!own.equals(Optional.of(other.id()))
                        && !other.text(STATED + "id").isBlank()
                        && Meant.isSame(other, Meant.machine(plain))) {
                    throw new Refused(
                            "serial",
                            "%s has this maker, model and serial number already. Open that entry."
                                    .formatted(other.text(STATED + "id")));
                }
            }
        }
        if (list == Listed.CLINICS) {
            Set<String> rooms = new TreeSet<>();
            entry.path("sites")
                    .forEach(site -> site.path("rooms")
                            .forEach(room -> rooms.add(room.path("id").asText())));
            for (Subject other : records.usersOf(Use.ROOM, Kind.CLINIC, rooms)) {
                Set<String> theirs = new TreeSet<>(RegisterRooms.roomsOf(other).keySet());
                theirs.retainAll(rooms);
                if (!own.equals(Optional.of(other.id())) && !theirs.isEmpty()) {
                    throw new Refused(
                            "sites",
                            "The room %s belongs to %s. Give this one another id."
                                    .formatted(theirs.iterator().next(), other.text("name")));
                }
            }
        }
        Optional<Shelf> shelf = Shelf.find(list.word());
        if (own.isPresent() || shelf.isEmpty()) {
            return Optional.empty();
        }
        String known = shelf.get().known();
        List<Subject> seen =
                records.exactly(kind(list), known.equals("id") ? "number" : known, text(plain, known)).stream()
                        .filter(one -> one.text(STATED + "id").isBlank())
                        .toList();
        return RegisterMatching.ofVisits(shelf.get(), plain, seen);
    }

    private static String text(Map<String, Object> plain, String key) {
        return plain.get(key) instanceof String text ? text : "";
    }

    /** Texts as texts and lists of maps, as a file would state them. */
    private static Map<String, Object> plain(ObjectNode entry) {
        Map<String, Object> plain = new HashMap<>();
        entry.properties().forEach(field -> plain.put(field.getKey(), plain(field.getValue())));
        return plain;
    }

    static Object plain(JsonNode node) {
        if (node instanceof ObjectNode object) {
            return plain(object);
        }
        if (node.isArray()) {
            List<Object> list = new ArrayList<>();
            node.forEach(one -> list.add(plain(one)));
            return list;
        }
        return node.asText();
    }

    // ---- reading it as a file

    private void check(Listed list, Subject before, ObjectNode entry, NavigableMap<String, byte[]> added)
            throws Refused, IOException, FilingException {
        Map<String, Object> register = new LinkedHashMap<>();
        register.put("steamwright-register", String.valueOf(RegisterFile.FORMAT_VERSION));
        NavigableMap<String, byte[]> files = new TreeMap<>();
        if (list == Listed.INSTRUMENTS) {
            VisitFiles.of(before)
                    .forEach((name, hash) -> files.put(name, records.files().get(hash)));
            files.putAll(added);
            files.put("instruments.yaml", bytes(Map.of("steamwright-instruments", "1", "instruments", List.of(entry))));
            register.put("instruments", "instruments.yaml");
        } else if (list == Listed.CLINICS) {
            checkPlaces(before, entry, register);
        } else if (list == Listed.STERILIZERS) {
            register.put(list.word(), List.of(entry));
            register.put("clinics", clinicsOf(List.of(entry), before.id()));
        } else {
            register.put(list.word(), List.of(entry));
        }
        files.put(RegisterFile.FILE_NAME, bytes(register));
        try (ScratchFolder scratch = new ScratchFolder(files)) {
            RegisterFile.read(scratch.folder());
        } catch (RegisterException unreadable) {
            List<Complaint> complaints = new ArrayList<>();
            for (Problem problem : unreadable.problems()) {
                complaints.add(complaint(list, problem));
            }
            throw new Refused(complaints, false);
        }
    }

    /** A clinic is read with the machines that stand in its rooms: none of them may be left without its room. */
    private void checkPlaces(Subject before, ObjectNode entry, Map<String, Object> register) {
        List<Object> machines = new ArrayList<>();
        List<JsonNode> stated = new ArrayList<>();
        for (Subject machine : records.usersOf(
                Use.ROOM, Kind.STERILIZER, RegisterRooms.roomsOf(before).keySet())) {
            ObjectNode one = stated(machine);
            if (!one.isEmpty()) {
                machines.add(one);
                stated.add(one);
            }
        }
        List<Object> clinics = new ArrayList<>();
        clinics.add(entry);
        clinics.addAll(clinicsOf(stated, before.id()));
        register.put("clinics", clinics);
        if (!machines.isEmpty()) {
            register.put("sterilizers", machines);
        }
    }

    /** The clinics in whose rooms machines stand or stood, but for one. */
    private List<Object> clinicsOf(List<JsonNode> machines, SubjectId but) {
        Set<String> rooms = new TreeSet<>();
        for (JsonNode machine : machines) {
            rooms.add(machine.path("room").asText());
            machine.path("movements").forEach(one -> rooms.add(one.path("to").asText()));
        }
        rooms.remove("");
        List<Object> clinics = new ArrayList<>();
        for (Subject clinic : records.usersOf(Use.ROOM, Kind.CLINIC, rooms)) {
            if (!clinic.id().equals(but)) {
                clinics.add(stated(clinic));
            }
        }
        return clinics;
    }

    private static byte[] bytes(Map<String, Object> file) {
        return JsonText.of(file).text().getBytes(StandardCharsets.UTF_8);
    }

    private static Complaint complaint(Listed list, Problem problem) {
        List<String> steps = problem.way().steps();
        boolean isOwn = steps.size() > 1
                && steps.get(0).equals(list.word())
                && steps.get(1).equals("1");
        String field = isOwn ? String.join("/", steps.subList(2, steps.size())) : "";
        return isOwn && problem.flaw().sort() == Flaw.Sort.MISSING
                ? new Complaint(RegisterForm.name(field, problem.flaw().about()), NEEDED)
                : new Complaint(field, problem.text(), Optional.of(problem.flaw()));
    }
}
