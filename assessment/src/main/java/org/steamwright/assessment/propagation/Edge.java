package org.steamwright.assessment.propagation;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * Where a channel crossed a limit of the band between the last sample on one side and the first on the other: midway
 * between the straight line and what a signal that bends one way could have done.
 *
 * @param point number of the channel among the judged ones
 * @param seconds moment of the crossing
 * @param secondsPerKelvin by how much later the crossing would be if the channel read one kelvin lower; negative where the
 *     channel leaves through the lower limit
 * @param noiseSeconds standard deviation of the moment per kelvin of noise of one reading
 * @param lineSeconds standard deviation of the moment because the signal need not be straight between two samples
 */
record Edge(int point, double seconds, double secondsPerKelvin, double noiseSeconds, double lineSeconds) {

    /** When a channel arrived in the band in which it stands at a moment. */
    static Edge arrival(int point, CorrectedChannel channel, Band band, double moment) {
        int inside = channel.axis().indexAtOrAfter(moment);
        inside = inside == channel.size() ? channel.size() - 1 : inside;
        while (inside > 0 && !channel.axis().isGapBefore(inside) && band.contains(channel.at(inside - 1))) {
            inside--;
        }
        return of(point, channel, band, inside, inside - 1);
    }

    /** When a channel left the band in which it stands at a moment. */
    static Edge departure(int point, CorrectedChannel channel, Band band, double moment) {
        int inside = Math.max(0, channel.axis().indexAtOrBefore(moment));
        int last = channel.size() - 1;
        while (inside < last && !channel.axis().isGapBefore(inside + 1) && band.contains(channel.at(inside + 1))) {
            inside++;
        }
        return of(point, channel, band, inside, inside + 1);
    }

    private static Edge of(int point, CorrectedChannel channel, Band band, int inside, int outside) {
        TimeAxis axis = channel.axis();
        boolean isOpen = outside < 0
                || outside >= channel.size()
                || axis.isGapBefore(Math.max(inside, outside))
                || Double.isNaN(channel.at(outside));
        if (isOpen || !band.contains(channel.at(inside))) {
            // nothing was recorded on the other side: the sample itself, as it is
            return new Edge(point, axis.at(inside), 0, 0, 0);
        }
        double step = axis.at(outside) - axis.at(inside);
        double rise = channel.at(outside) - channel.at(inside);
        double limit = rise < 0 ? band.lowCelsius() : band.highCelsius();
        double chord = (limit - channel.at(inside)) / rise;
        double far = envelope(channel, inside, outside, limit, chord);
        double secondsPerKelvin = step / rise;
        return new Edge(
                point,
                axis.at(inside) + (chord + far) / 2 * step,
                secondsPerKelvin,
                Math.abs(secondsPerKelvin) * StrictMath.hypot(chord, 1 - chord),
                Math.abs(step * (far - chord)) / 2 / Math.sqrt(3));
    }

    /**
     * A signal that bends one way lies between its chord and the chords of the neighbouring steps drawn on; gives where
     * those cross the limit, as share of the step from inside to outside, or the chord's own share if it bends both ways.
     */
    private static double envelope(CorrectedChannel channel, int inside, int outside, double limit, double chord) {
        int away = outside - inside;
        double before = valueOf(channel, inside - away);
        double after = valueOf(channel, outside + away);
        double in = Math.abs(channel.at(inside) - limit);
        double out = -Math.abs(channel.at(outside) - limit);
        double sign = channel.at(inside) > limit ? 1 : -1;
        double innerSlope = in - sign * (before - limit);
        double outerSlope = sign * (after - limit) - out;
        double slope = out - in;
        if (Double.isNaN(before) || Double.isNaN(after)) {
            return chord;
        }
        double inner = innerSlope < 0 ? -in / innerSlope : 1;
        double outer = outerSlope < 0 ? 1 - out / outerSlope : 0;
        if (innerSlope >= slope && slope >= outerSlope) {
            return Math.max(chord, Math.min(1, Math.min(inner, outer)));
        }
        if (innerSlope <= slope && slope <= outerSlope) {
            return Math.min(chord, Math.max(0, Math.max(inner, outer)));
        }
        return chord;
    }

    private static double valueOf(CorrectedChannel channel, int index) {
        return index < 0 || index >= channel.size() ? Double.NaN : channel.at(index);
    }

    /** Standard deviation of the moment from noise and line, for that noise of one reading in kelvin. */
    double random(double noiseKelvin) {
        return StrictMath.hypot(noiseSeconds * noiseKelvin, lineSeconds);
    }
}
