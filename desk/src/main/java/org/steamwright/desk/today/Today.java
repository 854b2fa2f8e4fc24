package org.steamwright.desk.today;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.Review;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.ReadOut;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.AheadBook;
import org.steamwright.records.AheadVisit;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.Doubt;

/**
 * What the first page shows at once. What follows from each visit is assessed when the page asks for it.
 *
 * @param now by the clock of the machine
 * @param day of that, in the zone of the machine
 * @param zone of the machine
 * @param toRead visits with indicators that want to be read, the most overdue first; interim reports without a moment at the end
 * @param moreToRead how many of them are not shown
 * @param open visits that are being written, the last day first
 * @param from place of the first of them in their order
 * @param allOpen how many there are
 * @param planned visits of later days, the next one first
 * @param morePlanned how many of them are not shown
 */
public record Today(
        Instant now,
        LocalDate day,
        ZoneId zone,
        List<OpenVisit> toRead,
        long moreToRead,
        List<OpenVisit> open,
        long from,
        long allOpen,
        List<OpenVisit> planned,
        long morePlanned) {

    /** Visits of a sort that the page shows. */
    public static final int SHOWN = 12;

    public Today {
        toRead = List.copyOf(toRead);
        open = List.copyOf(open);
        planned = List.copyOf(planned);
    }

    /** Whether nothing wants anything. */
    public boolean isEmpty() {
        return toRead.isEmpty() && allOpen == 0 && planned.isEmpty();
    }

    /** Whether the clock at the site of a read-out shows another time than the one here. */
    public boolean isElsewhere(ReadOut readOut) {
        return readOut.at().time().isPresent()
                && !readOut.zone()
                        .getRules()
                        .getOffset(readOut.due())
                        .equals(zone.getRules().getOffset(readOut.due()));
    }

    /** Places in the order of open visits of the pages before and after this one. */
    public Optional<Long> earlierPage() {
        return from > 0 ? Optional.of(Math.max(0, from - SHOWN)) : Optional.empty();
    }

    /** The page after this one, if there is one. */
    public Optional<Long> nextPage() {
        return from + open.size() < allOpen ? Optional.of(from + SHOWN) : Optional.empty();
    }

    /**
     * A visit that still wants something.
     *
     * @param id of the record
     * @param number of the report
     * @param clinic name
     * @param day of the visit, if it is known
     * @param isInterim whether it is signed and out as an interim report
     * @param interimUntil last day of that report
     * @param correctionOf why it corrects an earlier issue; blank if it corrects none
     * @param review that sent it back
     * @param readOuts of indicators that are still awaited
     */
    public record OpenVisit(
            String id,
            String number,
            String clinic,
            Optional<LocalDate> day,
            boolean isInterim,
            Optional<LocalDate> interimUntil,
            String correctionOf,
            Optional<Review> review,
            List<ReadOut> readOuts) {

        public OpenVisit {
            readOuts = List.copyOf(readOuts);
        }

        static OpenVisit of(StatedVisit stated) {
            Subject visit = stated.visit();
            return new OpenVisit(
                    visit.id().toString(),
                    visit.text("number"),
                    visit.text("clinic-name"),
                    Today.day(visit.text("date")),
                    stated.state().isOut(),
                    stated.interimUntil(),
                    stated.isCorrection() ? stated.reason() : "",
                    stated.state().isOut() ? Optional.empty() : Review.of(visit).filter(review -> !review.isApproval()),
                    ReadOut.of(visit));
        }

        /** What is to be read at one moment stands in one line: lists of the same moment, the earliest first. */
        public List<List<ReadOut>> moments() {
            Map<Instant, List<ReadOut>> moments = new LinkedHashMap<>();
            readOuts.forEach(one -> moments.computeIfAbsent(one.due(), moment -> new ArrayList<>())
                    .add(one));
            return List.copyOf(moments.values());
        }

        /** Whether the interim report has ended without its indicators having been read. */
        public boolean isLapsed(LocalDate today) {
            return interimUntil.filter(today::isAfter).isPresent();
        }
    }

    /**
     * What follows from a visit.
     *
     * @param id of the record
     * @param sentence first of the summary; empty if the facts can't be assessed yet
     * @param open what is missing or awaited
     * @param doubts those of them that are about how the visit was read
     * @param problems for which it can't be assessed yet, the first few
     * @param moreProblems how many of them are not told
     */
    public record Answer(
            String id,
            String sentence,
            List<String> open,
            List<Doubt> doubts,
            List<DraftProblem> problems,
            int moreProblems) {

        private static final int TOLD = 3;

        public Answer {
            open = List.copyOf(open);
            doubts = List.copyOf(doubts);
            problems = List.copyOf(problems);
        }

        static Answer of(Office office, Subject visit) throws IOException {
            String id = visit.id().toString();
            try {
                DraftReading reading = office.drafts().of(visit.id()).read();
                List<DraftProblem> problems = reading.problems();
                return reading.assessed()
                        .map(assessed -> new Answer(
                                id,
                                assessed.summary().isEmpty()
                                        ? ""
                                        : assessed.summary().get(0),
                                assessed.openPoints(),
                                assessed.doubts(),
                                List.of(),
                                0))
                        .orElseGet(() -> new Answer(
                                id,
                                "",
                                List.of(),
                                List.of(),
                                problems.stream().limit(TOLD).toList(),
                                Math.max(0, problems.size() - TOLD)));
            } catch (FilingException unreadable) {
                return new Answer(id, "", List.of(String.valueOf(unreadable.getMessage())), List.of(), List.of(), 0);
            }
        }
    }

    /** The day that a text says; empty if it says something else. */
    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    static Today of(Office office, long from) {
        LocalDate today = LocalDate.now(office.clock());
        AheadBook ahead = office.records().ahead();
        List<AheadVisit> dated = ahead.awaiting(SHOWN);
        List<AheadVisit> undated = ahead.interimWithoutMoment(SHOWN - dated.size());
        List<AheadVisit> open = ahead.open(today, from, SHOWN);
        List<AheadVisit> planned = ahead.planned(today, SHOWN);
        Map<SubjectId, OpenVisit> visits = new LinkedHashMap<>();
        List<SubjectId> ids = List.of(dated, undated, open, planned).stream()
                .flatMap(List::stream)
                .map(AheadVisit::visit)
                .distinct()
                .toList();
        VisitStates states = new VisitStates(office.records());
        office.records().subjects(ids).forEach(visit -> visits.put(visit.id(), OpenVisit.of(states.of(visit))));
        List<OpenVisit> toRead = new ArrayList<>(of(dated, visits));
        toRead.addAll(of(undated, visits));
        return new Today(
                office.clock().instant(),
                today,
                office.clock().getZone(),
                toRead,
                office.counts().of("today to read", () -> ahead.countAwaiting() + ahead.countInterimWithoutMoment())
                        - toRead.size(),
                of(open, visits),
                from,
                office.counts().of(List.of("today open", today), () -> ahead.countOpen(today)),
                of(planned, visits),
                office.counts().of(List.of("today planned", today), () -> ahead.countPlanned(today)) - planned.size());
    }

    private static List<OpenVisit> of(List<AheadVisit> rows, Map<SubjectId, OpenVisit> visits) {
        return rows.stream()
                .map(row -> Optional.ofNullable(visits.get(row.visit())))
                .flatMap(Optional::stream)
                .toList();
    }
}
