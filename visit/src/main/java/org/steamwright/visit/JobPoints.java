package org.steamwright.visit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.indication.IndicationCheck;
import org.steamwright.visit.indication.PenetrationStanding;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.plan.BesideLoads;
import org.steamwright.visit.register.Sterilizer;

/** Open points of the job sheet: what was not answered, not possible, claimed twice, or said of a load. */
final class JobPoints {

    private final Visit visit;
    private final List<AssessedRun> runs;
    private final List<Obstacle> obstacles;
    private final Map<String, OpenPoint> points = new LinkedHashMap<>();

    JobPoints(Visit visit, List<AssessedRun> runs, List<Obstacle> obstacles) {
        this.visit = visit;
        this.runs = runs;
        this.obstacles = obstacles;
    }

    List<OpenPoint> find() {
        obstacles.forEach(obstacle ->
                add(obstacle.where(), "%s: %s".formatted(name(obstacle.sterilizer()), obstacle.sentence())));
        visit.sterilizers().forEach(this::changes);
        visit.job().tasks().forEach(this::tasks);
        visit.sterilizers().forEach(this::ledger);
        penetration();
        indications();
        loads();
        conditions();
        failures();
        interim();
        scope();
        return List.copyOf(points.values());
    }

    private void add(Where where, String sentence) {
        points.putIfAbsent(sentence, OpenPoint.of(where, sentence));
    }

    private void add(Where.Part part, String sentence) {
        add(Where.of(part), sentence);
    }

    private void changes(Sterilizer sterilizer) {
        if (visit.job().changes().isEmpty()) {
            return;
        }
        String name = Words.capital(Words.sterilizer(sterilizer));
        List<String> unanswered = visit.job()
                .findChanges(sterilizer.key())
                .map(ChangesSince::unanswered)
                .orElse(List.of("moved", "added", "changed"));
        if (!unanswered.isEmpty()) {
            add(
                    Where.Part.INSTALLATION,
                    "%s: nobody answered whether anything was %s since last time."
                            .formatted(name, String.join(" or ", unanswered)));
        }
        boolean isAnother = visit.job()
                .findChanges(sterilizer.key())
                .filter(ChangesSince::isAnother)
                .isPresent();
        boolean isInstalled = visit.checklists().stream()
                        .anyMatch(list -> list.section() == Checklist.Section.INSTALLATION
                                && list.sterilizer().equals(sterilizer.key())
                                && !list.items().isEmpty())
                || visit.job().tasks().stream()
                        .anyMatch(tasks -> tasks.list().part() == TaskList.Part.INSTALLATION
                                && tasks.sterilizer().equals(sterilizer.key()));
        if (isAnother && !isInstalled) {
            add(
                    Where.Part.INSTALLATION,
                    "%s was moved or changed since last time, so its installation is qualified anew and not confirmed."
                            .formatted(name));
        }
    }

    private void tasks(TaskRecord tasks) {
        Where.Part part = Where.part(tasks.list().part());
        String place = name(tasks.sterilizer()) + ", " + tasks.list().part().title();
        for (TaskRecord.Line line : tasks.lines()) {
            switch (line.standing()) {
                case UNANSWERED ->
                    add(
                            part,
                            "%s: %s – not answered."
                                    .formatted(place, line.task().title()));
                case NOT_READ ->
                    add(
                            part,
                            "%s: %s – done, but its reading is missing."
                                    .formatted(place, line.task().title()));
                case NOT_SAID ->
                    add(
                            part,
                            "%s: %s – done, but nobody said whether it is good."
                                    .formatted(place, line.task().title()));
                case UNEXPLAINED ->
                    add(
                            part,
                            "%s: %s – left out, and nobody says why. State the reason."
                                    .formatted(place, line.task().title()));
                case NOT_POSSIBLE ->
                    add(
                            part,
                            "%s: %s – not possible. %s"
                                    .formatted(
                                            place,
                                            line.task().title(),
                                            line.entry()
                                                    .map(entry -> Words.capital(Words.sentence(entry.why())))
                                                    .orElse("")));
                case BAD ->
                    add(part, "%s: %s – not good.".formatted(place, line.task().title()));
                case GOOD, LEFT_OUT -> {}
            }
        }
    }

    private void ledger(Sterilizer sterilizer) {
        for (CycleLedger.Line line : CycleBook.of(visit, sterilizer).lines()) {
            if (line.kind() == CycleLedger.Kind.TWICE) {
                add(
                        Where.Part.RUNS,
                        "%s: cycle number %s is claimed twice: %s."
                                .formatted(Words.capital(Words.sterilizer(sterilizer)), line.first(), line.what()));
            }
        }
        for (OtherCycles other : visit.job().otherCycles()) {
            if (other.sterilizer().equals(sterilizer.key()) && other.kind() == OtherCycles.Kind.FAILED) {
                add(
                        Where.Part.RUNS,
                        "%s: %s. It is no test run, but it failed; the cause belongs into the report."
                                .formatted(Words.capital(Words.sterilizer(sterilizer)), other.words()));
            }
        }
    }

