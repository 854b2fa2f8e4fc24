package org.steamwright.report.plot;

import java.util.ArrayList;
import java.util.List;

/** Round numbers for the marks of a scale. */
final class Scale {

    private static final double[] TIME_STEPS = {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400};

    private Scale() {}

    /** Multiples of a round step of one, two or five, at most so many, inside the closed interval. */
    static List<Double> round(double low, double high, int most) {
        double rough = (high - low) / most;
        double power = 1;
        while (power > rough) {
            power /= 10;
        }
        while (power * 10 <= rough) {
            power *= 10;
        }
        for (int factor : new int[] {1, 2, 5, 10}) {
            if (power * factor >= rough) {
                return multiples(low, high, power * factor);
            }
        }
        return multiples(low, high, power * 10);
    }

    /** Moments at a step that people count in, at most so many. */
    static List<Double> times(double low, double high, int most) {
        for (double step : TIME_STEPS) {
            if ((high - low) / step <= most) {
                return multiples(low, high, step);
            }
        }
        return multiples(low, high, Math.ceil((high - low) / most / 3600) * 3600);
    }

    private static List<Double> multiples(double low, double high, double step) {
        List<Double> found = new ArrayList<>();
        for (long k = (long) Math.ceil(low / step - 1e-9); k * step <= high + step * 1e-9; k++) {
            found.add(k * step);
        }
        return found;
    }
}
