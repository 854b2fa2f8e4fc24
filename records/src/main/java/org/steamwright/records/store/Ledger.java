package org.steamwright.records.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.DueRule;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Kind;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Frontier;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;

/** Writes submissions: entries, tree, facts and what is derived, in one transaction. */
public final class Ledger {

    /** Facts stated longer ago than this are marked late. Common practice, no source. */
    public static final Duration LATE_AFTER = Duration.ofHours(24);

    /** Columns of an entry, for {@link #entry}. */
    public static final String ENTRY_COLUMNS =
            "j.nr, b.id, b.author_name, b.author_role, b.at, b.utc_offset, b.clock_set_back, s.kind, s.id, j.property,"
                    + " j.old_value, j.new_value, j.why, j.stated, j.late, j.hash";

    /** Tables of an entry, for {@link #entry}. */
    public static final String ENTRY_TABLES =
            "journal j join submission b on b.nr = j.submission join subject s on s.nr = j.subject";

    private final Database database;
    private final Clock clock;
    private final DueRule dueRule;
    /** As of the last transaction of this program; never added to, only replaced. */
    private volatile Frontier frontier = new Frontier();

    /**
     * @param database opened
     * @param clock time and offset of entries
     * @param dueRule the domain's rule
     */
    public Ledger(Database database, Clock clock, DueRule dueRule) {
        this.database = database;
        this.clock = clock;
        this.dueRule = dueRule;
    }

    /** Where the counters of the store stand while a transaction is under way, and what is still to be written. */
    private static final class Standing {
        long entries;
        long submissions;
        long subjects;
        String latestAt;
        final Frontier frontier;
        final Map<SubjectId, StoredSubject> seen = new HashMap<>();
        final Set<Long> made = new HashSet<>();
        final Map<FactKey, JsonText> before = new LinkedHashMap<>();
        final Map<FactKey, StandingFact> now = new LinkedHashMap<>();
        final Map<Long, StoredSubject> touched = new LinkedHashMap<>();
        final Map<Long, Set<String>> written = new HashMap<>();
        final Set<Long> due = new LinkedHashSet<>();
        final Set<Long> ahead = new LinkedHashSet<>();

        Standing(long entries, long submissions, long subjects, String latestAt, Frontier frontier) {
            this.entries = entries;
            this.submissions = submissions;
            this.subjects = subjects;
            this.latestAt = latestAt;
            this.frontier = frontier;
        }

        /** Facts of a subject that are written anew. */
        Set<String> changed(long subject) {
            return written.getOrDefault(subject, Set.of());
        }
    }

    /** One fact of one subject. */
    private record FactKey(long subject, String property) {}

    /** Its value, the entry that gave it; -1 if it stood before this transaction. */
    private record StandingFact(StoredSubject subject, JsonText value, long entry) {}

    private static final int WAITING_ENTRIES = 2_000;
    private static final String INSERT_SUBJECT = "insert into subject (nr, id, kind) values (?, ?, ?)";
    private static final String INSERT_ENTRY =
            "insert into journal (nr, submission, subject, property, old_value, new_value, why, stated, late, hash)"
                    + " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    private static final String DELETE_FACT = "delete from fact where subject = ? and property = ?";
    private static final String UPSERT_FACT = "insert into fact (subject, property, value, entry) values (?, ?, ?, ?)"
            + " on conflict (subject, property) do update set value = excluded.value, entry = excluded.entry";
    private static final String INSERT_SUBMISSION =
            "insert into submission (nr, id, author_name, author_role, at, utc_offset, clock_set_back, size, root)"
                    + " values (?, ?, ?, ?, ?, ?, ?, ?, ?)";

