package org.steamwright.visit;

import java.util.OptionalInt;
import org.steamwright.assessment.verdict.TestKind;

/**
 * A run that the visit lists and that has no recording yet: under way, planned, or lost; or one whose recording can't be
 * assessed yet. It keeps its number and is told; nothing is assessed of it.
 *
 * @param number within the visit
 * @param sterilizer key; blank if it is not stated
 * @param kind of test
 * @param cycle name; blank if it is not stated
 * @param machineCycle number that the sterilizer gave
 * @param isLeftOut whether it has a recording, which was left out because it can't be assessed yet
 */
public record UnrecordedRun(
        int number, String sterilizer, TestKind kind, String cycle, OptionalInt machineCycle, boolean isLeftOut) {

    /** A run that has no recording. */
    public UnrecordedRun(int number, String sterilizer, TestKind kind, String cycle, OptionalInt machineCycle) {
        this(number, sterilizer, kind, cycle, machineCycle, false);
    }

    UnrecordedRun leftOut() {
        return new UnrecordedRun(number, sterilizer, kind, cycle, machineCycle, true);
    }
}
