package org.steamwright.assessment.verdict;

/**
 * Declared periods of a leak test, in seconds from the start of the recording.
 *
 * @param isolationSeconds end of evacuation
 * @param settledSeconds end of settling
 * @param endSeconds end of measuring
 */
public record LeakPeriods(double isolationSeconds, double settledSeconds, double endSeconds) {}
