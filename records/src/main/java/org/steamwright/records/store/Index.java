package org.steamwright.records.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.DueStart;
import org.steamwright.records.Found;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;

/** What is derived from facts so that it is found in a moment: words, uses, due dates. */
final class Index {

    private static final int YEARS_AHEAD = 10;

    /** Rows looked through for one question; a question that needs more is answered with 'there may be more'. */
    private static final int MOST_LOOKED_THROUGH = 1_000;

    private static final int MOST_WORDS = 8;

    /** Stands for no day; after every day. */
    private static final String NEVER = "never";
    /** An entry of the due list as it is ordered. */
    private static final String PLACE = "(?, (select nr from subject where id = ?), ?)";

    /** Above every character, so that a range ends after all words with the beginning. */
    private static final String LAST = new String(Character.toChars(Character.MAX_CODE_POINT));

    private static final String INSERT_WORD = "insert into word (subject, property, folded) values (?, ?, ?)";
    private static final String INSERT_USE = "insert into used (role, folded, subject, property) values (?, ?, ?, ?)";

    private static final String DELETE_WORD = "delete from word where subject = ? and property = ? and folded = ?";
    private static final String DELETE_USE =
            "delete from used where role = ? and folded = ? and subject = ? and property = ?";

    private Index() {}

    /** Sends the words and uses that wait. */
    static void flush(Session session) throws SQLException {
        session.flush(DELETE_WORD);
        session.flush(DELETE_USE);
        session.flush(INSERT_WORD);
        session.flush(INSERT_USE);
    }

    /** Brings words and uses of one fact from its old value to its new one; the sterilizers whose due dates this touches. */
    static Set<Long> update(
            Session session, StoredSubject subject, String property, JsonText oldValue, JsonText newValue)
            throws SQLException {
        Set<String> oldWords = SearchTable.words(subject.kind(), property, oldValue);
        Set<String> newWords = SearchTable.words(subject.kind(), property, newValue);
        for (String word : oldWords) {
            if (!newWords.contains(word)) {
                session.add(DELETE_WORD, subject.number(), property, word);
            }
        }
        for (String word : newWords) {
            if (!oldWords.contains(word)) {
                session.add(INSERT_WORD, subject.number(), property, word);
            }
        }
        Set<SearchTable.UsedKey> oldUses = SearchTable.uses(subject.kind(), property, oldValue);
        Set<SearchTable.UsedKey> newUses = SearchTable.uses(subject.kind(), property, newValue);
        Set<Long> touched = new HashSet<>();
        for (SearchTable.UsedKey use : oldUses) {
            if (!newUses.contains(use)) {
                session.add(DELETE_USE, use.use().word(), use.folded(), subject.number(), property);
                touched.addAll(sterilizers(session, use));
                if (use.use() == Use.ROOM && subject.kind() == Kind.CLINIC) {
                    touched.addAll(standingIn(session, use.folded()));
                }
            }
        }
        for (SearchTable.UsedKey use : newUses) {
            if (!oldUses.contains(use)) {
                session.add(INSERT_USE, use.use().word(), use.folded(), subject.number(), property);
            }
        }
        return touched;
    }

    /** Sterilizers whose due dates hang on this subject as it stands. */
    static Set<Long> sterilizersOf(Session session, StoredSubject subject) throws SQLException {
        if (subject.kind() == Kind.STERILIZER) {
            return Set.of(subject.number());
        }
        Set<Long> sterilizers = new LinkedHashSet<>();
        if (subject.kind() == Kind.CLINIC) {
            for (String room : rooms(session, subject.number(), Kind.CLINIC)) {
                sterilizers.addAll(standingIn(session, room));
            }
        }
        if (subject.kind() != Kind.VISIT) {
            return sterilizers;
        }
        for (JsonText value : session.list(
                row -> new JsonText(row.getString(1)),
                "select value from fact where subject = ? and property = 'sterilizer'",
                subject.number())) {
            for (SearchTable.UsedKey use : SearchTable.uses(Kind.VISIT, "sterilizer", value)) {
                sterilizers.addAll(sterilizers(session, use));
            }
        }
        return sterilizers;
    }

    /** Rooms that a subject names, from its facts: the table of uses has no order by subject. */
    private static Set<String> rooms(Session session, long subject, Kind kind) throws SQLException {
        Set<String> rooms = new TreeSet<>();
        session.list(
                row -> rooms.addAll(SearchTable.uses(kind, row.getString(1), new JsonText(row.getString(2))).stream()
                        .map(SearchTable.UsedKey::folded)
                        .toList()),
                "select property, value from fact where subject = ? and property in ("
                        + Session.places(SearchTable.OF_ROOMS.size()) + ")",
                Stream.concat(Stream.of(subject), SearchTable.OF_ROOMS.stream()).toArray());
        return rooms;
    }

