package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.CountedRun.Count;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/**
 * Operational or performance qualification of one cycle of one sterilizer, from its runs.
 *
 * <p>Performance asks for as many passes in a row as the criteria set says, with the same load. Operational asks for one
 * pass; once an empty-chamber run has failed it asks for as many in a row after it as performance does, since one pass
 * after a failure may be luck. Until then a failed run leaves the qualification failed.
 *
 * @source consecutive runs: the criteria set; starting again after a failed run: AS/NZS 4815 as described on secondary
 *     pages; the same number for empty-chamber runs after a failure: common practice, no source
 */
final class RunStanding {

    private final Sterilizer sterilizer;
    private final String cycle;
    private final Kind kind;
    private final List<CountedRun> runs;
    private final int consecutiveRuns;
    private final CycleLedger ledger;

    /**
     * @param sterilizer which
     * @param cycle name of the cycle
     * @param kind {@link Kind#OPERATIONAL} or {@link Kind#PERFORMANCE}
     * @param runsOfVisit all, in the order of their numbers
     * @param leak tests of that sterilizer
     * @param consecutiveRuns that the criteria set asks for
     * @param ledger the steriliser's own cycle numbers
     */
    RunStanding(
            Sterilizer sterilizer,
            String cycle,
            Kind kind,
            List<AssessedRun> runsOfVisit,
            LeakStanding leak,
            int consecutiveRuns,
            CycleLedger ledger) {
        this.sterilizer = sterilizer;
        this.cycle = cycle;
        this.kind = kind;
        TestKind test = kind == Kind.OPERATIONAL ? TestKind.EMPTY_CHAMBER : TestKind.LOADED;
        this.runs = runsOfVisit.stream()
                .filter(run -> run.run().sterilizer().equals(sterilizer.key()))
                .filter(run -> run.run().test().kind() == test)
                .filter(run -> Words.key(run.run().test().cycle().name()).equals(Words.key(cycle)))
                .map(run -> CountedRun.of(run, leak))
                .toList();
        this.consecutiveRuns = consecutiveRuns;
        this.ledger = ledger;
    }

    Qualification find() {
        Row hoped = Row.of(runs, Count.PASS, ledger);
        Row feared = Row.of(runs, Count.FAIL, ledger);
        List<String> outside = runs.stream()
                .filter(run -> run.count() != Count.AS_FOUND)
                .flatMap(run -> LoadScope.outside(run.run().run()).stream())
                .distinct()
                .toList();
        if (runs.stream().allMatch(run -> run.count() == Count.AS_FOUND)) {
            return answer(Standing.NOT_ASSESSED, hoped, notMade() + asides());
        }
        if (!hoped.reaches(needed(hoped))) {
            return hoped.lastFailed()
                    .map(failed -> answer(Standing.FAIL, hoped, failed(failed, hoped) + asides()))
                    .orElseGet(() -> answer(Standing.INCOMPLETE, hoped, incomplete(hoped) + asides()));
        }
        if (!outside.isEmpty()) {
            return answer(
                    Standing.INCOMPLETE,
                    hoped,
                    "The runs are good as recorded, but a cycle of type N is for unwrapped solid items only and the load held %s: this load is not covered."
                                    .formatted(Words.list(outside))
                            + asides());
        }
        return feared.reaches(needed(feared))
                ? answer(Standing.PASS, hoped, passed(hoped) + asides())
                : answer(Standing.AWAITED, hoped, awaited() + asides());
    }

    private int needed(Row row) {
        return kind == Kind.PERFORMANCE || row.lastFailed().isPresent() ? consecutiveRuns : 1;
    }

    private String notMade() {
        return kind == Kind.PERFORMANCE ? "No loaded run was made." : "No empty-chamber run was made.";
    }

    private String passed(Row row) {
        List<String> rows = row.longest().values().stream()
                .map(those ->
                        Words.runs(numbers(those)) + (row.longest().size() > 1 ? " with " + load(those.get(0)) : ""))
                .toList();
        return "%s: %s; %s asked for.%s"
                .formatted(
                        row.latest().size() == 1 ? "One pass" : "Passes in a row",
                        Words.list(rows),
                        needed(row),
                        row.lastFailed()
                                .map(failed -> " Run %s before them failed: %s"
                                        .formatted(
                                                failed.number(),
                                                Words.sentence(failed.run().cause())))
                                .orElse(""));
    }

