package org.steamwright.records.store;

import com.fasterxml.jackson.databind.JsonNode;
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
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.steamwright.records.Kind;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.Line;
import org.steamwright.records.VisitResult.LineRule;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.VisitResult.Month;
import org.steamwright.records.VisitResult.Reason;
import org.steamwright.records.json.JsonText;

/** Tables of what follows from visits, and of the visits of which that has to be found out anew. */
public final class ResultTables {

    /** Facts of a sterilizer by which its family is told. */
    private static final Set<String> OF_THE_FAMILY =
            Set.of("maker", "model", "stated/maker", "stated/model", "stated/family");

    private static final String AWAIT = "insert into waiting (subject, entries) values (?, ?)"
            + " on conflict (subject) do update set entries = excluded.entries";
    private static final String RESULT_COLUMNS = "s.id, r.made_from, r.state, r.day, r.standing, r.as_found,"
            + " r.as_found_failed, r.is_correction, r.turn_around, r.exceptions, r.subject, r.sha256, r.why";
    private static final String FIGURE_COLUMNS =
            "figure, machine, serial, cycle, comparison, day, run, value, bound, unit";
    private static final String LINE_COLUMNS = "figure, machine, cycle, serial, family, last, pressing, sha256";

    private ResultTables() {}

    /** Puts the visits that a subject concerns among those that wait. */
    static void await(Session session, StoredSubject subject, Set<String> changed, long entries) throws SQLException {
        Set<Long> visits = new LinkedHashSet<>();
        switch (subject.kind()) {
            case VISIT -> visits.add(subject.number());
            case ISSUE -> visits.addAll(visitsOf(session, subject.number(), true));
            case STERILIZER -> {
                if (changed.stream().anyMatch(OF_THE_FAMILY::contains)) {
                    visits.addAll(Index.visitsTo(session, id(session, subject.number())));
                }
            }
            default -> {
                return;
            }
        }
        for (long visit : visits) {
            session.add(AWAIT, visit, entries);
        }
    }

    private static SubjectId id(Session session, long number) throws SQLException {
        return session.find(row -> SubjectId.parse(row.getString(1)), "select id from subject where nr = ?", number)
                .orElseThrow();
    }

    /** The visit of an issue, and that of the issue that it corrects or withdraws. */
    static Set<Long> visitsOf(Session session, long issue, boolean isWithEarlier) throws SQLException {
        Set<Long> visits = new LinkedHashSet<>();
        for (String[] fact : session.list(
                row -> new String[] {row.getString(1), row.getString(2)},
                "select property, value from fact where subject = ?"
                        + " and property in ('visit', 'withdraws-visit', 'amends')",
                issue)) {
            JsonNode node = new JsonText(fact[1]).node();
            boolean isEarlier = fact[0].equals("amends");
            Optional<Long> named = session.find(
                    row -> row.getLong(1),
                    "select nr from subject where id = ? and kind = ?",
                    isEarlier ? node.path("id").asText() : node.asText(),
                    (isEarlier ? Kind.ISSUE : Kind.VISIT).word());
            if (named.isPresent() && !isEarlier) {
                visits.add(named.get());
            } else if (named.isPresent() && isWithEarlier) {
                visits.addAll(visitsOf(session, named.get(), false));
            }
        }
        return visits;
    }

    static void flush(Session session) throws SQLException {
        session.flush(AWAIT);
    }

    /** Throws all results away; every visit waits. */
    static void clear(Session session) throws SQLException {
        for (String table : List.of("result", "figure", "line", "waiting")) {
            session.run("delete from " + table);
        }
        session.run("insert into waiting (subject, entries) select s.nr, t.entries from subject s, store t"
                + " where s.kind = 'visit'");
    }

    /** Visits that wait, the newest first. */
    public static List<Waiting> waiting(Session session, int limit) throws SQLException {
        return session.list(
                row -> new Waiting(SubjectId.parse(row.getString(1)), row.getLong(2)),
                "select s.id, w.entries from waiting w join subject s on s.nr = w.subject order by w.subject desc limit ?",
                limit);
    }

    /** How many visits wait. */
    public static long countWaiting(Session session) throws SQLException {
        return session.find(row -> row.getLong(1), "select count(*) from waiting")
                .orElse(0L);
    }

    /** What was kept of a visit. */
    public static Optional<VisitResult> find(Session session, SubjectId visit) throws SQLException {
        Optional<Stored> stored = session.find(
                ResultTables::stored,
                "select " + RESULT_COLUMNS + " from subject s join result r on r.subject = s.nr where s.id = ?",
                visit.toString());
        return stored.isEmpty() ? Optional.empty() : Optional.of(withFigures(session, stored.get()));
    }

    private record Stored(VisitResult result, long number, String sha256) {}

