package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.alignment.Alignment;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.CommonEvent;
import org.steamwright.assessment.alignment.EventSignal;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.simulator.CycleProgram;
import org.steamwright.simulator.MeasuringPoint;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;

/**
 * Runs of two loggers whose clocks differ by up to ten minutes, put on one clock by the evacuations: the offset has to come
 * out within its half-width, and a pack that was really slow has to stay slow.
 */
class TwoClocksCampaignTest {

    private static final String SECOND = "L2";
    private static final double LARGEST_OFFSET_TENTHS = 6000;
    private static final double COVERAGE = 0.95;
    private static final double ANSWERED = 0.8;

    @Test
    void the_offset_is_found_within_its_half_width() {
        Campaign campaign = new Campaign("Two clocks: offset by evacuations");
        campaign.forEachSeed(Campaign.runs(), seed -> offset(campaign, seed));
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        long found = campaign.counted("found");
        assertThat(campaign.counted("within the half-width")).isGreaterThanOrEqualTo((long) (COVERAGE * found));
        assertThat(found).isGreaterThanOrEqualTo((long) (ANSWERED * campaign.counted("runs with evacuations")));
    }

    @Test
    void a_slow_pack_stays_slow_and_an_unaligned_run_says_nothing() {
        Campaign campaign = new Campaign("Two clocks: slow packs");
        campaign.forEachSeed(Math.max(1, Campaign.runs() / 2), seed -> slowPack(campaign, seed));
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        assertThat(campaign.counted("slow packs")).isPositive();
        assertThat(campaign.counted("delays within the half-width and two steps"))
                .isGreaterThanOrEqualTo((long) (COVERAGE * campaign.counted("delays seen")));
    }

