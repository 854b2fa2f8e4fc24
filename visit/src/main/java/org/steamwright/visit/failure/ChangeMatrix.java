package org.steamwright.visit.failure;

import java.util.List;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.plan.AfterChange;

/** Which tests are asked for after a change; the table itself is data and belongs to the plan of a visit. */
@FunctionalInterface
public interface ChangeMatrix {

    /** Proposed where nobody knows the change: nothing narrower can be justified, so everything is repeated. */
    List<String> EVERYTHING = List.of(
            "air leakage test",
            "steam penetration test",
            "operational qualification of every cycle in use",
            "performance qualification of every cycle in use");

    /** A matrix that knows no change. */
    ChangeMatrix UNKNOWN = change -> List.of();

    /**
     * The tests that are asked for, in the order in which they are made; empty if the change is not known.
     *
     * @param change by its word
     */
    List<String> tests(String change);

    /** The tests after all of them, each once; everything if there is no change or one of them is not known. */
    default List<String> scope(List<String> changes) {
        boolean isKnown = !changes.isEmpty()
                && changes.stream().noneMatch(change -> tests(change).isEmpty());
        return isKnown
                ? changes.stream()
                        .flatMap(change -> tests(change).stream())
                        .distinct()
                        .toList()
                : EVERYTHING;
    }

    /**
     * The tests after all of them and after a failure, with the reason.
     *
     * @param changes what was exchanged or altered, by its words; empty if nobody stated anything
     * @param failed evidence that failed
     */
    default RetestScope scope(List<String> changes, EarlierEvidence.Kind failed) {
        boolean isKnown = !scope(changes).equals(EVERYTHING);
        return new RetestScope(
                scope(changes),
                isKnown
                        ? "tests after a change; what failed is the " + failed.words()
                        : "what was changed is not stated by words of an after-change matrix, so nothing narrower can be"
                                + " justified");
    }

    /** The matrix by which visits are planned. */
    static ChangeMatrix of(AfterChange matrix) {
        return new TestsAfterChange(matrix);
    }
}
