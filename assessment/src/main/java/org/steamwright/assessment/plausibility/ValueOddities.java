package org.steamwright.assessment.plausibility;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.plausibility.Oddity.Kind;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.TimeAxis;

/** What single values of one channel give away: open circuits, counters that ran over, spikes and clipped tops. */
final class ValueOddities {

    private static final double COLDEST_CELSIUS = -30;
    private static final double HOTTEST_CELSIUS = 200;
    private static final double LOWEST_KILOPASCAL = -110;
    private static final double HIGHEST_KILOPASCAL = 700;

    /** Counts after which a 16-bit number starts again, signed or not. */
    private static final double[] WRAPS = {65_536, 32_768};

    private static final double WRAP_TOLERANCE = 0.02;
    private static final double SMALLEST_WRAP = 20;
    private static final double SPIKE_KELVIN = 3;
    private static final double SPIKE_KILOPASCAL = 15;
    private static final double SPIKE_NEIGHBOURS = 0.25;
    private static final double SPIKE_SECONDS = 5;
    private static final double SPIKE_CELSIUS = 60;
    private static final double FLAT_ENTRY_KELVIN = 0.5;
    private static final double FLAT_ENTRY_SECONDS = 3;
    private static final int FLAT_SAMPLES = 30;
    private static final double FLAT_WITNESS_STEPS = 3;

    private final CorrectedChannel channel;
    private final Column column;
    private final TimeAxis axis;
    private final boolean isPressure;

    ValueOddities(CorrectedChannel channel) {
        this.channel = channel;
        this.column = channel.channel().column();
        this.axis = channel.axis();
        this.isPressure = channel.role() == ChannelRole.PRESSURE;
    }

    Optional<Oddity> impossible() {
        double low = isPressure ? LOWEST_KILOPASCAL : COLDEST_CELSIUS;
        double high = isPressure ? HIGHEST_KILOPASCAL : HOTTEST_CELSIUS;
        int first = -1;
        int last = -1;
        int count = 0;
        for (int i = 0; i < column.size(); i++) {
            if (column.at(i) < low || column.at(i) > high) {
                first = first < 0 ? i : first;
                last = i;
                count++;
            }
        }
        return first < 0
                ? Optional.empty()
                : Optional.of(oddity(
                        Kind.IMPOSSIBLE_VALUE,
                        first,
                        last,
                        "Channel %s shows %s, as an open circuit or an overflow does; %s samples are like that."
                                .formatted(channel.name(), shown(column.at(first)), count)));
    }

    Optional<Oddity> wrapped() {
        if (!(column.resolution() > 0)) {
            return Optional.empty();
        }
        for (int i = 1; i < column.size(); i++) {
            double jump = Math.abs(column.at(i) - column.at(i - 1));
            for (double counts : WRAPS) {
                double wrap = counts * column.resolution();
                if (wrap > SMALLEST_WRAP && Math.abs(jump - wrap) <= WRAP_TOLERANCE * wrap) {
                    return Optional.of(oddity(
                            Kind.INTEGER_WRAP,
                            i - 1,
                            i,
                            String.format(
                                    Locale.ROOT,
                                    "Channel %s jumps from %s to %s within one sample, which is %.0f steps of its resolution: a counter ran over.",
                                    channel.name(),
                                    shown(column.at(i - 1)),
                                    shown(column.at(i)),
                                    counts)));
                }
            }
        }
        return Optional.empty();
    }

