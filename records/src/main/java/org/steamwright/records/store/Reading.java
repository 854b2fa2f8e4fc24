package org.steamwright.records.store;

import java.sql.SQLException;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.DueStart;
import org.steamwright.records.Found;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.proof.ConsistencyProof;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.InclusionProof;
import org.steamwright.records.proof.MerkleProofs;

/** Questions to the store. Each sees it as it stood at one moment. */
public final class Reading {

    private static final int PAGE = 64;

    private final Database database;
    private final DueRule dueRule;

    private final Map<Kind, Counted> counted = new ConcurrentHashMap<>();

    /**
     * @param database opened
     * @param dueRule the domain's rule
     */
    public Reading(Database database, DueRule dueRule) {
        this.database = database;
        this.dueRule = dueRule;
    }

    /** Makes the index anew if it was made by another table of words. */
    public void bringIndexUpToDate() {
        long made = database.read(session -> session.find(row -> row.getLong(1), "select derivation from store")
                .orElse(0L));
        if (made != SearchTable.VERSION && made != Index.derivation(dueRule)) {
            rebuildIndex();
        }
    }

    /** Makes the index anew. */
    public void rebuildIndex() {
        database.write(session -> {
            session.run("update store set one = one");
            Index.rebuild(session, dueRule);
            return true;
        });
    }

    /** A subject with its facts. */
    public Optional<Subject> find(SubjectId id) {
        return database.read(session -> {
            Optional<StoredSubject> stored = Ledger.find(session, id);
            return stored.isEmpty()
                    ? Optional.empty()
                    : Index.subjects(session, List.of(stored.get().number())).stream()
                            .findFirst();
        });
    }

    /** Subjects of a kind. */
    public List<Subject> subjects(Kind kind, int limit) {
        return database.read(session -> Index.subjects(
                session,
                session.list(
                        row -> row.getLong(1),
                        "select nr from subject where kind = ? order by nr limit ?",
                        kind.word(),
                        limit)));
    }

    /** The subjects of a kind that were made last, the newest first. */
    public List<Subject> newest(Kind kind, long from, int limit) {
        return database.read(session -> Index.subjects(
                session,
                session.list(
                        row -> row.getLong(1),
                        "select nr from subject where kind = ? order by nr desc limit ? offset ?",
                        kind.word(),
                        limit,
                        from)));
    }

    /** Every subject of a kind. */
    public void eachSubject(Kind kind, Consumer<Subject> taker) {
        database.read(session -> {
            List<Long> numbers = session.list(
                    row -> row.getLong(1), "select nr from subject where kind = ? order by nr", kind.word());
            for (int from = 0; from < numbers.size(); from += PAGE) {
                Index.subjects(session, numbers.subList(from, Math.min(numbers.size(), from + PAGE)))
                        .forEach(taker);
            }
            return true;
        });
    }

    /** Subjects of a kind, from a place in the order of their making on. */
    public List<Subject> page(Kind kind, long from, int limit) {
        return database.read(session -> Index.subjects(
                session,
                session.list(
                        row -> row.getLong(1),
                        "select nr from subject where kind = ? order by nr limit ? offset ?",
                        kind.word(),
                        limit,
                        from)));
    }

    /**
     * How many subjects of a kind there are. No subject ever goes, and their numbers rise with each that is kept, so that those
     * beyond the last one counted are all that has to be counted anew.
     */
    public long count(Kind kind) {
        Counted before = counted.getOrDefault(kind, Counted.NONE);
        Counted now = database.read(session -> session.find(
                        row -> new Counted(Math.max(before.last(), row.getLong(2)), before.count() + row.getLong(1)),
                        "select count(*), coalesce(max(nr), -1) from subject where kind = ? and nr > ?",
                        kind.word(),
                        before.last())
                .orElse(before));
        counted.merge(kind, now, (one, other) -> one.last() > other.last() ? one : other);
        return now.count();
    }

    /** What was counted up to a subject. */
    private record Counted(long last, long count) {
        static final Counted NONE = new Counted(-1, 0);
    }

    /** Visits from a day on. */
    public List<Subject> visitsFrom(LocalDate from, int limit) {
        return database.read(session -> Index.visitsFrom(session, from, limit));
    }

