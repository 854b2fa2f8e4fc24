package org.steamwright.assessment.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
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

    /**
     * The findings without statements that rest on a channel in {@code untrusted}.
     *
     * @param findings as judged
     * @param untrusted names of channels whose values are wrong; asked only if a finding could rest on them
     */
    static List<Finding> revised(List<Finding> findings, Supplier<Set<String>> untrusted) {
        if (findings.stream().noneMatch(Trust::isSaid)) {
            return findings;
        }
        Set<String> names = untrusted.get();
        List<Finding> revised = new ArrayList<>();
        for (Finding finding : findings) {
            revised.add(isSaid(finding) && restsOn(finding, names) ? withoutStatement(finding) : finding);
        }
        return List.copyOf(revised);
    }

    private static boolean isSaid(Finding finding) {
        // the holding time answers for itself: it is looked for again without the untrusted channels
        return finding.id().group() != CriterionId.Group.EVIDENCE
                && finding.id() != CriterionId.MINIMUM_HOLDING_TIME
                && (finding.outcome() == Outcome.FAIL || finding.outcome() == Outcome.UNDECIDED);
    }

    private static boolean restsOn(Finding finding, Set<String> untrusted) {
        boolean isAgainstTheory = finding.id() == CriterionId.SATURATION_DIFFERENCE
                && untrusted.contains(TraceCorrection.THEORETICAL_NAME);
        return isAgainstTheory || finding.evidence().channels().stream().anyMatch(untrusted::contains);
    }

    private static Finding withoutStatement(Finding finding) {
        return finding.revised(
                Outcome.INVALID, finding.sentence() + " The channel can not be trusted, so this says nothing.");
    }
}
