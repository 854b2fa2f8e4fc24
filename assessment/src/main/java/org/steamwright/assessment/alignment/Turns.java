package org.steamwright.assessment.alignment;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.trace.Troughs;

/**
 * Finds where a signal turned during the air removal, and sees nothing after the lowest point of the last evacuation: the
 * final heating and the approach to the plateau never enter.
 *
 * <p>A turn is the moment at which the value clearly departs from a high or low point. Unlike the middle of a flank it
 * hardly depends on how quick a sensor is or how much air is left.
 */
final class Turns {

    /** Time over which the first fall has to show, in seconds; a cooling wall is slower. Own choice. */
    private static final double FIRST_FALL_SECONDS = 3.0;

    private Turns() {}

    /** The turns in order of time; none without an evacuation. */
    static List<Turn> of(EventSignal signal) {
        List<Integer> lows = lows(signal);
        List<Turn> turns = new ArrayList<>();
        for (int n = 0; n < lows.size(); n++) {
            int low = lows.get(n);
            if (n == 0) {
                addFirstFall(signal, low, turns);
            } else {
                int high = highest(signal, lows.get(n - 1), low);
                add(signal, high, low, false, turns);
            }
            if (n + 1 < lows.size()) {
                add(signal, low, lows.get(n + 1), true, turns);
            }
        }
        return turns;
    }

    /** Indices of the low turning points before the plateau. */
    private static List<Integer> lows(EventSignal signal) {
        return Troughs.find(signal::at, signal.plateauIndex(), signal.kind().prominence());
    }

    private static int highest(EventSignal signal, int from, int to) {
        int highest = from;
        for (int i = from; i <= to; i++) {
            if (signal.at(i) > signal.at(highest)) {
                highest = i;
            }
        }
        return highest;
    }

    /** The first sample after a turning point that has clearly departed from it. */
    private static void add(EventSignal signal, int point, int until, boolean isRise, List<Turn> turns) {
        double departure = signal.kind().departure();
        for (int i = point + 1; i <= until; i++) {
            double moved = isRise ? signal.at(i) - signal.at(point) : signal.at(point) - signal.at(i);
            if (moved > departure) {
                addBetween(signal, i, isRise, turns);
                return;
            }
        }
    }

    /** Before the first evacuation the value may drift, so the fall has to show within a short time. */
    private static void addFirstFall(EventSignal signal, int until, List<Turn> turns) {
        double departure = signal.kind().departure();
        int before = 0;
        for (int i = 1; i <= until; i++) {
            while (before + 1 < i && signal.axis().at(i) - signal.axis().at(before + 1) >= FIRST_FALL_SECONDS) {
                before++;
            }
            if (signal.at(before) - signal.at(i) > 2 * departure) {
                for (int k = before + 1; k <= i; k++) {
                    if (signal.at(before) - signal.at(k) > departure) {
                        // a recording that begins in the middle of a fall has not seen its begin
                        if (before > 0) {
                            addBetween(signal, k, false, turns);
                        }
                        return;
                    }
                }
            }
        }
    }

    private static void addBetween(EventSignal signal, int index, boolean isRise, List<Turn> turns) {
        double to = signal.axis().at(index);
        double from = signal.axis().at(index - 1);
        if (!signal.axis().isGapBefore(index)) {
            turns.add(new Turn(isRise, (from + to) / 2, to - from));
        }
    }
}