    /** Search as you type. */
    public Found find(String typed, Set<Kind> kinds, int limit) {
        return database.read(session -> Index.find(session, typed, kinds, limit));
    }

    /** Subjects by a text as a whole. */
    public List<Subject> exactly(Kind kind, String property, String text) {
        return database.read(session -> Index.exactly(session, kind, property, text));
    }

    /** Subjects by their ids. */
    public List<Subject> byId(List<SubjectId> ids) {
        return database.read(session -> Index.byId(session, ids));
    }

    /** Reverse look-up. */
    public List<Subject> usedBy(Use use, String what, Optional<SubjectId> after, int limit) {
        return database.read(session -> {
            long below = Long.MAX_VALUE;
            if (after.isPresent()) {
                Optional<StoredSubject> last = Ledger.find(session, after.get());
                if (last.isPresent()) {
                    below = last.get().number();
                }
            }
            return Index.usedBy(session, use, what, below, limit);
        });
    }

    /** Reverse look-up of several at once. */
    public List<Subject> usersOf(Use use, Kind kind, Set<String> whats) {
        return database.read(session -> Index.usersOf(session, use, kind, whats));
    }

    /** Due list. */
    public List<DueDate> due(LocalDate until, DueStart start, int limit) {
        return database.read(session -> Index.dueUntil(session, until, start, limit));
    }

    /** A page before another. */
    public DueStart earlier(DueStart start, DueStart.At first, int entries) {
        return database.read(session -> Index.dueEarlier(session, start, first, entries));
    }

    /** Length of the due list. */
    public long countDue(LocalDate until) {
        return database.read(session -> Index.countDue(session, until));
    }

    /** How much is overdue. */
    public long countLate(LocalDate day) {
        return database.read(session -> Index.countLate(session, day));
    }

    /** How much is overdue of these. */
    public long countLate(LocalDate day, Set<SubjectId> sterilizers) {
        return database.read(session -> Index.countLate(session, day, sterilizers));
    }

    /** Which of these come before an entry of the due list. */
    public Set<SubjectId> dueBefore(DueDate entry, List<SubjectId> sterilizers) {
        return database.read(session -> Index.dueBefore(session, entry, sterilizers));
    }

    /** Entries about a subject. */
    public List<JournalEntry> history(SubjectId subject) {
        return database.read(session -> {
            Optional<StoredSubject> stored = Ledger.find(session, subject);
            return stored.isEmpty()
                    ? List.of()
                    : session.list(
                            Ledger::entry,
                            "select " + Ledger.ENTRY_COLUMNS + " from " + Ledger.ENTRY_TABLES
                                    + " where j.subject = ? order by j.nr",
                            stored.get().number());
        });
    }

    /** Entries in order. */
    public List<JournalEntry> entries(long from, int limit) {
        return database.read(session -> session.list(
                Ledger::entry,
                "select " + Ledger.ENTRY_COLUMNS + " from " + Ledger.ENTRY_TABLES
                        + " where j.nr >= ? order by j.nr limit ?",
                from,
                limit));
    }

    /** Head of the journal. */
    public JournalHead head() {
        return database.read(Ledger::head);
    }

    /** Whether a visit is signed. */
    public boolean isIssued(SubjectId visit) {
        return database.read(session -> Ledger.isIssued(session, visit));
    }

    /** Hash of an entry. */
    public Hash entryHash(long entry) {
        return database.read(session -> {
            checkSize(session, entry + 1);
            return TreeTable.root(session, 0, entry);
        });
    }

    /** Proof of inclusion. */
    public InclusionProof inclusion(long entry, long size) {
        return database.read(session -> {
            checkSize(session, size);
            return MerkleProofs.inclusion(entry, size, TreeTable.subtrees(session));
        });
    }

    /** Proof of consistency. */
    public ConsistencyProof consistency(long first, long second) {
        return database.read(session -> {
            checkSize(session, second);
            return MerkleProofs.consistency(first, second, TreeTable.subtrees(session));
        });
    }

    private static void checkSize(Session session, long size) throws SQLException {
        long entries = Ledger.head(session).tree().size();
        if (size < 1 || size > entries) {
            throw new IllegalArgumentException("the journal has %s entries, asked was for %s".formatted(entries, size));
        }
    }
}