    /** One sample far from both neighbours, in steam, where no other point did the same. */
    Optional<Oddity> spike(List<CorrectedChannel> witnesses) {
        double least = isPressure ? SPIKE_KILOPASCAL : SPIKE_KELVIN;
        for (int i = 1; i + 1 < column.size(); i++) {
            double before = column.at(i) - column.at(i - 1);
            double after = column.at(i) - column.at(i + 1);
            boolean isAlone = Math.min(Math.abs(before), Math.abs(after)) > least
                    && before * after > 0
                    && Math.abs(before - after) <= SPIKE_NEIGHBOURS * Math.abs(before);
            boolean isInSteam = isPressure || Math.min(column.at(i - 1), column.at(i + 1)) > SPIKE_CELSIUS;
            if (isAlone
                    && isInSteam
                    && axis.at(i + 1) - axis.at(i - 1) <= 2 * SPIKE_SECONDS
                    && !isShared(i, before, witnesses)) {
                return Optional.of(oddity(
                        Kind.SPIKE,
                        i,
                        i,
                        "Channel %s shows %s for a single sample between %s and %s."
                                .formatted(
                                        channel.name(),
                                        shown(column.at(i)),
                                        shown(column.at(i - 1)),
                                        shown(column.at(i + 1)))));
            }
        }
        return Optional.empty();
    }

    private boolean isShared(int index, double deviation, List<CorrectedChannel> witnesses) {
        for (CorrectedChannel other : witnesses) {
            double moment = axis.at(index);
            double before = other.valueAt(moment) - other.valueAt(axis.at(index - 1));
            double after = other.valueAt(moment) - other.valueAt(axis.at(index + 1));
            if (Math.min(before * Math.signum(deviation), after * Math.signum(deviation)) > Math.abs(deviation) / 4) {
                return true;
            }
        }
        return false;
    }

    /**
     * The highest value for a long time, entered with a jump, while most other points move: perhaps clipped. Where the range of the
     * instrument is known its end answers for itself.
     */
    Optional<Oddity> flatTop(Optional<Stretch> plateau, List<CorrectedChannel> witnesses) {
        boolean isRangeKnown = channel.instrument()
                .map(ReferenceInstrument::rangeHigh)
                .filter(Double::isFinite)
                .isPresent();
        if (plateau.isEmpty() || isRangeKnown || isPressure) {
            return Optional.empty();
        }
        double highest = Double.NEGATIVE_INFINITY;
        int from = -1;
        for (int i = 0; i < column.size(); i++) {
            if (column.at(i) > highest) {
                highest = column.at(i);
                from = i;
            }
        }
        int to = from;
        while (to + 1 < column.size() && from >= 0 && column.at(to + 1) == highest) {
            to++;
        }
        if (from < 1 || to - from + 1 < FLAT_SAMPLES || !isEnteredFast(from)) {
            return Optional.empty();
        }
        Stretch flat = new Stretch(axis.at(from), axis.at(to));
        double step = Math.max(column.resolution(), 1e-3);
        boolean isSeen = 2
                        * witnesses.stream()
                                .filter(other -> moved(other, flat) >= FLAT_WITNESS_STEPS * step)
                                .count()
                > witnesses.size();
        return isSeen
                ? Optional.of(oddity(
                        Kind.FLAT_TOP,
                        from,
                        to,
                        "Channel %s stands at exactly %s, its highest value, after a jump and while others move: it may be clipped at the end of a range that nobody stated."
                                .formatted(channel.name(), shown(highest))))
                : Optional.empty();
    }

    private boolean isEnteredFast(int index) {
        int before = axis.indexAtOrBefore(axis.at(index) - FLAT_ENTRY_SECONDS);
        return before >= 0 && column.at(index) - column.at(before) >= FLAT_ENTRY_KELVIN;
    }

    private static double moved(CorrectedChannel other, Stretch stretch) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        int to = other.axis().indexAtOrBefore(stretch.toSeconds());
        for (int i = Math.max(0, other.axis().indexAtOrAfter(stretch.fromSeconds())); i <= to; i++) {
            low = Math.min(low, other.at(i));
            high = Math.max(high, other.at(i));
        }
        return high - low;
    }

    private Oddity oddity(Kind kind, int from, int to, String sentence) {
        return new Oddity(kind, List.of(channel.name()), axis.at(from), axis.at(to), sentence);
    }

    private String shown(double value) {
        return String.format(Locale.ROOT, "%.2f %s", value, column.quantity().unit());
    }
}
