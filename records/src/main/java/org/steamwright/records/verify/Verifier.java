package org.steamwright.records.verify;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.UncheckedIOException;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Frontier;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.signing.SignatureCheck;
import org.steamwright.records.store.IndexCheck;
import org.steamwright.records.store.Ledger;
import org.steamwright.records.store.Session;
import org.steamwright.records.store.TreeTable;

/**
 * Walks everything that is kept. Memory grows with the number of facts of one subject and with the number of heads and
 * files, not with the journal.
 */
public final class Verifier {

    private static final int MOST_DIFFERENCES = 1_000;

    private final Records records;
    private final List<TreeHead> earlierHeads;
    private final Reassessment reassessment;
    private final List<Difference> differences = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private long entries;
    private long facts;
    private long files;
    private long issues;
    private long reassessed;
    private long notReassessed;

    private Verifier(Records records, List<TreeHead> earlierHeads, Reassessment reassessment) {
        this.records = records;
        this.earlierHeads = List.copyOf(earlierHeads);
        this.reassessment = reassessment;
    }

    /**
     * Looks at everything.
     *
     * @param records opened
     * @param earlierHeads heads known from elsewhere: printed on a report, kept by a clinic; each has to be a beginning of
     *     this journal
     * @param reassessment computes results again
     */
    public static Verification verify(Records records, List<TreeHead> earlierHeads, Reassessment reassessment) {
        return new Verifier(records, earlierHeads, reassessment).run();
    }

    private Verification run() {
        Map<String, TreeHead> heads = new LinkedHashMap<>();
        for (TreeHead earlier : earlierHeads) {
            heads.put("earlier head " + earlier.shortText(), earlier);
        }
        TreeHead[] head = {TreeHead.EMPTY};
        stage("signed issues", () -> checkIssues(heads));
        inStore("database file", this::checkEngine);
        inStore("journal", session -> head[0] = walk(session, heads));
        inStore("facts", this::checkFacts);
        inStore("counters of the store", session -> checkCounters(session, head[0]));
        inStore("index", session -> IndexCheck.check(session, records.dueRule()).forEach(this::differs));
        inStore(
                "locked keys",
                session -> Keys.damaged(session)
                        .forEach(id -> differs("locked key " + id, "its bytes are not those that were kept")));
        stage("files", this::checkFiles);
        return new Verification(
                head[0], entries, facts, files, issues, reassessed, notReassessed, differences, remarks);
    }

    @FunctionalInterface
    private interface Look {
        void at(Session session) throws SQLException;
    }

    private void inStore(String what, Look look) {
        stage(
                what,
                () -> records.database().read(session -> {
                    look.at(session);
                    return true;
                }));
    }

    /** What can't be read at all is a difference too, and does not keep the other stages from being looked at. */
    private void stage(String what, Runnable look) {
        try {
            look.run();
        } catch (RecordsException
                | IllegalArgumentException
                | DateTimeException
                | NoSuchElementException
                | UncheckedIOException e) {
            differs(what, "can't be read to the end: " + e.getMessage());
        }
    }

    private void differs(String place, String text) {
        if (differences.size() < MOST_DIFFERENCES) {
            differences.add(new Difference(place, text));
        }
    }

    /** The engine's own check of its pages and indexes. */
    private void checkEngine(Session session) throws SQLException {
        if (records.database().isSqlite()) {
            for (String line : session.list(row -> row.getString(1), "pragma integrity_check(50)")) {
                if (!line.equals("ok")) {
                    differs("database file", line);
                }
            }
            for (String line : session.list(
                    row -> "table " + row.getString(1) + ", row " + row.getString(2), "pragma foreign_key_check")) {
                differs(line, "refers to a row that is not there");
            }
        }
    }

