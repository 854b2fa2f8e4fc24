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
import org.steamwright.assessment.plausibility.Oddity;

/** Lets nothing pass that needs a channel whose values are wrong. A fail that other channels show stays. */
final class Spoilt {

    /** What every measured point has a part in. */
    private static final Set<CriterionId> OF_POINTS = EnumSet.of(
            CriterionId.SENSORS_ALIVE,
            CriterionId.MINIMUM_HOLDING_TIME,
            CriterionId.LOWEST_TEMPERATURE,
            CriterionId.HIGHEST_TEMPERATURE,
            CriterionId.EQUILIBRATION_TIME,
            CriterionId.TEMPERATURE_SPREAD,
            CriterionId.TEMPERATURE_FLUCTUATION,
            CriterionId.SATURATION_DIFFERENCE);

    /** What the pressure has a part in. */
    private static final Set<CriterionId> OF_PRESSURE = EnumSet.of(
            CriterionId.SENSORS_ALIVE,
            CriterionId.AIR_REMOVAL_PULSES,
            CriterionId.SATURATION_DIFFERENCE,
            CriterionId.PRESSURE_CHANGE_RATE,
            CriterionId.DRYING_TIME);

    private Spoilt() {}

    /** The findings, those invalid that rest on a channel with a spoiling oddity. */
    static List<Finding> revised(List<Finding> findings, List<Oddity> oddities, RunEvidence evidence) {
        List<Finding> revised = new ArrayList<>(findings);
        for (Oddity oddity : oddities) {
            if (oddity.isSpoiling()) {
                revised.replaceAll(
                        finding -> rests(finding, oddity, evidence) ? withoutStatement(finding, oddity) : finding);
            }
        }
        return List.copyOf(revised);
    }

    private static boolean rests(Finding finding, Oddity oddity, RunEvidence evidence) {
        boolean isNamed = finding.evidence().channels().stream().anyMatch(oddity.channels()::contains);
        boolean isOfPressure = evidence.corrected()
                .pressure()
                .map(CorrectedChannel::name)
                .filter(oddity.channels()::contains)
                .isPresent();
        boolean isOfPoints =
                evidence.measured().stream().map(CorrectedChannel::name).anyMatch(oddity.channels()::contains);
        boolean isNeeded = (isOfPressure && OF_PRESSURE.contains(finding.id()))
                || (isOfPoints && OF_POINTS.contains(finding.id()))
                || (isNamed && finding.id().group() == CriterionId.Group.RUN);
        return switch (finding.outcome()) {
            case PASS, UNDECIDED -> isNeeded;
            case FAIL -> isNamed && finding.id().group() == CriterionId.Group.RUN;
            case INVALID, AWAITED, NOT_ASSESSED -> false;
        };
    }

    private static Finding withoutStatement(Finding finding, Oddity oddity) {
        return finding.revised(
                Outcome.INVALID, finding.sentence() + " But: " + oddity.sentence() + " So this says nothing.");
    }
}
