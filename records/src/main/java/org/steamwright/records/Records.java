package org.steamwright.records;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.ConsistencyProof;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.InclusionProof;
import org.steamwright.records.store.Database;
import org.steamwright.records.store.Ledger;
import org.steamwright.records.store.Reading;

/**
 * The record: facts with their history, files, and ways to find them. What {@link #append} returns from is kept over a loss
 * of power. May be used by several threads.
 */
public final class Records implements AutoCloseable {

    private final Place place;
    private final Clock clock;
    private final Database database;
    private final DueRule dueRule;
    private final Ledger ledger;
    private final Reading reading;
    private final Blobs files;
    private final Identities identities;

    private Records(Place place, Clock clock, DueRule dueRule, Database database) {
        this.place = place;
        this.clock = clock;
        this.database = database;
        this.dueRule = dueRule;
        this.ledger = new Ledger(database, clock, dueRule);
        this.reading = new Reading(database, dueRule);
        this.files = new Blobs(place.files());
        this.identities = new Identities(clock, new SecureRandom());
    }

    /** Opens the record without a rule for due dates. */
    public static Records open(Place place, Clock clock) {
        return open(place, clock, DueRule.NONE);
    }

    /**
     * Opens the record at a place, and makes it if there is none.
     *
     * @param place folder, or server and folder
     * @param clock time and offset of entries
     * @param dueRule the domain's rule for due dates
     * @throws RecordsException if it can't be opened, or would not keep what it acknowledges
     */
    public static Records open(Place place, Clock clock, DueRule dueRule) {
        Surroundings.checkFolder(place);
        Database database = Database.open(place);
        boolean isOpened = false;
        try {
            Records records = new Records(place, clock, dueRule, database);
            records.reading.bringIndexUpToDate();
            isOpened = true;
            return records;
        } finally {
            if (!isOpened) {
                database.close();
            }
        }
    }

    /** Where this record lies. */
    public Place place() {
        return place;
    }

    /** Time as this record takes it. */
    public Clock clock() {
        return clock;
    }

    /** Things about the place that should be known but do not forbid its use, in words. */
    public List<String> warnings() {
        return Surroundings.warnings(place);
    }

    /** The tables, for the other packages of this module. */
    public Database database() {
        return database;
    }

    /** The rule for due dates that this record was opened with. */
    public DueRule dueRule() {
        return dueRule;
    }

    /** Files of visits. */
    public Blobs files() {
        return files;
    }

    /** A new identity for a subject. */
    public SubjectId newSubject() {
        return identities.nextSubject();
    }

    /** A new identity for a submission; make it before the first attempt and keep it for the next. */
    public UUID newSubmission() {
        return identities.next();
    }

    /**
     * Keeps the changes, all or none. What is equal already makes no entry.
     *
     * @return the head of the journal with these changes in it
     * @throws RecordsException if nothing was kept, or it is not known whether it was; the message says which
     */
    public JournalHead append(Author author, List<Change> changes) {
        return append(new Submission(newSubmission(), author, changes));
    }

    /** Keeps a submission once, however often it is sent; the head that it had got. */
    public JournalHead append(Submission submission) {
        return appendAll(List.of(submission));
    }

    /**
     * Keeps a submission together with what lies beside the journal: both or neither.
     *
     * @param beside is done in the same transaction, after the entries
     */
    public JournalHead appendWith(Submission submission, Ledger.Beside beside) {
        return ledger.append(List.of(submission), beside);
    }

    /** Keeps many submissions in one transaction: for bringing in a register. */
    public JournalHead appendAll(List<Submission> submissions) {
        return ledger.append(submissions);
    }

    /**
     * Keeps entries of an export as they are; they follow the last entry here.
     *
     * @throws RecordsException if they do not follow, or do not fit each other
     */
    public JournalHead replay(List<JournalEntry> entries) {
        return ledger.replay(entries);
    }

    /** A subject with its facts, if there is one. */
    public Optional<Subject> find(SubjectId id) {
        return reading.find(id);
    }

    /**
     * A subject with its facts.
     *
     * @throws RecordsException if there is none
     */
    public Subject subject(SubjectId id) {
        return find(id).orElseThrow(() -> new RecordsException(
                RecordsMessage.SUBJECT_UNKNOWN, id + ": there is no such subject in " + database.name() + "."));
    }

    /** Subjects of a kind in the order of their making. */
    public List<Subject> subjects(Kind kind, int limit) {
        return reading.subjects(kind, limit);
    }

    /** Subjects of a kind from a place in the order of their making on: a page of a long list. */
    public List<Subject> subjects(Kind kind, long from, int limit) {
        return reading.page(kind, from, limit);
    }

    /** How many subjects of a kind there are. */
    public long count(Kind kind) {
        return reading.count(kind);
    }

    /** Visits whose day is that one or a later one, within ten years; the earliest first. */
    public List<Subject> visitsFrom(LocalDate day, int limit) {
        return reading.visitsFrom(day, limit);
    }