    /** Writes what waits, each table in one go and in the order in which they refer to each other. */
    private void flush(Session session, Standing standing) throws SQLException {
        session.flush(INSERT_SUBJECT);
        session.flush(INSERT_SUBMISSION);
        session.flush(INSERT_ENTRY);
        session.flush(TreeTable.INSERT);
        for (Map.Entry<FactKey, StandingFact> fact : standing.now.entrySet()) {
            if (fact.getValue().entry() < 0) {
                continue;
            }
            if (fact.getValue().value().isNull()) {
                session.add(DELETE_FACT, fact.getKey().subject(), fact.getKey().property());
            } else {
                session.add(
                        UPSERT_FACT,
                        fact.getKey().subject(),
                        fact.getKey().property(),
                        fact.getValue().value().text(),
                        fact.getValue().entry());
            }
        }
        session.flush(DELETE_FACT);
        session.flush(UPSERT_FACT);
        for (Map.Entry<FactKey, JsonText> fact : standing.before.entrySet()) {
            StandingFact now = standing.now.get(fact.getKey());
            if (now != null) {
                Set<Long> moved =
                        Index.update(session, now.subject(), fact.getKey().property(), fact.getValue(), now.value());
                if (isOfDue(now.subject())) {
                    standing.due.addAll(moved);
                }
            }
        }
        Index.flush(session);
        for (StoredSubject subject : standing.touched.values()) {
            ResultTables.await(session, subject, standing.changed(subject.number()), standing.entries);
            standing.ahead.addAll(AheadTable.touched(session, subject));
        }
        ResultTables.flush(session);
        for (StoredSubject subject : standing.touched.values()) {
            if (isOfDue(subject)) {
                standing.due.addAll(Index.sterilizersOf(session, subject));
            }
        }
        standing.before.clear();
        standing.now.clear();
        standing.touched.clear();
        standing.written.clear();
        standing.made.clear();
    }

    /** Whether what falls due may follow from the subject. */
    private boolean isOfDue(StoredSubject subject) {
        return dueRule != DueRule.NONE && (subject.kind() != Kind.VISIT || dueRule.isOfVisits());
    }

    /** Who and when, for all entries of one submission. */
    private record Stamp(UUID submission, Author author, Instant at, ZoneOffset offset, boolean isClockSetBack) {}

    /** Keeps the submissions in one transaction; the head after the last of them. */
    public JournalHead append(List<Submission> submissions) {
        return append(submissions, session -> {});
    }

    /** What is kept beside the journal in the same transaction. */
    @FunctionalInterface
    public interface Beside {

        /** Keeps it. */
        void keep(Session session) throws SQLException;
    }

    /** Keeps the submissions and what belongs to them beside the journal; not done again for what was kept before. */
    public JournalHead append(List<Submission> submissions, Beside beside) {
        return transact((session, standing) -> {
            Optional<JournalHead> known = Optional.empty();
            boolean isFresh = false;
            for (Submission submission : submissions) {
                known = kept(session, submission);
                if (known.isEmpty()) {
                    append(session, standing, submission);
                    isFresh = true;
                }
            }
            if (isFresh) {
                beside.keep(session);
            }
            return known;
        });
    }

    /** Keeps entries of another store as they are. They have to follow the last entry here. */
    public JournalHead replay(List<JournalEntry> entries) {
        return transact((session, standing) -> {
            List<JournalEntry> together = new ArrayList<>();
            for (JournalEntry entry : entries) {
                if (!together.isEmpty() && !together.get(0).submission().equals(entry.submission())) {
                    replay(session, standing, together);
                    together.clear();
                }
                together.add(entry);
            }
            if (!together.isEmpty()) {
                replay(session, standing, together);
            }
            return Optional.empty();
        });
    }

    @FunctionalInterface
    private interface Posting {
        Optional<JournalHead> post(Session session, Standing standing) throws SQLException;
    }

    private JournalHead transact(Posting posting) {
        Frontier[] reached = new Frontier[1];
        JournalHead head = database.write(session -> {
            session.run("update store set one = one");
            Standing standing = standing(session);
            long before = standing.entries;
            Optional<JournalHead> known = posting.post(session, standing);
            if (standing.entries > before) {
                flush(session, standing);
                for (long sterilizer : standing.due) {
                    Index.due(session, sterilizer, dueRule);
                }
                for (long visit : standing.ahead) {
                    AheadTable.update(session, visit, dueRule);
                }
                session.run(
                        "update store set entries = ?, submissions = ?, subjects = ?, latest_at = ?",
                        standing.entries,
                        standing.submissions,
                        standing.subjects,
                        standing.latestAt);
            }
            reached[0] = standing.frontier;
            return known.isPresent() ? known.get() : head(session);
        });
        frontier = reached[0];
        return head;
    }

    private Standing standing(Session session) throws SQLException {
        Standing counters = session.find(
                        row -> new Standing(
                                row.getLong(1), row.getLong(2), row.getLong(3), row.getString(4), new Frontier()),
                        "select entries, submissions, subjects, latest_at from store")
                .orElseThrow(() -> damaged("its counters are gone"));
        Frontier edge =
                frontier.size() == counters.entries ? frontier.copy() : TreeTable.frontier(session, counters.entries);
        TreeHead kept = head(session).tree();
        if (!edge.head().equals(kept)) {
            if (edge.size() == kept.size()) {
                edge = TreeTable.frontier(session, counters.entries);
            }
            if (!edge.head().equals(kept)) {
                throw damaged("the tree over %s entries does not give the head kept for %s entries"
                        .formatted(edge.size(), kept.size()));
            }
        }
        return new Standing(counters.entries, counters.submissions, counters.subjects, counters.latestAt, edge);
    }

