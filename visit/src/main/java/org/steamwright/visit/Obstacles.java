package org.steamwright.visit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.indication.IndicationCheck;
import org.steamwright.visit.indication.PenetrationStanding;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.register.Sterilizer;

/** What stands in the way of a cycle beside its runs: steam penetration, safety, installation, indication, conditions. */
public final class Obstacles {

    private Obstacles() {}

    /** All of them, in the order of the sterilisers. */
    public static List<Obstacle> find(Visit visit, List<AssessedRun> runs) {
        List<Obstacle> found = new ArrayList<>();
        for (Sterilizer sterilizer : visit.sterilizers()) {
            sterilizer
                    .findOtherSerial()
                    .ifPresent(read -> found.add(new Obstacle(
                            sterilizer.key(),
                            "",
                            Where.of(
                                    Where.Part.IDENTITY,
                                    "sterilizers",
                                    visit.sterilizers().indexOf(sterilizer) + 1,
                                    "name-plate",
                                    "serial"),
                            "Its name plate says %s, so nothing measured here belongs to it.".formatted(read))));
        }
        for (PenetrationStanding penetration : penetration(visit)) {
            if (penetration.standing() == PenetrationStanding.Standing.FAIL) {
                found.add(new Obstacle(
                        penetration.sterilizer(),
                        concerned(visit, penetration),
                        Where.of(Where.Part.RUNS),
                        "Steam penetration test (%s): fail. %s"
                                .formatted(penetration.kind().words(), penetration.sentence())));
            }
        }
        for (TaskRecord tasks : visit.job().tasks()) {
            if (tasks.isBad() && tasks.list().part() != TaskList.Part.MAINTENANCE) {
                List<String> bad = tasks.lines().stream()
                        .filter(line -> line.standing() == TaskRecord.Standing.BAD)
                        .map(line -> line.task().title())
                        .toList();
                found.add(new Obstacle(
                        tasks.sterilizer(),
                        "",
                        Where.of(Where.part(tasks.list().part())),
                        "%s: not good: %s.".formatted(tasks.list().part().title(), Words.list(bad))));
            }
        }
        // one sentence for each line: their titles are somebody's own words
        for (Checklist list : visit.checklists()) {
            for (int i = 0; i < list.items().size(); i++) {
                CheckItem item = list.items().get(i);
                if (Whole.isDeciding(list) && CheckResult.of(list.section(), item) == CheckResult.FAILED) {
                    found.add(new Obstacle(
                            list.sterilizer(),
                            "",
                            Where.check(visit, list, i + 1),
                            "%s: not good: %s.".formatted(list.section().title(), item.title())));
                }
            }
        }
        found.addAll(tooHeavy(visit));
        lastIndications(visit, runs).forEach((place, check) -> {
            if (check.outcome() == Outcome.FAIL) {
                found.add(new Obstacle(
                        place.sterilizer(),
                        "",
                        Where.of(Where.Part.INDICATION),
                        "Its own indication is outside the tolerance as left. " + check.sentence()));
            }
        });
        for (PassCondition condition : visit.job().conditions()) {
            String why = whyNot(visit, condition);
            if (!why.isEmpty()) {
                found.add(new Obstacle(condition.sterilizer(), condition.cycle(), Where.of(Where.Part.FAILURES), why));
            }
        }
        return List.copyOf(found);
    }

    /**
     * The cycle that a steam penetration test concerns: the one it was made in if loads were tested in it too, or every cycle
     * where it was made in a program of its own.
     */
    static String concerned(Visit visit, PenetrationStanding test) {
        boolean isForLoads = visit.runs().stream()
                .anyMatch(run -> run.sterilizer().equals(test.sterilizer())
                        && run.test().kind() == TestKind.LOADED
                        && Words.key(run.test().cycle().name()).equals(Words.key(test.cycle())));
        return isForLoads ? test.cycle() : "";
    }

    /** The steam penetration tests read together, by steriliser, cycle and kind of device. */
    public static List<PenetrationStanding> penetration(Visit visit) {
        Map<List<String>, List<PenetrationTest>> groups = new LinkedHashMap<>();
        for (PenetrationTest test : visit.job().penetration()) {
            groups.computeIfAbsent(
                            List.of(
                                    test.sterilizer(),
                                    Words.key(test.cycle()),
                                    test.kind().name()),
                            unseen -> new ArrayList<>())
                    .add(test);
        }
        return groups.values().stream()
                .map(tests -> PenetrationStanding.of(tests, visit.date()))
                .toList();
    }

