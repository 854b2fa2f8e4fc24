package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.steamwright.filing.DraftRefusal.Reason;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.AssessedVisit;

/**
 * A visit that is being written, as it stood when it was looked at. Its facts are those of a visit file, with the same keys and
 * words; beside them stand notes of the way, which are kept and taken back like facts and are no part of the visit.
 */
public final class Draft {

    /** Facts that are notes of the way begin with this. */
    static final String NOTES = "way/";

    private static final String UNDONE = "way-back";

    private final Drafts drafts;
    private final Subject subject;
    private final FactTree tree;
    /** Found once, as pages ask for them again and again; the visit that this is a look at does not change. */
    private @Nullable NavigableMap<String, KeptFile> files;

    private @Nullable SortedMap<String, String> notes;

    Draft(Drafts drafts, Subject subject) {
        this.drafts = drafts;
        this.subject = subject;
        this.tree = tree(subject);
    }

    static FactTree tree(Subject subject) {
        return FactTree.ofFacts(below(subject, Filing.STATED));
    }

    private static SortedMap<String, JsonText> below(Subject subject, String prefix) {
        SortedMap<String, JsonText> below = new TreeMap<>();
        subject.facts().forEach((property, value) -> {
            if (property.startsWith(prefix) && !value.isNull()) {
                below.put(property.substring(prefix.length()), value);
            }
        });
        return below;
    }

    /** The visit as it stands by now. */
    public Draft now() {
        return drafts.of(subject.id());
    }

    /** Identity. */
    public SubjectId id() {
        return subject.id();
    }

    /** The visit as the record has it. */
    public Subject subject() {
        return subject;
    }

    /** Report number. */
    public String number() {
        return subject.text("number");
    }

    /** Whether it is signed, so that nothing changes any more. */
    public boolean isSigned() {
        return drafts.records().isSealed(subject.id());
    }

    /** The stated facts as maps, lists and texts; not to be changed. */
    public SortedMap<String, Object> facts() {
        return tree.root();
    }

    /** The value at a path: a text, a list or a map. */
    public Optional<Object> find(FactPath path) {
        return tree.find(path);
    }

    /** The text at a path; empty text if there is none. */
    public String text(FactPath path) {
        return tree.find(path)
                .map(value -> value instanceof String text ? text : "")
                .orElse("");
    }

    /** Number of entries of the list at a path; 0 if there is none. */
    public int count(FactPath list) {
        return tree.find(list)
                .map(value -> value instanceof List<?> entries ? entries.size() : 0)
                .orElse(0);
    }

    /** Names and content hashes of its files, without the visit file itself. */
    public NavigableMap<String, KeptFile> files() {
        NavigableMap<String, KeptFile> found = files;
        if (found == null) {
            found = Collections.unmodifiableNavigableMap(findFiles());
            files = found;
        }
        return found;
    }

    private NavigableMap<String, KeptFile> findFiles() {
        NavigableMap<String, KeptFile> files = new TreeMap<>();
        below(subject, VisitFiles.PREFIX).forEach((name, value) -> files.put(name, kept(value)));
        files.remove(Filing.VISIT_FILE);
        return files;
    }

    private static KeptFile kept(JsonText file) {
        return new KeptFile(
                Hash.ofHex(file.node().path("sha256").asText()),
                file.node().path("size").asLong());
    }

    /**
     * Copies a file to a place where nothing is yet.
     *
     * @return whether the visit has such a file
     * @throws IOException if the copy can't be written
     */
    public boolean copy(String file, Path to) throws IOException {
        Optional<KeptFile> kept = Optional.ofNullable(files().get(file));
        if (kept.isPresent()) {
            drafts.records().files().copy(kept.get().sha256(), to);
        }
        return kept.isPresent();
    }

    /**
     * The bytes of a file.
     *
     * @throws org.steamwright.records.RecordsException if they are missing or damaged
     */
    public Optional<byte[]> bytes(String file) {
        return Optional.ofNullable(files().get(file))
                .map(kept -> drafts.records().files().get(kept.sha256()));
    }

    /** A note of the way; empty text if there is none. */
    public String note(String name) {
        return subject.text(NOTES + name);
    }

    /** All notes of the way by name. */
    public SortedMap<String, String> notes() {
        SortedMap<String, String> found = notes;
        if (found == null) {
            found = Collections.unmodifiableSortedMap(notes(subject));
            notes = found;
        }
        return found;
    }

    static SortedMap<String, String> notes(Subject subject) {
        SortedMap<String, String> notes = new TreeMap<>();
        below(subject, NOTES).forEach((name, value) -> notes.put(name, value.plain()));
        return notes;
    }

