package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.criteriasets.Presets;
import org.steamwright.simulator.Fault;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;

/** Runs with one planted fault each, clearly beyond its limit. */
class FaultyRunsCampaignTest {

    @Test
    void no_faulty_run_passes_and_each_fault_is_named_by_its_own_criterion() {
        Campaign campaign = new Campaign("Faulty runs, everything decides");
        campaign.forEachSeed(Campaign.runs(), seed -> run(campaign, seed, true));
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        for (Class<? extends Fault> kind : Scenarios.KINDS) {
            assertThat(campaign.counted(kind.getSimpleName() + ": runs"))
                    .as("runs with a fault of kind %s", kind.getSimpleName())
                    .isPositive();
        }
    }

    @Test
    void no_faulty_run_passes_a_preset_that_asks_for_the_fault() {
        Campaign campaign = new Campaign("Faulty runs, presets as shipped");
        campaign.forEachSeed(Math.max(1, Campaign.runs() / 4), seed -> run(campaign, seed, false));
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
    }

    private static void run(Campaign campaign, long seed, boolean everythingDecides) {
        List<Class<? extends Fault>> kinds = Scenarios.KINDS;
        Class<? extends Fault> kind = kinds.get((int) (seed % kinds.size()));
        Scenario scenario = Scenarios.randomFaulty(seed, kind);
        SimulatedRun simulated = Simulation.run(scenario, seed);
        CriteriaSet preset = simulated.testRun().kind() == TestKind.LEAK
                ? new Presets().get("eu-en13060")
                : CampaignSets.preset(seed, simulated.testRun().cycle());
        CriteriaSet set = everythingDecides ? CampaignSets.everythingDecides(preset) : preset;
        RunEvaluation evaluation = Assessment.evaluate(simulated.testRun(), set);
        Fault fault = simulated.scenario().faults().get(0);
        String name = kind.getSimpleName();
        campaign.count("runs");
        campaign.count(name + ": runs");
        List<Finding> own = evaluation.findings().stream()
                .filter(finding -> finding.isDeciding() && fault.expected().contains(finding.id()))
                .toList();
        if (own.isEmpty()) {
            campaign.count(name + ": not asked by the set");
        } else {
            if (evaluation.verdict().isPass()) {
                campaign.complain("faulty %d: FALSE PASS of %s by %s".formatted(seed, fault, set.identity()));
            }
            boolean isNamed = own.stream().anyMatch(finding -> finding.outcome() != Outcome.PASS);
            if (!isNamed) {
                campaign.complain("faulty %d: %s is not named by %s (%s); outcomes %s"
                        .formatted(
                                seed, fault, fault.expected(), set.name(), GoodRunsCampaignTest.outcomes(evaluation)));
            }
            own.stream()
                    .filter(finding -> finding.outcome() != Outcome.PASS)
                    .forEach(finding -> campaign.count(name + ": " + finding.id() + " " + finding.outcome()));
        }
        campaign.count(name + ": verdict " + evaluation.verdict().outcome());
        if (simulated.testRun().kind() != TestKind.LEAK) {
            for (String difference : Agreement.differences(simulated.testRun(), set, evaluation)) {
                campaign.complain("faulty %d %s: %s".formatted(seed, fault, difference));
            }
        }
        boolean isAssessed =
                evaluation.findings().stream().anyMatch(finding -> finding.id() == CriterionId.RECORDING_COMPLETE);
        if (!isAssessed) {
            campaign.complain("faulty %d: no finding on the recording".formatted(seed));
        }
    }
}
