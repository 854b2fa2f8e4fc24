package org.steamwright.assessment.alignment;

import org.steamwright.assessment.trace.TimeAxis;

/**
 * A column in which evacuations can be seen: chamber pressure, or the temperature of a sensor in free steam.
 *
 * <p>A sensor in the load or in a pack is none: its delay is what the test wants to know.
 */
public final class EventSignal {

    /** What it measures. */
    public enum Kind {
        /** Absolute or gauge alike: only the moments of turning count. */
        PRESSURE("pressure", 15.0, 2.0),
        /** At the reference measurement point or in the free chamber. */
        FREE_STEAM("temperature", 6.0, 0.5);

        private final String words;
        private final double prominence;
        private final double departure;

        Kind(String words, double prominence, double departure) {
            this.words = words;
            this.prominence = prominence;
            this.departure = departure;
        }

        String words() {
            return words;
        }

        /** How far an evacuation has to stand out, in kPa or K. Own choice, no source. */
        double prominence() {
            return prominence;
        }

        /** How far a value departs from a turning point when it has clearly turned, in kPa or K. Own choice. */
        double departure() {
            return departure;
        }
    }

    private final String channel;
    private final Kind kind;
    private final TimeAxis axis;
    private final double[] values;
    private final double plateauFrom;

    /**
     * @param channel name, for messages
     * @param kind what it measures
     * @param axis as its own logger stamped it
     * @param values in kPa or °C, NaN where there is none
     * @param plateauFrom value at which the plateau begins; NaN if that is not known in these values, as with a pressure of
     *     which nobody said whether it is absolute. The highest value stands in
     */
    public EventSignal(String channel, Kind kind, TimeAxis axis, double[] values, double plateauFrom) {
        if (axis.size() != values.length) {
            throw new IllegalArgumentException("signal " + channel + ": axis and values differ in length");
        }
        this.channel = channel;
        this.kind = kind;
        this.axis = axis;
        this.values = values.clone();
        this.plateauFrom = plateauFrom;
    }

    String channel() {
        return channel;
    }

    Kind kind() {
        return kind;
    }

    TimeAxis axis() {
        return axis;
    }

    int size() {
        return values.length;
    }

    double at(int index) {
        return values[index];
    }

    /** Index of the first sample at or above the begin of the plateau, or of the highest value. */
    int plateauIndex() {
        int highest = 0;
        for (int i = 0; i < values.length; i++) {
            if (values[i] >= plateauFrom) {
                return i;
            }
            if (!(values[i] <= values[highest])) {
                highest = i;
            }
        }
        return highest;
    }
}
