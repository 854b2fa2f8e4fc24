package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.steam.ShortFormula;

class ScenariosTest {

    @Test
    void good_runs_really_hold_long_enough() {
        for (long seed = 0; seed < 200; seed++) {
            Scenario scenario = Scenarios.randomGood(seed);
            SimulatedRun run = Simulation.run(scenario, seed);
            CycleProgram program = (CycleProgram) run.scenario().program();
            PlateauTruth truth = run.truth().physicalPlateau(3);
            PlateauTruth indicated = run.truth().indicatedPlateau(3, Optional.of(ShortFormula.INSTANCE));
            String what = scenario + " " + truth + " " + indicated;
            assertThat(truth.holdingSeconds()).as(what).isGreaterThan(program.declaredHoldSeconds() + 12);
            assertThat(indicated.holdingSeconds()).as(what).isGreaterThan(program.declaredHoldSeconds() + 12);
            assertThat(truth.equilibrationSeconds().orElse(99.0)).as(what).isLessThan(12);
        }
    }
}