    /** A change of several facts and files that are kept together. */
    public DraftChange change() {
        return new DraftChange(drafts, subject.id());
    }

    /**
     * Sets one fact.
     *
     * @param path of the fact
     * @param value text, list or map; empty, blank or with nothing in it takes the fact away
     * @param seen value that was held to stand there; another one in its place is not overwritten
     * @param author who
     * @param why reason; may be blank
     * @return the visit after it
     * @throws DraftRefusal if it was not kept
     */
    public Draft set(FactPath path, Optional<Object> value, Optional<Object> seen, Author author, String why)
            throws DraftRefusal {
        return change().set(path, value, seen).keep(author, why);
    }

    /** Sets one fact whatever stands there now. */
    public Draft set(FactPath path, Optional<Object> value, Author author, String why) throws DraftRefusal {
        return change().set(path, value).keep(author, why);
    }

    /** Adds an entry at the end of a list. */
    public Draft add(FactPath list, Object entry, Author author, String why) throws DraftRefusal {
        return change().add(list, entry).keep(author, why);
    }

    /** Takes a fact or an entry of a list away; entries behind it move up. */
    public Draft remove(FactPath path, Author author, String why) throws DraftRefusal {
        return change().remove(path).keep(author, why);
    }

    /** Makes those subjects in the record that the visit names and the record does not know: clinic, sterilizers, technicians. */
    public Draft settle(Author author) throws DraftRefusal {
        return change().settling().keep(author, "");
    }

    /** Problems for which it can't be assessed yet, or what follows from it. */
    public DraftReading read() throws IOException, FilingException {
        return drafts.read(subject);
    }

    /** The same if it is at hand; nothing is read for it. */
    public Optional<DraftReading> peek() {
        return drafts.peek(subject);
    }

    /** Problems that show without reading a recording. */
    public List<DraftProblem> glance() throws IOException, FilingException {
        try {
            return drafts.glance(tree, files());
        } catch (DraftRefusal e) {
            throw new IllegalStateException("what was kept can't be written: " + e.getMessage(), e);
        }
    }

    /** Its reference instruments, as far as they can be read by now. */
    public DraftInstruments instruments() throws IOException, FilingException {
        try {
            return drafts.instruments(tree, files());
        } catch (DraftRefusal e) {
            throw new IllegalStateException("what was kept can't be written: " + e.getMessage(), e);
        }
    }

    /** Problems for which it can't be assessed yet. */
    public List<DraftProblem> problems() throws IOException, FilingException {
        return read().problems();
    }

    /** What follows from it, once it can be read. */
    public Optional<AssessedVisit> assessed() throws IOException, FilingException {
        return read().assessed();
    }

    /**
     * One change of the visit.
     *
     * @param id identity of the submission
     * @param author who
     * @param at when
     * @param why reason; may be blank
     * @param facts that changed, as far down as they did; files by {@code files/name}, notes by {@code way/name}
     */
    public record Step(UUID id, Author author, Instant at, String why, List<ChangedFact> facts) {}

    private record Kept(UUID id, List<JournalEntry> entries) {}

    /** The last change that was not taken back, but for the beginning of the visit; empty if there is none. */
    public Optional<Step> lastChange() {
        return lastKept().map(this::step);
    }

    private Step step(Kept kept) {
        JournalEntry first = kept.entries.get(0);
        List<ChangedFact> facts = new ArrayList<>();
        Map<String, JsonText> before = new TreeMap<>();
        Map<String, JsonText> after = new TreeMap<>();
        below(subject, Filing.STATED).forEach((key, value) -> {
            before.put(key, value);
            after.put(key, value);
        });
        for (JournalEntry entry : kept.entries) {
            if (entry.property().startsWith(Filing.STATED)) {
                String key = entry.property().substring(Filing.STATED.length());
                put(before, key, entry.oldValue());
                put(after, key, entry.newValue());
            } else if (isOfFileOrNote(entry.property())) {
                facts.add(new ChangedFact(
                        FactPath.of(entry.property()), value(entry.oldValue()), value(entry.newValue())));
            }
        }
        facts.addAll(0, FactTree.differences(FactTree.ofFacts(before), FactTree.ofFacts(after)));
        return new Step(kept.id, first.author(), first.at(), first.why(), facts);
    }

    private static boolean isOfFileOrNote(String property) {
        return property.startsWith(NOTES)
                || (property.startsWith(VisitFiles.PREFIX) && !property.equals(VisitFiles.PREFIX + Filing.VISIT_FILE));
    }

