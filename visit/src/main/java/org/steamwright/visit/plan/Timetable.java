package org.steamwright.visit.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;

/**
 * Puts the steps of a visit into time: the machine does one thing after the other, and what needs no machine is done while it
 * runs by itself.
 *
 * <p>The technician stays for the first and the last minutes of each run. A piece of work is never torn in two: it goes into
 * the first wait in which it fits whole, and to the end if it fits in none. The load is described before the first run with it.
 */
final class Timetable {

    private final AfterChange.Times times;
    private final List<VisitPlan.Step> placed = new ArrayList<>();
    private int now;

    Timetable(AfterChange.Times times) {
        this.times = times;
    }

    /** The same steps with their beginnings, in that order. */
    List<VisitPlan.Step> of(List<VisitPlan.Step> steps) {
        List<VisitPlan.Step> waiting = new ArrayList<>(
                steps.stream().filter(step -> step.kind().isForTheWait()).toList());
        // the load first: later runs depend on it
        waiting.sort(Comparator.comparing(step -> step.kind() != StepKind.DESCRIBE_LOAD));
        for (VisitPlan.Step step : steps) {
            if (step.kind().isForTheWait()) {
                continue;
            }
            if (step.kind() == StepKind.LOADED) {
                flush(waiting, StepKind.DESCRIBE_LOAD);
            }
            if (step.kind() == StepKind.HANDOVER) {
                waiting.forEach(left -> place(left));
                waiting.clear();
            }
            if (step.kind().isCycle()) {
                fill(waiting, step, now + times.presence(), now + step.minutes() - times.presence());
            }
            place(step);
        }
        waiting.forEach(left -> place(left));
        placed.sort(Comparator.comparingInt(VisitPlan.Step::begins).thenComparing(VisitPlan.Step::isMeanwhile));
        return placed;
    }

    private void flush(List<VisitPlan.Step> waiting, StepKind kind) {
        for (Iterator<VisitPlan.Step> left = waiting.iterator(); left.hasNext(); ) {
            VisitPlan.Step step = left.next();
            if (step.kind() == kind) {
                place(step);
                left.remove();
            }
        }
    }

    private void fill(List<VisitPlan.Step> waiting, VisitPlan.Step run, int from, int until) {
        int free = from;
        for (Iterator<VisitPlan.Step> left = waiting.iterator(); left.hasNext(); ) {
            VisitPlan.Step step = left.next();
            // there is nothing to draft before something was measured
            boolean isTooSoon = step.kind() == StepKind.DRAFT && run.kind().compareTo(StepKind.EMPTY_CHAMBER) < 0;
            if (!isTooSoon && free + step.minutes() <= until) {
                placed.add(begun(step, free, true));
                free += step.minutes();
                left.remove();
            }
        }
    }

    private void place(VisitPlan.Step step) {
        placed.add(begun(step, now, false));
        now += step.minutes();
    }

    private static VisitPlan.Step begun(VisitPlan.Step step, int begins, boolean isMeanwhile) {
        return new VisitPlan.Step(
                step.kind(), step.cycle(), step.run(), step.of(), begins, step.minutes(), isMeanwhile);
    }
}
