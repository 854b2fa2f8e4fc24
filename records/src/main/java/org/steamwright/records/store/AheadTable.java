package org.steamwright.records.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.steamwright.records.AheadLapse;
import org.steamwright.records.AheadVisit;
import org.steamwright.records.DueRule;
import org.steamwright.records.Kind;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;

/** Table of the visits that still want something, and of what the office has that ends. */
public final class AheadTable {

    /** Fact of a visit that was given up before it was signed. */
    public static final String BROKEN_OFF = "broken-off";

    /** Fact of an issue that is interim. */
    public static final String INTERIM_UNTIL = "interim-until";

    private static final String OPEN = "open";
    private static final String INTERIM = "interim";
    private static final String LAPSES = "lapses";
    private static final Set<Kind> THAT_LAPSE = EnumSet.of(Kind.INSTRUMENT, Kind.LOT, Kind.TECHNICIAN);
    private static final String COLUMNS = "s.id, a.state, a.day, a.awaits";
    private static final String ROWS = "select " + COLUMNS + " from ahead a join subject s on s.nr = a.subject";

    /** Told by the length, so that no engine looks through all visits that await nothing. */
    private static final String INTERIM_WITHOUT_MOMENT = "a.state = 'interim' and length(a.awaits) = 0";

    private static final String OF_SPAN = " from ahead a join subject s on s.nr = a.subject where a.state = 'lapses'"
            + " and a.day <= ? and (a.day = ? or a.day >= ? or (a.day >= ? and s.kind <> 'lot'))";

    /** A row as it is to be kept. */
    private record Row(String state, String day, String awaits) {}

    private AheadTable() {}

    /**
     * Subjects whose row may be another one when a subject changes: itself, and of visits that of an issue and the one that it
     * corrects.
     */
    static Set<Long> touched(Session session, StoredSubject subject) throws SQLException {
        Set<Long> visits = new LinkedHashSet<>();
        if (subject.kind() == Kind.VISIT || THAT_LAPSE.contains(subject.kind())) {
            visits.add(subject.number());
        }
        if (subject.kind() == Kind.VISIT || subject.kind() == Kind.ISSUE) {
            visits.addAll(ResultTables.visitsOf(session, subject.number(), true));
        }
        return visits;
    }

    /** Brings the row of a subject up to date. */
    static void update(Session session, long visit, DueRule rule) throws SQLException {
        Optional<Row> before =
                session.find(AheadTable::row, "select state, day, awaits from ahead where subject = ?", visit);
        Optional<Row> now = expected(session, visit, rule);
        if (before.equals(now)) {
            return;
        }
        session.run("delete from ahead where subject = ?", visit);
        if (now.isPresent()) {
            session.run(
                    "insert into ahead (subject, state, day, awaits) values (?, ?, ?, ?)",
                    visit,
                    now.get().state(),
                    now.get().day(),
                    now.get().awaits());
        }
    }

    private static Row row(ResultSet row) throws SQLException {
        return new Row(row.getString(1), row.getString(2), row.getString(3));
    }

    /** Makes all rows anew. */
    static void rebuild(Session session, DueRule rule) throws SQLException {
        session.run("delete from ahead");
        for (long subject : subjects(session)) {
            update(session, subject, rule);
        }
    }

