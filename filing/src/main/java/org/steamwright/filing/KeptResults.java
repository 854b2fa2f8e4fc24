package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.ResultBook;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.fleet.FigureReading;
import org.steamwright.visit.fleet.Trend;
import org.steamwright.visit.state.VisitState;

/**
 * Assesses each visit once for the lists over all visits, and again when an entry of the journal concerns it or the version of the
 * assessment is another. May be used by several threads.
 */
public final class KeptResults {

    private static final String VISIT = "the visit itself";
    private static final Source AS_JUDGED = new Source(
            VISIT, "", "", Source.Provenance.USER, Source.Confidence.HIGH, "The limit that its criteria set had.");

    private final Records records;
    private final ResultBook book;
    private final Assessing assessing;

    /** Assesses a visit of the record. */
    @FunctionalInterface
    public interface Assessing {

        /** What follows from the visit. */
        AssessedVisit of(Subject visit) throws IOException, FilingException, VisitFolderException;
    }

    /**
     * @param records opened
     * @param assessing how a visit is assessed
     */
    public KeptResults(Records records, Assessing assessing) {
        this.records = records;
        this.book = records.results();
        this.assessing = assessing;
    }

    /** What is kept. */
    public ResultBook book() {
        return book;
    }

    /**
     * Assesses the visits that wait if they are few, so that a list is as the record stands.
     *
     * @param most how many are few
     * @return how many wait still
     */
    public synchronized long catchUp(int most) throws IOException {
        List<Waiting> waiting = book.waiting(most + 1);
        if (waiting.size() > most) {
            return book.countWaiting();
        }
        for (Waiting one : waiting) {
            keep(one);
        }
        return 0;
    }

    /**
     * Assesses some of the visits that wait, the newest first.
     *
     * @return whether any waits still
     */
    public synchronized boolean work(int most) throws IOException {
        List<Waiting> waiting = book.waiting(most);
        for (Waiting one : waiting) {
            keep(one);
        }
        return waiting.size() == most;
    }

    private void keep(Waiting waiting) throws IOException {
        Subject visit = records.subject(waiting.visit());
        String madeFrom = madeFrom(visit);
        Optional<VisitResult> before =
                book.find(visit.id()).filter(kept -> kept.madeFrom().equals(madeFrom) && !isGone(kept));
        StatedVisit stated = new VisitStates(records).of(visit);
        boolean isGone = !stated.state().isOut() && stated.state() != VisitState.OPEN;
        Map<String, String> families = new HashMap<>();
        VisitResult result;
        if (isGone) {
            result = result(visit, madeFrom, stated, "", false, false, 0, List.of());
        } else if (before.isPresent()) {
            VisitResult kept = before.get();
            result = result(
                    visit,
                    madeFrom,
                    stated,
                    kept.standing(),
                    kept.hasAsFound(),
                    kept.hasAsFoundFailure(),
                    kept.exceptions(),
                    kept.figures());
        } else {
            result = assess(visit, madeFrom, stated, families);
        }
        result.figures()
                .forEach(figure -> family(figure.serial()).ifPresent(one -> families.put(figure.serial(), one)));
        book.keep(Map.of(waiting, result), families, KeptResults::standing);
    }

    private static boolean isGone(VisitResult result) {
        return result.state().equals(VisitResult.GONE);
    }

    /** Everything that a result follows from, as one word. */
    private String madeFrom(Subject visit) {
        TreeMap<String, String> from = new TreeMap<>();
        VisitFiles.of(visit).forEach((name, hash) -> from.put(name, hash.hex()));
        return Results.ALGORITHM_VERSION + " "
                + Hash.ofContent(from.toString().getBytes(StandardCharsets.UTF_8))
                        .hex() + " "
                + journalExceptions(visit.id());
    }

    private int journalExceptions(SubjectId visit) {
        List<JournalEntry> history = records.history(visit);
        return (history.stream().anyMatch(JournalEntry::isLate) ? 1 : 0)
                + (history.stream().anyMatch(JournalEntry::isClockSetBack) ? 1 : 0);
    }

