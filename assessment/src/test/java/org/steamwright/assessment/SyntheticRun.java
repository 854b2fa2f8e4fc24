package org.steamwright.assessment;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;

/**
 * A run drawn with a ruler, so that every figure is known by hand: one sample a second for 1200 s, three evacuations to
 * 15 kPa, plateau of 134.5 °C from 400 s to 640 s, drying under vacuum from 700 s to 1000 s.
 *
 * <p>The reference point reads 133.0 at 399 s and 134.5 from 400 s to 640 s; every other point does the same until a test
 * changes it. Instruments are exact with U = 0.2 K and 0.5 kPa (k = 2) and no other contribution.
 */
public final class SyntheticRun {

    public static final int SAMPLES = 1201;
    public static final double AMBIENT = 101.3;
    public static final double PLATEAU = 134.5;
    public static final int REACHED = 400;
    public static final int LAST = 640;

    private final Map<String, double[]> values = new LinkedHashMap<>();
    private final Map<String, ChannelRole> roles = new HashMap<>();
    private final Map<String, ReferenceInstrument> instruments = new HashMap<>();
    private TimeAxis axis = TimeAxis.regular(SAMPLES, 1);
    private PressureReference pressureReference = PressureReference.ABSOLUTE;
    private TestKind kind = TestKind.LOADED;
    private Optional<Instant> start = Optional.of(Instant.parse("2026-03-02T00:00:00Z"));
    private Ambient ambient = Ambient.barometer(AMBIENT);
    private Optional<LeakPeriods> leakPeriods = Optional.empty();
    private CycleDefinition cycle = new CycleDefinition(
            "wrapped 134",
            CycleType.B,
            Temperature.ofCelsius(134),
            Optional.empty(),
            OptionalInt.of(3),
            Optional.of(20.0),
            Optional.of(Duration.ofMinutes(4)));
    private double resolution;

    private SyntheticRun() {}

    /** Reference point R, load L, challenge pack C and pressure P, all of them good. */
    public static SyntheticRun good() {
        SyntheticRun run = new SyntheticRun();
        run.temperature("R", ChannelRole.REFERENCE_POINT)
                .temperature("L", ChannelRole.LOAD)
                .temperature("C", ChannelRole.CHALLENGE_PACK);
        double[] pressure = new double[SAMPLES];
        for (int i = 0; i < SAMPLES; i++) {
            pressure[i] = pressure(i);
        }
        run.values.put("P", pressure);
        run.roles.put("P", ChannelRole.PRESSURE);
        run.instruments.put("P", instrument("P", Quantity.PRESSURE, 0.5, 0, 100, 200, 400));
        return run;
    }

    /** A chamber point with the reference temperature course. */
    public SyntheticRun temperature(String name, ChannelRole role) {
        double[] celsius = new double[SAMPLES];
        for (int i = 0; i < SAMPLES; i++) {
            celsius[i] = celsius(i);
        }
        values.put(name, celsius);
        roles.put(name, role);
        instruments.put(name, instrument(name, Quantity.TEMPERATURE, 0.2, 0, 100, 121, 134, 140));
        return this;
    }

    /** Sets a channel to a value from one second to another, both included. */
    public SyntheticRun set(String name, int from, int to, double value) {
        for (int i = from; i <= to; i++) {
            values.get(name)[i] = value;
        }
        return this;
    }

    /** Changes every value of a channel. */
    public SyntheticRun map(String name, DoubleUnaryOperator change) {
        double[] array = values.get(name);
        for (int i = 0; i < array.length; i++) {
            array[i] = change.applyAsDouble(array[i]);
        }
        return this;
    }

    public SyntheticRun without(String name) {
        values.remove(name);
        return this;
    }

    public SyntheticRun role(String name, ChannelRole role) {
        roles.put(name, role);
        return this;
    }

    public SyntheticRun instrument(String name, ReferenceInstrument instrument) {
        instruments.put(name, instrument);
        return this;
    }

    public SyntheticRun withoutInstrument(String name) {
        instruments.remove(name);
        return this;
    }

    public SyntheticRun axis(TimeAxis newAxis) {
        axis = newAxis;
        return this;
    }

    public SyntheticRun gauge() {
        pressureReference = PressureReference.GAUGE;
        return this;
    }

    public SyntheticRun kind(TestKind newKind) {
        kind = newKind;
        return this;
    }

    public SyntheticRun cycle(CycleDefinition newCycle) {
        cycle = newCycle;
        return this;
    }

    public SyntheticRun start(Optional<Instant> newStart) {
        start = newStart;
        return this;
    }

    public SyntheticRun ambient(Ambient newAmbient) {
        ambient = newAmbient;
        return this;
    }

