package org.steamwright.assessment.alignment;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;

/** Moves the channels of a trace by the offsets of their clocks. Values stay as they are, and so does the order of samples. */
public final class Alignment {

    private static final double NANOSECONDS = 1e9;

    private Alignment() {}

    /**
     * The trace on one clock.
     *
     * @param stamped with every channel where its own logger stamped it
     * @param clocks what to add
     * @return with moment zero at the earliest sample again
     */
    public static Trace aligned(Trace stamped, Clocks clocks) {
        Trace moved = stamped;
        for (RecordingClock recording : clocks.recordings()) {
            Optional<ClockOffset> offset = recording.offset();
            if (offset.isPresent()) {
                moved = moved(moved, recording, axis -> moved(axis, offset.get()));
            }
        }
        return fromZero(moved);
    }

    /** The trace with the channels of one recording moved by so many seconds more. */
    public static Trace moved(Trace trace, RecordingClock recording, double seconds) {
        return fromZero(moved(trace, recording, axis -> axis.shifted(seconds)));
    }

    private static TimeAxis moved(TimeAxis axis, ClockOffset offset) {
        if (offset.secondsAtStart() == offset.secondsAtEnd() || axis.size() < 2) {
            return axis.shifted(offset.secondsAtStart());
        }
        double[] seconds = axis.toSeconds();
        double length = axis.last() - axis.first();
        for (int i = 0; i < seconds.length; i++) {
            seconds[i] += offset.secondsAt((axis.at(i) - axis.first()) / length);
        }
        return TimeAxis.ofSeconds(seconds);
    }

    private static Trace fromZero(Trace trace) {
        double first = trace.firstSeconds();
        if (first == 0) {
            return trace;
        }
        Trace moved = withAxes(trace, trace.channels(), axis -> axis.shifted(-first));
        return new Trace(
                trace.start().map(start -> start.plus(Duration.ofNanos(Math.round(first * NANOSECONDS)))),
                moved.zone(),
                moved.channels(),
                moved.files(),
                moved.remarks());
    }

    private static Trace moved(Trace trace, RecordingClock recording, UnaryOperator<TimeAxis> change) {
        List<Channel> ofIt = trace.channels().stream()
                .filter(channel -> recording.channels().contains(channel.name()))
                .toList();
        return withAxes(trace, ofIt, change);
    }

    /** Changes the axes of some channels; those that shared an axis share the new one. */
    private static Trace withAxes(Trace trace, List<Channel> changed, UnaryOperator<TimeAxis> change) {
        List<TimeAxis> before = new ArrayList<>();
        List<TimeAxis> after = new ArrayList<>();
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : trace.channels()) {
            if (!changed.contains(channel)) {
                channels.add(channel);
                continue;
            }
            int known = before.indexOf(channel.axis());
            if (known < 0) {
                known = before.size();
                before.add(channel.axis());
                after.add(change.apply(channel.axis()));
            }
            channels.add(new Channel(
                    channel.name(),
                    channel.role(),
                    channel.position(),
                    channel.instrument(),
                    channel.reference(),
                    after.get(known),
                    channel.column()));
        }
        return new Trace(trace.start(), trace.zone(), channels, trace.files(), trace.remarks());
    }
}