    private static Stored stored(ResultSet row) throws SQLException {
        long turnAround = row.getLong(9);
        return new Stored(
                new VisitResult(
                        SubjectId.parse(row.getString(1)),
                        row.getString(2),
                        row.getString(3),
                        row.getString(4),
                        row.getString(5),
                        why(row.getString(13)),
                        row.getLong(6) != 0,
                        row.getLong(7) != 0,
                        row.getLong(8) != 0,
                        turnAround < 0 ? OptionalLong.empty() : OptionalLong.of(turnAround),
                        row.getInt(10),
                        List.of()),
                row.getLong(11),
                row.getString(12));
    }

    /** The place stands on the first line. */
    private static Reason why(String kept) {
        int end = kept.indexOf('\n');
        return end < 0 ? Reason.NONE : new Reason(kept.substring(0, end), kept.substring(end + 1));
    }

    private static String why(Reason why) {
        return why.equals(Reason.NONE) ? "" : why.place().replace('\n', ' ') + "\n" + why.text();
    }

    private static VisitResult withFigures(Session session, Stored stored) throws SQLException {
        VisitResult result = stored.result();
        return new VisitResult(
                result.visit(),
                result.madeFrom(),
                result.state(),
                result.day(),
                result.standing(),
                result.why(),
                result.hasAsFound(),
                result.hasAsFoundFailure(),
                result.isCorrection(),
                result.turnAround(),
                result.exceptions(),
                session.list(
                        ResultTables::figure,
                        "select " + FIGURE_COLUMNS + " from figure where subject = ? order by figure, machine, cycle,"
                                + " comparison",
                        stored.number()));
    }

    private static Figure figure(ResultSet row) throws SQLException {
        return new Figure(
                row.getString(1),
                row.getString(2),
                row.getString(3),
                row.getString(4),
                row.getString(5),
                row.getString(6),
                row.getInt(7),
                row.getDouble(8),
                row.getDouble(9),
                row.getString(10));
    }

    private static final String INSERT_FIGURE =
            "insert into figure (subject, " + FIGURE_COLUMNS + ") values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    private static final String INSERT_RESULT =
            "insert into result (subject, made_from, state, day, standing, as_found,"
                    + " as_found_failed, is_correction, turn_around, exceptions, sha256, why) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    private static final String INSERT_LINE = "insert into line (" + LINE_COLUMNS + ") values (?, ?, ?, ?, ?, ?, ?, ?)";
    private static final String END_WAITING = "delete from waiting where subject = ? and entries <= ?";

    /** Keeps results, and works out anew where the lines stand that they touch. */
    public static void keep(
            Session session, Map<Waiting, VisitResult> results, Map<String, String> families, LineRule rule)
            throws SQLException {
        Set<Line> touched = new LinkedHashSet<>();
        for (Map.Entry<Waiting, VisitResult> entry : results.entrySet()) {
            VisitResult result = entry.getValue();
            Optional<StoredSubject> visit = Ledger.find(session, result.visit());
            if (visit.isEmpty()) {
                continue;
            }
            long number = visit.get().number();
            if (session.find(row -> row.getLong(1), "select entries from waiting where subject = ?", number)
                    .isEmpty()) {
                // somebody else has ended the waiting, with what the visit came to later
                continue;
            }
            touched.addAll(session.list(
                    row -> new Line(row.getString(1), row.getString(2), row.getString(3)),
                    "select distinct figure, machine, cycle from figure where subject = ?",
                    number));
            session.run("delete from figure where subject = ?", number);
            session.run("delete from result where subject = ?", number);
            for (Figure figure : result.figures()) {
                touched.add(new Line(figure.figure(), figure.machine(), figure.cycle()));
                session.add(
                        INSERT_FIGURE,
                        number,
                        figure.figure(),
                        figure.machine(),
                        figure.serial(),
                        figure.cycle(),
                        figure.comparison(),
                        figure.day(),
                        (long) figure.run(),
                        figure.value(),
                        figure.limit(),
                        figure.unit());
            }
            session.add(
                    INSERT_RESULT,
                    number,
                    result.madeFrom(),
                    result.state(),
                    result.day(),
                    result.standing(),
                    result.hasAsFound() ? 1L : 0L,
                    result.hasAsFoundFailure() ? 1L : 0L,
                    result.isCorrection() ? 1L : 0L,
                    result.turnAround().orElse(-1),
                    (long) result.exceptions(),
                    result.sha256(),
                    why(result.why()));
            session.add(END_WAITING, number, entry.getKey().entries());
        }
        session.flush(INSERT_FIGURE);
        session.flush(INSERT_RESULT);
        session.flush(END_WAITING);
        for (Line line : touched) {
            List<Figure> figures = figures(session, line);
            session.run(
                    "delete from line where figure = ? and machine = ? and cycle = ?",
                    line.figure(),
                    line.machine(),
                    line.cycle());
            if (!figures.isEmpty()) {
                insert(session, rule.of(line, families.getOrDefault(line.machine(), ""), figures));
            }
        }
        session.flush(INSERT_LINE);
    }