    private RecordsException damaged(String what) {
        return new RecordsException(
                RecordsMessage.STORE_DAMAGED,
                "%s: %s. Nothing was written. Verify the store, and restore the last good backup to a new place."
                        .formatted(database.name(), what));
    }

    /** The head after the last submission. */
    public static JournalHead head(Session session) throws SQLException {
        return session.find(Ledger::head, "select size, root, at from submission order by nr desc limit 1")
                .orElse(JournalHead.EMPTY);
    }

    private static JournalHead head(ResultSet row) throws SQLException {
        return new JournalHead(
                new TreeHead(row.getLong(1), Hash.ofBytes(row.getBytes(2))), Instant.parse(row.getString(3)));
    }

    /** The head that a submission got when it was kept the first time. */
    private static Optional<JournalHead> kept(Session session, Submission submission) throws SQLException {
        Optional<JournalHead> head = session.find(
                Ledger::head,
                "select size, root, at from submission where id = ?",
                submission.id().toString());
        if (head.isPresent()) {
            Set<List<Object>> sent = new HashSet<>();
            submission
                    .changes()
                    .forEach(change -> sent.add(List.of(change.subject(), change.property(), change.value())));
            List<JournalEntry> entries = session.list(
                    Ledger::entry,
                    "select " + ENTRY_COLUMNS + " from " + ENTRY_TABLES + " where b.id = ? order by j.nr",
                    submission.id().toString());
            for (JournalEntry entry : entries) {
                if (!sent.contains(List.of(entry.subject(), entry.property(), entry.newValue()))) {
                    throw new RecordsException(
                            RecordsMessage.SUBMISSION_DIFFERS,
                            "submission %s was kept with other changes: '%s' of %s became %s. Give new changes a new identity."
                                    .formatted(submission.id(), entry.property(), entry.subject(), entry.newValue()));
                }
            }
        }
        return head;
    }

    private void append(Session session, Standing standing, Submission submission) throws SQLException {
        TreeHead reached = standing.frontier.head();
        if (submission.expectedHead().isPresent()
                && !submission.expectedHead().get().equals(reached)) {
            throw new RecordsException(
                    RecordsMessage.CHANGED_MEANWHILE,
                    "%s: the journal was held to have %s entries and has %s by now. Nothing of this submission was kept; look at the newer entries and decide."
                            .formatted(
                                    database.name(),
                                    submission.expectedHead().get().size(),
                                    reached.size()));
        }
        Instant at = clock.instant().truncatedTo(ChronoUnit.MICROS);
        boolean isSetBack = !standing.latestAt.isEmpty() && at.isBefore(Instant.parse(standing.latestAt));
        Stamp stamp = new Stamp(
                submission.id(),
                submission.author(),
                at,
                clock.getZone().getRules().getOffset(at),
                isSetBack);
        long before = standing.entries;
        Set<Long> open = new HashSet<>();
        Map<SubjectId, List<String>> properties = new HashMap<>();
        submission
                .changes()
                .forEach(change -> properties
                        .computeIfAbsent(change.subject(), unseen -> new ArrayList<>())
                        .add(change.property()));
        boolean isIssue = false;
        for (Change change : submission.changes()) {
            StoredSubject subject = subject(session, standing, change.kind(), change.subject());
            isIssue |= change.kind() == Kind.ISSUE;
            if (!open.contains(subject.number())) {
                if (!standing.made.contains(subject.number())) {
                    refuseSealed(session, change, subject);
                    load(session, standing, subject, properties.getOrDefault(change.subject(), List.of()));
                }
                open.add(subject.number());
            }
            JsonText old = value(session, standing, subject, change.property());
            if (change.expected().isPresent() && !change.expected().get().equals(old)) {
                throw new RecordsException(
                        RecordsMessage.CHANGED_MEANWHILE,
                        "%s %s, '%s': was held to be %s and is %s by now. Nothing of this submission was kept; look at the newer value and decide."
                                .formatted(
                                        change.kind().word(),
                                        change.subject(),
                                        change.property(),
                                        change.expected().get(),
                                        old));
            }
            if (old.equals(change.value())) {
                continue;
            }
            boolean isLate = change.stated()
                    .map(stated -> stated.plus(LATE_AFTER).isBefore(at))
                    .orElse(false);
            post(
                    session,
                    standing,
                    new JournalEntry(
                            standing.entries,
                            stamp.submission(),
                            stamp.author(),
                            stamp.at(),
                            stamp.offset(),
                            stamp.isClockSetBack(),
                            change.kind(),
                            change.subject(),
                            change.property(),
                            old,
                            change.value(),
                            change.why(),
                            change.stated().map(stated -> stated.truncatedTo(ChronoUnit.MICROS)),
                            isLate),
                    subject);
            // what is sealed is asked of the tables, so that an issue and what it seals are written together
            if (standing.now.size() > WAITING_ENTRIES && !isIssue) {
                flush(session, standing);
            }
        }
        if (standing.entries > before) {
            close(session, standing, stamp);
        }
        if (isIssue || standing.now.size() > WAITING_ENTRIES) {
            flush(session, standing);
        }
    }

