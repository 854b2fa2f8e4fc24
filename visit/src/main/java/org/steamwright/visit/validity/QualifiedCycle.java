package org.steamwright.visit.validity;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.visit.ReferenceLoad;

/**
 * One cycle of a steriliser and how it stands after the visit.
 *
 * @param name of the cycle
 * @param type B, N or S
 * @param status how it stands
 * @param loads it passed with; empty unless it is qualified
 * @param leastDryingSeconds shortest drying with which the loads were dried, or as the maker declares it where none was
 *     found in the recordings; empty if neither is known
 * @param reasons why it is not qualified, in words; empty if it is
 */
public record QualifiedCycle(
        String name,
        CycleType type,
        Status status,
        List<ReferenceLoad> loads,
        Optional<Double> leastDryingSeconds,
        List<String> reasons) {

    /** How a cycle stands. Only {@link #QUALIFIED} lets anything be run. */
    public enum Status {
        QUALIFIED("qualified"),
        AWAITED("awaited"),
        NOT_QUALIFIED("not qualified");

        private final String words;

        Status(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public QualifiedCycle {
        loads = List.copyOf(loads);
        reasons = List.copyOf(reasons);
        if ((status == Status.QUALIFIED) != reasons.isEmpty()) {
            throw new IllegalArgumentException("a cycle is qualified, or there is a reason why it is not");
        }
    }
}
