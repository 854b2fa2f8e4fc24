package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.Stream;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.filing.fleet.FigureReading;
import org.steamwright.filing.fleet.Trend;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.ResultBook;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.VisitResult.Reason;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.state.VisitState;

/**
 * Assesses each visit once for the lists over all visits, and again when an entry of the journal concerns it or the version of the
 * assessment is another. May be used by several threads.
 */
public final class KeptResults {

    private static final String VISIT = "the visit itself";
    private static final Logger LOG = Logger.getLogger(KeptResults.class.getName());
    /** Begins what a result is made from. */
    private static final String VERSION = Results.ALGORITHM_VERSION + " ";

    /** Of what a result is made that could not be made. */
    private static final String UNREAD = "";
    /** Begins the name of a machine that the record does not know; no id of a subject begins so. */
    private static final String UNKNOWN = "=";

    private static final Duration PATIENCE = Duration.ofSeconds(3);
    private static final Duration TRIED_AGAIN = Duration.ofMinutes(10);
    private static final Source AS_JUDGED = new Source(
            VISIT, "", "", Source.Provenance.USER, Source.Confidence.HIGH, "The limit that its criteria set had.");

    private final Records records;
    private final ResultBook book;
    private final Assessing assessing;
    private final Duration patience;
    /** Visits that a thread is at. */
    private final Set<SubjectId> busy = new HashSet<>();

