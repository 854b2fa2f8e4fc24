package org.steamwright.command;

import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import java.util.function.IntUnaryOperator;
import org.steamwright.assessment.steam.IapwsR797;

/** Small recordings written by formula: one heating, a plateau with a little ripple, cooling. Invented data. */
final class Cycle {
    static final int HEAT = 300;
    static final int PLATEAU = 1000;
    static final int COOL = 300;

    private static final double AMBIENT = 101.3;

    private Cycle() {}

    /** A visit of one run with everything that it takes to pass if {@code run.csv} is the good cycle. */
    static String visit() {
        return """
                steamwright-visit: 1
                zone: Australia/Adelaide
                criteria-set: eu-en13060
                conditions: {barometer: 101.3 kPa}
                instruments:
                  - id: T
                    measures: temperature
                    certificate:
                      number: K-1
                      laboratory: Example Calibration (invented)
                      calibrated-on: 2026-01-10
                      due-on: 2027-01-10
                      U: 0.1 K
                      k: 2
                      points: [[10.00 °C, 10.00 °C], [130.00 °C, 130.00 °C]]
                  - id: P
                    measures: pressure
                    certificate:
                      number: K-2
                      laboratory: Example Calibration (invented)
                      calibrated-on: 2026-01-10
                      due-on: 2027-01-10
                      U: 0.2 kPa
                      k: 2
                      points: [[0.0 kPa, 0.0 kPa], [400.0 kPa, 400.0 kPa]]
                sterilizers:
                  - serial: SN-0417
                    cycles: [{name: 121 open, type: N, sterilizing-temperature: 121 °C, holding-time: 15 min}]
                runs:
                  - kind: empty-chamber
                    recording: run.csv
                    reading: {start: 2026-03-02T09:00:00+10:30}
                    channels:
                      T1: {role: reference-point, instrument: T}
                      P: {role: pressure, instrument: P}
                """;
    }

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
        StringBuilder text = new StringBuilder("Time [s],T1 [°C],P [kPa abs]\n");
        for (int i = 0; i < samples; i++) {
            int at = second.applyAsInt(i);
            if (at < HEAT + PLATEAU + COOL) {
                double there = celsius.applyAsDouble(at);
                double kilopascal = Math.max(AMBIENT, IapwsR797.INSTANCE.kilopascalAt(there));
                text.append(String.format(Locale.ROOT, "%d,%.2f,%.1f\n", at, there, kilopascal));
            }
        }
        return text.toString();
    }
}
