package org.steamwright.visit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/**
 * From the facts of a visit to everything that follows from them.
 *
 * <p>A pure function: the same visit gives the same answer on every machine and in every year. How runs count towards a
 * qualification is told at {@link RunStanding}, how leak tests are read together at {@link LeakStanding}.
 */
public final class Visits {

    private Visits() {}

    /**
     * Assesses a visit.
     *
     * <p>Which cycles may be run is told at {@link FitCycle}, how the visit stands as a whole at {@link Whole}. The
     * end of validity is the last day of the period of the criteria set, the same day on which the next visit is due ({@link LastDay}), or the day that the visit itself names,
     * whichever comes first, at the site.
     *
     * @param visit the facts
     * @throws IllegalArgumentException if a run or a checklist belongs to a sterilizer that the visit does not have; intake
     *     refuses such a visit earlier, with the place in the file
     */
    public static AssessedVisit assess(Visit visit) {
        return assess(visit, Assessment::evaluate);
    }

    static AssessedVisit assess(Visit visit, BiFunction<TestRun, CriteriaSet, RunEvaluation> evaluator) {
        visit.runs().forEach(run -> visit.getSterilizer(run.sterilizer()));
        visit.checklists().forEach(list -> visit.getSterilizer(list.sterilizer()));
        visit.job().otherCycles().forEach(cycles -> visit.getSterilizer(cycles.sterilizer()));
        visit.job().tasks().forEach(tasks -> visit.getSterilizer(tasks.sterilizer()));
        visit.job().penetration().forEach(test -> visit.getSterilizer(test.sterilizer()));
        visit.job().conditions().forEach(condition -> visit.getSterilizer(condition.sterilizer()));
        List<AssessedRun> runs = new ArrayList<>();
        for (VisitRun run : visit.runs()) {
            RunEvaluation evaluation = evaluator.apply(run.test(), visit.criteriaSet());
            Optional<LocalDate> day = day(visit, run);
            IndicatorPlaces places = new IndicatorPlaces(run, evaluation, day);
            runs.add(new AssessedRun(
                    run,
                    evaluation,
                    new LoadFindings(visit.criteriaSet(), run, day).find(),
                    places.biological(),
                    places.chemical()));
        }
        List<Qualification> qualifications = new ArrayList<>();
        for (Sterilizer sterilizer : visit.sterilizers()) {
            qualifications.addAll(qualifications(visit, sterilizer, runs));
        }
        List<Obstacle> obstacles = Obstacles.find(visit, runs);
        List<Qualification> qualified = FitCycle.of(visit, qualifications, obstacles).stream()
                .filter(FitCycle::isFit)
                .map(FitCycle::performance)
                .toList();
        List<String> qualifiedCycles = qualified.stream()
                .map(q -> visit.getSterilizer(q.sterilizer()).serial() + ": " + q.cycle())
                .toList();
        Optional<LocalDate> validUntil = qualified.isEmpty() ? Optional.empty() : lastDay(visit);
        List<OpenPoint> openPoints = new ArrayList<>(new OpenPoints(visit, runs, qualifications, obstacles).find());
        if (visit.clinic().isPresent() && validUntil.isEmpty() && isAnyEndless(visit, qualified)) {
            openPoints.add(
                    OpenPoint.of(
                            Where.of(Where.Part.CLOSING, "job-sheet", "valid-until"),
                            "Nothing says until when it stands, so it covers no load: the criteria set names no period and the visit no end. State the last day, or the cycles until it is due with the counter at departure."));
        }
        if (visit.clinic().isPresent()
                && validUntil.isPresent()
                && visit.job().cyclesUntilDue().isPresent()) {
            qualified.stream()
                    .map(one -> visit.getSterilizer(one.sterilizer()))
                    .distinct()
                    .filter(sterilizer -> sterilizer.counterAtDeparture().isEmpty())
                    .forEach(sterilizer -> openPoints.add(OpenPoint.of(
                            Where.of(
                                    Where.Part.RUNS,
                                    "sterilizers",
                                    visit.sterilizers().indexOf(sterilizer) + 1,
                                    "counter-at-departure"),
                            "Steriliser %s: it ends %s cycles after the visit, and the counter was not read at its end, so it covers no load. State the counter at departure."
                                    .formatted(
                                            sterilizer.serial(),
                                            visit.job().cyclesUntilDue().getAsInt()))));
        }
        Whole whole = new Whole(visit, qualifications, obstacles);
        List<String> summary =
                new Summary(visit, qualifications, qualified, obstacles, whole, validUntil, openPoints.size()).write();
        return new AssessedVisit(
                visit, runs, qualifications, whole.standing(), summary, qualifiedCycles, validUntil, openPoints);
    }

    /** How much worse than a pass; what was not assessed is silent here and speaks as an open point. */
    static int severity(Standing standing) {
        return switch (standing) {
            case NOT_ASSESSED -> 0;
            case PASS -> 1;
            case AWAITED -> 2;
            case INCOMPLETE -> 3;
            case FAIL -> 4;
        };
    }

    private static List<Qualification> qualifications(Visit visit, Sterilizer sterilizer, List<AssessedRun> runs) {
        List<Qualification> found = new ArrayList<>();
        LeakStanding leak = new LeakStanding(sterilizer, runs);
        leak.find().ifPresent(found::add);
        int consecutive = visit.criteriaSet().consecutiveRuns();
        CycleLedger ledger = CycleBook.of(visit, sterilizer);
        for (String cycle : cycles(sterilizer, visit)) {
            found.add(new RunStanding(sterilizer, cycle, Kind.OPERATIONAL, runs, leak, consecutive, ledger).find());
            found.add(new RunStanding(sterilizer, cycle, Kind.PERFORMANCE, runs, leak, consecutive, ledger).find());
        }
        return found;
    }

    /** Names of the sterilizer's cycles, then those of its runs that it does not list; not those of leak tests. */
    private static List<String> cycles(Sterilizer sterilizer, Visit visit) {
        Map<String, String> names = new LinkedHashMap<>();
        sterilizer.cycles().forEach(cycle -> names.putIfAbsent(Words.key(cycle.name()), cycle.name()));
        for (VisitRun run : visit.runs()) {
            if (run.sterilizer().equals(sterilizer.key()) && run.test().kind() != TestKind.LEAK) {
                String name = run.test().cycle().name();
                names.putIfAbsent(Words.key(name), name);
            }
        }
        return List.copyOf(names.values());
    }

    private static boolean isAnyEndless(Visit visit, List<Qualification> qualified) {
        return qualified.stream()
                .map(one -> visit.getSterilizer(one.sterilizer()))
                .anyMatch(sterilizer -> visit.job().cyclesUntilDue().isEmpty()
                        || sterilizer.counterAtDeparture().isEmpty());
    }

    private static Optional<LocalDate> lastDay(Visit visit) {
        Optional<LocalDate> ofSet = visit.criteriaSet()
                .revalidation()
                .flatMap(months -> visit.date().map(day -> LastDay.after(day, months)));
        Optional<LocalDate> stated = visit.job().validUntil();
        return ofSet.isPresent() && stated.isPresent()
                ? Optional.of(ofSet.get().isBefore(stated.get()) ? ofSet.get() : stated.get())
                : ofSet.or(() -> stated);
    }

    /** The day of a run at the site: of its recording if that knows it, of the visit otherwise. */
    private static Optional<LocalDate> day(Visit visit, VisitRun run) {
        return run.test()
                .trace()
                .start()
                .map(start -> start.atZone(visit.zone()).toLocalDate())
                .or(visit::date);
    }
}
