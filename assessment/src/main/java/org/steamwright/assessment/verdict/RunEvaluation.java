package org.steamwright.assessment.verdict;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.plausibility.Oddity;

/**
 * All that the assessment found out about one run.
 *
 * @param run what it started from
 * @param criteriaSet what judged it
 * @param corrected the trace after correction
 * @param phases empty for a leak test
 * @param plateau for the readings as corrected; empty if the reference measurement point never reached the temperature
 * @param plateauLowered with every channel lowered by its expanded uncertainty
 * @param plateauRaised with every channel raised by it
 * @param statistics per temperature channel and pressure, during the holding time; empty without one
 * @param steam measured against theoretical temperature; empty without pressure or holding time
 * @param lethality per temperature channel in the chamber, in the same order, named in {@code lethalityChannels}
 * @param lethalityChannels names of the channels of {@code lethality}
 * @param leakTest of a leak test that could be read
 * @param findings one for every criterion of the test's groups, asked or not, in a fixed order
 * @param verdict by the rules in force
 * @param simpleVerdict as if every criterion were judged by the simple rule
 * @param guardedVerdict as if every criterion were judged by the guarded rule
 * @param hints for a run that did not pass
 * @param oddities of the channels, whatever became of the run
 */
public record RunEvaluation(
        TestRun run,
        CriteriaSet criteriaSet,
        CorrectedTrace corrected,
        Optional<Phases> phases,
        Optional<Plateau> plateau,
        Optional<Plateau> plateauLowered,
        Optional<Plateau> plateauRaised,
        List<ChannelStatistics> statistics,
        Optional<SteamCondition> steam,
        List<Lethality> lethality,
        List<String> lethalityChannels,
        Optional<LeakTest> leakTest,
        List<Finding> findings,
        RunVerdict verdict,
        RunVerdict simpleVerdict,
        RunVerdict guardedVerdict,
        List<Hint> hints,
        List<Oddity> oddities) {

    /** An evaluation in which nobody looked for oddities, as of a leak test. */
    public RunEvaluation(
            TestRun run,
            CriteriaSet criteriaSet,
            CorrectedTrace corrected,
            Optional<Phases> phases,
            Optional<Plateau> plateau,
            Optional<Plateau> plateauLowered,
            Optional<Plateau> plateauRaised,
            List<ChannelStatistics> statistics,
            Optional<SteamCondition> steam,
            List<Lethality> lethality,
            List<String> lethalityChannels,
            Optional<LeakTest> leakTest,
            List<Finding> findings,
            RunVerdict verdict,
            RunVerdict simpleVerdict,
            RunVerdict guardedVerdict,
            List<Hint> hints) {
        this(
                run,
                criteriaSet,
                corrected,
                phases,
                plateau,
                plateauLowered,
                plateauRaised,
                statistics,
                steam,
                lethality,
                lethalityChannels,
                leakTest,
                findings,
                verdict,
                simpleVerdict,
                guardedVerdict,
                hints,
                List.of());
    }

    public RunEvaluation {
        statistics = List.copyOf(statistics);
        lethality = List.copyOf(lethality);
        lethalityChannels = List.copyOf(lethalityChannels);
        findings = List.copyOf(findings);
        hints = List.copyOf(hints);
        oddities = List.copyOf(oddities);
    }

    /** The finding of a criterion that belongs to this kind of test. */
    public Finding finding(CriterionId id) {
        return findings.stream()
                .filter(finding -> finding.id() == id)
                .findFirst()
                .orElseThrow(
                        () -> new IllegalArgumentException("no finding " + id + " in a run of kind " + run.kind()));
    }
}