    private static List<Long> subjects(Session session) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select nr from subject where kind in ('visit', 'instrument', 'lot', 'technician') order by nr");
    }

    private static Optional<Row> expected(Session session, long visit, DueRule rule) throws SQLException {
        record Known(SubjectId id, Kind kind) {}
        Optional<Known> known = session.find(
                row -> new Known(SubjectId.parse(row.getString(1)), Kind.ofWord(row.getString(2))),
                "select id, kind from subject where nr = ?",
                visit);
        if (known.isEmpty()) {
            return Optional.empty();
        }
        if (THAT_LAPSE.contains(known.get().kind())) {
            return rule == DueRule.NONE
                    ? Optional.empty()
                    : Index.subjects(session, List.of(visit)).stream()
                            .findFirst()
                            .flatMap(rule::lapses)
                            .map(day -> new Row(LAPSES, day.toString(), ""));
        }
        Optional<String> state = state(session, visit, known.get().id());
        if (state.isEmpty()) {
            return Optional.empty();
        }
        String awaits = rule == DueRule.NONE
                ? ""
                : Index.subjects(session, List.of(visit)).stream()
                        .findFirst()
                        .flatMap(rule::awaits)
                        .map(AheadTable::word)
                        .orElse("");
        return Optional.of(new Row(state.get(), day(fact(session, visit, "date")), awaits));
    }

    private static Optional<String> state(Session session, long visit, SubjectId id) throws SQLException {
        List<Long> issues = users(session, Use.VISIT, id, Kind.ISSUE);
        if (issues.isEmpty()) {
            return fact(session, visit, BROKEN_OFF).isPresent() ? Optional.empty() : Optional.of(OPEN);
        }
        long issue = issues.get(0);
        Optional<SubjectId> issueId =
                session.find(row -> SubjectId.parse(row.getString(1)), "select id from subject where nr = ?", issue);
        if (issueId.isEmpty()
                || fact(session, issue, INTERIM_UNTIL).isEmpty()
                || !users(session, Use.AMENDED, issueId.get(), Kind.ISSUE).isEmpty()) {
            return Optional.empty();
        }
        // while it is being corrected the correction is what wants something
        for (long correction : users(session, Use.AMENDED, issueId.get(), Kind.VISIT)) {
            if (fact(session, correction, BROKEN_OFF).isEmpty()) {
                return Optional.empty();
            }
        }
        return Optional.of(INTERIM);
    }

    private static List<Long> users(Session session, Use use, SubjectId what, Kind kind) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select distinct u.subject from used u cross join subject s where s.nr = u.subject"
                        + " and u.role = ? and u.folded = ? and s.kind = ? order by 1",
                use.word(),
                Folding.whole(what.toString()),
                kind.word());
    }

    private static Optional<JsonText> fact(Session session, long subject, String property) throws SQLException {
        return session.find(
                        row -> new JsonText(row.getString(1)),
                        "select value from fact where subject = ? and property = ?",
                        subject,
                        property)
                .filter(value -> !value.isNull());
    }

    private static String day(Optional<JsonText> date) {
        return date.map(value -> value.node().asText())
                .filter(text -> text.matches("\\d{4}-\\d{2}-\\d{2}"))
                .orElse("");
    }

    /** A moment as it is ordered: always to the second, always in the same zone. */
    private static String word(Instant moment) {
        return moment.truncatedTo(ChronoUnit.SECONDS).toString();
    }

    private static AheadVisit visit(ResultSet row) throws SQLException {
        String awaits = row.getString(4);
        return new AheadVisit(
                SubjectId.parse(row.getString(1)),
                row.getString(2).equals(INTERIM),
                row.getString(3),
                awaits.isEmpty() ? Optional.empty() : Optional.of(Instant.parse(awaits)));
    }

    /** Visits that await something. */
    public static List<AheadVisit> awaiting(Session session, int limit) throws SQLException {
        return session.list(
                AheadTable::visit, ROWS + " where a.awaits > '' order by a.awaits, a.subject limit ?", limit);
    }

    /** Visits that await something after a moment. */
    public static List<AheadVisit> awaitingAfter(Session session, Instant moment, int limit) throws SQLException {
        return session.list(
                AheadTable::visit,
                ROWS + " where a.awaits > ? order by a.awaits, a.subject limit ?",
                word(moment),
                limit);
    }

    /** How many await something. */
    public static long countAwaiting(Session session) throws SQLException {
        return count(session, "a.awaits > ''");
    }

    /** How many await something that was to be looked at by a moment. */
    public static long countAwaiting(Session session, Instant until) throws SQLException {
        return count(session, "a.awaits > '' and a.awaits <= ?", word(until));
    }

    /** Visits that are not signed. */
    public static List<AheadVisit> open(Session session, LocalDate until, long from, int limit) throws SQLException {
        return session.list(
                AheadTable::visit,
                ROWS + " where a.state = 'open' and a.day <= ? order by a.day desc, a.subject desc limit ? offset ?",
                until.toString(),
                limit,
                from);
    }

    /** How many are not signed. */
    public static long countOpen(Session session, LocalDate until) throws SQLException {
        return count(session, "a.state = 'open' and a.day <= ?", until.toString());
    }

    /** Visits of later days. */
    public static List<AheadVisit> planned(Session session, LocalDate after, int limit) throws SQLException {
        return session.list(
                AheadTable::visit,
                ROWS + " where a.state = 'open' and a.day > ? order by a.day, a.subject limit ?",
                after.toString(),
                limit);
    }

    /** How many there are of later days. */
    public static long countPlanned(Session session, LocalDate after) throws SQLException {
        return count(session, "a.state = 'open' and a.day > ?", after.toString());
    }

    /** Interim reports of which no moment is told. */
    public static List<AheadVisit> interimWithoutMoment(Session session, int limit) throws SQLException {
        return session.list(
                AheadTable::visit,
                ROWS + " where " + INTERIM_WITHOUT_MOMENT + " order by a.day, a.subject limit ?",
                limit);
    }

    /** How many of them there are. */
    public static long countInterimWithoutMoment(Session session) throws SQLException {
        return count(session, INTERIM_WITHOUT_MOMENT);
    }

    /** What ends. */
    public static List<AheadLapse> lapses(Session session, AheadLapse.Span span, long from, int limit)
            throws SQLException {
        List<Object> values = new ArrayList<>(days(span));
        values.add(limit);
        values.add(from);
        return session.list(
                row -> new AheadLapse(SubjectId.parse(row.getString(1)), LocalDate.parse(row.getString(2))),
                "select s.id, a.day" + OF_SPAN + " order by a.day, a.subject limit ? offset ?",
                values.toArray());
    }

    /** How much ends. */
    public static long countLapses(Session session, AheadLapse.Span span) throws SQLException {
        return session.find(
                        row -> row.getLong(1),
                        "select count(*)" + OF_SPAN,
                        days(span).toArray())
                .orElse(0L);
    }

    private static List<String> days(AheadLapse.Span span) {
        return List.of(
                span.until().toString(),
                AheadLapse.NOT_STATED.toString(),
                span.lotsSince().toString(),
                span.since().toString());
    }

    private static long count(Session session, String where, Object... values) throws SQLException {
        return session.find(row -> row.getLong(1), "select count(*) from ahead a where " + where, values)
                .orElse(0L);
    }

    /** Compares the rows with the facts that they follow from. */
    static void check(Session session, DueRule rule, List<String[]> found) throws SQLException {
        Map<Long, Row> kept = new HashMap<>();
        session.list(
                row -> kept.put(row.getLong(1), new Row(row.getString(2), row.getString(3), row.getString(4))),
                "select subject, state, day, awaits from ahead");
        List<Long> wrong = new ArrayList<>();
        for (long visit : subjects(session)) {
            Optional<Row> is = Optional.ofNullable(kept.remove(visit));
            // without a rule nobody knows what is awaited
            Optional<Row> expected = expected(session, visit, rule)
                    .map(row -> rule == DueRule.NONE
                            ? new Row(
                                    row.state(), row.day(), is.map(Row::awaits).orElse(""))
                            : row);
            boolean isUnknown = rule == DueRule.NONE
                    && is.filter(row -> row.state().equals(LAPSES)).isPresent();
            if (!isUnknown && !Objects.equals(is, expected)) {
                wrong.add(visit);
            }
        }
        wrong.addAll(kept.keySet());
        for (long subject : wrong) {
            found.add(new String[] {
                "index of subject number " + subject,
                "what it still wants is not what its facts say; the index can be made again"
            });
        }
    }
}