    /** Entry by entry: hash, number, value before, tree, heads of submissions, heads from elsewhere. */
    private TreeHead walk(Session session, Map<String, TreeHead> heads) throws SQLException {
        Map<Long, List<String>> wanted = new TreeMap<>();
        heads.forEach((name, earlier) -> wanted.computeIfAbsent(earlier.size(), size -> new ArrayList<>())
                .add(name));
        Frontier frontier = new Frontier();
        Map<Long, Hash> ends = new HashMap<>();
        session.each(
                row -> {
                    ends.put(row.getLong(1), Hash.ofBytes(row.getBytes(2)));
                    return true;
                },
                "select size, root from submission order by nr");
        Map<String, Hash> tree = new HashMap<>();
        session.each(
                row -> {
                    tree.put(row.getLong(1) + "/" + row.getLong(2), Hash.ofBytes(row.getBytes(3)));
                    return true;
                },
                "select level, place, hash from tree");
        session.each(
                row -> {
                    walkEntry(row, frontier, tree);
                    compareHeads(frontier, ends, wanted, heads);
                    return true;
                },
                "select " + Ledger.ENTRY_COLUMNS + " from " + Ledger.ENTRY_TABLES + " order by j.nr");
        tree.keySet().forEach(node -> differs("tree " + node, "a hash that no entries make"));
        ends.keySet().forEach(size -> differs("submission ending with entry " + (size - 1), "has no such entry"));
        for (List<String> names : wanted.values()) {
            for (String name : names) {
                long size = heads.getOrDefault(name, TreeHead.EMPTY).size();
                if (size > frontier.size()) {
                    differs(
                            name,
                            "the journal had %s entries and has %s: entries from %s on are missing"
                                    .formatted(size, frontier.size(), frontier.size()));
                }
            }
        }
        return frontier.head();
    }

    private void walkEntry(java.sql.ResultSet row, Frontier frontier, Map<String, Hash> tree) throws SQLException {
        long number = row.getLong(1);
        String place = "journal entry " + number;
        if (number != entries) {
            differs(place, "entry %s should stand here; entries are missing".formatted(entries));
            entries = number;
        }
        entries++;
        Hash kept;
        try {
            kept = Hash.ofBytes(row.getBytes(16));
        } catch (IllegalArgumentException e) {
            differs(place, "its hash is damaged: " + e.getMessage());
            kept = Hash.ofNothing();
        }
        Hash computed;
        try {
            JournalEntry entry = Ledger.entry(row);
            computed = entry.hash();
        } catch (IllegalArgumentException | DateTimeException e) {
            differs(place, "can't be read: " + e.getMessage());
            computed = Hash.ofNothing();
        }
        if (!computed.equals(kept)) {
            differs(place, "its content has the hash %s, kept was %s".formatted(computed, kept));
        }
        frontier.add(computed, (level, index, hash) -> {
            if (level > 0 && level % TreeTable.STEP == 0) {
                Hash stored = tree.remove(level + "/" + index);
                if (stored == null || !hash.equals(stored)) {
                    long first = index << level;
                    differs(
                            "tree %s/%s over journal entries %s to %s"
                                    .formatted(level, index, first, first + (1L << level) - 1),
                            "the entries make the hash %s, kept was %s".formatted(hash, stored));
                }
            }
        });
    }

    private void compareHeads(
            Frontier frontier, Map<Long, Hash> ends, Map<Long, List<String>> wanted, Map<String, TreeHead> heads) {
        Hash end = ends.remove(frontier.size());
        List<String> names = wanted.getOrDefault(frontier.size(), List.of());
        if (end == null && names.isEmpty()) {
            return;
        }
        TreeHead head = frontier.head();
        if (end != null && !end.equals(head.root())) {
            differs(
                    "submission ending with entry " + (frontier.size() - 1),
                    "the entries make the root %s, kept was %s".formatted(head.root(), end));
        }
        for (String name : names) {
            if (!head.equals(heads.get(name))) {
                differs(
                        name,
                        "the first %s entries are not those of that time: they make the root %s"
                                .formatted(head.size(), head.root()));
            }
        }
    }

