package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.intake.register.RegisterTable;
import org.steamwright.intake.register.RegisterYaml;
import org.steamwright.intake.register.TableMapping;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.register.ClinicRecord;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterChange;
import org.steamwright.visit.register.RegisterComparison;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * Tables of machines in the record: each is entered as one batch that can be taken back as one.
 *
 * <p>A batch is a subject of its own that keeps the table. What it changed stands in the journal, in the submission that it
 * came with; taking it back is a submission too, and nothing of either goes away.
 */
public final class RegisterBatches {

    private static final String TABLE = VisitFiles.PREFIX + "table.csv";
    private static final String MAPPING = VisitFiles.PREFIX + "mapping.yaml";
    private static final String UNDONE = "undone";
    private static final int PAGE = 500;
    private static final int MOST_CONFLICTS = 50;

    private final Records records;
    private final RegisterFiling filing;

    /** @param records opened */
    public RegisterBatches(Records records) {
        this.records = records;
        this.filing = new RegisterFiling(records);
    }

    /**
     * A table that was entered.
     *
     * @param id of the batch
     * @param number by which people name it, such as B-1
     * @param file name of the table
     * @param at when it was entered
     * @param by who entered it
     * @param rows what became of its rows, in words
     * @param undone why it was taken back; empty while it stands
     */
    public record Batch(
            SubjectId id, String number, String file, Instant at, String by, String rows, Optional<String> undone) {}

    /**
     * What a table would do.
     *
     * @param table as it was understood
     * @param comparison with the register of the record
     * @param entered the batch by which the same bytes with the same mapping were entered already; empty if they were not
     */
    public record Preview(RegisterTable table, RegisterComparison comparison, Optional<Batch> entered) {}

    /**
     * What became of a table.
     *
     * @param preview of it
     * @param batch that holds it now, or held it already; empty if there was nothing to enter
     * @param changed facts that changed by this, those of the batch not counted
     */
    public record Entered(Preview preview, Optional<Batch> batch, int changed) {}

    /** What a table would do; nothing is entered. */
    public Preview preview(Path table, Optional<Path> mapping) throws IOException, RegisterException, FilingException {
        return preview(table, mapping, filing.register());
    }

    private Preview preview(Path table, Optional<Path> mapping, Register register)
            throws IOException, RegisterException {
        TableMapping meaning = mapping.isPresent() ? TableMapping.read(mapping.get()) : TableMapping.SNIFFED;
        RegisterTable read = RegisterTable.read(table, meaning);
        Optional<Batch> entered =
                same(Hash.ofContent(Files.readAllBytes(table)), mapping.isPresent() ? hash(mapping.get()) : "");
        return new Preview(read, read.compare(register), entered);
    }

    private static String hash(Path file) throws IOException {
        return Hash.ofContent(Files.readAllBytes(file)).hex();
    }

    /** The batch of the same bytes that stands. */
    private Optional<Batch> same(Hash table, String mapping) {
        return records.usedBy(Use.FILE, table.hex(), Optional.empty(), Integer.MAX_VALUE).stream()
                .filter(subject ->
                        subject.kind() == Kind.BATCH && subject.fact(UNDONE).isEmpty())
                .filter(subject -> sha256(subject, TABLE).equals(table.hex())
                        && sha256(subject, MAPPING).equals(mapping))
                .findFirst()
                .map(this::batch);
    }

    private static String sha256(Subject subject, String property) {
        return subject.fact(property)
                .map(fact -> fact.node().path("sha256").asText())
                .orElse("");
    }

    private Batch batch(Subject subject) {
        JournalEntry first = records.history(subject.id()).get(0);
        return new Batch(
                subject.id(),
                subject.text("number"),
                subject.text("name"),
                first.at(),
                first.author().name(),
                subject.text("rows"),
                subject.fact(UNDONE).map(JsonText::plain));
    }

    /** Every table that was entered, the first one first. */
    public List<Batch> all() {
        List<Batch> all = new ArrayList<>();
        List<Subject> subjects = new ArrayList<>();
        records.eachSubject(Kind.BATCH, subjects::add);
        subjects.forEach(subject -> all.add(batch(subject)));
        return all;
    }

    /**
     * The table of that number.
     *
     * @throws FilingException if there is none
     */
    public Batch find(String number) throws FilingException {
        return all().stream()
                .filter(batch -> batch.number().equals(number.strip()))
                .findFirst()
                .orElseThrow(() -> new FilingException(
                        "no table was entered as '" + number + "'",
                        "'undo' without a number lists the tables that were entered."));
    }

