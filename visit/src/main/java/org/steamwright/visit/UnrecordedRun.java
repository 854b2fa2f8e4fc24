package org.steamwright.visit;

import java.util.OptionalInt;
import org.steamwright.assessment.verdict.TestKind;

/**
 * A run that the visit lists and that has no recording yet: under way, planned, or lost. It keeps its number and is told; nothing
 * is assessed of it.
 *
 * @param number within the visit
 * @param sterilizer key; blank if it is not stated
 * @param kind of test
 * @param cycle name; blank if it is not stated
 * @param machineCycle number that the sterilizer gave
 */
public record UnrecordedRun(int number, String sterilizer, TestKind kind, String cycle, OptionalInt machineCycle) {}