    /** Sterilizers that name a room, be it that they stood there once. */
    private static List<Long> standingIn(Session session, String room) throws SQLException {
        return inRoom(session, room, Kind.STERILIZER);
    }

    private static List<Long> inRoom(Session session, String room, Kind kind) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select distinct u.subject from used u cross join subject s"
                        + " where s.nr = u.subject and u.role = ? and u.folded = ? and s.kind = ? order by 1",
                Use.ROOM.word(),
                room,
                kind.word());
    }

    private static List<Long> sterilizers(Session session, SearchTable.UsedKey use) throws SQLException {
        if (use.use() != Use.STERILIZER || !use.folded().matches("[0-9a-f]{32}")) {
            return List.of();
        }
        String id = use.folded().replaceFirst("(.{8})(.{4})(.{4})(.{4})(.{12})", "$1-$2-$3-$4-$5");
        return session.list(row -> row.getLong(1), "select nr from subject where id = ? and kind = 'sterilizer'", id);
    }

    /** Visits to a sterilizer. */
    static List<Long> visitsTo(Session session, SubjectId sterilizer) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select distinct u.subject from used u cross join subject s where s.nr = u.subject"
                        + " and u.role = 'sterilizer' and u.folded = ? and s.kind = 'visit' order by 1 desc",
                Folding.whole(sterilizer.toString()));
    }

    /** Works out the due dates of a sterilizer anew; writes those that are others than before. */
    static void due(Session session, long sterilizer, DueRule rule) throws SQLException {
        Map<String, DueDate> before = new HashMap<>();
        for (DueDate date : session.list(
                Index::dueDate,
                "select s.id, d.day, d.reason, d.certainty, d.note, d.late_from from due d join subject s"
                        + " on s.nr = d.subject where d.subject = ?",
                sterilizer)) {
            before.put(date.reason(), date);
        }
        for (DueDate date : expectedDue(session, sterilizer, rule)) {
            if (!date.equals(before.remove(date.reason()))) {
                session.run(
                        "insert into due (subject, reason, day, certainty, note, late_from) values (?, ?, ?, ?, ?, ?)"
                                + " on conflict (subject, reason) do update set day = excluded.day, certainty ="
                                + " excluded.certainty, note = excluded.note, late_from = excluded.late_from",
                        sterilizer,
                        date.reason(),
                        date.day().toString(),
                        date.certainty(),
                        date.note(),
                        lateFrom(date));
            }
        }
        for (String reason : before.keySet()) {
            session.run("delete from due where subject = ? and reason = ?", sterilizer, reason);
        }
    }

    /** First day on which it is overdue, as it stands in the table. */
    static String lateFrom(DueDate date) {
        return date.lateFrom().map(LocalDate::toString).orElse(NEVER);
    }

    /** Due dates as the rule gives them now. */
    static List<DueDate> expectedDue(Session session, long sterilizer, DueRule rule) throws SQLException {
        if (rule == DueRule.NONE) {
            return List.of();
        }
        Subject subject = subjects(session, List.of(sterilizer)).get(0);
        List<Long> visits = rule.isOfVisits() ? visitsTo(session, subject.id()) : List.of();
        Set<Long> clinics = new TreeSet<>();
        for (String room : rooms(session, sterilizer, Kind.STERILIZER)) {
            clinics.addAll(inRoom(session, room, Kind.CLINIC));
        }
        return rule.due(subject, subjects(session, visits), subjects(session, List.copyOf(clinics)));
    }

    /** Subjects with their facts, in the order asked for. */
    static List<Subject> subjects(Session session, List<Long> numbers) throws SQLException {
        Map<Long, Subject> found = byNumber(session, numbers);
        List<Subject> subjects = new ArrayList<>();
        for (long number : numbers) {
            Subject subject = found.get(number);
            if (subject != null) {
                subjects.add(subject);
            }
        }
        return subjects;
    }

    private static Map<Long, Subject> byNumber(Session session, List<Long> numbers) throws SQLException {
        Map<Long, TreeMap<String, JsonText>> facts = new HashMap<>();
        Map<Long, Subject> found = new HashMap<>();
        Session.inPieces(new ArrayList<>(numbers), piece -> {
            String places = Session.places(piece.size());
            session.list(
                    row -> facts.computeIfAbsent(row.getLong(1), number -> new TreeMap<>())
                            .put(row.getString(2), new JsonText(row.getString(3))),
                    "select subject, property, value from fact where subject in (" + places + ")",
                    piece.toArray());
            session.list(
                    row -> found.put(
                            row.getLong(1),
                            new Subject(
                                    SubjectId.parse(row.getString(2)),
                                    Kind.ofWord(row.getString(3)),
                                    facts.getOrDefault(row.getLong(1), new TreeMap<>()))),
                    "select nr, id, kind from subject where nr in (" + places + ")",
                    piece.toArray());
        });
        return found;
    }

    /** Subjects of these kinds, or of any if none is named, with a word that begins with each word of the question. */
    static Found find(Session session, String question, Set<Kind> kinds, int limit) throws SQLException {
        List<String> words = new ArrayList<>();
        for (String part : question.strip().split("\\s+")) {
            String word = Folding.whole(part);
            if (!word.isEmpty() && words.size() < MOST_WORDS) {
                words.add(word);
            }
        }
        if (words.isEmpty() || limit < 1) {
            return new Found(List.of(), true);
        }
        String rarest = rarest(session, words);
        StringBuilder sql = new StringBuilder("select w.subject, w.property from (select folded, subject, property"
                + " from word where folded >= ? and folded < ? order by folded, subject limit "
                + (MOST_LOOKED_THROUGH + 1) + ") w join subject s on s.nr = w.subject where 1 = 1");
        List<Object> values = new ArrayList<>(List.of(rarest, rarest + LAST));
        if (!kinds.isEmpty()) {
            sql.append(" and s.kind in (").append(Session.places(kinds.size())).append(")");
            kinds.stream().sorted().forEach(kind -> values.add(kind.word()));
        }
        words.remove(rarest);
        for (String word : words) {
            sql.append(
                    " and exists (select 1 from word x where x.subject = w.subject and x.folded >= ? and x.folded < ?)");
            values.add(word);
            values.add(word + LAST);
        }
        sql.append(" order by w.folded, w.subject");
        Map<Long, String> found = new LinkedHashMap<>();
        session.list(row -> found.putIfAbsent(row.getLong(1), row.getString(2)), sql.toString(), values.toArray());
        boolean isAllLookedThrough = count(session, rarest) <= MOST_LOOKED_THROUGH;
        List<Long> wanted = found.keySet().stream().limit(limit).toList();
        Map<Long, Subject> subjects = byNumber(session, wanted);
        List<Found.Hit> hits = new ArrayList<>();
        for (long number : wanted) {
            Subject subject = subjects.get(number);
            if (subject != null) {
                hits.add(new Found.Hit(subject, found.getOrDefault(number, "")));
            }
        }
        return new Found(hits, isAllLookedThrough && found.size() <= limit);
    }

    /** Subjects of a kind of which a fact that is searched as a whole has exactly that text, the oldest first. */
    static List<Subject> exactly(Session session, Kind kind, String property, String text) throws SQLException {
        List<Long> numbers = session.list(
                row -> row.getLong(1),
                "select w.subject from word w join subject s on s.nr = w.subject where w.folded = ? and w.property = ?"
                        + " and s.kind = ? order by w.subject limit " + MOST_LOOKED_THROUGH,
                Folding.whole(text),
                property,
                kind.word());
        return subjects(session, numbers).stream()
                .filter(subject -> subject.text(property).equals(text))
                .toList();
    }

    /** The subjects with these ids, as far as they are there, in that order. */
    static List<Subject> byId(Session session, List<SubjectId> ids) throws SQLException {
        Map<String, Long> numbers = new HashMap<>();
        Session.inPieces(
                new ArrayList<>(ids.stream().map(SubjectId::toString).toList()),
                piece -> session.list(
                        row -> numbers.put(row.getString(1), row.getLong(2)),
                        "select id, nr from subject where id in (" + Session.places(piece.size()) + ")",
                        piece.toArray()));
        return subjects(
                session,
                ids.stream()
                        .map(id -> numbers.get(id.toString()))
                        .filter(Objects::nonNull)
                        .toList());
    }

    private static String rarest(Session session, List<String> words) throws SQLException {
        String rarest = words.get(0);
        if (words.size() > 1) {
            int fewest = Integer.MAX_VALUE;
            for (String word : words) {
                int count = count(session, word);
                if (count < fewest) {
                    fewest = count;
                    rarest = word;
                }
            }
        }
        return rarest;
    }

    /** How many rows begin with the word; counting ends one above what would be looked through. */
    private static int count(Session session, String word) throws SQLException {
        return session.find(
                        row -> row.getInt(1),
                        "select count(*) from (select 1 from word where folded >= ? and folded < ? limit "
                                + (MOST_LOOKED_THROUGH + 1) + ") c",
                        word,
                        word + LAST)
                .orElse(0);
    }

    /** Subjects that used something, newest first. */
    static List<Subject> usedBy(Session session, Use use, String what, long below, int limit) throws SQLException {
        return subjects(session, usedByNumbers(session, use, what, below, limit));
    }

    static List<Long> usedByNumbers(Session session, Use use, String what, long below, int limit) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select distinct subject from used where role = ? and folded = ? and subject < ?"
                        + " order by subject desc limit ?",
                use.word(),
                Folding.whole(what),
                below,
                limit);
    }

    /** Subjects of a kind that used any of these, in the order of their making. */
    static List<Subject> usersOf(Session session, Use use, Kind kind, Set<String> whats) throws SQLException {
        Set<Long> numbers = new TreeSet<>();
        Session.inPieces(
                new ArrayList<>(
                        whats.stream().map(Folding::whole).distinct().sorted().toList()),
                piece -> {
                    List<Object> arguments = new ArrayList<>(List.of(use.word(), kind.word()));
                    arguments.addAll(piece);
                    numbers.addAll(session.list(
                            row -> row.getLong(1),
                            // 'cross' keeps the order: by what was used, not by kind
                            "select distinct u.subject from used u cross join subject s"
                                    + " where s.nr = u.subject and u.role = ? and s.kind = ? and u.folded in ("
                                    + Session.places(piece.size()) + ")",
                            arguments.toArray()));
                });
        return subjects(session, List.copyOf(numbers));
    }

    /** What falls due until that day, included, earliest first. */
    static List<DueDate> dueUntil(Session session, LocalDate until, DueStart start, int limit) throws SQLException {
        List<Object> arguments = new ArrayList<>(List.of(until.toString()));
        start.at().ifPresent(at -> arguments.addAll(place(at)));
        arguments.add(limit);
        arguments.add(start.at().isPresent() ? 0L : start.from());
        return session.list(
                Index::dueDate,
                // the page is cut out of the index; what it does not hold is read for the rows of the page only
                "select s.id, d.day, d.reason, d.certainty, d.note, d.late_from from (select day, subject, reason"
                        + " from due where day <= ?"
                        + (start.at().isPresent() ? " and (day, subject, reason) >= " + PLACE : "")
                        + " order by day, subject, reason limit ? offset ?) p"
                        + " cross join due d cross join subject s"
                        + " where d.subject = p.subject and d.reason = p.reason and s.nr = d.subject"
                        + " order by d.day, d.subject, d.reason",
                arguments.toArray());
    }

    private static List<Object> place(DueStart.At at) {
        return List.of(at.day().toString(), at.sterilizer().toString(), at.reason());
    }

    /** Where a page begins that ends before an entry. */
    static DueStart dueEarlier(Session session, DueStart start, DueStart.At first, int entries) throws SQLException {
        List<Object> arguments = new ArrayList<>(place(first));
        arguments.add(entries);
        List<DueStart.At> before = session.list(
                row -> new DueStart.At(
                        LocalDate.parse(row.getString(1)), SubjectId.parse(row.getString(2)), row.getString(3)),
                "select p.day, s.id, p.reason from (select day, subject, reason from due where"
                        + " (day, subject, reason) < " + PLACE
                        + " order by day desc, subject desc, reason desc limit ?) p cross join subject s"
                        + " where s.nr = p.subject order by p.day, p.subject, p.reason limit 1",
                arguments.toArray());
        return before.isEmpty() ? DueStart.FIRST : new DueStart(start.from() - entries, Optional.of(before.get(0)));
    }

    private static DueDate dueDate(ResultSet row) throws SQLException {
        String lateFrom = row.getString(6);
        return new DueDate(
                SubjectId.parse(row.getString(1)),
                LocalDate.parse(row.getString(2)),
                row.getString(3),
                row.getString(4),
                row.getString(5),
                lateFrom.equals(NEVER) ? Optional.empty() : Optional.of(LocalDate.parse(lateFrom)));
    }

    /** How much falls due until that day, included. */
    static long countDue(Session session, LocalDate until) throws SQLException {
        return session.find(row -> row.getLong(1), "select count(*) from due where day <= ?", until.toString())
                .orElse(0L);
    }

    /** How much is overdue on that day. */
    static long countLate(Session session, LocalDate day) throws SQLException {
        return session.find(row -> row.getLong(1), "select count(*) from due where late_from <= ?", day.toString())
                .orElse(0L);
    }

    /** How much is overdue on that day of these. */
    static long countLate(Session session, LocalDate day, Set<SubjectId> sterilizers) throws SQLException {
        List<Long> counts = new ArrayList<>();
        for (Subject sterilizer : byId(session, List.copyOf(sterilizers))) {
            counts.add(session.find(
                            row -> row.getLong(1),
                            "select count(*) from due d join subject s on s.nr = d.subject where s.id = ?"
                                    + " and d.late_from <= ?",
                            sterilizer.id().toString(),
                            day.toString())
                    .orElse(0L));
        }
        return counts.stream().mapToLong(Long::longValue).sum();
    }

    /** Which of these are in the due list before an entry of it. */
    static Set<SubjectId> dueBefore(Session session, DueDate entry, List<SubjectId> sterilizers) throws SQLException {
        Set<SubjectId> before = new HashSet<>();
        Session.inPieces(
                new ArrayList<>(sterilizers.stream().map(SubjectId::toString).toList()), piece -> {
                    List<Object> arguments = new ArrayList<>(piece);
                    String day = entry.day().toString();
                    arguments.addAll(List.of(
                            day,
                            day,
                            entry.sterilizer().toString(),
                            entry.sterilizer().toString(),
                            entry.reason()));
                    before.addAll(session.list(
                            row -> SubjectId.parse(row.getString(1)),
                            "select distinct s.id from subject s join due d on d.subject = s.nr where s.id in ("
                                    + Session.places(piece.size()) + ") and (d.day < ? or (d.day = ? and (d.subject <"
                                    + " (select nr from subject where id = ?) or (s.id = ? and d.reason < ?))))",
                            arguments.toArray()));
                });
        return before;
    }

    /** Visits on days from one on, the earliest first. */
    static List<Subject> visitsFrom(Session session, LocalDate from, int limit) throws SQLException {
        return subjects(
                session,
                session.list(
                        row -> row.getLong(1),
                        "select w.subject from word w cross join subject s where s.nr = w.subject and w.folded >= ? and"
                                + " w.folded < ? and w.property = 'date' and s.kind = 'visit' order by w.folded, w.subject"
                                + " limit ?",
                        Folding.whole(from.toString()),
                        Folding.whole(from.plusYears(YEARS_AHEAD).toString()),
                        limit));
    }

    /** Number of the index as it is made with a rule; without one the next opening with a rule has something to make. */
    static long derivation(DueRule rule) {
        return rule == DueRule.NONE ? -SearchTable.VERSION : SearchTable.VERSION;
    }

    /** Throws all that is derived away and makes it again. */
    static void rebuild(Session session, DueRule rule) throws SQLException {
        session.run("delete from word");
        session.run("delete from used");
        session.run("delete from due");
        ResultTables.clear(session);
        long[] waiting = {0};
        session.each(
                row -> {
                    StoredSubject subject = new StoredSubject(row.getLong(1), Kind.ofWord(row.getString(2)));
                    String property = row.getString(3);
                    JsonText value = new JsonText(row.getString(4));
                    for (String word : SearchTable.words(subject.kind(), property, value)) {
                        session.add(INSERT_WORD, subject.number(), property, word);
                    }
                    for (SearchTable.UsedKey use : SearchTable.uses(subject.kind(), property, value)) {
                        session.add(INSERT_USE, use.use().word(), use.folded(), subject.number(), property);
                    }
                    if (++waiting[0] % 1_000 == 0) {
                        session.flush(INSERT_WORD);
                        session.flush(INSERT_USE);
                    }
                    return true;
                },
                "select s.nr, s.kind, f.property, f.value from fact f join subject s on s.nr = f.subject");
        session.flush(INSERT_WORD);
        session.flush(INSERT_USE);
        if (rule != DueRule.NONE) {
            for (long sterilizer :
                    session.list(row -> row.getLong(1), "select nr from subject where kind = 'sterilizer'")) {
                due(session, sterilizer, rule);
            }
        }
        AheadTable.rebuild(session, rule);
        session.run("update store set derivation = ?", derivation(rule));
    }
}