    /** Facts as they stand against the last entry about each; values before against the entry before. */
    private void checkFacts(Session session) throws SQLException {
        session.each(
                row -> {
                    if (!row.getString(3).equals(row.getString(4))) {
                        differs(
                                "journal entry " + row.getLong(1),
                                "says that the value before was %s, the entry before left %s"
                                        .formatted(row.getString(3), row.getString(4)));
                    }
                    return true;
                },
                "select nr, property, old_value, coalesce(lag(new_value) over (partition by subject, property order by nr),"
                        + " 'null') from journal");
        session.each(
                row -> {
                    facts++;
                    String place = "fact '%s' of %s".formatted(row.getString(2), row.getString(1));
                    if (row.getString(4) == null) {
                        differs(place, "no journal entry gave it its value");
                    } else if (!row.getString(3).equals(row.getString(4))) {
                        differs(
                                place,
                                "is %s, its journal entry says %s".formatted(row.getString(3), row.getString(4)));
                    }
                    return true;
                },
                "select s.id, f.property, f.value, j.new_value from fact f left join subject s on s.nr = f.subject"
                        + " left join journal j on j.nr = f.entry and j.subject = f.subject and j.property = f.property");
        session.each(
                row -> {
                    differs(
                            "fact '%s' of %s".formatted(row.getString(2), row.getString(1)),
                            "is missing or old: journal entry %s is the last about it".formatted(row.getLong(3)));
                    return true;
                },
                "select s.id, l.property, l.nr from (select subject, property, max(nr) nr from journal"
                        + " group by subject, property) l join journal j on j.nr = l.nr join subject s on s.nr = l.subject"
                        + " left join fact f on f.subject = l.subject and f.property = l.property"
                        + " where (j.new_value <> 'null' and (f.entry is null or f.entry <> l.nr))"
                        + " or (j.new_value = 'null' and f.entry is not null)");
    }

    private void checkCounters(Session session, TreeHead reached) throws SQLException {
        long[] counters = session.find(
                        row -> new long[] {row.getLong(1), row.getLong(2), row.getLong(3)},
                        "select entries, submissions, subjects from store")
                .orElse(new long[] {-1, -1, -1});
        long submissions = session.find(row -> row.getLong(1), "select count(*) from submission")
                .orElse(-1L);
        long subjects = session.find(row -> row.getLong(1), "select count(*) from subject")
                .orElse(-1L);
        long latest = session.find(
                        row -> row.getLong(1),
                        "select count(*) from store where latest_at = coalesce((select max(at) from submission), '')"
                                + " or exists (select 1 from submission where at = latest_at)")
                .orElse(0L);
        if (counters[0] != reached.size()) {
            differs("counters of the store", "%s entries, found were %s".formatted(counters[0], reached.size()));
        }
        if (counters[1] != submissions) {
            differs("counters of the store", "%s submissions, found were %s".formatted(counters[1], submissions));
        }
        if (counters[2] != subjects) {
            differs("counters of the store", "%s subjects, found were %s".formatted(counters[2], subjects));
        }
        if (latest == 0) {
            differs("counters of the store", "the latest time is not that of any submission");
        }
        session.each(
                row -> {
                    differs(
                            "submission ending with entry " + (row.getLong(2) - 1),
                            "its entries end with %s".formatted(row.getLong(3) - 1));
                    return true;
                },
                "select b.nr, b.size, coalesce(max(j.nr), -1) + 1 from submission b left join journal j"
                        + " on j.submission = b.nr group by b.nr, b.size having b.size <> coalesce(max(j.nr), -1) + 1");
        session.each(
                row -> {
                    differs("subject " + row.getString(1), "no journal entry is about it");
                    return true;
                },
                "select s.id from subject s where not exists (select 1 from journal j where j.subject = s.nr)");
    }

