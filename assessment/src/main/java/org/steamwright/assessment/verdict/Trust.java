package org.steamwright.assessment.verdict;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.calibration.TraceCorrection;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;

/**
 * Takes back what rests on a channel that can not be trusted: a fail that a dead sensor or a wrongly declared
 * pressure decided is no statement about the sterilizer.
 */
final class Trust {

    private Trust() {}

    static List<Finding> revised(List<Finding> findings) {
        Set<String> untrusted = new HashSet<>();
        for (Finding finding : findings) {
            boolean isAboutSensors =
                    finding.id() == CriterionId.SENSORS_ALIVE || finding.id() == CriterionId.PRESSURE_KIND;
            if (isAboutSensors && finding.outcome() == Outcome.INVALID) {
                untrusted.addAll(finding.evidence().channels());
            }
            if (finding.id() == CriterionId.PRESSURE_KIND && finding.outcome() == Outcome.INVALID) {
                untrusted.add(TraceCorrection.THEORETICAL_NAME);
            }
        }
        List<Finding> revised = new ArrayList<>();
        for (Finding finding : findings) {
            revised.add(revised(finding, untrusted));
        }
        return List.copyOf(revised);
    }

    private static Finding revised(Finding finding, Set<String> untrusted) {
        boolean isAboutEvidence = finding.id().group() == CriterionId.Group.EVIDENCE;
        boolean isSaid = finding.outcome() == Outcome.FAIL || finding.outcome() == Outcome.UNDECIDED;
        boolean restsOnUntrusted = finding.evidence().channels().stream().anyMatch(untrusted::contains);
        boolean isSaturation = finding.id() == CriterionId.SATURATION_DIFFERENCE
                && untrusted.contains(TraceCorrection.THEORETICAL_NAME);
        if (isAboutEvidence || !isSaid || !(restsOnUntrusted || isSaturation)) {
            return finding;
        }
        return finding.revised(
                Outcome.INVALID, finding.sentence() + " The channel can not be trusted, so this says nothing.");
    }
}