    private void penetration() {
        for (PenetrationStanding standing : Obstacles.penetration(visit)) {
            if (standing.standing() == PenetrationStanding.Standing.VOID
                    || standing.standing() == PenetrationStanding.Standing.AS_FOUND_ONLY) {
                add(
                        Where.Part.RUNS,
                        "%s, steam penetration test (%s) in cycle %s: %s %s"
                                .formatted(
                                        name(standing.sterilizer()),
                                        standing.kind().words(),
                                        Words.quoted(standing.cycle()),
                                        standing.standing().words() + ".",
                                        standing.sentence()));
            }
        }
        visit.job().penetration().stream()
                .filter(test -> test.isAsFound() && test.result() == PenetrationTest.Result.FAIL)
                .forEach(test -> add(
                        Where.Part.RUNS,
                        "%s, steam penetration test (%s) as found: fail. Loads since the last good evidence are concerned. The clinic looks back and decides."
                                .formatted(name(test.sterilizer()), test.kind().words())));
    }

    private void indications() {
        for (IndicationCheck check : Obstacles.indications(visit, runs)) {
            if (check.outcome() == Outcome.INVALID || check.outcome() == Outcome.UNDECIDED) {
                add(
                        Where.Part.INDICATION,
                        "Run %s, the steriliser's own indication: %s. %s"
                                .formatted(
                                        check.reading().run(), check.outcome().words(), check.sentence()));
            } else if (check.outcome() == Outcome.FAIL && check.reading().isAsFound()) {
                add(
                        Where.Part.INDICATION,
                        "Run %s, the steriliser's own indication as found: fail. %s Whoever released loads by it is told; the clinic looks back and decides."
                                .formatted(check.reading().run(), check.sentence()));
            }
        }
    }

    private void loads() {
        for (AssessedRun assessed : runs) {
            VisitRun run = assessed.run();
            if (run.test().kind() == TestKind.LOADED && run.load().isPresent()) {
                for (LoadComparison.LoadRemark remark :
                        LoadComparison.of(run.load().get(), visit.job().findLoads(run.sterilizer()))) {
                    add(
                            Where.Part.LOAD,
                            "The load of %s: %s"
                                    .formatted(
                                            Words.sterilizer(visit.getSterilizer(run.sterilizer())),
                                            remark.sentence()));
                }
            }
        }
    }

    private void conditions() {
        for (PassCondition condition : visit.job().conditions()) {
            if (visit.date().filter(condition::isOpen).isPresent() && !Obstacles.isSilentlyRenewed(visit, condition)) {
                add(
                        Where.Part.FAILURES,
                        "On condition: %s Owner: %s, %s.%s"
                                .formatted(
                                        Words.sentence(condition.text()),
                                        condition.owner().strip(),
                                        Words.until(condition.until(), condition.untilCount())
                                                .strip(),
                                        condition
                                                .renewal()
                                                .map(renewal -> " Renewed from report %s: %s Agreed by %s."
                                                        .formatted(
                                                                renewal.of(),
                                                                Words.sentence(renewal.reason()),
                                                                renewal.reviewer()))
                                                .orElse("")));
            }
        }
    }

    private void failures() {
        for (FailureNote note : visit.job().failures()) {
            if (note.closedOn().isEmpty()) {
                add(
                        Where.Part.FAILURES,
                        "%s, failure of %s: not closed. %s"
                                .formatted(
                                        name(note.sterilizer()),
                                        note.kind().words(),
                                        note.cause().isBlank()
                                                ? "Its cause is not known."
                                                : "Cause: " + Words.sentence(note.cause())));
            }
        }
    }

    private void scope() {
        if (visit.job().scope().isNarrowed() && visit.job().scope().because().isBlank()) {
            add(
                    Where.of(Where.Part.CLOSING, "job-sheet", "scope", "because"),
                    "The visit was asked for less than everything, and nobody says why. State the reason.");
        }
        boolean isLeakTestNeeded = BesideLoads.isLeakTestAskedFor(visit.criteriaSet())
                && visit.sterilizers().stream().anyMatch(LeakStanding::removesAirByVacuum);
        visit.job()
                .scope()
                .missingBesideLoads(isLeakTestNeeded)
                .forEach(kind -> add(
                        Where.of(Where.Part.CLOSING, "job-sheet", "scope"),
                        "The visit was asked for loaded runs and not for this: %s. Without it loaded runs qualify no cycle."
                                .formatted(kind.title())));
    }

    private void interim() {
        // whatever else a run says: while indicators are awaited, what is signed is an interim report
        List<Outcome> indicators = runs.stream()
                .flatMap(run -> run.loadFindings().stream())
                .filter(finding -> finding.id() == CriterionId.BIOLOGICAL_INDICATORS)
                .map(Finding::outcome)
                .toList();
        boolean isAwaiting = indicators.contains(Outcome.AWAITED)
                && !indicators.contains(Outcome.FAIL)
                && !indicators.contains(Outcome.INVALID);
        if (isAwaiting
                && visit.clinic().isPresent()
                && visit.job().interimUntil().isEmpty()) {
            add(
                    Where.of(Where.Part.INDICATORS, "job-sheet", "interim-until"),
                    "An answer is awaited and no last day of the interim report is stated. State until when it stands.");
        }
        Set<String> lots = new TreeSet<>();
        for (AssessedRun run : runs) {
            run.run().indicators().stream()
                    .filter(use -> use.lot().isBlank() && !use.isControl())
                    .forEach(use -> lots.add("run " + run.run().number() + ", " + use.id()));
        }
        if (!lots.isEmpty() && !visit.job().isEmpty()) {
            add(
                    Where.Part.INDICATORS,
                    "Biological indicators without a lot number: %s.".formatted(String.join("; ", lots)));
        }
    }

    private String name(String key) {
        return Words.capital(Words.sterilizer(visit.getSterilizer(key)));
    }
}