    /** Every reading of the sterilisers' own indication beside the reference, in the order of the facts. */
    public static List<IndicationCheck> indications(Visit visit, List<AssessedRun> runs) {
        return visit.job().indications().stream()
                // what was read in a run without a recording has nothing to be held against
                .filter(reading -> visit.unrecorded().stream().noneMatch(run -> run.number() == reading.run()))
                .map(reading -> IndicationCheck.of(
                        reading, run(reading.run(), runs).evaluation().corrected()))
                .toList();
    }

    static AssessedRun run(int number, List<AssessedRun> runs) {
        return runs.stream()
                .filter(run -> run.run().number() == number)
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no run %s in this visit".formatted(number)));
    }

    /** Whether a condition of the last visit goes on without anybody saying so. */
    static boolean isSilentlyRenewed(Visit visit, PassCondition condition) {
        return condition.renewal().isEmpty()
                && visit.job().earlierConditions().stream()
                        .anyMatch(text -> Words.key(text).equals(Words.key(condition.text())));
    }

    private static String whyNot(Visit visit, PassCondition condition) {
        if (isSilentlyRenewed(visit, condition)) {
            return "The condition ‘%s’ stood at the last visit already and is renewed in silence, which counts as lapsed. State the report, the reason and a reviewer."
                    .formatted(condition.text().strip());
        }
        return visit.date()
                .filter(day -> condition.isLapsed(day, OptionalInt.empty()))
                .map(day -> "The condition ‘%s’ (%s) had lapsed by the day of the visit."
                        .formatted(condition.text().strip(), condition.owner().strip()))
                .orElse("");
    }

    /** Cycles whose every load is above the maker's maximum. */
    private static List<Obstacle> tooHeavy(Visit visit) {
        Map<List<String>, List<Boolean>> byCycle = new LinkedHashMap<>();
        Map<List<String>, String> sentences = new LinkedHashMap<>();
        for (VisitRun run : visit.runs()) {
            if (run.test().kind() != TestKind.LOADED || run.load().isEmpty() || run.isAsFound()) {
                continue;
            }
            List<String> place = List.of(run.sterilizer(), run.test().cycle().name());
            Optional<String> above =
                    LoadComparison.of(run.load().get(), visit.job().findLoads(run.sterilizer())).stream()
                            .filter(remark -> remark.kind() == LoadComparison.Kind.ABOVE_MAXIMUM)
                            .map(LoadComparison.LoadRemark::sentence)
                            .findFirst();
            byCycle.computeIfAbsent(place, unseen -> new ArrayList<>()).add(above.isPresent());
            above.ifPresent(sentence -> sentences.putIfAbsent(place, sentence));
        }
        List<Obstacle> found = new ArrayList<>();
        sentences.forEach((place, sentence) -> {
            if (byCycle.getOrDefault(place, List.of()).stream().allMatch(isAbove -> isAbove)) {
                found.add(new Obstacle(place.get(0), place.get(1), Where.of(Where.Part.LOAD), sentence));
            }
        });
        return found;
    }

    /** A steriliser, what shows it, and the quantity. */
    private record Place(String sterilizer, String shownBy, Quantity quantity, String cycle) {}

    /** The worst reading of the last run in which each indication was read as left. */
    private static Map<Place, IndicationCheck> lastIndications(Visit visit, List<AssessedRun> runs) {
        Map<Place, IndicationCheck> last = new LinkedHashMap<>();
        for (IndicationCheck check : indications(visit, runs)) {
            if (check.reading().isAsFound() || check.outcome() == Outcome.INVALID) {
                continue;
            }
            VisitRun run = run(check.reading().run(), runs).run();
            Place place = new Place(
                    run.sterilizer(),
                    Words.key(check.reading().shownBy()),
                    check.reading().quantity(),
                    Words.key(run.test().cycle().name()));
            last.merge(place, check, (one, other) -> {
                int order = Integer.compare(other.reading().run(), one.reading().run());
                return order > 0 || (order == 0 && other.outcome() == Outcome.FAIL) ? other : one;
            });
        }
        return last;
    }
}
