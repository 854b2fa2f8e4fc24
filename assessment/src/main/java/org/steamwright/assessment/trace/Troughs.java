package org.steamwright.assessment.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;

/** Low turning points of a series of samples that stand out by more than ripple and noise do. */
public final class Troughs {

    private Troughs() {}

    /**
     * Indices of the lowest sample of each trough, in order: the values fell by more than the prominence before it and rose
     * by more than that after it. NaN is passed over; a fall that does not end among the samples is no trough.
     *
     * @param at value of a sample
     * @param size samples from index 0 that are looked at
     * @param prominence in the unit of the values
     */
    public static List<Integer> find(IntToDoubleFunction at, int size, double prominence) {
        List<Integer> troughs = new ArrayList<>();
        int lowest = -1;
        int highest = -1;
        boolean isFalling = false;
        for (int i = 0; i < size; i++) {
            double value = at.applyAsDouble(i);
            if (Double.isNaN(value)) {
                continue;
            }
            if (highest < 0 || value > at.applyAsDouble(highest)) {
                highest = i;
            }
            if (lowest < 0 || value < at.applyAsDouble(lowest)) {
                lowest = i;
            }
            if (isFalling && value > at.applyAsDouble(lowest) + prominence) {
                troughs.add(lowest);
                isFalling = false;
                highest = i;
            } else if (!isFalling && value < at.applyAsDouble(highest) - prominence) {
                isFalling = true;
                lowest = i;
            }
        }
        return troughs;
    }
}
