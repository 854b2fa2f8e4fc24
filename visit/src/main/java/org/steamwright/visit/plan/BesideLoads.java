package org.steamwright.visit.plan;

import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Use;

/**
 * What belongs to loaded runs before a cycle is qualified by them: an empty-chamber run of the same cycle, and an air leakage
 * test of a steriliser that draws a vacuum.
 *
 * <p>{@link org.steamwright.visit.FitCycle} judges by it, and what is planned or proposed asks for it, so that nobody does what the
 * program proposes and gets nothing. Documents that ask for loaded runs alone after a new load ask for less.
 */
public final class BesideLoads {

    /** Where the rule comes from: from nowhere but here. */
    public static final Source SOURCE = new Source(
            "Steamwright",
            "",
            "decision 0082",
            Source.Provenance.PROGRAM_RULE,
            Source.Confidence.HIGH,
            "Stricter than documents that ask for loaded runs alone.");

    static final String WHY =
            "Loaded runs alone qualify no cycle: an empty-chamber run of the same cycle and an air leakage test belong to"
                    + " them. What the reasons do not ask for of it is added by the program's own rule, which is stricter.";

    private BesideLoads() {}

    /** Whether a criteria set asks for an air leakage test: it lets the leak rate decide. */
    public static boolean isLeakTestAskedFor(CriteriaSet set) {
        return set.find(CriterionId.LEAK_RATE)
                .filter(requirement -> requirement.use() == Use.DECIDES)
                .isPresent();
    }
}