    /**
     * Enters what a table changes, all rows that can be taken or none. The same bytes entered again change nothing, unless
     * they were taken back in between.
     *
     * @param table CSV file
     * @param mapping what its headings mean; empty if they are known words
     * @param author who enters it
     * @param why may be blank
     * @throws RegisterException if it is no table, or the register can't be read any more
     * @throws org.steamwright.records.RecordsException if an entry was changed by somebody else at the same time
     */
    public Entered enter(Path table, Optional<Path> mapping, Author author, String why)
            throws IOException, RegisterException, FilingException, VisitFolderException {
        Register register = filing.register();
        Preview preview = preview(table, mapping, register);
        if (preview.entered().isPresent()) {
            return new Entered(preview, preview.entered(), 0);
        }
        List<Change> entries = changes(preview.comparison().changes(), register, why);
        if (entries.isEmpty()) {
            return new Entered(preview, Optional.empty(), 0);
        }
        SubjectId id = records.newSubject();
        List<Change> changes = new ArrayList<>();
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("number", "B-" + (all().size() + 1));
        facts.put("name", String.valueOf(table.getFileName()));
        facts.put("rows", rows(preview.comparison()));
        facts.put(TABLE, kept(table));
        if (mapping.isPresent()) {
            facts.put(MAPPING, kept(mapping.get()));
        }
        facts.forEach((property, value) ->
                changes.add(Change.set(Kind.BATCH, id, property, value).because(why)));
        changes.addAll(entries);
        records.append(author, changes);
        return new Entered(preview, Optional.of(batch(records.subject(id))), entries.size());
    }

    private Map<String, Object> kept(Path file) {
        KeptFile kept = records.files().put(file);
        return Map.of("sha256", kept.sha256().hex(), "size", kept.size());
    }

    private static String rows(RegisterComparison comparison) {
        List<String> counts = new ArrayList<>();
        for (RegisterComparison.Answer answer : RegisterComparison.Answer.values()) {
            counts.add(comparison.count(answer) + " " + answer.word());
        }
        return String.join(", ", counts);
    }

    /** Facts for changed entries. Keys that mean the same as before stay as they were stated. */
    private List<Change> changes(List<RegisterChange> wanted, Register before, String why)
            throws IOException, FilingException, VisitFolderException {
        Register after = RegisterChange.apply(wanted, before);
        Map<String, Register.Place> placesBefore = before.places();
        Map<String, Register.Place> placesAfter = after.places();
        List<Change> changes = new ArrayList<>();
        for (RegisterChange change : wanted) {
            if (change instanceof RegisterChange.OfClinic clinic) {
                ClinicRecord now = clinic.after().orElseThrow();
                change(
                        Shelf.CLINICS,
                        known(Shelf.CLINICS, stated(now), now.id(), now.name()),
                        clinic.before().isPresent() ? stated(clinic.before().get()) : Map.of(),
                        stated(now),
                        why,
                        changes);
            } else if (change instanceof RegisterChange.OfSterilizer machine) {
                SterilizerRecord now = machine.after().orElseThrow();
                change(
                        Shelf.STERILIZERS,
                        known(
                                Shelf.STERILIZERS,
                                stated(now, placesAfter),
                                now.id(),
                                now.identity().serial()),
                        machine.before().isPresent() ? stated(machine.before().get(), placesBefore) : Map.of(),
                        stated(now, placesAfter),
                        why,
                        changes);
            }
        }
        return changes;
    }

    /** The subject with that id in the register, else one that only a visit made known by its name or serial number. */
    private Optional<Subject> known(Shelf shelf, Map<?, ?> entry, String id, String name) throws FilingException {
        Optional<Subject> stated = records.exactly(shelf.kind(), "number", id).stream()
                .filter(subject -> RegisterReading.statedEntry(subject).containsKey("id"))
                .reduce((earlier, later) -> later);
        return stated.isPresent()
                ? stated
                : RegisterMatching.ofVisits(
                        shelf,
                        entry,
                        records.exactly(shelf.kind(), shelf.known(), name).stream()
                                .filter(subject ->
                                        !RegisterReading.statedEntry(subject).containsKey("id"))
                                .toList());
    }