    private static void put(Map<String, JsonText> facts, String key, JsonText value) {
        putOrTake(facts, key, value, Function.identity());
    }

    private static Optional<Object> value(JsonText value) {
        return value.isNull() ? Optional.empty() : Optional.of(FactTree.frozen(value));
    }

    /** The last submission of the visit's own facts, files and notes; answers of a review and what else comes to it are none. */
    private Optional<Kept> lastKept() {
        Map<UUID, List<JournalEntry>> submissions = new LinkedHashMap<>();
        for (JournalEntry entry : drafts.records().history(subject.id())) {
            submissions
                    .computeIfAbsent(entry.submission(), id -> new ArrayList<>())
                    .add(entry);
        }
        List<Kept> standing = new ArrayList<>();
        submissions.forEach((id, entries) -> {
            Optional<String> undone = entries.stream()
                    .filter(entry -> entry.property().equals(UNDONE))
                    .map(entry -> entry.newValue().plain())
                    .findFirst();
            if (undone.isPresent()) {
                standing.removeIf(kept -> kept.id.toString().equals(undone.get()));
            } else if (entries.stream().anyMatch(entry -> isOwn(entry.property()))) {
                standing.add(new Kept(id, entries));
            }
        });
        return standing.size() > 1 ? Optional.of(standing.get(standing.size() - 1)) : Optional.empty();
    }

    private static boolean isOwn(String property) {
        return property.startsWith(Filing.STATED) || isOfFileOrNote(property);
    }

    /** What has to be set so that the last change is taken back. */
    record TakenBack(
            FactTree tree,
            NavigableMap<String, KeptFile> files,
            SortedMap<String, String> notes,
            Optional<KeptFile> visitFile,
            Change mark) {}

    /**
     * The visit as it was before the last change.
     *
     * @param seen the change that is meant; empty if any is
     */
    TakenBack takenBack(Optional<UUID> seen) throws DraftRefusal {
        Kept last = lastKept()
                .orElseThrow(() -> new DraftRefusal(
                        Reason.NOTHING_TO_UNDO,
                        "there is no change of this visit to take back",
                        "Nothing has to be done."));
        if (seen.isPresent() && !seen.get().equals(last.id)) {
            throw new DraftRefusal(
                    Reason.CHANGED_MEANWHILE,
                    "another change of this visit came after the one that was to be taken back",
                    "Look at the newer change, then take back what you mean.");
        }
        SortedMap<String, JsonText> stated = below(subject, Filing.STATED);
        NavigableMap<String, KeptFile> files = new TreeMap<>(files());
        SortedMap<String, String> notes = new TreeMap<>(notes());
        Optional<KeptFile> visitFile = Optional.empty();
        for (JournalEntry entry : last.entries) {
            String property = entry.property();
            if (property.equals(VisitFiles.PREFIX + Filing.VISIT_FILE)) {
                // the bytes as they came, which may have been written by another hand
                visitFile = Optional.of(kept(entry.oldValue()));
            } else if (property.startsWith(Filing.STATED)) {
                put(stated, property.substring(Filing.STATED.length()), entry.oldValue());
            } else if (property.startsWith(NOTES)) {
                putOrTake(notes, property.substring(NOTES.length()), entry.oldValue(), JsonText::plain);
            } else if (isOfFileOrNote(property)) {
                putOrTake(files, property.substring(VisitFiles.PREFIX.length()), entry.oldValue(), Draft::kept);
            }
        }
        Change mark = Change.set(Kind.VISIT, subject.id(), UNDONE, JsonText.of(last.id.toString()))
                .expecting(subject.fact(UNDONE).orElse(JsonText.NULL));
        return new TakenBack(FactTree.ofFacts(stated), files, notes, visitFile, mark);
    }

    private static <T> void putOrTake(Map<String, T> map, String key, JsonText value, Function<JsonText, T> read) {
        if (value.isNull()) {
            map.remove(key);
        } else {
            map.put(key, read.apply(value));
        }
    }

    /**
     * Takes back the last change that was not taken back yet. The journal keeps both; the beginning of the visit is not taken
     * back, and neither is what a review or an issue wrote beside its facts.
     *
     * @param author who takes it back
     * @param seen the change that is meant; another one is not taken back in its place
     * @return the visit after it
     * @throws DraftRefusal if there is none, another came after it, the visit is signed, or the visit as it was before can't
     *     stand in this record any more
     */
    public Draft undo(Author author, Optional<UUID> seen) throws DraftRefusal {
        return change().takingBack(seen).keep(author, "taken back");
    }
}
