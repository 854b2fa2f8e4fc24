package org.steamwright.visit.failure;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CheckResult;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.LeakPattern;
import org.steamwright.visit.LeakTrio;
import org.steamwright.visit.Obstacles;
import org.steamwright.visit.Visit;
import org.steamwright.visit.failure.Failure.Blame;
import org.steamwright.visit.indication.IndicationCheck;
import org.steamwright.visit.job.EarlierEvidence.Kind;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Everything that failed at a visit, by steriliser and kind of evidence, and what follows from it.
 *
 * <p>A failure opens a look-back even if a repair makes the later tests pass: the clinic relied on the state before it. A
 * test that only points to the measurement, such as a leak along the technician's own cables, opens none.
 *
 * @source out of service, look-back to the last good evidence and the clinic's decision: CDC MMWR 52(RR-17) 2003 (as quoted
 *     on secondary pages) and AS 5369:2023, 2.6 (contents list seen); the classes are common practice, no source
 */
public final class FailurePath {

    private final AssessedVisit assessed;
    private final Visit visit;
    private final ChangeMatrix matrix;
    private final List<ValidatedState> states;

    private FailurePath(AssessedVisit assessed, ChangeMatrix matrix) {
        this.assessed = assessed;
        this.visit = assessed.visit();
        this.matrix = matrix;
        this.states = ValidatedState.of(assessed);
    }

    /** What failed, with the re-test scope of the after-change matrix that the visit carries; the widest if it carries none. */
    public static List<Failure> of(AssessedVisit assessed) {
        return of(
                assessed,
                assessed.visit().job().afterChange().map(ChangeMatrix::of).orElse(ChangeMatrix.UNKNOWN));
    }