    private VisitResult assess(Subject visit, String madeFrom, StatedVisit stated, Map<String, String> families)
            throws IOException {
        AssessedVisit assessed;
        try {
            assessed = assessing.of(visit);
        } catch (FilingException | VisitFolderException incomplete) {
            return result(visit, madeFrom, stated, "", false, false, 0, List.of());
        }
        assessed.visit().sterilizers().forEach(sterilizer -> families.put(sterilizer.serial(), sterilizer.model()));
        List<AssessedRun> asFound = assessed.runs().stream()
                .filter(run -> run.run().stage().strip().equalsIgnoreCase("as found"))
                .toList();
        return result(
                visit,
                madeFrom,
                stated,
                assessed.standing().words(),
                !asFound.isEmpty(),
                asFound.stream().anyMatch(AssessedRun::isFail),
                exceptions(assessed) + journalExceptions(visit.id()),
                FigureReading.of(assessed).stream().map(KeptResults::figure).toList());
    }

    /** What a reviewer has to look at in a visit, how many; the journal not counted. */
    static int exceptions(AssessedVisit assessed) {
        long runs = assessed.runs().stream()
                .filter(run ->
                        !run.isPass() || !run.evaluation().guardedVerdict().isPass())
                .count();
        long remarks = assessed.visit().remarks().stream()
                .filter(remark -> remark.rank() != Rank.NOTE)
                .count();
        return Math.toIntExact(runs + remarks)
                + assessed.visit().deviations().size()
                + assessed.visit().notTested().size()
                + assessed.openPoints().size();
    }

    private VisitResult result(
            Subject visit,
            String madeFrom,
            StatedVisit stated,
            String standing,
            boolean hasAsFound,
            boolean hasAsFoundFailure,
            int exceptions,
            List<Figure> figures) {
        String state = stated.state().isOut()
                ? VisitResult.OUT
                : stated.state() == VisitState.OPEN ? VisitResult.OPEN : VisitResult.GONE;
        return new VisitResult(
                visit.id(),
                madeFrom,
                state,
                visit.text("date"),
                standing,
                hasAsFound,
                hasAsFoundFailure,
                stated.isCorrection(),
                turnAround(visit),
                exceptions,
                figures);
    }

    private OptionalLong turnAround(Subject visit) {
        List<Issue> issues = new Issues(records).of(visit.id());
        if (issues.isEmpty() || visit.text("date").isBlank()) {
            return OptionalLong.empty();
        }
        long minutes = Duration.between(
                        LocalDate.parse(visit.text("date"))
                                .atStartOfDay(records.clock().getZone())
                                .toInstant(),
                        issues.get(0).at())
                .toMinutes();
        return OptionalLong.of(Math.max(0, minutes));
    }

    /** Family of a steriliser by the register. */
    private Optional<String> family(String serial) {
        return records.exactly(Kind.STERILIZER, "serial", serial).stream()
                .findFirst()
                .flatMap(machine -> List.of("stated/family", "stated/model").stream()
                        .map(machine::text)
                        .filter(word -> !word.isBlank())
                        .findFirst());
    }

    private static Figure figure(FigureReading reading) {
        return new Figure(
                reading.figure().word(),
                reading.serial(),
                reading.cycle(),
                reading.limit().comparison().name(),
                reading.day().toString(),
                reading.run(),
                reading.value(),
                reading.limit().value(),
                reading.limit().unit().name());
    }

    /** The trend of a line of figures that were kept. */
    public static Trend trend(List<Figure> figures) {
        List<FigureReading> readings = new ArrayList<>();
        for (Figure figure : figures) {
            readings.add(new FigureReading(
                    figure.serial(),
                    figure.cycle(),
                    CriterionId.find(figure.figure())
                            .orElseThrow(() -> new IllegalStateException("no figure is called " + figure.figure())),
                    LocalDate.parse(figure.day()),
                    figure.run(),
                    figure.value(),
                    new Limit(
                            Comparison.valueOf(figure.comparison()),
                            figure.limit(),
                            Unit.valueOf(figure.unit()),
                            AS_JUDGED)));
        }
        return Trend.of(readings);
    }

    /** Where a line stands: over its limit first, then by the day of the forecast. */
    public static LineStanding standing(VisitResult.Line line, String family, List<Figure> figures) {
        Trend trend = trend(figures);
        String pressing = "2";
        if (trend.course() instanceof Trend.Course.Over) {
            pressing = "0";
        } else if (trend.course() instanceof Trend.Course.Nearing nearing) {
            pressing = "1"
                    + nearing.meets()
                            .or(nearing::earliest)
                            .map(LocalDate::toString)
                            .orElse("");
        }
        return new LineStanding(line, family, trend.last().value(), pressing);
    }
}