    /** Facts of one subject that a submission is about to change, in one question. */
    private static void load(Session session, Standing standing, StoredSubject subject, List<String> changed)
            throws SQLException {
        List<Object> properties = new ArrayList<>(changed.stream()
                .distinct()
                .filter(property -> !standing.now.containsKey(new FactKey(subject.number(), property)))
                .toList());
        Map<String, JsonText> values = new HashMap<>();
        Session.inPieces(properties, piece -> {
            List<Object> arguments = new ArrayList<>(List.of(subject.number()));
            arguments.addAll(piece);
            session.list(
                    row -> values.put(row.getString(1), new JsonText(row.getString(2))),
                    "select property, value from fact where subject = ? and property in ("
                            + Session.places(piece.size()) + ")",
                    arguments.toArray());
        });
        for (Object property : properties) {
            JsonText value = values.getOrDefault((String) property, JsonText.NULL);
            FactKey key = new FactKey(subject.number(), (String) property);
            standing.before.putIfAbsent(key, value);
            standing.now.put(key, new StandingFact(subject, value, -1));
        }
    }

    private void replay(Session session, Standing standing, List<JournalEntry> together) throws SQLException {
        JournalEntry first = together.get(0);
        Stamp stamp = new Stamp(first.submission(), first.author(), first.at(), first.offset(), first.isClockSetBack());
        for (JournalEntry entry : together) {
            if (entry.number() != standing.entries) {
                throw new RecordsException(
                        RecordsMessage.EXPORT_UNREADABLE,
                        "journal entry %s: entry %s should come here. Entries are missing or out of order; nothing was kept."
                                .formatted(entry.number(), standing.entries));
            }
            StoredSubject subject = subject(session, standing, entry.kind(), entry.subject());
            JsonText old = value(session, standing, subject, entry.property());
            if (!old.equals(entry.oldValue())) {
                throw new RecordsException(
                        RecordsMessage.EXPORT_UNREADABLE,
                        "journal entry %s: the value before is said to be %s, but earlier entries leave %s. The journal was altered; nothing was kept."
                                .formatted(entry.number(), entry.oldValue(), old));
            }
            post(session, standing, entry, subject);
        }
        close(session, standing, stamp);
        if (standing.now.size() > WAITING_ENTRIES) {
            flush(session, standing);
        }
    }

    private StoredSubject subject(Session session, Standing standing, Kind kind, SubjectId id) throws SQLException {
        @Nullable StoredSubject subject = standing.seen.get(id);
        if (subject == null) {
            subject = find(session, id).orElse(null);
        }
        if (subject == null) {
            subject = new StoredSubject(standing.subjects, kind);
            session.add(INSERT_SUBJECT, subject.number(), id.toString(), kind.word());
            standing.subjects++;
            standing.made.add(subject.number());
        }
        if (subject.kind() != kind) {
            throw new RecordsException(
                    RecordsMessage.KIND_DIFFERS,
                    "%s is a %s, not a %s. Nothing of this submission was kept."
                            .formatted(id, subject.kind().word(), kind.word()));
        }
        standing.seen.put(id, subject);
        return subject;
    }

    static Optional<StoredSubject> find(Session session, SubjectId id) throws SQLException {
        return session.find(
                row -> new StoredSubject(row.getLong(1), Kind.ofWord(row.getString(2))),
                "select nr, kind from subject where id = ?",
                id.toString());
    }

    private static void refuseSealed(Session session, Change change, StoredSubject subject) throws SQLException {
        boolean isSealed = subject.kind() == Kind.ISSUE
                || (subject.kind() == Kind.VISIT
                        && !Index.usedByNumbers(
                                        session, Use.VISIT, change.subject().toString(), Long.MAX_VALUE, 1)
                                .isEmpty()
                        && isIssued(session, change.subject()));
        if (isSealed) {
            throw new RecordsException(
                    RecordsMessage.SEALED,
                    "%s %s, '%s': it is signed and does not change any more. Make a correction: a new issue with its reason; this one stays readable."
                            .formatted(change.kind().word(), change.subject(), change.property()));
        }
    }