    private String failed(CountedRun failed, Row row) {
        return "Run %s failed: %s The count starts again after a failed run: %s of %s passes in a row since."
                .formatted(failed.number(), Words.sentence(failed.run().cause()), row.passes(), needed(row));
    }

    private String incomplete(Row row) {
        if (row.longest().size() > 1) {
            String rows = row.longest().values().stream()
                    .map(those -> "%s with %s".formatted(those.size(), load(those.get(0))))
                    .collect(Collectors.joining(", "));
            return "%s passes in a row with the same load are asked for; there are %s.".formatted(needed(row), rows);
        }
        return "%s of %s passes in a row.".formatted(row.latest().size(), needed(row));
    }

    private String awaited() {
        return "The recordings pass; the indicators of %s are not read yet. Until they are, nothing is qualified by them."
                .formatted(Words.runs(numbersOf(Count.AWAITED)));
    }

    /** What did not count and why, so that no run goes unmentioned. */
    private String asides() {
        StringBuilder text = new StringBuilder();
        for (CountedRun run : runs) {
            switch (run.count()) {
                case INVALID ->
                    text.append(" Run %s is invalid and counts neither way: %s"
                            .formatted(run.number(), Words.sentence(run.run().cause())));
                case LEAKING ->
                    text.append(
                            " Run %s was made while the test with sensors fitted showed a leak, so its pass is not counted."
                                    .formatted(run.number()));
                case AS_FOUND ->
                    text.append(" Run %s shows the state as found (%s) and is not counted."
                            .formatted(
                                    run.number(),
                                    run.run().isPass() ? "pass" : run.run().isFail() ? "fail" : "invalid"));
                default -> {}
            }
        }
        return text + breaks() + all();
    }

    /** Where the steriliser's own numbers break the row. */
    private String breaks() {
        StringBuilder text = new StringBuilder();
        Optional<CountedRun> before = Optional.empty();
        for (CountedRun run : runs) {
            if (run.count() != Count.PASS && run.count() != Count.AWAITED) {
                continue;
            }
            Optional<CycleLedger.Line> broken =
                    before.flatMap(earlier -> ledger.breakBetween(Row.numbered(earlier), Row.numbered(run)));
            if (broken.isPresent()) {
                text.append(" Between runs %s and %s the steriliser counted %s (%s), so the row starts again at run %s."
                        .formatted(
                                before.map(CountedRun::number).orElse(0),
                                run.number(),
                                broken.get().first() == broken.get().last()
                                        ? "cycle " + broken.get().first()
                                        : "cycles %s to %s"
                                                .formatted(
                                                        broken.get().first(),
                                                        broken.get().last()),
                                broken.get().what(),
                                run.number()));
            }
            before = Optional.of(run);
        }
        return text.toString();
    }

    /** The count of all runs once one of them failed, so that nobody shows the best of many. */
    private String all() {
        if (runs.size() < 2 || runs.stream().noneMatch(run -> run.count() == Count.FAIL)) {
            return "";
        }
        List<String> parts = new ArrayList<>();
        for (Count count : Count.values()) {
            long number = runs.stream().filter(run -> run.count() == count).count();
            if (number > 0) {
                parts.add(number + " " + count.words());
            }
        }
        return " Of %s runs in all: %s.".formatted(runs.size(), Words.list(parts));
    }

    private Qualification answer(Standing standing, Row row, String sentence) {
        return new Qualification(
                kind, sterilizer.key(), cycle, standing, numbers(runs), row.passes(), needed(row), sentence);
    }

    private List<Integer> numbersOf(Count count) {
        return numbers(runs.stream().filter(run -> run.count() == count).toList());
    }

    private static List<Integer> numbers(List<CountedRun> runs) {
        List<Integer> numbers = new ArrayList<>();
        runs.forEach(run -> numbers.add(run.number()));
        return numbers;
    }

    private static String load(CountedRun run) {
        return run.run()
                .run()
                .load()
                .map(load -> "the load " + Words.quoted(load.description().strip()))
                .orElse("a load that was not described");
    }
}
