package org.steamwright.assessment.verdict;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.alignment.Alignment;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.lethality.LethalityTerms;
import org.steamwright.assessment.trace.Trace;

/**
 * Everything that the assessment of one run starts from.
 *
 * @param id short and unique within the visit
 * @param kind what it is meant to show
 * @param cycle what the sterilizer was meant to do; for a leak test its name at least
 * @param trace what was recorded, on one clock as far as {@code clocks} can say
 * @param instruments by id, as named by the trace's channels
 * @param ambient pressure of the day
 * @param leakPeriods declared periods of a leak test; empty lets them be found
 * @param lethality by what lethality is counted
 * @param clocks that stamped the recordings, and what was added to bring them together
 * @param statedBorders borders of phases that somebody stated beside the found ones; they feed no plateau and no holding time
 */
public record TestRun(
        String id,
        TestKind kind,
        CycleDefinition cycle,
        Trace trace,
        Map<String, ReferenceInstrument> instruments,
        Ambient ambient,
        Optional<LeakPeriods> leakPeriods,
        LethalityTerms lethality,
        Clocks clocks,
        List<StatedBorder> statedBorders) {

    /** A run whose phases stay as they are found. */
    public TestRun(
            String id,
            TestKind kind,
            CycleDefinition cycle,
            Trace trace,
            Map<String, ReferenceInstrument> instruments,
            Ambient ambient,
            Optional<LeakPeriods> leakPeriods,
            LethalityTerms lethality,
            Clocks clocks) {
        this(id, kind, cycle, trace, instruments, ambient, leakPeriods, lethality, clocks, List.of());
    }

    /** A run whose channels were all stamped by one clock. */
    public TestRun(
            String id,
            TestKind kind,
            CycleDefinition cycle,
            Trace trace,
            Map<String, ReferenceInstrument> instruments,
            Ambient ambient,
            Optional<LeakPeriods> leakPeriods,
            LethalityTerms lethality) {
        this(id, kind, cycle, trace, instruments, ambient, leakPeriods, lethality, Clocks.ONE);
    }

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
        return new TestRun(id, kind, cycle, trace, changed, ambient, leakPeriods, lethality, clocks, statedBorders);
    }

    public TestRun {
        instruments = Map.copyOf(instruments);
        statedBorders = List.copyOf(statedBorders);
    }

    /** The same run with other stated borders in place of its own. */
    public TestRun withStatedBorders(List<StatedBorder> borders) {
        return new TestRun(id, kind, cycle, trace, instruments, ambient, leakPeriods, lethality, clocks, borders);
    }

    /** The same run with another trace. */
    public TestRun withTrace(Trace newTrace) {
        return new TestRun(
                id, kind, cycle, newTrace, instruments, ambient, leakPeriods, lethality, clocks, statedBorders);
    }

    /**
     * The same run with the clock of one recording moved by so many seconds more, for the question what would have been.
     *
     * @throws IllegalArgumentException if no recording has that name
     */
    public TestRun withClockMoved(String file, double seconds) {
        RecordingClock moved = clocks.recordings().stream()
                .filter(recording -> recording.file().equals(file))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("run " + id + " has no recording " + file));
        List<RecordingClock> recordings = clocks.recordings().stream()
                .map(recording -> recording.file().equals(file)
                        ? recording.withOffset(moved.offset()
                                .map(offset -> offset.movedBy(seconds))
                                .orElseGet(() -> ClockOffset.stated(seconds, 0, "", "Moved to see what would follow.")))
                        : recording)
                .toList();
        return new TestRun(
                id,
                kind,
                cycle,
                Alignment.moved(trace, moved, seconds),
                instruments,
                ambient,
                leakPeriods,
                lethality,
                new Clocks(clocks.base(), recordings),
                statedBorders);
    }
}