    private volatile long unreadTriedAt = System.nanoTime() - TRIED_AGAIN.toNanos() - 1;

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
        this(records, assessing, PATIENCE);
    }

    /** @param patience how long a list waits for a visit that somebody else is at */
    KeptResults(Records records, Assessing assessing, Duration patience) {
        this.records = records;
        this.book = records.results();
        this.assessing = assessing;
        this.patience = patience;
    }

    /** What is kept. */
    public ResultBook book() {
        return book;
    }

    /**
     * Assesses the visits that wait if they are few, so that a list is as the record stands. What somebody else is at already is
     * waited for, but not for long.
     *
     * @param most how many are few
     * @return how many wait still
     */
    public long catchUp(int most) {
        List<Waiting> waiting = book.waiting(most + 1);
        if (waiting.isEmpty()) {
            return 0;
        }
        if (waiting.size() <= most) {
            waiting.forEach(this::keep);
            letOthersFinish(waiting);
        }
        return book.countWaiting();
    }

    /**
     * Assesses some of the visits that wait, the newest first. Now and then those that could not be read are tried again.
     *
     * @return whether there may be more to do at once
     */
    public boolean work(int most) {
        if (System.nanoTime() - unreadTriedAt > TRIED_AGAIN.toNanos()) {
            unreadTriedAt = System.nanoTime();
            book.awaitUnread();
            book.awaitOthers(VERSION);
        }
        List<Waiting> waiting = book.waiting(most);
        long kept = waiting.stream().filter(this::keep).count();
        return kept > 0 && waiting.size() == most;
    }

    /** Waits until nobody is at one of these visits any more; a large one is not waited for to its end. */
    private void letOthersFinish(List<Waiting> waiting) {
        long end = System.nanoTime() + patience.toNanos();
        synchronized (busy) {
            long left = patience.toMillis();
            while (left > 0 && waiting.stream().anyMatch(one -> busy.contains(one.visit()))) {
                try {
                    busy.wait(left);
                } catch (InterruptedException stopped) {
                    Thread.currentThread().interrupt();
                    return;
                }
                left = Duration.ofNanos(end - System.nanoTime()).toMillis();
            }
        }
    }

    /** Keeps what follows from a visit, unless somebody else is at it. */
    private boolean keep(Waiting waiting) {
        synchronized (busy) {
            if (!busy.add(waiting.visit())) {
                return false;
            }
        }
        try {
            keepNow(waiting);
        } finally {
            synchronized (busy) {
                busy.remove(waiting.visit());
                busy.notifyAll();
            }
        }
        return true;
    }

    private void keepNow(Waiting waiting) {
        Subject visit = records.subject(waiting.visit());
        String madeFrom = madeFrom(visit);
        StatedVisit stated = new VisitStates(records).of(visit);
        Optional<VisitResult> before = book.find(visit.id())
                .filter(kept -> kept.madeFrom().equals(madeFrom) && !isGone(kept))
                .filter(kept -> new VisitEvidence(records).isEntered(stated));
        boolean isGone = !stated.state().isOut() && stated.state() != VisitState.OPEN;
        Map<String, String> families = new HashMap<>();
        VisitResult result;
        if (isGone) {
            result = result(visit, madeFrom, stated, "", Reason.NONE, false, false, 0, List.of());
        } else if (before.isPresent()) {
            VisitResult kept = before.get();
            result = result(
                    visit,
                    madeFrom,
                    stated,
                    kept.standing(),
                    kept.why(),
                    kept.hasAsFound(),
                    kept.hasAsFoundFailure(),
                    kept.exceptions(),
                    kept.figures());
        } else {
            result = assess(visit, madeFrom, stated, families);
        }
        // also of the machines that it meant before: their lines are worked out anew too
        Stream.concat(
                        book.find(visit.id()).stream().flatMap(kept -> kept.figures().stream()),
                        result.figures().stream())
                .map(Figure::machine)
                .distinct()
                .forEach(machine -> family(machine).ifPresent(family -> families.put(machine, family)));
        book.keep(Map.of(waiting, result), families, KeptResults::standing);
    }

    private static boolean isGone(VisitResult result) {
        return result.state().equals(VisitResult.GONE);
    }

    /** Everything that a result follows from, as one word. */
    private String madeFrom(Subject visit) {
        TreeMap<String, String> from = new TreeMap<>();
        VisitFiles.of(visit).forEach((name, hash) -> from.put(name, hash.hex()));
        from.put("/machines", TiedMachines.word(visit));
        return VERSION
                + Hash.ofContent(from.toString().getBytes(StandardCharsets.UTF_8))
                        .hex() + " "
                + journalExceptions(visit.id());
    }

    private int journalExceptions(SubjectId visit) {
        List<JournalEntry> history = records.history(visit);
        return (history.stream().anyMatch(JournalEntry::isLate) ? 1 : 0)
                + (history.stream().anyMatch(JournalEntry::isClockSetBack) ? 1 : 0);
    }

    /** What follows from the visit, or why nothing does: one that can't be assessed must not keep the others from it. */
    private VisitResult assess(Subject visit, String madeFrom, StatedVisit stated, Map<String, String> families) {
        try {
            return assessed(visit, madeFrom, stated, families);
        } catch (VisitFolderException incomplete) {
            // follows from the facts as much as a result does
            DraftProblem first = DraftProblem.of(incomplete.problems().get(0));
            Reason why = new Reason(String.join(", ", first.place()), first.said());
            return notAssessed(visit, madeFrom, stated, why);
        } catch (FilingException refused) {
            return notAssessed(visit, UNREAD, stated, new Reason("", refused.getMessage() + "."));
        } catch (IOException failed) {
            return notAssessed(visit, UNREAD, stated, new Reason("", failed.toString()));
        } catch (OutOfMemoryError tooLarge) {
            LOG.log(Level.WARNING, "no memory was left for visit " + visit.id(), tooLarge);
            return notAssessed(visit, UNREAD, stated, new Reason("", "There is not enough memory for its recordings."));
        } catch (RecordsException refused) {
            LOG.log(Level.WARNING, "visit " + visit.id() + " can't be assessed", refused);
            return notAssessed(visit, UNREAD, stated, new Reason("", String.valueOf(refused.getMessage())));
        } catch (RuntimeException mistake) {
            // the last resort: told to whoever runs the program and to whoever reads the list
            LOG.log(Level.SEVERE, "a mistake of the program at visit " + visit.id(), mistake);
            return notAssessed(visit, UNREAD, stated, new Reason("", "The program made a mistake: " + mistake));
        }
    }

    private VisitResult notAssessed(Subject visit, String madeFrom, StatedVisit stated, Reason why) {
        return result(visit, madeFrom, stated, "", why, false, false, 0, List.of());
    }

    private VisitResult assessed(Subject visit, String madeFrom, StatedVisit stated, Map<String, String> families)
            throws IOException, FilingException, VisitFolderException {
        AssessedVisit assessed = assessing.of(visit);
        new VisitEvidence(records).makeUp(stated, assessed);
        List<AssessedRun> asFound =
                assessed.runs().stream().filter(run -> run.run().isAsFound()).toList();
        TiedMachines tied = TiedMachines.of(visit, assessed.visit(), records);
        Map<String, String> machines = new HashMap<>();
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            String machine = tied.find(sterilizer.key())
                    .map(one -> one.id().toString())
                    .orElse(UNKNOWN
                            + String.join(" ", sterilizer.maker(), sterilizer.model(), sterilizer.serial())
                                    .strip());
            machines.put(sterilizer.key(), machine);
            families.put(machine, family(sterilizer.maker(), sterilizer.model()));
        }
        List<Figure> figures = FigureReading.of(assessed).stream()
                .map(reading -> figure(
                        reading,
                        machines.getOrDefault(reading.sterilizer(), UNKNOWN),
                        assessed.visit().getSterilizer(reading.sterilizer()).serial()))
                .toList();
        return result(
                visit,
                madeFrom,
                stated,
                assessed.standing().words(),
                Reason.NONE,
                !asFound.isEmpty(),
                asFound.stream().anyMatch(AssessedRun::isFail),
                exceptions(assessed) + journalExceptions(visit.id()),
                figures);
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
                + (int) assessed.openPoints().stream()
                        .filter(point -> assessed.runs().stream().noneMatch(run -> run.isToldBy(point)))
                        .count();
    }

    private VisitResult result(
            Subject visit,
            String madeFrom,
            StatedVisit stated,
            String standing,
            Reason why,
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
                why,
                hasAsFound,
                hasAsFoundFailure,
                stated.isCorrection(),
                turnAround(visit),
                exceptions,
                figures);
    }

    /** From the begin of its day at the site; none of a visit whose day comes after its signature. */
    private OptionalLong turnAround(Subject visit) {
        List<Issue> issues = new Issues(records).of(visit.id());
        Optional<LocalDate> day = SiteDay.ofVisit(visit);
        if (issues.isEmpty() || day.isEmpty()) {
            return OptionalLong.empty();
        }
        long minutes = Duration.between(
                        day.get().atStartOfDay(SiteDay.zone(visit, records)).toInstant(),
                        issues.get(0).at())
                .toMinutes();
        return minutes < 0 ? OptionalLong.empty() : OptionalLong.of(minutes);
    }

    /** The machine of the record that figures are of; empty if the record does not know it. */
    public static Optional<SubjectId> machine(String machine) {
        try {
            return machine.startsWith(UNKNOWN) ? Optional.empty() : Optional.of(SubjectId.parse(machine));
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** What a machine is called that the record does not know. */
    public static String words(String machine) {
        return machine.startsWith(UNKNOWN) ? machine.substring(UNKNOWN.length()) : machine;
    }

    /** Family of a machine of the record, by its maker and the family that the register states, else the model. */
    private Optional<String> family(String machine) {
        return machine(machine)
                .flatMap(records::find)
                .map(one -> family(
                        first(one, "stated/maker", "maker"), first(one, "stated/family", "stated/model", "model")))
                .filter(family -> !family.isBlank());
    }

    private static String first(Subject machine, String... facts) {
        return Stream.of(facts)
                .map(machine::text)
                .filter(word -> !word.isBlank())
                .findFirst()
                .orElse("");
    }

    /** Two makers may have the same model name; of a machine without a model nobody knows what is usual. */
    private static String family(String maker, String model) {
        return model.isBlank() ? "" : Meant.folded(maker) + " " + Meant.folded(model);
    }

    private static Figure figure(FigureReading reading, String machine, String serial) {
        return new Figure(
                reading.figure().word(),
                machine,
                serial,
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
                    figure.machine(),
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
        return new LineStanding(
                line,
                figures.get(figures.size() - 1).serial(),
                family,
                trend.last().value(),
                pressing);
    }
}
