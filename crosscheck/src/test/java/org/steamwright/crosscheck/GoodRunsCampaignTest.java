package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.simulator.Instrumentation;
import org.steamwright.simulator.PlateauTruth;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;

/** Runs in which nothing is wrong, with margins of at least twice the doubt. */
class GoodRunsCampaignTest {

    private static final double NOISE = 1e-9;

    @Test
    void good_runs_pass_and_their_holding_time_is_never_overstated() {
        Campaign campaign = new Campaign("Good runs");
        campaign.forEachSeed(Campaign.runs(), seed -> {
            SimulatedRun simulated = Simulation.run(Scenarios.randomGood(seed), seed);
            CriteriaSet set = CampaignSets.preset(seed, simulated.testRun().cycle());
            RunEvaluation evaluation = Assessment.evaluate(simulated.testRun(), set);
            campaign.count("runs");
            if (!evaluation.verdict().isPass()) {
                campaign.count("not passed");
                campaign.count("not passed: " + set.name() + " "
                        + evaluation.verdict().deciding().stream()
                                .map(finding -> finding.id() + " " + finding.outcome())
                                .toList());
            }
            holdingTime(campaign, seed, set, simulated, evaluation);
            for (String difference : Agreement.differences(simulated.testRun(), set, evaluation)) {
                campaign.complain("good " + seed + " " + set.name() + ": " + difference);
            }
        });
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        assertThat(campaign.counted("not passed"))
                .as("at most one in a hundred fails, is undecided or invalid though nothing is wrong")
                .isLessThanOrEqualTo(campaign.counted("runs") / 100);
    }

    private static void holdingTime(
            Campaign campaign, long seed, CriteriaSet set, SimulatedRun simulated, RunEvaluation evaluation) {
        double celsius = simulated.testRun().cycle().sterilizingTemperature().celsius();
        double width = set.findCycle(celsius)
                .flatMap(CriteriaSet.CycleLimits::bandWidth)
                .map(Limit::value)
                .orElse(Double.POSITIVE_INFINITY);
        PlateauTruth indicated = simulated
                .truth()
                .indicatedPlateau(width, set.isTheoreticalInBand() ? Optional.of(set.curve()) : Optional.empty());
        double sampled = evaluation.plateau().map(Plateau::holdingSeconds).orElse(0.0);
        double interval = simulated.testRun().trace().channels().stream()
                .map(Channel::axis)
                .mapToDouble(axis -> axis.interval())
                .max()
                .orElseThrow();
        double over = sampled - indicated.holdingSeconds();
        campaign.largest("overstatement of the holding time against the indicated signal in s", over);
        campaign.largest("understatement in sampling intervals", -over / interval);
        if (over > NOISE) {
            campaign.complain("good %d: holding time %s s, indicated signal %s s"
                    .formatted(seed, sampled, indicated.holdingSeconds()));
        }
        if (-over > 2 * interval + NOISE) {
            campaign.complain("good %d: holding time %s s more than two intervals below the indicated signal's %s s"
                    .formatted(seed, sampled, indicated.holdingSeconds()));
        }
        double physical = simulated.truth().physicalPlateau(width).holdingSeconds();
        campaign.largest("overstatement against the noiseless truth of the points in s", sampled - physical);
        if (sampled > physical + NOISE) {
            campaign.count("holding time above the noiseless truth (noise, error, doubt of the sensor)");
        }
    }

    @Test
    void lethality_is_within_half_a_percent_at_one_second_with_noise() {
        Campaign campaign = new Campaign("Lethality of good runs");
        Instrumentation noisy = Instrumentation.PERFECT.withNoise(0.025, 0.1).withDecimals(2, 1);
        campaign.forEachSeed(Math.max(1, Campaign.runs() / 4), seed -> {
            Scenario scenario = Scenarios.randomGood(seed);
            scenario = scenario.withInstrumentation(noisy)
                    .withLogging(scenario.logging().withInterval(1));
            SimulatedRun simulated = Simulation.run(scenario, seed);
            CriteriaSet set = CampaignSets.preset(seed, simulated.testRun().cycle());
            RunEvaluation evaluation = Assessment.evaluate(simulated.testRun(), set);
            campaign.count("runs");
            for (int i = 0; i < evaluation.lethality().size(); i++) {
                Lethality f = evaluation.lethality().get(i);
                String channel = evaluation.lethalityChannels().get(i);
                double truth = simulated
                        .truth()
                        .lethalityMinutes(channel, f.referenceCelsius(), f.z(), f.fromSeconds(), f.toSeconds());
                double off = Math.abs(f.minutes() / truth - 1);
                campaign.count("channels");
                campaign.largest("relative error of F", off);
                if (!(off <= 0.005)) {
                    campaign.complain(
                            "good %d: F of %s is %s min, truth %s min".formatted(seed, channel, f.minutes(), truth));
                }
            }
        });
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        assertThat(campaign.counted("channels")).isGreaterThanOrEqualTo(campaign.counted("runs"));
    }

    /** Outcomes of deciding findings, for messages. */
    static Map<String, Outcome> outcomes(RunEvaluation evaluation) {
        return evaluation.findings().stream()
                .filter(Finding::isDeciding)
                .collect(java.util.stream.Collectors.toMap(
                        finding -> finding.id().word(), Finding::outcome));
    }
}
