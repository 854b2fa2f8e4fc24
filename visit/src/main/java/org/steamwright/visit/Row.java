package org.steamwright.visit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.visit.CountedRun.Count;
import org.steamwright.visit.cycles.CycleLedger;

/**
 * Passes in a row, counted over the runs of one cycle in the order of their numbers.
 *
 * <p>A failed run starts the count again and makes everything before it worthless. A change of the load starts the count
 * of the new load at one and leaves what the earlier load had reached. Invalid runs neither add nor break. Where the
 * steriliser's own numbers show something between two passes that nobody explains, or a cycle that failed, the count
 * starts again at the later pass.
 *
 * @param longest by load, since the last failed run: the runs of its longest row, in order of first appearance
 * @param latest the row that the last run stands in; empty after a failed run and before the first pass
 * @param lastFailed the last failed run
 */
record Row(Map<LoadKey, List<CountedRun>> longest, List<CountedRun> latest, Optional<CountedRun> lastFailed) {

    Row {
        longest = Collections.unmodifiableMap(new LinkedHashMap<>(longest));
        latest = List.copyOf(latest);
    }

    /**
     * Counts.
     *
     * @param runs in the order of their numbers
     * @param awaitedAs what an awaited run is taken for: {@link Count#PASS} or {@link Count#FAIL}
     * @param ledger the steriliser's own cycle numbers
     */
    static Row of(List<CountedRun> runs, Count awaitedAs, CycleLedger ledger) {
        Map<LoadKey, List<CountedRun>> longest = new LinkedHashMap<>();
        List<CountedRun> latest = new ArrayList<>();
        Optional<CountedRun> failed = Optional.empty();
        for (CountedRun run : runs) {
            Count count = run.count() == Count.AWAITED ? awaitedAs : run.count();
            if (count == Count.FAIL) {
                longest.clear();
                latest.clear();
                failed = Optional.of(run);
            } else if (count == Count.PASS) {
                LoadKey load = LoadKey.of(run.run().run());
                if (!latest.isEmpty()
                        && (!LoadKey.of(latest.get(0).run().run()).equals(load)
                                || ledger.isBrokenBetween(numbered(latest.get(latest.size() - 1)), numbered(run)))) {
                    latest.clear();
                }
                latest.add(run);
                if (longest.getOrDefault(load, List.of()).size() < latest.size()) {
                    longest.put(load, List.copyOf(latest));
                }
            }
        }
        return new Row(longest, latest, failed);
    }

    static CycleLedger.NumberedRun numbered(CountedRun run) {
        return CycleBook.numbered(run.run().run());
    }

    /** Whether every load that was run since the last failed run has its passes in a row. */
    boolean reaches(int needed) {
        return !longest.isEmpty() && longest.values().stream().allMatch(row -> row.size() >= needed);
    }

    /** Passes in the latest row that are passes already. */
    int passes() {
        return (int) latest.stream().filter(run -> run.count() == Count.PASS).count();
    }
}