    /** Whether an issue of the visit has been signed. */
    public static boolean isIssued(Session session, SubjectId visit) throws SQLException {
        return session.find(
                        row -> row.getLong(1),
                        "select u.subject from used u join subject s on s.nr = u.subject"
                                + " where u.role = ? and u.folded = ? and s.kind = 'issue' limit 1",
                        Use.VISIT.word(),
                        Folding.whole(visit.toString()))
                .isPresent();
    }

    private static JsonText value(Session session, Standing standing, StoredSubject subject, String property)
            throws SQLException {
        FactKey key = new FactKey(subject.number(), property);
        StandingFact fact = standing.now.get(key);
        if (fact != null) {
            return fact.value();
        }
        JsonText value = standing.made.contains(subject.number())
                ? JsonText.NULL
                : session.find(
                                row -> new JsonText(row.getString(1)),
                                "select value from fact where subject = ? and property = ?",
                                subject.number(),
                                property)
                        .orElse(JsonText.NULL);
        standing.before.put(key, value);
        standing.now.put(key, new StandingFact(subject, value, -1));
        return value;
    }

    private static void post(Session session, Standing standing, JournalEntry entry, StoredSubject subject)
            throws SQLException {
        Hash hash = entry.hash();
        session.add(
                INSERT_ENTRY,
                entry.number(),
                standing.submissions,
                subject.number(),
                entry.property(),
                entry.oldValue().text(),
                entry.newValue().text(),
                entry.why(),
                entry.stated().map(Instant::toString).orElse(""),
                entry.isLate() ? 1L : 0L,
                hash.toBytes());
        List<Object[]> rows = new ArrayList<>();
        standing.frontier.add(hash, (level, place, root) -> {
            if (level > 0 && level % TreeTable.STEP == 0) {
                rows.add(new Object[] {(long) level, place, root.toBytes()});
            }
        });
        for (Object[] row : rows) {
            session.add(TreeTable.INSERT, row);
        }
        standing.entries++;
        standing.touched.put(subject.number(), subject);
        standing.written
                .computeIfAbsent(subject.number(), unseen -> new HashSet<>())
                .add(entry.property());
        standing.now.put(
                new FactKey(subject.number(), entry.property()),
                new StandingFact(subject, entry.newValue(), entry.number()));
    }

    private static void close(Session session, Standing standing, Stamp stamp) throws SQLException {
        TreeHead head = standing.frontier.head();
        session.add(
                INSERT_SUBMISSION,
                standing.submissions,
                stamp.submission().toString(),
                stamp.author().name(),
                stamp.author().role(),
                stamp.at().toString(),
                stamp.offset().getId(),
                stamp.isClockSetBack() ? 1L : 0L,
                head.size(),
                head.root().toBytes());
        standing.submissions++;
        String at = stamp.at().toString();
        if (standing.latestAt.isEmpty() || stamp.at().isAfter(Instant.parse(standing.latestAt))) {
            standing.latestAt = at;
        }
    }

    /**
     * Reads an entry from a row with {@link #ENTRY_COLUMNS}.
     *
     * @throws IllegalArgumentException if a column holds another form of a value than was written, even one that means the
     *     same
     */
    public static JournalEntry entry(ResultSet row) throws SQLException {
        String stated = row.getString(14);
        return new JournalEntry(
                row.getLong(1),
                asWritten(UUID.fromString(row.getString(2)), row.getString(2)),
                new Author(row.getString(3), row.getString(4)),
                asWritten(Instant.parse(row.getString(5)), row.getString(5)),
                asWritten(ZoneOffset.of(row.getString(6)), row.getString(6)),
                row.getLong(7) != 0,
                Kind.ofWord(row.getString(8)),
                asWritten(SubjectId.parse(row.getString(9)), row.getString(9)),
                row.getString(10),
                new JsonText(row.getString(11)),
                new JsonText(row.getString(12)),
                row.getString(13),
                stated.isEmpty() ? Optional.empty() : Optional.of(asWritten(Instant.parse(stated), stated)),
                row.getLong(15) != 0);
    }

    private static <T> T asWritten(T value, String written) {
        if (!value.toString().equals(written)) {
            throw new IllegalArgumentException("'%s' was not written like that, but as '%s'".formatted(written, value));
        }
        return value;
    }
}
