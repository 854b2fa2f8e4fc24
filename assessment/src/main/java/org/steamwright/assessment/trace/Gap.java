package org.steamwright.assessment.trace;

/**
 * A stretch of time without a sample where samples were due.
 *
 * @param fromSeconds last sample before, seconds from the start of the run
 * @param toSeconds first sample after
 * @param intervalSeconds the usual step of that axis
 */
public record Gap(double fromSeconds, double toSeconds, double intervalSeconds) {

    /** Length in seconds. */
    public double seconds() {
        return toSeconds - fromSeconds;
    }
}
