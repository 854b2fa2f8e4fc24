package org.steamwright.records;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.Line;
import org.steamwright.records.VisitResult.LineRule;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.VisitResult.Month;
import org.steamwright.records.store.Database;
import org.steamwright.records.store.ResultTables;

/**
 * What follows from the visits of a record, kept so that lists over all of them are read by an index. An entry of the journal that
 * concerns a visit puts it among those that wait; until it is assessed again the lists show what was kept before.
 */
public final class ResultBook {

    private final Database database;

    ResultBook(Database database) {
        this.database = database;
    }

    /**
     * A visit that waits.
     *
     * @param visit of the record
     * @param entries how many there were when it began to
     */
    public record Waiting(SubjectId visit, long entries) {}

    /** Visits that wait, the newest first. */
    public List<Waiting> waiting(int limit) {
        return database.read(session -> ResultTables.waiting(session, limit));
    }

    /** How many visits wait. */
    public long countWaiting() {
        return database.read(ResultTables::countWaiting);
    }

    /** What was kept of a visit, with its figures. */
    public Optional<VisitResult> find(SubjectId visit) {
        return database.read(session -> ResultTables.find(session, visit));
    }

    /**
     * Keeps results in one transaction. A visit that changed after it was taken from those that wait goes on waiting; of one that
     * waits no more, because somebody else has kept its result, nothing is kept.
     *
     * @param results each with the waiting that it ends
     * @param families by machine; one without has a blank family
     * @param rule how a line stands
     */
    public void keep(Map<Waiting, VisitResult> results, Map<String, String> families, LineRule rule) {
        database.write(session -> {
            ResultTables.keep(session, results, families, rule);
            return true;
        });
    }

    /** Lines of a figure, the most pressing first. */
    public List<LineStanding> lines(String figure, long from, int limit) {
        return database.read(session -> ResultTables.lines(session, figure, from, limit));
    }

    /** How many lines a figure has. */
    public long countLines(String figure) {
        return database.read(session -> ResultTables.countLines(session, figure));
    }

    /** Lines of a machine. */
    public List<LineStanding> linesOf(String machine) {
        return database.read(session -> ResultTables.linesOf(session, machine));
    }

    /** Machines with lines that have that serial number; it is unique for one maker at best. */
    public List<String> machinesOf(String serial) {
        return database.read(session -> ResultTables.machinesOf(session, serial));
    }

    /** Figures that have lines, by their words. */
    public List<String> figures() {
        return database.read(ResultTables::figuresWithLines);
    }

    /** Figures of each of these lines. */
    public Map<Line, List<Figure>> figures(List<Line> lines) {
        return database.read(session -> ResultTables.figures(session, lines));
    }

    /** How many sterilisers of a family have a figure for a cycle. */
    public int countFamily(String figure, String family, String cycle) {
        return database.read(session -> ResultTables.countFamily(session, figure, family, cycle));
    }

    /** The last figure at a place in the order of a family, 0 for the lowest. */
    public OptionalDouble lastOfFamily(String figure, String family, String cycle, int place) {
        return database.read(session -> ResultTables.lastOfFamily(session, figure, family, cycle, place));
    }

    /** Counts of visits on days of that span, both ends included, month by month; visits that are gone do not count. */
    public List<Month> months(LocalDate from, LocalDate until) {
        return database.read(session -> ResultTables.months(session, from, until));
    }

    /** Minutes of turn-around of the visits of that span that have one, the shortest first. */
    public List<Long> turnArounds(LocalDate from, LocalDate until) {
        return database.read(session -> ResultTables.turnArounds(session, from, until));
    }

    /** How many visits of that span are signed, but dated after their signature, so that they have no turn-around. */
    public long countDatedAfterSignature(LocalDate from, LocalDate until) {
        return database.read(session -> ResultTables.countDatedAfterSignature(session, from, until));
    }

    /** Visits that are open, the newest first, without their figures. */
    public List<VisitResult> open(int limit) {
        return database.read(session -> ResultTables.open(session, limit));
    }

    /** Visits that stand and could not be assessed, the newest first, each with the reason. */
    public List<VisitResult> unassessed(int limit) {
        return database.read(session -> ResultTables.unassessed(session, limit));
    }

    /** How many visits stand and could not be assessed. */
    public long countUnassessed() {
        return database.read(ResultTables::countUnassessed);
    }

    /** Visits that could not be read wait again: what they lacked may have come back from a backup. */
    public void awaitUnread() {
        database.write(session -> {
            ResultTables.awaitUnread(session);
            return true;
        });
    }

    /** Visits wait again whose result was made from something that begins otherwise, such as by an earlier assessment. */
    public void awaitOthers(String begin) {
        database.write(session -> {
            ResultTables.awaitOthers(session, begin);
            return true;
        });
    }
}
