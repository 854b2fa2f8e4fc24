package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.plausibility.Oddity.Kind;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.simulator.MeasuringPoint;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.Simulation;

/** Good runs raise hardly any doubt; each planted oddity is named, and none of the spoiling ones lets a run pass. */
class PlausibilityCampaignTest {

    private static final double FALSE_ALARMS = 0.01;

    @Test
    void good_runs_raise_hardly_any_doubt() {
        Campaign campaign = new Campaign("Plausibility: good runs");
        campaign.forEachSeed(Campaign.runs(), seed -> {
            TestRun run = Simulation.run(Scenarios.randomGood(seed), seed).testRun();
            campaign.count("runs");
            List<Oddity> oddities = evaluate(run, seed).oddities();
            if (!oddities.isEmpty()) {
                campaign.count("runs with an oddity");
                oddities.forEach(oddity -> campaign.count("oddity " + oddity.kind() + " " + oddity.sentence()));
            }
        });
        campaign.print();
        assertThat(campaign.counted("runs with an oddity"))
                .isLessThanOrEqualTo((long) (FALSE_ALARMS * campaign.counted("runs")));
    }

    @Test
    void each_planted_oddity_is_named_and_spoils_what_it_should() {
        Campaign campaign = new Campaign("Plausibility: planted oddities");
        campaign.forEachSeed(Math.max(1, Campaign.runs() / 10), seed -> {
            for (Kind kind : Kind.values()) {
                plant(campaign, seed, kind);
            }
        });
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        for (Kind kind : Kind.values()) {
            assertThat(campaign.counted(kind + " named")).as(kind.words()).isGreaterThanOrEqualTo((long)
                    (0.9 * campaign.counted(kind + " planted")));
        }
    }

    private static RunEvaluation evaluate(TestRun run, long seed) {
        CriteriaSet set = CampaignSets.everythingDecides(CampaignSets.preset(seed, run.cycle()));
        return Assessment.evaluate(run, set);
    }

    private static void plant(Campaign campaign, long seed, Kind kind) {
        TestRun run = planted(seed, kind);
        RunEvaluation evaluation = evaluate(run, seed);
        campaign.count(kind + " planted");
        if (evaluation.oddities().stream().anyMatch(oddity -> oddity.kind() == kind)) {
            campaign.count(kind + " named");
        }
        boolean isSpoilt = evaluation.oddities().stream().anyMatch(Oddity::isSpoiling);
        if (isSpoilt && evaluation.verdict().isPass()) {
            campaign.complain("%s %d: a spoilt run passes".formatted(kind, seed));
        }
        if (isSpoilt && evaluation.finding(CriterionId.SENSORS_ALIVE).outcome() == Outcome.PASS) {
            campaign.complain("%s %d: its sensors count as alive".formatted(kind, seed));
        }
    }

    private static TestRun planted(long seed, Kind kind) {
        Random random = Campaign.random(seed, 1);
        Scenario scenario = scenario(seed, random, kind);
        TestRun run = Simulation.run(scenario, seed).testRun();
        Channel point = run.trace().channels().get(1);
        double resolution = point.column().resolution();
        double celsius = run.cycle().sterilizingTemperature().celsius();
        int middle = point.column().size() / 2;
        return switch (kind) {
            case SLOW_BODY, HOT_WALL, CONDENSATE, POINTS_SWAPPED -> run;
            case IMPOSSIBLE_VALUE -> changed(run, "T2", (i, v) -> i == 5 ? 850 : v);
            case SPIKE -> changed(run, "T2", (i, v) -> i == middle ? v - 25 : v);
            case INTEGER_WRAP -> changed(run, "T2", (i, v) -> i >= middle ? v - 65_536 * resolution : v);
            case FLAT_TOP -> withoutRange(changed(run, "T2", (i, v) -> Math.min(v, celsius - 3)), "T2");
            case TEN_TIMES_OFF -> changed(run, Simulation.PRESSURE, (i, v) -> v * (seed % 2 == 0 ? 10 : 0.1));
            case QUANTITIES_SWAPPED -> {
                double[] temperatures = point.column().toArray();
                yield changed(run, Simulation.PRESSURE, (i, v) -> temperatures[Math.min(i, temperatures.length - 1)]);
            }
        };
    }

    private static Scenario scenario(long seed, Random random, Kind kind) {
        Scenario good = Scenarios.randomGood(seed);
        List<MeasuringPoint> points = new ArrayList<>();
        points.add(MeasuringPoint.steam("T1", ChannelRole.REFERENCE_POINT, "R", "", "TL-1"));
        MeasuringPoint second = MeasuringPoint.steam("T2", ChannelRole.FREE_CHAMBER, "A", "", "TL-2");
        second = switch (kind) {
            case SLOW_BODY, POINTS_SWAPPED -> second.withItemSeconds(8 + 8 * random.nextDouble());
            case HOT_WALL -> second.withOffset(2 + random.nextDouble());
            case CONDENSATE ->
                second.withItemSeconds(8 + 8 * random.nextDouble()).withOffset(-1.5 - random.nextDouble());
            default -> second;
        };
        points.add(second);
        points.add(MeasuringPoint.steam("T3", ChannelRole.FREE_CHAMBER, "B", "", "TL-3"));
        points.add(MeasuringPoint.item("T4", ChannelRole.CHALLENGE_PACK, "C", "", "TL-4", 0.3));
        return good.withPoints(TestKind.LOADED, points);
    }

    private interface Change {
        double apply(int index, double value);
    }

    private static TestRun changed(TestRun run, String name, Change change) {
        List<Channel> channels = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            if (!channel.name().equals(name)) {
                channels.add(channel);
                continue;
            }
            double[] values = channel.column().toArray();
            for (int i = 0; i < values.length; i++) {
                values[i] = change.apply(i, values[i]);
            }
            Column old = channel.column();
            channels.add(new Channel(
                    channel.name(),
                    channel.role(),
                    channel.position(),
                    channel.instrument(),
                    channel.reference(),
                    channel.axis(),
                    new Column(
                            old.name(), old.quantity(), old.reference(), old.unitInFile(), values, old.resolution())));
        }
        return with(run, channels);
    }

    /** The same with a channel of whose instrument nothing is known. */
    private static TestRun withoutRange(TestRun run, String name) {
        List<Channel> channels = run.trace().channels().stream()
                .map(channel -> channel.name().equals(name)
                        ? new Channel(
                                channel.name(),
                                channel.role(),
                                channel.position(),
                                Optional.empty(),
                                channel.reference(),
                                channel.axis(),
                                channel.column())
                        : channel)
                .toList();
        return with(run, channels);
    }

    private static TestRun with(TestRun run, List<Channel> channels) {
        Trace trace = run.trace();
        return new TestRun(
                run.id(),
                run.kind(),
                run.cycle(),
                new Trace(trace.start(), trace.zone(), channels, trace.files(), trace.remarks()),
                run.instruments(),
                run.ambient(),
                run.leakPeriods(),
                run.lethality());
    }
}
