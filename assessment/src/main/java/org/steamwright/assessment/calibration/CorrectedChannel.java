package org.steamwright.assessment.calibration;

import java.util.Optional;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;

/**
 * A channel after correction: degree Celsius, or kilopascal absolute. The indicated values stay in its
 * {@link #channel()}.
 */
public final class CorrectedChannel {

    private final Channel channel;
    private final double[] values;
    private final Optional<ReferenceInstrument> instrument;
    private final Optional<Budget> budget;

    /**
     * @param channel as indicated
     * @param values corrected, as many as the channel has samples
     * @param instrument it was measured with; empty if unknown
     * @param budget of one corrected reading; empty if nothing is known about its doubt
     */
    public CorrectedChannel(
            Channel channel, double[] values, Optional<ReferenceInstrument> instrument, Optional<Budget> budget) {
        if (values.length != channel.axis().size()) {
            throw new IllegalArgumentException("channel " + channel.name() + ": corrected values differ in number");
        }
        this.channel = channel;
        this.values = values.clone();
        this.instrument = instrument;
        this.budget = budget;
    }

    public Channel channel() {
        return channel;
    }

    public String name() {
        return channel.name();
    }

    public ChannelRole role() {
        return channel.role();
    }

    public TimeAxis axis() {
        return channel.axis();
    }

    public Optional<ReferenceInstrument> instrument() {
        return instrument;
    }

    public Optional<Budget> budget() {
        return budget;
    }

    /** Expanded uncertainty of one reading; zero with k = 2 where nothing is known, which the budget's absence tells. */
    public ExpandedUncertainty expanded() {
        return budget.map(Budget::expanded).orElse(new ExpandedUncertainty(0, Budget.USUAL_COVERAGE_FACTOR));
    }

    /** Number of samples. */
    public int size() {
        return values.length;
    }

    /** Corrected value of a sample; NaN where there was none. */
    public double at(int index) {
        return values[index];
    }

    /**
     * Value at any moment: the sample itself, or a straight line between its neighbours; NaN outside the recording, inside
     * a gap and beside a missing value. Used where two loggers sample at different moments, never for boundaries.
     */
    public double valueAt(double seconds) {
        TimeAxis axis = axis();
        int after = axis.indexAtOrAfter(seconds);
        if (after == axis.size()) {
            return Double.NaN;
        }
        if (axis.at(after) == seconds) {
            return values[after];
        }
        if (after == 0 || axis.isGapBefore(after)) {
            return Double.NaN;
        }
        double share = (seconds - axis.at(after - 1)) / (axis.at(after) - axis.at(after - 1));
        return values[after - 1] + share * (values[after] - values[after - 1]);
    }

    /** The same channel with every value moved by so much, in its own unit. */
    public CorrectedChannel shifted(double by) {
        double[] moved = values.clone();
        for (int i = 0; i < moved.length; i++) {
            moved[i] += by;
        }
        return new CorrectedChannel(channel, moved, instrument, budget);
    }

    /** The same channel with every sample so many seconds later. */
    public CorrectedChannel delayed(double seconds) {
        if (seconds == 0) {
            return this;
        }
        Channel later = new Channel(
                channel.name(),
                channel.role(),
                channel.position(),
                channel.instrument(),
                channel.reference(),
                channel.axis().shifted(seconds),
                channel.column());
        return new CorrectedChannel(later, values, instrument, budget);
    }

    /** The usual step between samples, in seconds. */
    public double interval() {
        return channel.axis().interval();
    }

    /** The values as a new array. */
    public double[] toArray() {
        return values.clone();
    }
}
