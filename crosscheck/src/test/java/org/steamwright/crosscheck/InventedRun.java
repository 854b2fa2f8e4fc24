package org.steamwright.crosscheck;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;

/** A run put together from plain numbers, channel by channel. */
final class InventedRun {

    private static final Instant START = Instant.parse("2026-03-02T09:00:00Z");
    private static final LocalDate CALIBRATED = LocalDate.of(2025, 9, 1);

    private final List<Channel> channels = new ArrayList<>();
    private final Map<String, ReferenceInstrument> instruments = new HashMap<>();
    private double sterilizingCelsius = 134;
    private LocalDate due = LocalDate.of(2026, 9, 1);
    private Ambient ambient = Ambient.barometer(101.325);

    InventedRun sterilizingAt(double celsius) {
        sterilizingCelsius = celsius;
        return this;
    }

    InventedRun ambient(double kilopascal) {
        ambient = Ambient.barometer(kilopascal);
        return this;
    }

    double ambientKilopascal() {
        return ambient.pressure().kilopascal();
    }

    /** Last day of every certificate added from now on. */
    InventedRun due(LocalDate day) {
        due = day;
        return this;
    }

    /** A temperature channel whose certificate corrects nothing, with a doubt of U (k = 2). */
    InventedRun temperature(String name, ChannelRole role, double expanded, TimeAxis axis, double... celsius) {
        List<CalibrationPoint> points =
                List.of(new CalibrationPoint(0, 0, expanded, 2), new CalibrationPoint(150, 150, expanded, 2));
        return temperature(name, role, points, List.of(), axis, celsius);
    }

    /** A temperature channel with a certificate of its own. */
    InventedRun temperature(
            String name,
            ChannelRole role,
            List<CalibrationPoint> points,
            List<Contribution> contributions,
            TimeAxis axis,
            double... celsius) {
        instruments.put(name, instrument(name, Quantity.TEMPERATURE, points, contributions));
        Column column = new Column(name, Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0);
        channels.add(new Channel(name, role, Position.UNSTATED, Optional.of(name), Optional.empty(), axis, column));
        return this;
    }

    /** The chamber pressure, absolute or gauge, with a doubt of U (k = 2). */
    InventedRun pressure(
            String name, PressureReference reference, double expanded, TimeAxis axis, double... kilopascal) {
        List<CalibrationPoint> points =
                List.of(new CalibrationPoint(-100, -100, expanded, 2), new CalibrationPoint(450, 450, expanded, 2));
        instruments.put(name, instrument(name, Quantity.PRESSURE, points, List.of()));
        Column column = new Column(name, Quantity.PRESSURE, Optional.of(reference), "kPa", kilopascal, 0);
        channels.add(new Channel(
                name,
                ChannelRole.PRESSURE,
                Position.UNSTATED,
                Optional.of(name),
                Optional.of(reference),
                axis,
                column));
        return this;
    }

    TestRun build() {
        Trace trace = new Trace(Optional.of(START), ZoneOffset.UTC, channels, List.of(), List.of());
        return new TestRun(
                "R1",
                TestKind.LOADED,
                CycleDefinition.of("invented", CycleType.B, sterilizingCelsius),
                trace,
                instruments,
                ambient,
                Optional.empty());
    }

    private ReferenceInstrument instrument(
            String id, Quantity quantity, List<CalibrationPoint> points, List<Contribution> contributions) {
        return new ReferenceInstrument(
                id,
                "invented",
                quantity,
                Double.NEGATIVE_INFINITY,
                Double.POSITIVE_INFINITY,
                Optional.of(new CalibrationCertificate("C-" + id, "invented", CALIBRATED, due, points)),
                contributions);
    }
}