    /**
     * What failed, in the order of the sterilisers and of the kinds of evidence.
     *
     * @param assessed the visit
     * @param matrix tests after a change
     */
    public static List<Failure> of(AssessedVisit assessed, ChangeMatrix matrix) {
        FailurePath path = new FailurePath(assessed, matrix);
        List<Failure> failures = new ArrayList<>();
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            failures.addAll(path.of(sterilizer));
        }
        return List.copyOf(failures);
    }

    /** What one kind of evidence says against a steriliser. */
    private static final class Charge {
        private final List<String> what = new ArrayList<>();
        private boolean isAsFound;
        private Blame blame = Blame.MACHINE;

        void add(String sentence, boolean wasAsFound, Blame points) {
            what.add(sentence);
            isAsFound |= wasAsFound;
            blame = points;
        }
    }

    private List<Failure> of(Sterilizer sterilizer) {
        Map<Kind, Charge> charges = new EnumMap<>(Kind.class);
        leaks(sterilizer, charges);
        penetration(sterilizer, charges);
        runs(sterilizer, charges);
        indications(sterilizer, charges);
        safety(sterilizer, charges);
        List<Failure> failures = new ArrayList<>();
        charges.forEach((kind, charge) -> failures.add(failure(sterilizer, kind, charge)));
        return failures;
    }

    private Failure failure(Sterilizer sterilizer, Kind kind, Charge charge) {
        ValidatedState state = states.stream()
                .filter(one -> one.sterilizer().equals(sterilizer.key()))
                .findFirst()
                .orElseThrow();
        List<String> notFit = state.cycles().stream()
                .filter(cycle -> cycle.status() != QualifiedCycle.Status.QUALIFIED)
                .map(QualifiedCycle::name)
                .toList();
        boolean isAllOut = notFit.size() == state.cycles().size();
        Optional<FailureNote> note = visit.job().failures().stream()
                .filter(one -> one.sterilizer().equals(sterilizer.key()) && one.kind() == kind)
                .findFirst();
        boolean isMeasurement = charge.blame == Blame.MEASUREMENT;
        Optional<LookBack> lookBack = isMeasurement || kind == Kind.SAFETY
                ? Optional.empty()
                : Optional.of(LookBack.of(
                        kind,
                        visit.job().earlier().stream()
                                .filter(evidence -> evidence.sterilizer().equals(sterilizer.key()))
                                .toList(),
                        visit.date(),
                        lastBefore(sterilizer)));
        List<String> changes = note.map(FailureNote::changes).orElse(List.of());
        return new Failure(
                sterilizer.key(),
                kind,
                charge.blame,
                charge.isAsFound,
                charge.what,
                isMeasurement ? List.of() : notFit,
                isAllOut && !isMeasurement,
                isMeasurement
                        ? new RetestScope(
                                List.of("the test itself, with the measurement put right"),
                                "it points to the measurement, not to the steriliser")
                        : matrix.scope(changes, kind),
                note,
                lookBack);
    }

    /** The number of the last cycle before the visit: the counter at arrival, else one before the first run. */
    private OptionalInt lastBefore(Sterilizer sterilizer) {
        if (sterilizer.counterAtArrival().isPresent()) {
            return sterilizer.counterAtArrival();
        }
        return visit.runs().stream()
                .filter(run -> run.sterilizer().equals(sterilizer.key()))
                .filter(run -> run.machineCycle().isPresent())
                .mapToInt(run -> run.machineCycle().getAsInt() - 1)
                .min();
    }

    private void leaks(Sterilizer sterilizer, Map<Kind, Charge> charges) {
        List<AssessedRun> tests = assessed.runs().stream()
                .filter(run -> run.run().sterilizer().equals(sterilizer.key()))
                .filter(run -> run.run().test().kind() == TestKind.LEAK)
                .toList();
        LeakPattern pattern = LeakTrio.of(assessed).stream()
                .filter(trio -> trio.sterilizer().equals(sterilizer.key()))
                .map(LeakTrio::pattern)
                .findFirst()
                .orElse(LeakPattern.NONE_MADE);
        for (int i = 0; i < tests.size(); i++) {
            AssessedRun test = tests.get(i);
            if (!test.isFail()) {
                continue;
            }
            String stage = stage(test.run().stage());
            // the first test of a visit was made before any part was changed, whether or not its stage says so
            boolean isAsFound = test.run().isAsFound() || (i == 0 && !stage.startsWith("with sensors"));
            boolean isGland = pattern == LeakPattern.CABLES || pattern == LeakPattern.TIGHT;
            boolean isOurs = (stage.startsWith("with sensors") && isGland)
                    || (stage.startsWith("after") && pattern == LeakPattern.PORT);
            Blame blame = isOurs ? Blame.MEASUREMENT : Blame.MACHINE;
            Charge charge = charges.get(Kind.AIR_LEAKAGE);
            // what points to the steriliser weighs more than what points to the gland
            if (charge == null || charge.blame != Blame.MACHINE || blame == Blame.MACHINE) {
                charges.computeIfAbsent(Kind.AIR_LEAKAGE, unseen -> new Charge())
                        .add(run(test, stage), isAsFound, blame);
            } else {
                charge.what.add(run(test, stage));
            }
        }
    }

    private void penetration(Sterilizer sterilizer, Map<Kind, Charge> charges) {
        for (PenetrationTest test : visit.job().penetration()) {
            if (test.sterilizer().equals(sterilizer.key()) && test.result() == PenetrationTest.Result.FAIL) {
                Charge charge = charges.computeIfAbsent(Kind.STEAM_PENETRATION, unseen -> new Charge());
                charge.add(
                        "Steam did not reach into the %s device in cycle ‘%s’%s."
                                .formatted(
                                        test.kind().words(),
                                        test.cycle(),
                                        test.isAsFound() ? ", before anything was touched" : ""),
                        test.isAsFound(),
                        Blame.MACHINE);
            }
        }
    }

    private void runs(Sterilizer sterilizer, Map<Kind, Charge> charges) {
        for (AssessedRun run : assessed.runs()) {
            if (!run.run().sterilizer().equals(sterilizer.key())
                    || run.run().test().kind() == TestKind.LEAK) {
                continue;
            }
            boolean isAsFound = run.run().isAsFound();
            boolean isGrown = run.loadFindings().stream()
                    .anyMatch(finding -> finding.id() == CriterionId.BIOLOGICAL_INDICATORS && isFail(finding));
            boolean isRecordingBad = run.evaluation().verdict().outcome() == RunOutcome.FAIL;
            if (isGrown) {
                charges.computeIfAbsent(Kind.BIOLOGICAL, unseen -> new Charge())
                        .add(
                                "Run %s: %s".formatted(run.run().number(), grown(run)),
                                isAsFound,
                                isRecordingBad ? Blame.MACHINE : Blame.INDICATOR_ALONE);
            }
            boolean isWet = run.loadFindings().stream()
                    .anyMatch(finding -> finding.id() == CriterionId.LOAD_DRYNESS && isFail(finding));
            if (isRecordingBad || isWet) {
                charges.computeIfAbsent(Kind.THERMOMETRIC, unseen -> new Charge())
                        .add(
                                run(run, run.run().stage()),
                                isAsFound,
                                isWet && !isRecordingBad ? Blame.LOAD : Blame.MACHINE);
            }
        }
    }

    private static boolean isFail(Finding finding) {
        return finding.isDeciding() && finding.outcome() == Outcome.FAIL;
    }

    private static String grown(AssessedRun run) {
        return run.loadFindings().stream()
                .filter(finding -> finding.id() == CriterionId.BIOLOGICAL_INDICATORS)
                .map(Finding::sentence)
                .findFirst()
                .orElse("");
    }

    private void indications(Sterilizer sterilizer, Map<Kind, Charge> charges) {
        for (IndicationCheck check : Obstacles.indications(visit, assessed.runs())) {
            boolean isHere = visit.runs().stream()
                    .anyMatch(run -> run.number() == check.reading().run()
                            && run.sterilizer().equals(sterilizer.key()));
            if (isHere && check.outcome() == Outcome.FAIL) {
                charges.computeIfAbsent(Kind.INDICATION, unseen -> new Charge())
                        .add(
                                "Run %s: %s".formatted(check.reading().run(), check.sentence()),
                                check.reading().isAsFound(),
                                Blame.MACHINE);
            }
        }
    }

    private void safety(Sterilizer sterilizer, Map<Kind, Charge> charges) {
        for (TaskRecord tasks : visit.job().tasks()) {
            if (tasks.sterilizer().equals(sterilizer.key())
                    && tasks.list().part() == TaskList.Part.SAFETY
                    && tasks.isBad()) {
                for (TaskRecord.Line line : tasks.lines()) {
                    if (line.standing() == TaskRecord.Standing.BAD) {
                        charges.computeIfAbsent(Kind.SAFETY, unseen -> new Charge())
                                .add(line.task().title() + ": not good.", false, Blame.DANGER);
                    }
                }
            }
        }
        for (Checklist list : visit.checklists()) {
            Optional<Kind> kind = kind(list.section());
            if (list.sterilizer().equals(sterilizer.key()) && kind.isPresent()) {
                list.items().stream()
                        .filter(item -> CheckResult.of(list.section(), item) == CheckResult.FAILED)
                        .forEach(item -> charges.computeIfAbsent(kind.get(), unseen -> new Charge())
                                .add(
                                        "%s: not good: %s."
                                                .formatted(list.section().title(), item.title()),
                                        false,
                                        kind.get() == Kind.SAFETY ? Blame.DANGER : Blame.MACHINE));
            }
        }
    }

    /** Of which evidence a list of checks is. */
    private static Optional<Kind> kind(Checklist.Section section) {
        return switch (section) {
            case SAFETY -> Optional.of(Kind.SAFETY);
            case STEAM_PENETRATION -> Optional.of(Kind.STEAM_PENETRATION);
            case VERIFICATION -> Optional.of(Kind.INDICATION);
            case AS_FOUND, MAINTENANCE, INSTALLATION -> Optional.empty();
        };
    }

    private static String run(AssessedRun run, String stage) {
        return "Run %s%s: %s".formatted(run.run().number(), stage.isBlank() ? "" : ", " + stage.strip(), run.cause());
    }

    /** The stage words of a run for comparing. */
    private static String stage(String stage) {
        return stage.strip().replaceAll("[\\s-]+", " ").toLowerCase(Locale.ROOT);
    }
}