    private void change(
            Shelf shelf, Optional<Subject> subject, Map<?, ?> before, Map<?, ?> after, String why, List<Change> changes)
            throws FilingException {
        Map<Object, Object> entry = new LinkedHashMap<>();
        subject.map(RegisterReading::statedEntry)
                .orElse(Map.of())
                .forEach((key, value) -> entry.put(key, plain(value)));
        after.forEach((key, value) -> {
            if (!value.equals(before.get(key))) {
                entry.put(key, value);
            }
        });
        before.keySet().forEach(key -> {
            if (!after.containsKey(key)) {
                entry.remove(key);
            }
        });
        List<Change> own = new ArrayList<>();
        new RegisterTaking(records).changes(shelf, entry, subject, Path.of(""), why, own);
        for (Change change : own) {
            changes.add(change.expecting(
                    subject.flatMap(one -> one.fact(change.property())).orElse(JsonText.NULL)));
        }
    }

    /** A text as text, as a file would state it. */
    private static Object plain(Object value) {
        return value instanceof JsonNode node && node.isTextual() ? node.asText() : value;
    }

    private static Map<?, ?> stated(ClinicRecord clinic) throws VisitFolderException {
        return entry(new Register(List.of(clinic), List.of(), List.of(), List.of(), List.of(), List.of()), "clinics/1");
    }

    private static Map<?, ?> stated(SterilizerRecord machine, Map<String, Register.Place> places)
            throws VisitFolderException {
        Optional<Register.Place> place = Optional.ofNullable(places.get(machine.room()));
        return entry(
                new Register(
                        place.map(Register.Place::clinic).map(List::of).orElse(List.of()),
                        List.of(machine),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of()),
                "sterilizers/1");
    }

    private static Map<?, ?> entry(Register register, String place) throws VisitFolderException {
        String yaml = RegisterYaml.write(new RegisterFile.Contents(register, Optional.empty()));
        Object entry = StatedFacts.of(RegisterFile.FILE_NAME, yaml.getBytes(StandardCharsets.UTF_8))
                .get(place);
        if (entry instanceof Map<?, ?> map) {
            return map;
        }
        throw new IllegalStateException("a written register has no " + place);
    }

    /**
     * Something that keeps a batch from being taken back.
     *
     * @param where entry and fact
     * @param what is there now and since when
     */
    public record Conflict(String where, String what) {
        @Override
        public String toString() {
            return where + ": " + what;
        }
    }

    /**
     * What taking a batch back would do.
     *
     * @param batch that is taken back
     * @param facts how many would be as they were before
     * @param conflicts that keep it from being done; empty if nothing does
     */
    public record Undoing(Batch batch, int facts, List<Conflict> conflicts) {}

    /** What taking a batch back would do; nothing is entered. */
    public Undoing undoing(Batch batch) throws IOException, FilingException {
        List<Conflict> conflicts = new ArrayList<>();
        Map<SubjectId, Map<String, JsonText>> others = new LinkedHashMap<>();
        int[] facts = {0};
        Map<String, String> properties = new HashMap<>();
        eachPage(batch, page -> {
            Map<SubjectId, Subject> now = new HashMap<>();
            records.subjects(page.stream().map(JournalEntry::subject).distinct().toList())
                    .forEach(subject -> now.put(subject.id(), subject));
            for (JournalEntry entry : page) {
                Subject subject = now.computeIfAbsent(entry.subject(), records::subject);
                JsonText value = subject.fact(entry.property()).orElse(JsonText.NULL);
                others.computeIfAbsent(entry.subject(), unseen -> new LinkedHashMap<>())
                        .put(properties.computeIfAbsent(entry.property(), same -> same), old(entry));
                if (!value.equals(entry.newValue()) && conflicts.size() < MOST_CONFLICTS) {
                    conflicts.add(changed(subject, entry, value));
                }
            }
            facts[0] += page.size();
        });
        List<SubjectId> ids = List.copyOf(others.keySet());
        for (int from = 0; from < ids.size() && conflicts.size() < MOST_CONFLICTS; from += PAGE) {
            for (Subject subject : records.subjects(ids.subList(from, Math.min(ids.size(), from + PAGE)))) {
                if (isGone(subject, others.getOrDefault(subject.id(), Map.of()))) {
                    conflicts.addAll(named(subject));
                }
            }
        }
        if (conflicts.isEmpty()) {
            try {
                filing.contents(others);
            } catch (RegisterException unreadable) {
                unreadable
                        .problems()
                        .forEach(problem -> conflicts.add(new Conflict(
                                "the register without this table",
                                "%s. Later entries rely on it".formatted(problem.text()))));
            }
        }
        return new Undoing(batch, facts[0], conflicts);
    }