    public SyntheticRun leakPeriods(LeakPeriods periods) {
        leakPeriods = Optional.of(periods);
        return this;
    }

    public SyntheticRun resolution(double step) {
        resolution = step;
        return this;
    }

    /** Keeps the samples up to a second, included. */
    public SyntheticRun cutAfter(int second) {
        return keep(0, second);
    }

    /** Keeps the samples from one second to another, both included. */
    public SyntheticRun keep(int from, int to) {
        double[] seconds = new double[to - from + 1];
        for (int i = from; i <= to; i++) {
            seconds[i - from] = i;
        }
        axis = TimeAxis.ofSeconds(seconds);
        values.replaceAll((name, array) -> Arrays.copyOfRange(array, from, to + 1));
        return this;
    }

    /** Leaves the samples between two seconds out, both excluded. */
    public SyntheticRun gap(int after, int before) {
        int left = SAMPLES - (before - after - 1);
        double[] seconds = new double[left];
        int n = 0;
        for (int i = 0; i < SAMPLES; i++) {
            if (i <= after || i >= before) {
                seconds[n++] = i;
            }
        }
        axis = TimeAxis.ofSeconds(seconds);
        values.replaceAll((name, array) -> {
            double[] kept = new double[left];
            for (int i = 0; i < left; i++) {
                kept[i] = array[(int) seconds[i]];
            }
            return kept;
        });
        return this;
    }

    public TestRun build() {
        List<Channel> channels = new ArrayList<>();
        values.forEach((name, array) -> {
            boolean isPressure = roles.get(name) == ChannelRole.PRESSURE;
            Column column = new Column(
                    name,
                    isPressure ? Quantity.PRESSURE : Quantity.TEMPERATURE,
                    Optional.empty(),
                    isPressure ? "kPa" : "°C",
                    array,
                    resolution);
            channels.add(new Channel(
                    name,
                    roles.get(name),
                    Position.UNSTATED,
                    instruments.containsKey(name) ? Optional.of(name) : Optional.empty(),
                    isPressure ? Optional.of(pressureReference) : Optional.empty(),
                    axis,
                    column));
        });
        Trace trace = new Trace(start, ZoneId.of("UTC"), channels, List.of(), List.of());
        return new TestRun("run", kind, cycle, trace, instruments, ambient, leakPeriods);
    }

    public RunEvaluation judgedBy(CriteriaSet set) {
        return Assessment.evaluate(build(), set);
    }

    /** An exact instrument, calibrated for the whole of 2026. */
    public static ReferenceInstrument instrument(
            String id, Quantity quantity, double expandedUncertainty, double... points) {
        return instrument(id, quantity, "2026-01-01", "2026-12-31", 0, expandedUncertainty, points);
    }

    /** An instrument that reads {@code error} too high everywhere. */
    public static ReferenceInstrument instrument(
            String id,
            Quantity quantity,
            String calibratedOn,
            String dueOn,
            double error,
            double expandedUncertainty,
            double... points) {
        List<CalibrationPoint> list = new ArrayList<>();
        for (double point : points) {
            list.add(new CalibrationPoint(point - error, point, expandedUncertainty, 2));
        }
        return new ReferenceInstrument(
                id,
                "invented",
                quantity,
                Double.NEGATIVE_INFINITY,
                Double.POSITIVE_INFINITY,
                Optional.of(new CalibrationCertificate(
                        "CERT-" + id, "invented", LocalDate.parse(calibratedOn), LocalDate.parse(dueOn), list)),
                List.of());
    }

    /** Temperature of the reference course at a second. */
    public static double celsius(int second) {
        if (second < 300) {
            return 60;
        }
        if (second < REACHED) {
            return 100 + (133.0 - 100) * (second - 300) / 99.0;
        }
        if (second <= LAST) {
            return PLATEAU;
        }
        return second < 700 ? 132.0 - (second - 641) * 0.5 : Math.max(60, 100 - (second - 700) * 0.1);
    }

    /** Absolute pressure at a second: ambient, three evacuations, saturation, exhaust, vacuum drying, ambient. */
    public static double pressure(int second) {
        if (second < 20 || second > 1000) {
            return AMBIENT;
        }
        if (second < 300) {
            int inPulse = (second - 20) % 93;
            return inPulse < 60
                    ? AMBIENT - (AMBIENT - 15) * inPulse / 59.0
                    : 15 + (AMBIENT - 15) * (inPulse - 60) / 33.0;
        }
        if (second <= 640) {
            return IapwsR797.INSTANCE.kilopascalAt(Math.max(100.2, celsius(second)));
        }
        if (second <= 700) {
            return 290 - (290 - AMBIENT) * (second - 641) / 59.0;
        }
        return 10;
    }
}