    private static void insert(Session session, LineStanding standing) throws SQLException {
        session.add(
                INSERT_LINE,
                standing.line().figure(),
                standing.line().machine(),
                standing.line().cycle(),
                standing.serial(),
                standing.family(),
                standing.last(),
                standing.pressing(),
                standing.sha256());
    }

    private static List<Figure> figures(Session session, Line line) throws SQLException {
        return session.list(
                ResultTables::figure,
                "select " + FIGURE_COLUMNS + " from figure where figure = ? and machine = ? and cycle = ?"
                        + " order by day, subject, comparison",
                line.figure(),
                line.machine(),
                line.cycle());
    }

    private static LineStanding line(ResultSet row) throws SQLException {
        return new LineStanding(
                new Line(row.getString(1), row.getString(2), row.getString(3)),
                row.getString(4),
                row.getString(5),
                row.getDouble(6),
                row.getString(7));
    }

    /** Lines of a figure, the most pressing first. */
    public static List<LineStanding> lines(Session session, String figure, long from, int limit) throws SQLException {
        return session.list(
                ResultTables::line,
                // the page is cut out of the index; what it does not hold is read for the lines of the page only
                "select l." + LINE_COLUMNS.replace(", ", ", l.")
                        + " from (select figure, machine, cycle from line where figure = ?"
                        + " order by pressing, serial, machine, cycle limit ? offset ?) p cross join line l"
                        + " where l.figure = p.figure and l.machine = p.machine and l.cycle = p.cycle"
                        + " order by l.pressing, l.serial, l.machine, l.cycle",
                figure,
                limit,
                from);
    }

    /** How many lines a figure has. */
    public static long countLines(Session session, String figure) throws SQLException {
        return session.find(row -> row.getLong(1), "select count(*) from line where figure = ?", figure)
                .orElse(0L);
    }

    /** Lines of a machine. */
    public static List<LineStanding> linesOf(Session session, String machine) throws SQLException {
        return session.list(
                ResultTables::line,
                "select " + LINE_COLUMNS + " from line where machine = ? order by figure, cycle",
                machine);
    }

    /** Machines with lines that have that serial number. */
    public static List<String> machinesOf(Session session, String serial) throws SQLException {
        return session.list(
                row -> row.getString(1), "select distinct machine from line where serial = ? order by machine", serial);
    }

    /** Figures that have lines, each found by one step in the index; their order is that of the words. */
    public static List<String> figuresWithLines(Session session) throws SQLException {
        List<String> figures = new ArrayList<>();
        Optional<String> next = figureBehind(session, "");
        while (next.isPresent()) {
            figures.add(next.get());
            next = figureBehind(session, next.get());
        }
        return figures;
    }

    private static Optional<String> figureBehind(Session session, String figure) throws SQLException {
        return session.list(row -> row.getString(1), "select min(figure) from line where figure > ?", figure).stream()
                .filter(Objects::nonNull)
                .findFirst();
    }

    /** Figures of each of these lines. */
    public static Map<Line, List<Figure>> figures(Session session, List<Line> lines) throws SQLException {
        Map<Line, List<Figure>> figures = new LinkedHashMap<>();
        for (Line line : lines) {
            figures.put(line, figures(session, line));
        }
        return figures;
    }

    /** How many lines of a figure and a cycle a family has. */
    public static int countFamily(Session session, String figure, String family, String cycle) throws SQLException {
        return session.find(
                        row -> row.getInt(1),
                        "select count(*) from line where figure = ? and family = ? and cycle = ?",
                        figure,
                        family,
                        cycle)
                .orElse(0);
    }

    /** The last figure at a place of their order. */
    public static OptionalDouble lastOfFamily(Session session, String figure, String family, String cycle, int place)
            throws SQLException {
        Optional<Double> last = session.find(
                row -> row.getDouble(1),
                "select last from line where figure = ? and family = ? and cycle = ? order by last limit 1 offset ?",
                figure,
                family,
                cycle,
                place);
        return last.isPresent() ? OptionalDouble.of(last.get()) : OptionalDouble.empty();
    }

    /** Counts, month by month. */
    public static List<Month> months(Session session, LocalDate from, LocalDate until) throws SQLException {
        return session.list(
                row -> new Month(
                        row.getString(1),
                        row.getLong(2),
                        row.getLong(3),
                        row.getLong(4),
                        row.getLong(5),
                        row.getLong(6)),
                "select substr(day, 1, 7), count(*), sum(as_found), sum(as_found_failed),"
                        + " sum(case when state = 'out' and standing not in ('', 'awaited') then 1 else 0 end),"
                        + " sum(case when state = 'out' and standing = 'pass' and is_correction = 0 then 1 else 0 end)"
                        + " from result where day >= ? and day <= ? and state in ('open', 'out')"
                        + " group by substr(day, 1, 7) order by 1",
                from.toString(),
                until.toString());
    }

