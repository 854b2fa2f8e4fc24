package org.steamwright.simulator;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestKind;

/**
 * One run of the demo visit.
 *
 * @param number within the visit
 * @param sterilizer A or B
 * @param machineCycle cycle number of the sterilizer
 * @param stage of a leak test, as the visit folder writes it; otherwise blank
 * @param simulated the run
 */
record DemoRun(int number, String sterilizer, int machineCycle, String stage, SimulatedRun simulated) {
    static final int COUNTER_A = 1480;
    static final int COUNTER_B = 902;
    static final double BAROMETER = 100.9;

    /** Seconds by which the clock of the second logger is fast. */
    static final double SECOND_CLOCK_FAST = 41;

    private static final String SECOND_LOGGER = "L2";
    private static final List<String> SECOND_LOGGER_POINTS = List.of("T4", "T5");
    private static final long INSTRUMENTS = 20_260_302L;
    static final long SECONDS_BETWEEN = 1_380;

    static final CycleProgram CYCLE_A = CycleProgram.b134()
            .named("134 wrapped")
            .withPlateauSeconds(216)
            .withSetPointAbove(1.3)
            .withRipple(new Ripple(Ripple.Shape.SAWTOOTH, 0.15, 14));

    static final CycleProgram CYCLE_B = CycleProgram.b134()
            .named("134 universal")
            .withPlateauSeconds(214)
            .withVacuumPulses(4, 20, 160)
            .withSetPointAbove(1.1)
            .withRipple(new Ripple(Ripple.Shape.SINE, 0.12, 22))
            .withDrying(360, 9);

    /** Cycle number of steriliser B after the yearly visit, and those that the service ran before the re-test. */
    static final int COUNTER_B_AGAIN = 911;

    private static final long RETEST_INSTRUMENTS = 20_260_324L;

    /** Runs of the visit in the order of their numbers. */
    static List<DemoRun> all(DemoStory story) {
        return story == DemoStory.RETEST ? retest() : all();
    }

    /** After the repair of steriliser B: leak tests, one empty and three loaded runs. */
    private static List<DemoRun> retest() {
        Series series = new Series(DemoStory.RETEST, COUNTER_B_AGAIN, RETEST_INSTRUMENTS);
        List<DemoRun> runs = new ArrayList<>();
        series.add(runs, "B", "without-sensors", leak(0.028, false));
        series.add(runs, "B", "with-sensors", leak(0.040, true));
        series.add(runs, "B", "", empty(CYCLE_B));
        for (int i = 0; i < 3; i++) {
            series.add(runs, "B", "", loaded(CYCLE_B));
        }
        series.add(runs, "B", "after", leak(0.031, false));
        return List.copyOf(runs);
    }

    /** All runs of the yearly visit in the order of their numbers. */
    static List<DemoRun> all() {
        Series series = new Series(DemoStory.YEARLY, COUNTER_B, INSTRUMENTS);
        List<DemoRun> runs = new ArrayList<>();
        series.add(runs, "A", "without-sensors", leak(0.021, false));
        series.add(runs, "A", "with-sensors", leak(0.034, true));
        series.add(runs, "A", "", empty(CYCLE_A));
        series.add(runs, "A", "", empty(CYCLE_A));
        series.add(runs, "A", "", withSecondLogger(empty(CYCLE_A)));
        for (int i = 0; i < 3; i++) {
            series.add(runs, "A", "", loaded(CYCLE_A));
        }
        series.add(runs, "A", "after", leak(0.023, false));
        series.add(runs, "B", "without-sensors", leak(0.041, false));
        series.add(runs, "B", "with-sensors", leak(0.055, true));
        series.add(runs, "B", "", empty(CYCLE_B));
        series.add(
                runs,
                "B",
                "",
                loaded(CYCLE_B)
                        .withFaults(
                                new Fault.ShallowPulse(3, 62),
                                new Fault.ResidualAir("T5", new MeasuringPoint.Air(0.22, 0.018, 45))));
        series.add(runs, "B", "after", leak(0.044, false));
        return List.copyOf(runs);
    }

