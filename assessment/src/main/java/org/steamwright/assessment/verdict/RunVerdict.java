package org.steamwright.assessment.verdict;

import java.util.List;
import org.steamwright.assessment.criteria.Finding;

/**
 * The verdict of one run.
 *
 * @param outcome pass, fail or invalid
 * @param deciding the findings that decided it, in the order of the criteria; empty for a pass
 * @param cause one sentence: why; for a pass that every deciding criterion is met
 */
public record RunVerdict(RunOutcome outcome, List<Finding> deciding, String cause) {

    /** What may become of a run. */
    public enum RunOutcome {
        PASS("pass"),
        FAIL("fail"),
        /** The evidence can't carry a verdict, or doubt leaves it open. Never counted as pass or fail, always kept. */
        INVALID("invalid");

        private final String words;

        RunOutcome(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    public RunVerdict {
        deciding = List.copyOf(deciding);
        if (outcome != RunOutcome.PASS && deciding.isEmpty()) {
            throw new IllegalArgumentException("a run that does not pass names the findings that decided it");
        }
        if (cause.isBlank()) {
            throw new IllegalArgumentException("a verdict says why");
        }
    }

    public boolean isPass() {
        return outcome == RunOutcome.PASS;
    }
}
