package org.steamwright.assessment.verdict;

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

    public TestRun {
        instruments = Map.copyOf(instruments);
    }

    /** The same run with another trace. */
    public TestRun withTrace(Trace newTrace) {
        return new TestRun(id, kind, cycle, newTrace, instruments, ambient, leakPeriods, lethality);
    }

    /** The same run with other instruments. */
    public TestRun withInstruments(Map<String, ReferenceInstrument> newInstruments) {
        return new TestRun(id, kind, cycle, trace, newInstruments, ambient, leakPeriods, lethality);
    }
}
