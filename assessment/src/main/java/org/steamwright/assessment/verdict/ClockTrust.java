package org.steamwright.assessment.verdict;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.RunEvidence;
import org.steamwright.assessment.cycle.Plateau;

/**
 * Takes back what was looked for in a stretch of time that one logger found and another logger's clock knows nothing of.
 *
 * <p>The times themselves answer for their clocks in their own criteria. This is about figures inside a stretch: the
 * highest value in the plateau, the spread in the holding time, the pulses before the plateau. A fail that the
 * reference point's own logger shows alone stays.
 */
final class ClockTrust {

    /** A clock known less well than this spoils the stretch itself, in seconds: a shorter one is not steady. */
    private static final double LOOSE_SECONDS = Plateau.STEADY_SECONDS;

    private static final Set<CriterionId> AMONG_POINTS = EnumSet.of(
            CriterionId.LOWEST_TEMPERATURE,
            CriterionId.HIGHEST_TEMPERATURE,
            CriterionId.TEMPERATURE_SPREAD,
            CriterionId.TEMPERATURE_FLUCTUATION,
            CriterionId.FREE_CHAMBER_EXCESS);

    private static final Set<CriterionId> AGAINST_PRESSURE =
            EnumSet.of(CriterionId.AIR_REMOVAL_PULSES, CriterionId.SATURATION_DIFFERENCE, CriterionId.DRYING_TIME);

    private ClockTrust() {}

    /** The findings, those invalid that a loose clock makes worthless. */
    static List<Finding> revised(List<Finding> findings, RunEvidence evidence) {
        if (!evidence.clocks().areSeveral()) {
            return findings;
        }
        List<CorrectedChannel> loose = new ArrayList<>();
        for (CorrectedChannel channel : evidence.corrected().channels()) {
            if (evidence.clockHalfWidth(evidence.reference(), channel) > LOOSE_SECONDS) {
                loose.add(channel);
            }
        }
        boolean arePointsLoose = loose.stream().anyMatch(evidence.judged()::contains);
        boolean isPressureLoose =
                evidence.corrected().pressure().filter(loose::contains).isPresent();
        List<String> names = loose.stream().map(CorrectedChannel::name).toList();
        List<Finding> revised = new ArrayList<>();
        for (Finding finding : findings) {
            boolean isTouched = (arePointsLoose && AMONG_POINTS.contains(finding.id()))
                    || (isPressureLoose && AGAINST_PRESSURE.contains(finding.id()))
                    || (arePointsLoose && finding.id() == CriterionId.SATURATION_DIFFERENCE);
            revised.add(
                    isTouched && isSaid(finding) && !standsAlone(finding, names) ? withoutStatement(finding) : finding);
        }
        return List.copyOf(revised);
    }

    private static boolean isSaid(Finding finding) {
        return finding.outcome() == Outcome.PASS
                || finding.outcome() == Outcome.FAIL
                || finding.outcome() == Outcome.UNDECIDED;
    }

    /** Whether the logger of the reference point shows the fail by itself. */
    private static boolean standsAlone(Finding finding, List<String> loose) {
        return finding.outcome() == Outcome.FAIL
                && AMONG_POINTS.contains(finding.id())
                && finding.evidence().channels().stream().noneMatch(loose::contains);
    }

    private static Finding withoutStatement(Finding finding) {
        return finding.revised(
                Outcome.INVALID,
                finding.sentence()
                        + " The clocks of these recordings were not compared well enough to look for it in one stretch of time.");
    }
}