    /** Subjects of a kind that were made last, the newest first. */
    public List<Subject> newest(Kind kind, int limit) {
        return newest(kind, 0, limit);
    }

    /** The same from a place on: a page of a long list. */
    public List<Subject> newest(Kind kind, long from, int limit) {
        return reading.newest(kind, from, limit);
    }

    /** Every subject of a kind, one after the other, all as they stand at one moment. */
    public void eachSubject(Kind kind, Consumer<Subject> taker) {
        reading.eachSubject(kind, taker);
    }

    /**
     * Subjects with words that begin as typed. Case, accents and punctuation do not matter; each word of the question has to
     * be met.
     */
    public Found find(String typed, int limit) {
        return reading.find(typed, Set.of(), limit);
    }

    /** The same among subjects of these kinds. */
    public Found find(String typed, Set<Kind> kinds, int limit) {
        return reading.find(typed, kinds, limit);
    }

    /**
     * Subjects of a kind of which a fact has exactly that text, the oldest first. Of facts that are searched as a whole only,
     * such as a name, a number or a serial number.
     */
    public List<Subject> exactly(Kind kind, String property, String text) {
        return reading.exactly(kind, property, text);
    }

    /** The subjects with these ids, in that order; one that is not there is left out. */
    public List<Subject> subjects(List<SubjectId> ids) {
        return reading.byId(ids);
    }

    /**
     * Subjects that used something, newest first.
     *
     * @param use in what way
     * @param what its id, name, number or version, as it stands in the fact
     * @param after the last subject of the page before; empty for the first page
     * @param limit length of a page
     */
    public List<Subject> usedBy(Use use, String what, Optional<SubjectId> after, int limit) {
        return reading.usedBy(use, what, after, limit);
    }

    /** Subjects of a kind that used any of these things, in the order of their making. */
    public List<Subject> usersOf(Use use, Kind kind, Set<String> whats) {
        return reading.usersOf(use, kind, whats);
    }

    /** What falls due until that day, included, earliest first. */
    public List<DueDate> due(LocalDate until, int limit) {
        return reading.due(until, DueStart.FIRST, limit);
    }

    /** The same from a place on: a page of a long list. */
    public List<DueDate> due(LocalDate until, DueStart start, int limit) {
        return reading.due(until, start, limit);
    }

    /** The page of so many entries that ends before an entry, which stands at some place of the list. */
    public DueStart earlier(DueStart start, DueStart.At first, int entries) {
        return start.from() <= entries ? DueStart.FIRST : reading.earlier(start, first, entries);
    }

    /** How much falls due until that day, included. */
    public long countDue(LocalDate until) {
        return reading.countDue(until);
    }

    /** How much is overdue on a day. */
    public long countLate(LocalDate day) {
        return reading.countLate(day);
    }

    /** How much is overdue on a day of these sterilizers. */
    public long countLate(LocalDate day, Set<SubjectId> sterilizers) {
        return reading.countLate(day, sterilizers);
    }

    /** Which of these sterilizers stand in the due list before an entry of it. */
    public Set<SubjectId> dueBefore(DueDate entry, List<SubjectId> sterilizers) {
        return reading.dueBefore(entry, sterilizers);
    }

    /** What follows from visits, as it was kept. */
    public ResultBook results() {
        return new ResultBook(database);
    }

    /** Visits that still want something. */
    public AheadBook ahead() {
        return new AheadBook(database);
    }

    /** Every entry about a subject, oldest first. */
    public List<JournalEntry> history(SubjectId subject) {
        return reading.history(subject);
    }

    /** Entries from number {@code from}, at most {@code limit} of them. */
    public List<JournalEntry> entries(long from, int limit) {
        return reading.entries(from, limit);
    }

    /** The journal as it stands. */
    public JournalHead head() {
        return reading.head();
    }

    /** Whether an issue of the visit was signed, so that its facts are fixed. */
    public boolean isSealed(SubjectId visit) {
        return reading.isIssued(visit);
    }

    /**
     * The proof that an entry stands in the journal of a size.
     *
     * @throws IllegalArgumentException if the journal never had that size, or the entry is not in it
     */
    public InclusionProof inclusion(long entry, long size) {
        return reading.inclusion(entry, size);
    }

    /** Hash of an entry, as the tree has it. */
    public Hash entryHash(long entry) {
        return reading.entryHash(entry);
    }

    /**
     * The proof that the journal of the second size begins with that of the first.
     *
     * @throws IllegalArgumentException if the journal never had these sizes
     */
    public ConsistencyProof consistency(long first, long second) {
        return reading.consistency(first, second);
    }

    /** Makes everything that is derived from facts anew. */
    public void rebuildIndex() {
        reading.rebuildIndex();
    }

    /** Facts as a map of Java values become one change each. */
    public static List<Change> changes(Kind kind, SubjectId subject, Map<String, ?> facts) {
        return facts.entrySet().stream()
                .map(fact -> Change.set(kind, subject, fact.getKey(), JsonText.of(fact.getValue())))
                .toList();
    }

    @Override
    public void close() {
        database.close();
    }
}
