package org.steamwright.command;

import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import java.util.function.IntUnaryOperator;

/** Small recordings written by formula: one heating, a plateau with a little ripple, cooling. Invented data. */
final class Cycle {
    static final int HEAT = 300;
    static final int PLATEAU = 1000;
    static final int COOL = 300;

    private Cycle() {}

    /** A cycle that holds 121.5 °C for 1000 s. */
    static String good() {
        return text(121.5, HEAT + PLATEAU + COOL, i -> i);
    }

    /** A cycle that peaks there. */
    static String peakingAt(double celsius) {
        return text(celsius, HEAT + PLATEAU + COOL, i -> i);
    }

    /** The first samples of the good cycle. */
    static String cutAfter(int samples) {
        return text(121.5, samples, i -> i);
    }

    /** The good cycle in which nothing was recorded for so many seconds from the middle of the plateau on. */
    static String withGap(int seconds) {
        return text(121.5, HEAT + PLATEAU + COOL, i -> i < HEAT + PLATEAU / 2 ? i : i + seconds);
    }

    private static String text(double plateau, int samples, IntUnaryOperator second) {
        IntToDoubleFunction celsius = i -> i < HEAT
                ? 20 + (plateau - 20) * i / HEAT
                : i < HEAT + PLATEAU ? plateau + 0.1 * (i % 7) / 7 : plateau - 0.25 * (i - HEAT - PLATEAU);
        StringBuilder text = new StringBuilder("Time [s],T1 [°C]\n");
        for (int i = 0; i < samples; i++) {
            int at = second.applyAsInt(i);
            if (at < HEAT + PLATEAU + COOL) {
                text.append(String.format(Locale.ROOT, "%d,%.2f%n", at, celsius.applyAsDouble(at)));
            }
        }
        return text.toString();
    }
}
