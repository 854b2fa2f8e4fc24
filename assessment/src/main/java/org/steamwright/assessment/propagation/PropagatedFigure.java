package org.steamwright.assessment.propagation;

/**
 * A figure with the interval in which its truth is held to lie with a probability of 95 %.
 *
 * @param measurand what it is
 * @param channel the channel for a figure of one channel; empty for one of the run
 * @param value as the criteria judge it
 * @param low lower end, at or below {@code value}; in the unit of the measurand
 * @param high upper end, at or above {@code value}; positive infinity where a point may never arrive
 * @param tolerance numerical tolerance of both ends; 0 for the law of propagation
 */
public record PropagatedFigure(
        Measurand measurand, String channel, double value, double low, double high, double tolerance) {

    public PropagatedFigure {
        if (!(low <= value && value <= high)) {
            throw new IllegalArgumentException(
                    "%s: %s does not lie in [%s, %s]".formatted(measurand, value, low, high));
        }
    }

    /** Whether a value lies in the interval, ends included. */
    public boolean covers(double truth) {
        return truth >= low && truth <= high;
    }
}
