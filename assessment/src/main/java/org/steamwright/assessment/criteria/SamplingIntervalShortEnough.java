package org.steamwright.assessment.criteria;

/**
 * Whether every judged channel was sampled often enough for the times that are asked.
 */
public final class SamplingIntervalShortEnough implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.SAMPLING_INTERVAL;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (requirement.limit().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: the criteria set names no longest sampling interval.");
        }
        double interval = evidence.longestInterval();
        if (Double.isNaN(interval)) {
            return Findings.invalid(
                    requirement, Evidence.NONE, "A channel has a single sample; an interval needs two.");
        }
        Limit limit = requirement.limit().get();
        String sentence = "The slowest channel was sampled every %s; the longest interval allowed is %s."
                .formatted(
                        Figures.shown(interval, Unit.SECONDS, limit.comparison()),
                        Figures.plain(limit.value(), limit.unit()) + " s");
        return Findings.judgedAsEvidence(
                requirement, limit, Figure.exact(interval, Unit.SECONDS), Evidence.NONE, sentence);
    }
}
