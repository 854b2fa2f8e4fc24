package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.TestRun;

/** Runs made from runs by one change. */
final class ChangedRun {

    private ChangedRun() {}

    /** Every temperature reading raised by so much. */
    static TestRun raised(TestRun run, double kelvin) {
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            double[] values = channel.column().toArray();
            if (channel.column().quantity() == Quantity.TEMPERATURE) {
                for (int i = 0; i < values.length; i++) {
                    values[i] += kelvin;
                }
            }
            channels.add(with(channel, channel.axis(), values));
        }
        return with(run, channels);
    }

    /** The channels in another order. */
    static TestRun shuffled(TestRun run, long seed) {
        List<Channel> channels = new ArrayList<>(run.trace().channels());
        Collections.shuffle(channels, new Random(seed));
        return with(run, channels);
    }

    /** Every clock reads so many seconds more, and the recording starts so much earlier. */
    static TestRun shifted(TestRun run, double seconds) {
        Map<TimeAxis, TimeAxis> axes = new IdentityHashMap<>();
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            TimeAxis axis = axes.computeIfAbsent(channel.axis(), own -> own.shifted(seconds));
            channels.add(with(channel, axis, channel.column().toArray()));
        }
        Trace trace = run.trace();
        return with(
                run,
                new Trace(
                        trace.start().map(start -> start.minusNanos(Math.round(seconds * 1e9))),
                        trace.zone(),
                        channels,
                        trace.files(),
                        trace.remarks()));
    }

    /** A sample more in the middle of every step, on the straight line between its neighbours. */
    static TestRun withMiddles(TestRun run) {
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            int size = channel.axis().size();
            double[] seconds = new double[2 * size - 1];
            double[] values = new double[2 * size - 1];
            for (int i = 0; i < size; i++) {
                seconds[2 * i] = channel.axis().at(i);
                values[2 * i] = channel.column().at(i);
                if (i + 1 < size) {
                    seconds[2 * i + 1] = (channel.axis().at(i) + channel.axis().at(i + 1)) / 2;
                    values[2 * i + 1] =
                            (channel.column().at(i) + channel.column().at(i + 1)) / 2;
                }
            }
            channels.add(with(channel, TimeAxis.ofSeconds(seconds), values));
        }
        return with(run, channels);
    }

    /** A thermometer in the room more, which nobody judges. */
    static TestRun withRoomThermometer(TestRun run) {
        TimeAxis axis = run.trace().channels().get(0).axis();
        double[] celsius = new double[axis.size()];
        for (int i = 0; i < celsius.length; i++) {
            celsius[i] = i % 5 == 0 ? Double.NaN : 21 + 0.1 * (i % 3);
        }
        List<Channel> channels = new ArrayList<>(run.trace().channels());
        channels.add(new Channel(
                "room",
                ChannelRole.AMBIENT,
                Position.UNSTATED,
                Optional.empty(),
                Optional.empty(),
                axis,
                new Column("room", Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0.1)));
        return with(run, channels);
    }

    /** The first reading of every channel stands so many seconds before the rest begins. */
    static TestRun slowlyHeated(TestRun run, double celsius, int samples) {
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            int size = channel.axis().size();
            double step = channel.axis().interval();
            double[] seconds = new double[size + samples];
            double[] values = new double[size + samples];
            seconds[0] = channel.axis().at(0);
            values[0] = channel.column().at(0);
            for (int i = 1; i < seconds.length; i++) {
                seconds[i] =
                        i <= samples ? seconds[0] + i * step : channel.axis().at(i - samples) + samples * step;
                values[i] = i <= samples
                        ? celsius + 0.2 * (i % 2)
                        : channel.column().at(i - samples);
            }
            channels.add(with(channel, TimeAxis.ofSeconds(seconds), values));
        }
        return with(run, channels);
    }

    private static Channel with(Channel channel, TimeAxis axis, double[] values) {
        Column column = channel.column();
        return new Channel(
                channel.name(),
                channel.role(),
                channel.position(),
                channel.instrument(),
                channel.reference(),
                axis,
                new Column(
                        column.name(),
                        column.quantity(),
                        column.reference(),
                        column.unitInFile(),
                        values,
                        column.resolution()));
    }

    private static TestRun with(TestRun run, List<Channel> channels) {
        Trace trace = run.trace();
        return with(run, new Trace(trace.start(), trace.zone(), channels, trace.files(), trace.remarks()));
    }

    private static TestRun with(TestRun run, Trace trace) {
        return new TestRun(
                run.id(), run.kind(), run.cycle(), trace, run.instruments(), run.ambient(), run.leakPeriods());
    }
}
