package org.steamwright.visit;

import java.util.List;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunEvaluation;

/**
 * A run with its evaluation and the findings from load and indicators.
 *
 * @param run facts
 * @param evaluation of the recording
 * @param loadFindings dryness and indicators; empty for runs without a load
 */
public record AssessedRun(VisitRun run, RunEvaluation evaluation, List<Finding> loadFindings) {

    public AssessedRun {
        loadFindings = List.copyOf(loadFindings);
    }

    /** Whether the recording and everything that decides about the load passes. */
    public boolean isPass() {
        return evaluation.verdict().isPass()
                && loadFindings.stream().filter(Finding::isDeciding).allMatch(f -> f.outcome() == Outcome.PASS);
    }

    /** Whether only an answer that is still awaited keeps it from passing. */
    public boolean isAwaited() {
        return evaluation.verdict().isPass()
                && !isPass()
                && loadFindings.stream()
                        .filter(Finding::isDeciding)
                        .allMatch(f -> f.outcome() == Outcome.PASS || f.outcome() == Outcome.AWAITED);
    }
}