    /** Minutes of turn-around, the shortest first. */
    public static List<Long> turnArounds(Session session, LocalDate from, LocalDate until) throws SQLException {
        return session.list(
                row -> row.getLong(1),
                "select turn_around from result where day >= ? and day <= ? and state in ('open', 'out')"
                        + " and turn_around >= 0 order by turn_around",
                from.toString(),
                until.toString());
    }

    /** How many visits are signed and have a day, but no turn-around. */
    public static long countDatedAfterSignature(Session session, LocalDate from, LocalDate until) throws SQLException {
        return session.find(
                        row -> row.getLong(1),
                        "select count(*) from result where day >= ? and day <= ? and state = 'out' and turn_around < 0",
                        from.toString(),
                        until.toString())
                .orElse(0L);
    }

    /** Visits that are open, the newest first. */
    public static List<VisitResult> open(Session session, int limit) throws SQLException {
        return session.list(
                row -> stored(row).result(),
                "select " + RESULT_COLUMNS + " from result r join subject s on s.nr = r.subject where r.state = 'open'"
                        + " order by r.subject desc limit ?",
                limit);
    }

    /** Visits that stand and could not be assessed, the newest first. */
    public static List<VisitResult> unassessed(Session session, int limit) throws SQLException {
        return session.list(
                row -> stored(row).result(),
                "select " + RESULT_COLUMNS + " from result r join subject s on s.nr = r.subject where r.standing = ''"
                        + " and r.state in ('open', 'out') order by r.subject desc limit ?",
                limit);
    }

    /** How many visits stand and could not be assessed. */
    public static long countUnassessed(Session session) throws SQLException {
        return session.find(
                        row -> row.getLong(1),
                        "select count(*) from result where standing = '' and state in ('open', 'out')")
                .orElse(0L);
    }

    /** Puts the visits that could not be read among those that wait. */
    public static void awaitUnread(Session session) throws SQLException {
        session.run("insert into waiting (subject, entries) select r.subject, t.entries from result r, store t"
                + " where r.standing = '' and r.made_from = ''"
                + " and not exists (select 1 from waiting w where w.subject = r.subject)");
    }

    /** Puts the visits among those that wait whose result was made from something that begins otherwise. */
    public static void awaitOthers(Session session, String begin) throws SQLException {
        session.run(
                "insert into waiting (subject, entries) select r.subject, t.entries from result r, store t"
                        + " where r.made_from <> '' and substr(r.made_from, 1, length(?)) <> ?"
                        + " and not exists (select 1 from waiting w where w.subject = r.subject)",
                begin,
                begin);
    }

    /** Compares what is kept with its hashes, and looks for visits that have neither a result nor wait for one. */
    static void check(Session session, List<String[]> found) throws SQLException {
        for (String id : session.list(
                row -> row.getString(1),
                "select s.id from subject s where s.kind = 'visit' and not exists (select 1 from result r where"
                        + " r.subject = s.nr) and not exists (select 1 from waiting w where w.subject = s.nr)")) {
            found.add(new String[] {
                "index of subject " + id, "it has no result and does not wait for one; the index can be made again"
            });
        }
        session.each(
                row -> {
                    if (!isAsKept(session, row)) {
                        found.add(new String[] {
                            "result of subject " + row.getString(1),
                            "it is not as it was kept; the index can be made again"
                        });
                    }
                    return true;
                },
                "select " + RESULT_COLUMNS + " from result r join subject s on s.nr = r.subject");
        Map<Line, String> kept = new HashMap<>();
        Set<Line> lines = new HashSet<>(session.list(
                row -> new Line(row.getString(1), row.getString(2), row.getString(3)),
                "select distinct figure, machine, cycle from figure"));
        session.each(
                row -> {
                    LineStanding standing = line(row);
                    boolean isSound = standing.sha256().equals(row.getString(8));
                    if (!lines.remove(standing.line()) || !isSound) {
                        kept.put(standing.line(), "it is not as it was kept; the index can be made again");
                    }
                    return true;
                },
                "select " + LINE_COLUMNS + " from line");
        lines.forEach(line -> kept.put(line, "it is missing; the index can be made again"));
        kept.forEach((line, what) -> found.add(new String[] {"line of figures " + line, what}));
    }

    private static boolean isAsKept(Session session, ResultSet row) throws SQLException {
        try {
            Stored stored = stored(row);
            return withFigures(session, stored).sha256().equals(stored.sha256());
        } catch (IllegalArgumentException noId) {
            return false;
        }
    }
}
