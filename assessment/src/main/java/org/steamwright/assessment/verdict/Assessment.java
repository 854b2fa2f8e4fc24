package org.steamwright.assessment.verdict;

import org.steamwright.assessment.criteria.CriteriaSet;

/** The way from a run and a criteria set to an evaluation: the one engine behind every door. */
public final class Assessment {

    /** Version of the rules and algorithms, printed on every result. Changes whenever a verdict could. */
    public static final String ALGORITHM_VERSION = "1";

    private Assessment() {}

    /**
     * Assesses one run.
     *
     * @param run what was recorded and declared
     * @param criteriaSet limits to judge it by
     */
    @SuppressWarnings("DoNotCallSuggester") // until the engine is in
    public static RunEvaluation evaluate(TestRun run, CriteriaSet criteriaSet) {
        throw new IllegalStateException("being written");
    }
}
