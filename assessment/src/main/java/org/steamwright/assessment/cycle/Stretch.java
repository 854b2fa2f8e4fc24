package org.steamwright.assessment.cycle;

/**
 * A closed stretch of time between two real samples, both inside.
 *
 * @param fromSeconds first sample, seconds from the start of the run
 * @param toSeconds last sample
 */
public record Stretch(double fromSeconds, double toSeconds) {

    public Stretch {
        if (!(toSeconds >= fromSeconds)) {
            throw new IllegalArgumentException("a stretch from %s s to %s s".formatted(fromSeconds, toSeconds));
        }
    }

    /** Length in seconds. */
    public double seconds() {
        return toSeconds - fromSeconds;
    }

    /** Whether a moment lies inside, ends included. */
    public boolean contains(double moment) {
        return moment >= fromSeconds && moment <= toSeconds;
    }
}
