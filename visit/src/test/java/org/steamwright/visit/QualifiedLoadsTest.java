package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.INVALID;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.Invented.LOAD;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;

/** With which loads a cycle passed, run by run. */
class QualifiedLoadsTest {

    private static final String ITS_CYCLE = "Wrapped 134";
    private static final ReferenceLoad HEAVY = Invented.load("five trays", "hollow A", "single pouch");

    private final Invented invented = new Invented().leak("without sensors", PASS);

    private QualifiedLoads loads() {
        return QualifiedLoads.of(invented.assessed(), "A", ITS_CYCLE);
    }

    private List<String> descriptions() {
        return loads().loads().stream().map(ReferenceLoad::description).toList();
    }

    private void loaded(RunOutcome outcome, UnaryOperator<Invented.Draft> change) {
        invented.run(TestKind.LOADED, B134, outcome, change);
    }

    private static ReferenceLoad weighing(Double kilogram, Integer trays) {
        return new ReferenceLoad(
                        LOAD.description(),
                        LOAD.items(),
                        LOAD.challengePack(),
                        LOAD.challengePlace(),
                        LOAD.packaging(),
                        Optional.ofNullable(kilogram),
                        LOAD.agreedBy(),
                        LOAD.photos())
                .withTrays(trays == null ? OptionalInt.empty() : OptionalInt.of(trays));
    }

    @Test
    void each_load_that_passed_stands_once_in_the_order_of_the_runs() {
        loaded(PASS, run -> run.load(HEAVY));
        invented.loaded(PASS, PASS);
        loaded(PASS, run -> run.load(HEAVY));
        assertThat(descriptions()).containsExactly(HEAVY.description(), LOAD.description());
    }

    @Test
    void a_failed_run_of_another_load_makes_every_load_before_it_worthless() {
        loaded(PASS, run -> run.load(HEAVY).drying(500));
        invented.loaded(FAIL);
        assertThat(descriptions()).isEmpty();
        assertThat(loads().leastDryingSeconds()).as("its drying too").isEmpty();
        invented.loaded(PASS);
        assertThat(descriptions()).containsExactly(LOAD.description());
    }

    @Test
    void a_run_that_proves_nothing_shows_no_load_and_takes_none_away() {
        loaded(PASS, run -> run.load(HEAVY));
        invented.loaded(INVALID);
        loaded(PASS, run -> run.stage("as found"));
        loaded(FAIL, run -> run.stage("as found"));
        loaded(PASS, Invented.Draft::noLoad);
        assertThat(descriptions()).containsExactly(HEAVY.description());
    }

    @Test
    void only_loaded_runs_of_the_cycle_and_the_steriliser_count() {
        CycleDefinition other = CycleDefinition.of("Wrapped 121", CycleType.B, 121);
        invented.run(TestKind.LOADED, other, PASS, run -> run.load(HEAVY).drying(10));
        invented.run(TestKind.EMPTY_CHAMBER, B134, PASS, run -> run.load(HEAVY).drying(10));
        loaded(PASS, run -> run.drying(600));
        invented.run(TestKind.LOADED, other, FAIL);
        invented.run(TestKind.EMPTY_CHAMBER, B134, FAIL);
        assertThat(descriptions()).containsExactly(LOAD.description());
        assertThat(loads().leastDryingSeconds()).contains(600.0);
        assertThat(QualifiedLoads.of(invented.assessed(), "A", "wrapped-134").loads())
                .as("as somebody else writes it")
                .hasSize(1);
        invented.isWithAnother = true;
        assertThat(QualifiedLoads.of(invented.assessed(), "B", ITS_CYCLE).loads())
                .isEmpty();
    }

    @Test
    void of_runs_with_the_same_load_the_lightest_counts_in_whatever_order() {
        for (List<Double> masses : List.of(List.of(3.2, 3.0, 3.4), List.of(3.0, 3.2, 3.4), List.of(3.4, 3.2, 3.0))) {
            Invented those = new Invented().leak("without sensors", PASS);
            masses.forEach(mass -> those.run(TestKind.LOADED, B134, PASS, run -> run.load(weighing(mass, null))));
            assertThat(QualifiedLoads.of(those.assessed(), "A", ITS_CYCLE).loads())
                    .as("%s", masses)
                    .singleElement()
                    .satisfies(load -> assertThat(load.totalKilogram()).contains(3.0));
        }
    }

