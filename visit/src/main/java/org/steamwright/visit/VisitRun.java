package org.steamwright.visit;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.verdict.TestRun;

/**
 * A run with the facts around its recording.
 *
 * @param number within the visit, from 1; without holes but for runs that have no recording
 * @param sterilizer key of the sterilizer
 * @param machineCycle cycle number that the sterilizer gave; empty if not read
 * @param machineVerdict what the sterilizer itself said; may be blank
 * @param stage of a leak test: 'without sensors', 'with sensors', 'after'; of other runs 'as found' or blank
 * @param startCondition cold, warm, dry, …; may be blank
 * @param load of a loaded run
 * @param indicators biological indicators of this run
 * @param weighings packs weighed before and after
 * @param chemicalIndicators what the chemical indicators showed, in words; may be blank
 * @param note anything else; may be blank
 * @param test what the assessment starts from
 * @param chemicalEntries chemical indicators one by one; empty where they are told in words or not at all
 * @param setAside why it counts for nothing good; empty if it counts
 * @param takenAway recordings that were with it and are not any more
 * @param after what was seen of the load when it was taken out; empty if nobody said
 */
public record VisitRun(
        int number,
        String sterilizer,
        OptionalInt machineCycle,
        String machineVerdict,
        String stage,
        String startCondition,
        Optional<ReferenceLoad> load,
        List<IndicatorUse> indicators,
        List<Weighing> weighings,
        String chemicalIndicators,
        String note,
        TestRun test,
        List<ChemicalIndicator> chemicalEntries,
        Optional<SetAside> setAside,
        List<TakenAway> takenAway,
        Optional<AfterRun> after) {

    /** A run of which nobody said how its load came out. */
    public VisitRun(
            int number,
            String sterilizer,
            OptionalInt machineCycle,
            String machineVerdict,
            String stage,
            String startCondition,
            Optional<ReferenceLoad> load,
            List<IndicatorUse> indicators,
            List<Weighing> weighings,
            String chemicalIndicators,
            String note,
            TestRun test,
            List<ChemicalIndicator> chemicalEntries,
            Optional<SetAside> setAside,
            List<TakenAway> takenAway) {
        this(
                number,
                sterilizer,
                machineCycle,
                machineVerdict,
                stage,
                startCondition,
                load,
                indicators,
                weighings,
                chemicalIndicators,
                note,
                test,
                chemicalEntries,
                setAside,
                takenAway,
                Optional.empty());
    }

    /** A run that nobody set aside, with all its recordings, whose chemical indicators are told in words at most. */
    public VisitRun(
            int number,
            String sterilizer,
            OptionalInt machineCycle,
            String machineVerdict,
            String stage,
            String startCondition,
            Optional<ReferenceLoad> load,
            List<IndicatorUse> indicators,
            List<Weighing> weighings,
            String chemicalIndicators,
            String note,
            TestRun test) {
        this(
                number,
                sterilizer,
                machineCycle,
                machineVerdict,
                stage,
                startCondition,
                load,
                indicators,
                weighings,
                chemicalIndicators,
                note,
                test,
                List.of(),
                Optional.empty(),
                List.of());
    }

    public VisitRun {
        chemicalEntries = List.copyOf(chemicalEntries);
        takenAway = List.copyOf(takenAway);
        indicators = List.copyOf(indicators);
        weighings = List.copyOf(weighings);
        if (number < 1) {
            throw new IllegalArgumentException("runs are numbered from 1");
        }
    }

    /** Whether it was stated to be made before anything was touched; it tells about the past. */
    public boolean isAsFound() {
        return Words.key(stage).startsWith("as found");
    }

    /** The same run with another recording or other instruments. */
    public VisitRun withTest(TestRun newTest) {
        return copy(newTest, chemicalEntries);
    }

    /** The same run with those chemical indicators. */
    public VisitRun withChemicalEntries(List<ChemicalIndicator> entries) {
        return copy(test, entries);
    }

    private VisitRun copy(TestRun newTest, List<ChemicalIndicator> entries) {
        return new VisitRun(
                number,
                sterilizer,
                machineCycle,
                machineVerdict,
                stage,
                startCondition,
                load,
                indicators,
                weighings,
                chemicalIndicators,
                note,
                newTest,
                entries,
                setAside,
                takenAway,
                after);
    }
}
