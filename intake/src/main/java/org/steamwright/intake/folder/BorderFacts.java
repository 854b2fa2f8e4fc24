package org.steamwright.intake.folder;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.VisitRun;

/**
 * Reads the borders of phases that a visit file states, and refuses those that can't stand: of the plateau, stated twice,
 * outside of the recording, or such that two phases would change their order.
 */
final class BorderFacts {

    private static final String PLATEAU = "plateau";

    private final Map<Integer, Entry> lists = new LinkedHashMap<>();

    /** The borders of a run; those with a problem are left out. */
    List<StatedBorder> read(Entry entry, int run, Optional<TestKind> kind, Optional<Trace> trace) {
        if (kind.filter(TestKind.LEAK::equals).isPresent()) {
            entry.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of(
                            "found stated-borders at a run of kind " + Words.of(TestKind.LEAK, Words.KIND)
                                    + ", expected them at a run with a plateau.",
                            "Write leak-periods instead"));
            return List.of();
        }
        lists.put(run, entry);
        List<StatedBorder> borders = new ArrayList<>();
        for (Entry one : entry.list()) {
            Optional<StatedBorder> border = border(one);
            if (border.isPresent() && isPossible(border.get(), borders, one, trace)) {
                borders.add(border.get());
            }
        }
        return borders;
    }

    private static Optional<StatedBorder> border(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.STATED_BORDER);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<Phase.Kind> phase = fields.need("phase", "drying").flatMap(BorderFacts::phase);
        Optional<StatedBorder.End> end = fields.need("end", "to").flatMap(one -> one.word(Words.BORDER_END));
        Optional<Double> at = fields.need("at", "1740 s").flatMap(one -> one.quantity(Measure.DURATION));
        Optional<String> author = fields.needText("by", "K. Sample");
        Optional<String> because =
                fields.needText("because", "the air valve opened slowly, the vacuum was held until then");
        return phase.isEmpty() || end.isEmpty() || at.isEmpty() || author.isEmpty() || because.isEmpty()
                ? Optional.empty()
                : Optional.of(new StatedBorder(phase.get(), end.get(), at.get(), author.get(), because.get()));
    }

    private static Optional<Phase.Kind> phase(Entry entry) {
        if (entry.text().filter(PLATEAU::equals).isPresent()) {
            entry.problem(
                    Mistake.STATED_BORDER,
                    Flaw.of(
                            "found the phase \"plateau\", expected one of " + String.join(", ", Words.PHASE.keySet())
                                    + ".",
                            "Begin and end of the plateau and the holding time come from the samples alone;"
                                    + " write a doubt about them as a deviation."));
            return Optional.empty();
        }
        return entry.word(Words.PHASE);
    }

    private static boolean isPossible(
            StatedBorder border, List<StatedBorder> before, Entry entry, Optional<Trace> trace) {
        if (before.stream().anyMatch(other -> other.isOf(border.phase(), border.end()))) {
            entry.problem(
                    Mistake.STATED_BORDER,
                    Flaw.of(
                            "found the " + border.words() + " a second time, expected each border once.",
                            "Remove one of the two."));
            return false;
        }
        if (trace.isPresent()
                && (border.atSeconds() < trace.get().firstSeconds()
                        || border.atSeconds() > trace.get().lastSeconds())) {
            entry.problem(
                    Mistake.STATED_BORDER,
                    Flaw.of(
                            "found the " + border.words() + " at " + border.atSeconds()
                                    + " s, expected a moment of the recording, which goes from "
                                    + trace.get().firstSeconds() + " s to "
                                    + trace.get().lastSeconds() + " s.",
                            "Moments count from its first sample."));
            return false;
        }
        return true;
    }

    /** Refuses borders that would put two phases in another order, which shows beside the found ones only. */
    void check(List<VisitRun> runs, CriteriaSet set) {
        for (VisitRun run : runs) {
            if (run.test().statedBorders().isEmpty()) {
                continue;
            }
            Entry entry = Optional.ofNullable(lists.get(run.number())).orElseThrow();
            Assessment.phases(run.test(), set)
                    .stated()
                    .flatMap(StatedPhases::refusal)
                    .ifPresent(refusal -> entry.problem(
                            Mistake.STATED_BORDER,
                            Flaw.of(
                                    "found borders that can't stand beside the phases that were found, because "
                                            + refusal + ".",
                                    "Expected phases that follow one another. Change the moment, or state the"
                                            + " border of the other phase as well.")));
        }
    }
}
