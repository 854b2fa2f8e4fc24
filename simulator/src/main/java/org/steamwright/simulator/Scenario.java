package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestKind;

/**
 * All that a simulation starts from, but for the seed.
 *
 * @param id of the run
 * @param kind what the run is meant to show; {@link TestKind#LEAK} goes with a {@link LeakProgram}
 * @param program what the sterilizer is told to do
 * @param points temperatures; may be empty for a leak test only
 * @param instrumentation how good the sensors are
 * @param logging what is written down
 * @param surroundings air around the sterilizer
 * @param faults planted, in the order in which they act
 */
public record Scenario(
        String id,
        TestKind kind,
        Program program,
        List<MeasuringPoint> points,
        Instrumentation instrumentation,
        Logging logging,
        Surroundings surroundings,
        List<Fault> faults) {

    public Scenario {
        points = List.copyOf(points);
        faults = List.copyOf(faults);
        if ((kind == TestKind.LEAK) != (program instanceof LeakProgram)) {
            throw new IllegalArgumentException(
                    "scenario " + id + ": a leak test runs a leak program, nothing else does");
        }
        if (kind != TestKind.LEAK && points.isEmpty()) {
            throw new IllegalArgumentException("scenario " + id + ": a cycle needs a measuring point");
        }
        if (points.isEmpty() && !logging.isPressureRecorded()) {
            throw new IllegalArgumentException("scenario " + id + ": nothing would be recorded");
        }
        Set<String> names = new HashSet<>();
        Set<String> instruments = new HashSet<>();
        for (MeasuringPoint point : points) {
            if (!names.add(point.name()) || !instruments.add(point.instrument())) {
                throw new IllegalArgumentException(
                        "scenario %s: point %s or its instrument occurs twice".formatted(id, point.name()));
            }
        }
    }

    /** An empty chamber with three points, 134 °C for three minutes. */
    public static Scenario emptyChamber() {
        return new Scenario(
                "empty-chamber",
                TestKind.EMPTY_CHAMBER,
                CycleProgram.b134(),
                List.of(
                        MeasuringPoint.steam("T1", ChannelRole.REFERENCE_POINT, "R", "beside the sensor", "TL-01"),
                        MeasuringPoint.steam("T2", ChannelRole.FREE_CHAMBER, "A", "front, top", "TL-02")
                                .withOffset(-0.05),
                        MeasuringPoint.steam("T3", ChannelRole.FREE_CHAMBER, "B", "back, bottom", "TL-03")
                                .withOffset(-0.1)),
                Instrumentation.GOOD,
                Logging.everySecond(),
                Surroundings.of(101.1),
                List.of());
    }

    /** A loaded chamber with five points, one of them in the challenge pack, 134 °C for three minutes. */
    public static Scenario loaded() {
        List<MeasuringPoint> points = new ArrayList<>(emptyChamber().points().subList(0, 2));
        points.add(MeasuringPoint.item("T3", ChannelRole.LOAD, "B", "front tray, hinged forceps", "TL-03", 1.5));
        points.add(MeasuringPoint.item("T4", ChannelRole.LOAD, "C", "back tray, mirror", "TL-04", 2));
        points.add(MeasuringPoint.item("T5", ChannelRole.CHALLENGE_PACK, "D", "centre, in the pack", "TL-05", 3));
        return emptyChamber().withId("loaded").withPoints(TestKind.LOADED, points);
    }

    /** A leak test with pressure and one temperature. */
    public static Scenario leakTest(double kilopascalPerMinute) {
        return new Scenario(
                "leak-test",
                TestKind.LEAK,
                LeakProgram.ofRate(kilopascalPerMinute),
                List.of(MeasuringPoint.steam("T1", ChannelRole.FREE_CHAMBER, "A", "centre", "TL-09")),
                Instrumentation.VACUUM,
                Logging.everySecond(),
                Surroundings.of(101.1),
                List.of());
    }

    public Scenario withId(String other) {
        return new Scenario(other, kind, program, points, instrumentation, logging, surroundings, faults);
    }

    public Scenario withProgram(Program other) {
        return new Scenario(id, kind, other, points, instrumentation, logging, surroundings, faults);
    }

    public Scenario withPoints(TestKind otherKind, List<MeasuringPoint> others) {
        return new Scenario(id, otherKind, program, others, instrumentation, logging, surroundings, faults);
    }

    public Scenario withInstrumentation(Instrumentation other) {
        return new Scenario(id, kind, program, points, other, logging, surroundings, faults);
    }

    public Scenario withLogging(Logging other) {
        return new Scenario(id, kind, program, points, instrumentation, other, surroundings, faults);
    }

    public Scenario withSurroundings(Surroundings other) {
        return new Scenario(id, kind, program, points, instrumentation, logging, other, faults);
    }

    public Scenario withFaults(Fault... others) {
        return new Scenario(id, kind, program, points, instrumentation, logging, surroundings, List.of(others));
    }
}
