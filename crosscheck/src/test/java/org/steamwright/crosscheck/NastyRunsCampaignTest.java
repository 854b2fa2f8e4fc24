package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestRun;

/** The engine and the slow evaluation on runs that no steriliser would make. */
class NastyRunsCampaignTest {

    @Test
    void second_evaluation_agrees_on_nasty_runs() {
        Campaign campaign = new Campaign("Second evaluation on nasty runs");
        campaign.forEachSeed(Campaign.runs(), seed -> {
            TestRun run = RandomRuns.run(seed);
            CriteriaSet set = RandomRuns.set(seed, run, deciding(seed));
            RunEvaluation engine;
            try {
                engine = Assessment.evaluate(run, set);
            } catch (RuntimeException e) {
                campaign.complain("seed " + seed + ": the engine throws " + e);
                return;
            }
            campaign.count("runs");
            campaign.count("verdict " + engine.verdict().outcome());
            engine.findings().stream()
                    .filter(finding -> finding.isDeciding())
                    .forEach(finding -> campaign.count(finding.id() + " " + finding.outcome()));
            for (String difference : Agreement.differences(run, set, engine)) {
                campaign.complain("seed " + seed + ": " + difference);
            }
        });
        campaign.print();
        assertThat(campaign.complaints()).isEmpty();
        assertThat(campaign.counted("verdict PASS")).as("runs that pass").isPositive();
    }

    /** Every criterion decides in some runs, but not all in every run: otherwise hardly one would pass. */
    static List<CriterionId> deciding(long seed) {
        if (seed % 3 == 0) {
            return InventedSets.ANSWERED;
        }
        List<CriterionId> few = new ArrayList<>();
        for (CriterionId id : InventedSets.ANSWERED) {
            if (Math.floorMod(seed * 31 + id.ordinal() * 17L, 5) < 2) {
                few.add(id);
            }
        }
        return few.isEmpty() ? InventedSets.ANSWERED : few;
    }
}
