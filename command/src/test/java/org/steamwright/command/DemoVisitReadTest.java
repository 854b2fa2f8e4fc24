package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;

/** What the simulator writes, the intake reads and the assessment judges as the demo claims. */
class DemoVisitReadTest {
    private static final int FAILING_RUN = 13;

    @Test
    void the_demo_is_read_in_full_and_fails_where_it_says(@TempDir Path folder)
            throws IOException, VisitFolderException {
        DemoVisit.write(folder);
        Visit visit = VisitFolder.read(folder, new Presets());
        assertThat(visit.remarks()).isEmpty();
        assertThat(visit.isSimulated()).isTrue();
        assertThat(visit.sterilizers()).hasSize(2);
        assertThat(visit.runs()).hasSize(14);
        assertThat(visit.checklists()).hasSize(12);
        for (VisitRun run : visit.runs()) {
            RunEvaluation evaluation = Assessment.evaluate(run.test(), visit.criteriaSet());
            assertThat(evaluation.verdict().isPass())
                    .as("run %d: %s", run.number(), evaluation.verdict().cause())
                    .isEqualTo(run.number() != FAILING_RUN);
            if (run.number() == FAILING_RUN) {
                assertThat(evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME).outcome())
                        .isEqualTo(Outcome.FAIL);
                assertThat(evaluation.finding(CriterionId.AIR_REMOVAL_PULSES).outcome())
                        .isEqualTo(Outcome.FAIL);
                assertThat(evaluation.hints()).isNotEmpty();
            }
        }
    }
}