    /** The value before; the many that are none are one. */
    private static JsonText old(JournalEntry entry) {
        return entry.oldValue().isNull() ? JsonText.NULL : entry.oldValue();
    }

    private static String title(Subject subject) {
        String number = subject.text("number");
        return subject.kind().word() + " "
                + (number.isBlank() ? subject.text("serial") + subject.text("name") : number);
    }

    private Conflict changed(Subject subject, JournalEntry entry, JsonText now) {
        JournalEntry last = entry;
        for (JournalEntry later : records.history(subject.id())) {
            if (later.property().equals(entry.property())) {
                last = later;
            }
        }
        return new Conflict(
                "%s, '%s'".formatted(title(subject), entry.property()),
                "the table left %s, now it is %s (by %s at %s)"
                        .formatted(entry.newValue(), now, last.author().name(), last.at()));
    }

    private static boolean isGone(Subject subject, Map<String, JsonText> facts) {
        return subject.facts().entrySet().stream()
                .allMatch(fact -> fact.getValue().isNull()
                        || facts.getOrDefault(fact.getKey(), fact.getValue()).isNull());
    }

    /** Who names a subject that would be gone. */
    private List<Conflict> named(Subject subject) {
        Use use = subject.kind() == Kind.CLINIC ? Use.CLINIC : Use.STERILIZER;
        List<Conflict> conflicts = new ArrayList<>();
        for (Subject user : records.usedBy(use, subject.id().toString(), Optional.empty(), MOST_CONFLICTS)) {
            conflicts.add(new Conflict(title(subject), "%s names it".formatted(title(user))));
        }
        return conflicts;
    }

    /** What the batch changed, in the order in which it did, page by page; its own facts left out. */
    private void eachPage(Batch batch, Consumer<List<JournalEntry>> taker) {
        JournalEntry first = records.history(batch.id()).get(0);
        for (long from = first.number(); ; from += PAGE) {
            List<JournalEntry> page = records.entries(from, PAGE);
            List<JournalEntry> own = page.stream()
                    .filter(entry -> entry.submission().equals(first.submission()))
                    .toList();
            taker.accept(own.stream()
                    .filter(entry -> !entry.subject().equals(batch.id()))
                    .toList());
            if (own.size() < PAGE) {
                return;
            }
        }
    }

    /**
     * Takes a batch back: every fact that it changed is as it was before, in one submission.
     *
     * @param batch that stands
     * @param author who takes it back
     * @param why kept with the batch and with each fact; not blank
     * @throws FilingException if it was taken back already, or something changed since, with what and where
     */
    public Undoing undo(Batch batch, Author author, String why) throws IOException, FilingException {
        if (batch.undone().isPresent()) {
            throw new FilingException(
                    "%s was taken back already: %s"
                            .formatted(batch.number(), batch.undone().get()),
                    "Enter the table again if it is wanted.");
        }
        if (why.isBlank()) {
            throw new FilingException("no reason is stated for taking a table back", "Say why in one sentence.");
        }
        var head = records.head();
        Undoing undoing = undoing(batch);
        if (!undoing.conflicts().isEmpty()) {
            throw new FilingException(
                    "%s is not taken back, because something changed since: %s"
                            .formatted(
                                    batch.number(),
                                    String.join(
                                            "; ",
                                            new TreeSet<>(undoing.conflicts().stream()
                                                    .map(Conflict::toString)
                                                    .toList()))),
                    "Nothing was entered. Mend these entries by hand.");
        }
        List<Change> changes = new ArrayList<>();
        changes.add(Change.set(Kind.BATCH, batch.id(), UNDONE, why).because(why));
        Map<String, String> properties = new HashMap<>();
        eachPage(batch, page -> {
            for (JournalEntry entry : page) {
                changes.add(Change.set(
                                entry.kind(),
                                entry.subject(),
                                properties.computeIfAbsent(entry.property(), same -> same),
                                old(entry))
                        .because(why));
            }
        });
        // the last one first; nothing came between, or the head is another one
        Collections.reverse(changes.subList(1, changes.size()));
        records.append(new Submission(records.newSubmission(), author, changes, Optional.of(head.tree())));
        return undoing;
    }
}