    @Test
    void of_equally_heavy_ones_the_first_stands_with_its_own_record() {
        ReferenceLoad first = weighing(3.2, null);
        ReferenceLoad second = new ReferenceLoad(
                first.description(),
                first.items(),
                first.challengePack(),
                first.challengePlace(),
                first.packaging(),
                first.massKilogram(),
                "somebody else",
                first.photos());
        loaded(PASS, run -> run.load(first));
        loaded(PASS, run -> run.load(second));
        assertThat(loads().loads()).containsExactly(first);
    }

    @Test
    void a_run_that_was_not_weighed_leaves_the_mass_of_the_others() {
        loaded(PASS, run -> run.load(weighing(null, null)));
        loaded(PASS, run -> run.load(weighing(3.2, null)));
        loaded(PASS, run -> run.load(weighing(null, null)));
        assertThat(loads().loads())
                .singleElement()
                .satisfies(load -> assertThat(load.totalKilogram()).contains(3.2));
    }

    @Test
    void of_runs_with_the_same_load_the_fewest_trays_count_whichever_was_lighter() {
        loaded(PASS, run -> run.load(weighing(3.0, 4)));
        loaded(PASS, run -> run.load(weighing(3.2, 3)));
        loaded(PASS, run -> run.load(weighing(3.4, null)));
        assertThat(loads().loads()).singleElement().satisfies(load -> {
            assertThat(load.trays()).hasValue(3);
            assertThat(load.totalKilogram()).contains(3.0);
        });
    }

    @Test
    void a_load_above_the_makers_maximum_is_left_out_and_so_is_its_drying() {
        invented.job.loads.add(
                new LoadFrame("A", Optional.of(3.0), "instructions (invented)", List.of(), Optional.empty(), "", ""));
        loaded(PASS, run -> run.load(weighing(3.0, null)).drying(700));
        assertThat(loads().loads()).as("the maximum is itself good").hasSize(1);
        invented.loaded(FAIL);
        loaded(PASS, run -> run.load(weighing(3.1, null)).drying(600));
        assertThat(loads().loads()).isEmpty();
        assertThat(loads().leastDryingSeconds()).isEmpty();
    }

    @Test
    void the_shortest_drying_of_the_runs_that_passed_is_the_least() {
        loaded(PASS, run -> run.drying(700));
        loaded(PASS, run -> run.drying(650));
        loaded(PASS, run -> run.load(HEAVY).drying(800));
        loaded(INVALID, run -> run.drying(100));
        assertThat(loads().leastDryingSeconds()).contains(650.0);
    }

    @Test
    void a_load_behind_a_feed_through_that_leaked_shows_nothing() {
        Invented those = new Invented().leak("without sensors", PASS).leak("with sensors", FAIL);
        those.run(TestKind.LOADED, B134, PASS, run -> run.load(HEAVY).drying(100));
        those.leak("with sensors", PASS).loaded(PASS, PASS, PASS);
        QualifiedLoads shown = QualifiedLoads.of(those.assessed(), "A", ITS_CYCLE);
        assertThat(shown.loads()).extracting(ReferenceLoad::description).containsExactly(LOAD.description());
        assertThat(shown.leastDryingSeconds()).isEmpty();
    }

    @Test
    void an_awaited_run_may_still_fail_so_nothing_before_it_counts() {
        Invented those = new Invented()
                .requiresIndicators()
                .leak("without sensors", PASS)
                .indicated(HEAVY, "clear", run -> run);
        assertThat(QualifiedLoads.of(those.assessed(), "A", ITS_CYCLE).loads()).hasSize(1);
        those.indicated(LOAD, "awaited", run -> run);
        assertThat(QualifiedLoads.of(those.assessed(), "A", ITS_CYCLE).loads()).isEmpty();
    }
}
