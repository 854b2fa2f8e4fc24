package org.steamwright.records;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.steamwright.records.store.AheadTable;
import org.steamwright.records.store.Database;

/**
 * Visits that still want something, and what of the office ends, by index. What is listed is as the record stands: each entry that concerns a visit brings it
 * up to date within its own transaction. An interim report that is being corrected stands here as its correction.
 */
public final class AheadBook {

    private final Database database;

    AheadBook(Database database) {
        this.database = database;
    }

    /** Visits that await something, the earliest first. */
    public List<AheadVisit> awaiting(int limit) {
        return database.read(session -> AheadTable.awaiting(session, limit));
    }

    /** Visits of which the first thing that they await comes after a moment, the earliest first. */
    public List<AheadVisit> awaitingAfter(Instant moment, int limit) {
        return database.read(session -> AheadTable.awaitingAfter(session, moment, limit));
    }

    /** How many visits await something. */
    public long countAwaiting() {
        return database.read(AheadTable::countAwaiting);
    }

    /** How many visits await something that was to be looked at by that moment. */
    public long countAwaiting(Instant until) {
        return database.read(session -> AheadTable.countAwaiting(session, until));
    }

    /** Visits that are not signed, of days up to that one, the last day first; those without a day come last. */
    public List<AheadVisit> open(LocalDate until, long from, int limit) {
        return database.read(session -> AheadTable.open(session, until, from, limit));
    }

    /** How many visits of days up to that one are not signed. */
    public long countOpen(LocalDate until) {
        return database.read(session -> AheadTable.countOpen(session, until));
    }

    /** Visits of later days, the next one first. */
    public List<AheadVisit> planned(LocalDate after, int limit) {
        return database.read(session -> AheadTable.planned(session, after, limit));
    }

    /** How many visits there are of later days. */
    public long countPlanned(LocalDate after) {
        return database.read(session -> AheadTable.countPlanned(session, after));
    }

    /** Visits that are out as an interim report and await something of which no moment is told, the earliest day first. */
    public List<AheadVisit> interimWithoutMoment(int limit) {
        return database.read(session -> AheadTable.interimWithoutMoment(session, limit));
    }

    /**
     * What of the office ends, the earliest first; what states no day comes before all.
     *
     * @param from place of the first of them
     */
    public List<AheadLapse> lapses(AheadLapse.Span span, long from, int limit) {
        return database.read(session -> AheadTable.lapses(session, span, from, limit));
    }

    /** How much of the office ends. */
    public long countLapses(AheadLapse.Span span) {
        return database.read(session -> AheadTable.countLapses(session, span));
    }

    /** How many interim reports are out of which no moment is told. */
    public long countInterimWithoutMoment() {
        return database.read(AheadTable::countInterimWithoutMoment);
    }
}