    /**
     * Numbers the runs of one visit.
     *
     * @param counterB cycle number of steriliser B before the first of them
     * @param instruments seed of the errors and certificates of the loggers
     */
    private record Series(DemoStory story, int counterB, long instruments) {
        void add(List<DemoRun> runs, String sterilizer, String stage, Scenario scenario) {
            int number = runs.size() + 1;
            int machineCycle = (sterilizer.equals("A") ? COUNTER_A : counterB)
                    + 1
                    + (int) runs.stream()
                            .filter(run -> run.sterilizer().equals(sterilizer))
                            .count();
            Instant start = story.arrival().plusSeconds(SECONDS_BETWEEN * number);
            String what = scenario.kind() == TestKind.LEAK
                    ? "leak-" + stage
                    : scenario.kind() == TestKind.LOADED ? "loaded" : "empty";
            String id = String.format(Locale.ROOT, "%02d-%s-%s", number, sterilizer.toLowerCase(Locale.ROOT), what);
            Scenario ready = scenario.withId(id)
                    .withLogging(scenario.logging().withStart(start, DemoVisit.ZONE))
                    .withSurroundings(Surroundings.of(BAROMETER));
            runs.add(new DemoRun(
                    number,
                    sterilizer,
                    machineCycle,
                    stage,
                    Simulation.run(ready, story.seed() + number, instruments)));
        }
    }

    static Scenario leak(double rate, boolean hasSensors) {
        Scenario test = Scenario.leakTest(rate);
        return hasSensors ? test : test.withPoints(TestKind.LEAK, List.of());
    }

    static Scenario empty(CycleProgram program) {
        return Scenario.emptyChamber()
                .withProgram(program)
                .withPoints(
                        TestKind.EMPTY_CHAMBER,
                        List.of(
                                reference(),
                                MeasuringPoint.steam("T2", ChannelRole.FREE_CHAMBER, "A", "front, top", "TL-02"),
                                MeasuringPoint.steam("T3", ChannelRole.FREE_CHAMBER, "B", "centre", "TL-03")
                                        .withOffset(-0.04),
                                MeasuringPoint.steam("T4", ChannelRole.FREE_CHAMBER, "C", "rear, bottom", "TL-04")
                                        .withOffset(-0.15),
                                MeasuringPoint.steam("T5", ChannelRole.FREE_CHAMBER, "D", "door, bottom", "TL-05")
                                        .withOffset(-0.22)));
    }

    /** The same with two points on a logger of their own, whose clock is fast. */
    private static Scenario withSecondLogger(Scenario scenario) {
        List<MeasuringPoint> points = new ArrayList<>();
        for (MeasuringPoint point : scenario.points()) {
            points.add(SECOND_LOGGER_POINTS.contains(point.name()) ? point.withLogger(SECOND_LOGGER) : point);
        }
        return scenario.withPoints(scenario.kind(), points)
                .withLogging(scenario.logging().withClockOffsets(Map.of(SECOND_LOGGER, SECOND_CLOCK_FAST)));
    }

    static Scenario loaded(CycleProgram program) {
        return Scenario.loaded()
                .withProgram(program)
                .withPoints(
                        TestKind.LOADED,
                        List.of(
                                reference(),
                                MeasuringPoint.steam(
                                        "T2", ChannelRole.FREE_CHAMBER, "A", "above the top tray", "TL-02"),
                                MeasuringPoint.item(
                                        "T3", ChannelRole.LOAD, "B", "top tray, forceps in pouch", "TL-03", 1.8),
                                MeasuringPoint.item(
                                                "T4",
                                                ChannelRole.LOAD,
                                                "C",
                                                "bottom tray, mirror in cassette",
                                                "TL-04",
                                                2.4)
                                        .withOffset(-0.08),
                                MeasuringPoint.item(
                                                "T5",
                                                ChannelRole.CHALLENGE_PACK,
                                                "D",
                                                "bottom tray, centre, inside the challenge pack",
                                                "TL-05",
                                                4)
                                        .withOffset(-0.12)));
    }

    private static MeasuringPoint reference() {
        return MeasuringPoint.steam(
                "T1", ChannelRole.REFERENCE_POINT, "R", "beside the steriliser's own sensor", "TL-01");
    }
}