    private void checkFiles() {
        Set<Hash> kept = new HashSet<>(records.files().all());
        Set<Hash> named = new HashSet<>();
        List<String[]> references = records.database()
                .read(session -> session.list(
                        row -> new String[] {row.getString(1), row.getString(2), row.getString(3)},
                        "select s.id, f.property, f.value from fact f join subject s on s.nr = f.subject"
                                + " where f.property >= 'files/' and f.property < 'files0'"));
        for (String[] reference : references) {
            String place = "file '%s' of %s".formatted(reference[1].substring("files/".length()), reference[0]);
            try {
                JsonNode node = JsonText.parse(reference[2]).node();
                Hash sha256 = Hash.ofHex(node.path("sha256").asText());
                if (!kept.contains(sha256)) {
                    differs(place, "is missing: " + records.files().path(sha256));
                }
                named.add(sha256);
            } catch (IllegalArgumentException e) {
                differs(place, "its fact can't be read: " + e.getMessage());
            }
        }
        for (Hash sha256 : kept) {
            files++;
            records.files()
                    .complaint(sha256)
                    .ifPresent(complaint ->
                            differs("file " + sha256 + " at " + records.files().path(sha256), complaint));
            if (!named.contains(sha256)) {
                remarks.add("file %s: no fact names it; a save may have ended before its entry".formatted(sha256));
            }
        }
        records.files()
                .strangers()
                .forEach(stranger -> differs("file " + stranger, "does not have the name of a kept file"));
    }

    private void checkIssues(Map<String, TreeHead> heads) {
        SignatureCheck check = new SignatureCheck(records);
        records.eachSubject(Kind.ISSUE, subject -> {
            issues++;
            String place = "issue " + subject.id();
            SignatureCheck.Outcome outcome = check.check(subject);
            outcome.complaints().forEach(complaint -> differs(place, complaint));
            outcome.head().ifPresent(head -> heads.put("head on " + place, head));
            if (outcome.complaints().isEmpty()) {
                reassess(outcome, place);
            }
        });
    }

    private void reassess(SignatureCheck.Outcome outcome, String place) {
        JsonText document = outcome.document().orElseThrow();
        JsonNode node = document.node();
        if (!node.has("result")) {
            return;
        }
        Map<String, byte[]> bytes = new LinkedHashMap<>();
        for (JsonNode file : node.path("files")) {
            bytes.put(
                    file.path("name").asText(),
                    records.files().get(Hash.ofHex(file.path("sha256").asText())));
        }
        Optional<JsonText> result = reassessment.result(document, bytes);
        if (result.isEmpty()) {
            notReassessed++;
            remarks.add("%s: not assessed again, this program does not hold version %s"
                    .formatted(place, node.path("algorithmVersion").asText()));
            return;
        }
        reassessed++;
        JsonText signed = JsonText.of(node.path("result"));
        if (!result.get().equals(signed)) {
            differs(
                    place,
                    "assessed again it gives another result: "
                            + firstDifference(signed.node(), result.get().node(), ""));
        }
    }

    /** Path and values of the first place where two results differ. */
    static String firstDifference(JsonNode signed, JsonNode computed, String path) {
        if (signed.isObject() && computed.isObject()) {
            Set<String> names = new java.util.TreeSet<>();
            signed.fieldNames().forEachRemaining(names::add);
            computed.fieldNames().forEachRemaining(names::add);
            for (String name : names) {
                if (!signed.path(name).equals(computed.path(name))) {
                    return firstDifference(signed.path(name), computed.path(name), path + "/" + name);
                }
            }
        }
        if (signed.isArray() && computed.isArray() && signed.size() == computed.size()) {
            for (int i = 0; i < signed.size(); i++) {
                if (!signed.get(i).equals(computed.get(i))) {
                    return firstDifference(signed.get(i), computed.get(i), path + "/" + i);
                }
            }
        }
        return "at %s signed %s, computed %s".formatted(path.isEmpty() ? "/" : path, signed, computed);
    }
}