    private static void offset(Campaign campaign, long seed) {
        Random random = Campaign.random(seed, 1);
        Scenario good = Scenarios.randomGood(seed);
        CycleProgram program = (CycleProgram) good.program();
        if (program.vacuumPulses() == 0) {
            campaign.count("runs without evacuations");
            return;
        }
        // by turns: temperatures against pressure, or temperatures against temperatures
        boolean isAgainstPressure = seed % 2 == 0;
        double offset = offset(random);
        List<MeasuringPoint> points = new ArrayList<>();
        points.add(steam("T1", ChannelRole.REFERENCE_POINT, isAgainstPressure ? SECOND : "L1", random));
        points.add(steam("T2", ChannelRole.FREE_CHAMBER, SECOND, random));
        SimulatedRun simulated = Simulation.run(
                good.withPoints(TestKind.EMPTY_CHAMBER, points)
                        .withLogging(good.logging().withClockOffsets(Map.of(SECOND, offset))),
                seed);
        TestRun run = simulated.testRun();
        List<EventSignal> base = new ArrayList<>();
        List<EventSignal> other = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            boolean isPressure = channel.role() == ChannelRole.PRESSURE;
            if (isPressure && !isAgainstPressure) {
                continue;
            }
            boolean isFirst = isAgainstPressure ? !isPressure : channel.role() == ChannelRole.REFERENCE_POINT;
            (isFirst ? base : other).add(signal(run, channel));
        }
        double truth = isAgainstPressure ? offset : -offset;
        CommonEvent event = CommonEvent.find(base, other, "campaign");
        campaign.count("runs with evacuations");
        if (event.offset().isEmpty()) {
            campaign.count("refused");
            return;
        }
        campaign.count("found");
        double error = Math.abs(event.offset().get().secondsAtStart() - truth);
        campaign.largest("error in s", error);
        if (error <= event.offset().get().halfWidth()) {
            campaign.count("within the half-width");
        }
        if (error > 3 * event.offset().get().halfWidth()) {
            campaign.complain("seed %d: %.1f s instead of %.1f s, %s"
                    .formatted(seed, event.offset().get().secondsAtStart(), truth, event.reason()));
        }
    }

    private static double offset(Random random) {
        return Math.rint((2 * random.nextDouble() - 1) * LARGEST_OFFSET_TENTHS) / 10;
    }

    private static MeasuringPoint steam(String name, ChannelRole role, String logger, Random random) {
        MeasuringPoint point = MeasuringPoint.steam(name, role, "A", "", "TL-" + name);
        return new MeasuringPoint(
                point.name(),
                point.role(),
                point.position(),
                point.instrument(),
                logger,
                0,
                0.3 + 0.7 * random.nextDouble(),
                0,
                point.air());
    }

    private static EventSignal signal(TestRun run, Channel channel) {
        double celsius = run.cycle().sterilizingTemperature().celsius();
        double plateau = celsius;
        if (channel.role() == ChannelRole.PRESSURE) {
            boolean isGauge = channel.reference().orElseThrow() == PressureReference.GAUGE;
            plateau = IapwsR797.INSTANCE.kilopascalAt(celsius)
                    - (isGauge ? run.ambient().pressure().kilopascal() : 0);
        }
        return new EventSignal(
                channel.name(),
                channel.role() == ChannelRole.PRESSURE ? EventSignal.Kind.PRESSURE : EventSignal.Kind.FREE_STEAM,
                channel.axis(),
                channel.column().toArray(),
                plateau);
    }

    /** Reference point and pressure on one logger; a free point and a pack that is really late on another. */
    private static void slowPack(Campaign campaign, long seed) {
        Random random = Campaign.random(seed, 1);
        Scenario good = Scenarios.randomGood(seed);
        CycleProgram program = (CycleProgram) good.program();
        if (program.vacuumPulses() == 0) {
            return;
        }
        double offset = offset(random);
        List<MeasuringPoint> points = List.of(
                steam("T1", ChannelRole.REFERENCE_POINT, "L1", random),
                steam("T2", ChannelRole.FREE_CHAMBER, SECOND, random),
                MeasuringPoint.item("T3", ChannelRole.CHALLENGE_PACK, "B", "", "TL-T3", 25 + 30 * random.nextDouble())
                        .withLogger(SECOND));
        Scenario scenario = good.withPoints(TestKind.LOADED, points);
        SimulatedRun onOneClock = Simulation.run(scenario, seed);
        CriteriaSet set = CampaignSets.everythingDecides(
                CampaignSets.preset(seed, onOneClock.testRun().cycle()));
        RunEvaluation truth = Assessment.evaluate(onOneClock.testRun(), set);
        double delay = truth.plateau().flatMap(Plateau::equilibrationSeconds).orElse(Double.POSITIVE_INFINITY);
        SimulatedRun simulated =
                Simulation.run(scenario.withLogging(good.logging().withClockOffsets(Map.of(SECOND, offset))), seed);
        TestRun run = simulated.testRun();
        campaign.count("slow packs");

        RunEvaluation unaligned = Assessment.evaluate(withClocks(run, Optional.empty()), set);
        for (CriterionId id : List.of(
                CriterionId.EQUILIBRATION_TIME, CriterionId.MINIMUM_HOLDING_TIME, CriterionId.TEMPERATURE_SPREAD)) {
            if (unaligned.finding(id).outcome() == Outcome.PASS) {
                campaign.complain("slow pack %d: %s passes on clocks that nobody compared".formatted(seed, id));
            }
        }
        if (unaligned.verdict().isPass()) {
            campaign.complain("slow pack %d: FALSE PASS without alignment".formatted(seed));
        }

        List<EventSignal> base = new ArrayList<>();
        List<EventSignal> other = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            if (channel.role() == ChannelRole.REFERENCE_POINT || channel.role() == ChannelRole.PRESSURE) {
                base.add(signal(run, channel));
            } else if (channel.role() == ChannelRole.FREE_CHAMBER) {
                other.add(signal(run, channel));
            }
        }
        CommonEvent event = CommonEvent.find(base, other, "campaign");
        if (event.offset().isEmpty()) {
            campaign.count("slow packs: no event");
            return;
        }
        ClockOffset found = event.offset().get();
        RunEvaluation aligned = Assessment.evaluate(withClocks(run, Optional.of(found)), set);
        Finding equilibration = aligned.finding(CriterionId.EQUILIBRATION_TIME);
        if (Double.isFinite(delay)) {
            double seen =
                    aligned.plateau().flatMap(Plateau::equilibrationSeconds).orElse(Double.NaN);
            campaign.largest("change of a real delay in s", Math.abs(seen - delay));
            double steps = 2 * run.trace().channels().get(0).axis().interval();
            campaign.count("delays seen");
            if (Math.abs(seen - delay) <= found.halfWidth() + steps) {
                campaign.count("delays within the half-width and two steps");
            }
            if (!(Math.abs(seen - delay) <= 3 * found.halfWidth() + steps)) {
                campaign.complain("slow pack %d: a delay of %.1f s became %.1f s".formatted(seed, delay, seen));
            }
        }
        if (truth.finding(CriterionId.EQUILIBRATION_TIME).outcome() == Outcome.FAIL) {
            campaign.count("slow packs: equilibration " + equilibration.outcome());
            if (equilibration.outcome() == Outcome.PASS) {
                campaign.complain("slow pack %d: alignment hid a delay of %.1f s".formatted(seed, delay));
            }
        }
        if (aligned.verdict().isPass() && !truth.verdict().isPass()) {
            campaign.complain("slow pack %d: FALSE PASS after alignment".formatted(seed));
        }
    }

    private static TestRun withClocks(TestRun run, Optional<ClockOffset> offset) {
        List<String> first = new ArrayList<>();
        List<String> second = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            boolean isSecond =
                    channel.role() == ChannelRole.FREE_CHAMBER || channel.role() == ChannelRole.CHALLENGE_PACK;
            (isSecond ? second : first).add(channel.name());
        }
        Clocks clocks = new Clocks(
                "L1",
                List.of(
                        new RecordingClock("L1", "L1", first, run.trace().start(), Optional.empty(), ""),
                        new RecordingClock("L2", "L2", second, run.trace().start(), offset, "")));
        return new TestRun(
                run.id(),
                run.kind(),
                run.cycle(),
                Alignment.aligned(run.trace(), clocks),
                run.instruments(),
                run.ambient(),
                run.leakPeriods(),
                run.lethality(),
                clocks);
    }
}
