package org.steamwright.assessment.verdict;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.lethality.LethalityTerms;
import org.steamwright.assessment.trace.Trace;

/**
 * Everything that the assessment of one run starts from.
 *
 * @param id short and unique within the visit
 * @param kind what it is meant to show
 * @param cycle what the sterilizer was meant to do; for a leak test its name at least
 * @param trace what was recorded
 * @param instruments by id, as named by the trace's channels
 * @param ambient pressure of the day
 * @param leakPeriods declared periods of a leak test; empty lets them be found
 * @param lethality by what lethality is counted
 */
public record TestRun(
        String id,
        TestKind kind,
        CycleDefinition cycle,
        Trace trace,
        Map<String, ReferenceInstrument> instruments,
        Ambient ambient,
        Optional<LeakPeriods> leakPeriods,
        LethalityTerms lethality) {

    /** A run whose lethality is counted in the usual terms. */
    public TestRun(
            String id,
            TestKind kind,
            CycleDefinition cycle,
            Trace trace,
            Map<String, ReferenceInstrument> instruments,
            Ambient ambient,
            Optional<LeakPeriods> leakPeriods) {
        this(id, kind, cycle, trace, instruments, ambient, leakPeriods, LethalityTerms.USUAL);
    }

    /** The same run with another instrument in the place of the one with its id. */
    public TestRun withInstrument(ReferenceInstrument other) {
        Map<String, ReferenceInstrument> changed = new HashMap<>(instruments);
        changed.put(other.id(), other);
        return new TestRun(id, kind, cycle, trace, changed, ambient, leakPeriods, lethality);
    }

    public TestRun {
        instruments = Map.copyOf(instruments);
    }
}
