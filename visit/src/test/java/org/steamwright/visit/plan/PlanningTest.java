package org.steamwright.visit.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.visit.plan.AfterChange.Extent;
import org.steamwright.visit.register.InventedRegister;
import org.steamwright.visit.register.InventedRegister.Machine;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

class PlanningTest {

    static final Source SOURCE =
            new Source("invented matrix", "", "", Source.Provenance.COMMON_PRACTICE, Source.Confidence.MEDIUM, "");

    static AfterChange matrix() {
        Map<StepKind, Integer> minutes = new EnumMap<>(StepKind.class);
        for (StepKind kind : StepKind.values()) {
            minutes.put(kind, kind.isForTheWait() ? 15 : 10);
        }
        AfterChange.Times times =
                new AfterChange.Times(minutes, Map.of("B", 30, "N", 15, "S", 25), 4, 10, 5, 1, 3, SOURCE);
        Set<StepKind> all = Set.of(
                StepKind.LEAK_AS_FOUND,
                StepKind.SERVICE,
                StepKind.INSTALLATION,
                StepKind.ELECTRICAL,
                StepKind.LEAK_WITHOUT_SENSORS);
        return new AfterChange(
                List.of(
                        new AfterChange.Row("yearly", "Yearly", all, Extent.VACUUM, Extent.ALL, Extent.ALL, "", SOURCE),
                        new AfterChange.Row(
                                "seal",
                                "Door seal",
                                Set.of(StepKind.LEAK_WITHOUT_SENSORS),
                                Extent.NONE,
                                Extent.ONE_RUN,
                                Extent.NONE,
                                "",
                                SOURCE),
                        new AfterChange.Row(
                                "new-load", "New load", Set.of(), Extent.NONE, Extent.NONE, Extent.NAMED, "", SOURCE),
                        new AfterChange.Row(
                                "valve",
                                "Safety valve",
                                Set.of(StepKind.LEAK_WITHOUT_SENSORS, StepKind.PRESSURE_PERSON),
                                Extent.NONE,
                                Extent.ONE_RUN,
                                Extent.NONE,
                                "the validator re-sets no safety valve",
                                SOURCE)),
                times);
    }

    static CriteriaSet set(int runs) {
        return new CriteriaSet(
                "invented",
                "1",
                "0".repeat(64),
                "Invented",
                IapwsR797.INSTANCE,
                SOURCE,
                false,
                List.of(),
                Map.of(),
                Optional.empty(),
                runs);
    }

    /** The same, with the leak rate deciding, as in every set that comes with the program. */
    static CriteriaSet setWithLeakRate() {
        return new CriteriaSet(
                "invented",
                "1",
                "0".repeat(64),
                "Invented",
                IapwsR797.INSTANCE,
                SOURCE,
                false,
                List.of(),
                Map.of(
                        CriterionId.LEAK_RATE,
                        new Requirement(
                                CriterionId.LEAK_RATE, Use.DECIDES, Optional.empty(), DecisionRule.SIMPLE, SOURCE)),
                Optional.empty(),
                3);
    }

    static VisitPlan plan(SterilizerRecord machine, List<String> named, String... reasons) {
        return plan(set(3), machine, named, reasons);
    }

    static VisitPlan plan(CriteriaSet set, SterilizerRecord machine, List<String> named, String... reasons) {
        Register register = InventedRegister.register(machine);
        return Planning.of(matrix(), register, machine, set, List.of(reasons), named);
    }

    static List<String> runs(VisitPlan plan) {
        List<String> runs = new ArrayList<>();
        for (VisitPlan.Step step : plan.steps()) {
            if (!step.cycle().isBlank()) {
                runs.add(step.kind().word() + " " + step.cycle() + " " + step.run() + "/" + step.of());
            }
        }
        return runs;
    }

    @Test
    void a_yearly_visit_covers_each_cycle_in_use_however_seldom_and_no_other() {
        VisitPlan plan = plan(new Machine().build(), List.of(), "yearly");
        assertThat(runs(plan))
                .containsExactly(
                        "penetration 134 wrapped 1/1",
                        "penetration 121 rubber 1/1",
                        "empty-chamber 134 wrapped 1/1",
                        "empty-chamber 121 rubber 1/1",
                        "loaded 134 wrapped 1/3",
                        "loaded 134 wrapped 2/3",
                        "loaded 134 wrapped 3/3",
                        "loaded 121 rubber 1/3",
                        "loaded 121 rubber 2/3",
                        "loaded 121 rubber 3/3");
    }

    @Test
    void a_seal_asks_for_a_leak_test_and_one_run_of_the_hardest_cycle() {
        VisitPlan plan = plan(
                new Machine()
                        .running(InventedRegister.OPEN, InventedRegister.RUBBER, InventedRegister.WRAPPED)
                        .build(),
                List.of(),
                "seal");
        assertThat(runs(plan)).containsExactly("empty-chamber 134 wrapped 1/1");
        assertThat(plan.steps())
                .extracting(VisitPlan.Step::kind)
                .contains(StepKind.LEAK_WITHOUT_SENSORS, StepKind.LEAK_WITH_SENSORS, StepKind.LEAK_AFTER)
                .doesNotContain(StepKind.LEAK_AS_FOUND, StepKind.SERVICE, StepKind.LOADED);
    }

    @Test
    void several_reasons_ask_for_each_test_once() {
        VisitPlan both = plan(new Machine().build(), List.of(), "yearly", "seal", "yearly");
        assertThat(runs(both)).isEqualTo(runs(plan(new Machine().build(), List.of(), "yearly")));
        assertThat(both.reasons()).extracting(AfterChange.Row::word).containsExactly("yearly", "seal");
        assertThat(runs(plan(new Machine().build(), List.of("121 rubber"), "seal", "new-load")))
                .containsExactly(
                        "empty-chamber 134 wrapped 1/1",
                        "empty-chamber 121 rubber 1/1",
                        "loaded 121 rubber 1/3",
                        "loaded 121 rubber 2/3",
                        "loaded 121 rubber 3/3");
    }

    @Test
    void a_new_cycle_is_planned_by_its_name_before_it_is_in_use() {
        assertThat(runs(plan(new Machine().build(), List.of("134 quick"), "new-load")))
                .containsExactly(
                        "empty-chamber 134 quick 1/1",
                        "loaded 134 quick 1/3",
                        "loaded 134 quick 2/3",
                        "loaded 134 quick 3/3");
    }

    @Test
    void a_new_load_takes_an_air_leakage_test_and_an_empty_run_with_it_and_the_plan_says_whose_rule_that_is() {
        SterilizerRecord machine = new Machine().build();
        VisitPlan plan = plan(setWithLeakRate(), machine, List.of("121 rubber"), "new-load");
        assertThat(runs(plan)).startsWith("empty-chamber 121 rubber 1/1", "loaded 121 rubber 1/3");
        assertThat(plan.steps()).extracting(VisitPlan.Step::kind).contains(StepKind.LEAK_WITHOUT_SENSORS);
        assertThat(plan.additions())
                .containsExactly(
                        new VisitPlan.Addition(StepKind.LEAK_WITHOUT_SENSORS, "", BesideLoads.SOURCE),
                        new VisitPlan.Addition(StepKind.EMPTY_CHAMBER, "121 rubber", BesideLoads.SOURCE));
        assertThat(plan.additions())
                .extracting(added -> added.source().provenance())
                .containsOnly(Source.Provenance.PROGRAM_RULE);
        assertThat(plan.notes()).contains(BesideLoads.WHY);
        assertThat(plan.minutes())
                .as(
                        "the time on site holds the added tests: 10 for each leak test, 10 + 30 + what the cycle declares for the run")
                .isEqualTo(plan.steps().stream()
                        .filter(step -> !step.isMeanwhile())
                        .mapToInt(VisitPlan.Step::minutes)
                        .sum());
        assertThat(plan.steps())
                .filteredOn(step -> step.kind() == StepKind.EMPTY_CHAMBER)
                .extracting(VisitPlan.Step::minutes)
                .containsExactly(59);
    }

    @Test
    void nothing_is_added_to_reasons_that_ask_for_all_of_it() {
        VisitPlan yearly = plan(setWithLeakRate(), new Machine().build(), List.of(), "yearly");
        assertThat(yearly.additions()).isEmpty();
        assertThat(yearly.notes()).doesNotContain(BesideLoads.WHY).noneMatch(note -> note.startsWith("No loaded run"));
    }

    @Test
    void a_machine_without_vacuum_takes_no_leak_test_with_a_new_load() {
        VisitPlan plan = plan(
                setWithLeakRate(), new Machine().running(InventedRegister.OPEN).build(), List.of(), "new-load");
        assertThat(plan.additions()).extracting(VisitPlan.Addition::kind).containsExactly(StepKind.EMPTY_CHAMBER);
        assertThat(plan.notes()).noneMatch(note -> note.contains("a leak test does not apply"));
    }

    @Test
    void a_plan_without_loaded_runs_says_that_it_qualifies_nothing() {
        assertThat(plan(new Machine().build(), List.of(), "seal").notes())
                .anyMatch(note -> note.startsWith("No loaded run is planned, so this visit qualifies no cycle."));
    }

    @Test
    void a_machine_without_vacuum_has_no_leak_test_and_no_penetration_test() {
        VisitPlan plan = plan(new Machine().running(InventedRegister.OPEN).build(), List.of(), "yearly");
        assertThat(plan.steps())
                .extracting(VisitPlan.Step::kind)
                .doesNotContain(StepKind.LEAK_AS_FOUND, StepKind.LEAK_WITHOUT_SENSORS, StepKind.PENETRATION);
        assertThat(plan.notes())
                .contains("No cycle in use draws a vacuum: a leak test does not apply.")
                .anyMatch(note -> note.contains("134 open is of type N: for unwrapped solid items only"));
    }

    @Test
    void the_machine_does_one_thing_after_the_other_and_the_wait_is_used() {
        VisitPlan plan = plan(new Machine().build(), List.of(), "yearly");
        List<VisitPlan.Step> busy =
                plan.steps().stream().filter(step -> !step.isMeanwhile()).toList();
        for (int i = 1; i < busy.size(); i++) {
            assertThat(busy.get(i).begins()).isEqualTo(busy.get(i - 1).ends());
        }
        List<VisitPlan.Step> meanwhile =
                plan.steps().stream().filter(VisitPlan.Step::isMeanwhile).toList();
        assertThat(meanwhile).isNotEmpty();
        for (VisitPlan.Step step : meanwhile) {
            assertThat(step.kind().isForTheWait())
                    .as("no hands at the machine while it runs")
                    .isTrue();
            assertThat(busy)
                    .as("inside one run, with the technician there at its ends")
                    .anyMatch(run ->
                            run.kind().isCycle() && run.begins() + 5 <= step.begins() && step.ends() <= run.ends() - 5);
        }
        int inARow = plan.steps().stream().mapToInt(VisitPlan.Step::minutes).sum();
        assertThat(plan.minutes())
                .isLessThan(inARow)
                .isEqualTo(busy.get(busy.size() - 1).ends());
        int loadDescribed = plan.steps().stream()
                .filter(step -> step.kind() == StepKind.DESCRIBE_LOAD)
                .mapToInt(VisitPlan.Step::ends)
                .sum();
        assertThat(plan.steps().stream().filter(step -> step.kind() == StepKind.LOADED))
                .allMatch(step -> step.begins() >= loadDescribed);
        assertThat(plan.steps().get(plan.steps().size() - 1).kind()).isEqualTo(StepKind.HANDOVER);
    }

    @Test
    void says_what_to_take_along() {
        VisitPlan plan = plan(new Machine().build(), List.of(), "yearly");
        assertThat(plan.needs())
                .extracting(need -> need.kind().word() + " " + need.count())
                .containsExactly(
                        "temperature 0",
                        "pressure 1",
                        "electrical 1",
                        "penetration-device 2",
                        "biological 19",
                        "chemical 6",
                        "clinic 0",
                        "part 1");
        assertThat(plan(new Machine().build(), List.of(), "valve").needs())
                .extracting(need -> need.kind().word())
                .contains("person");
    }

    @Test
    void notes_what_a_technician_would_want_to_know() {
        SterilizerRecord machine = new Machine().holding(75).loaner().build();
        SterilizerRecord twin = new Machine().named("ST-02", "SN-0471").build();
        VisitPlan plan = Planning.of(
                matrix(), InventedRegister.register(machine, twin), machine, set(3), List.of("valve"), List.of());
        assertThat(plan.notes())
                .anyMatch(note -> note.startsWith("The chamber has 60 litres or more"))
                .anyMatch(note -> note.startsWith("Easily taken for ST-02 in the same room"))
                .anyMatch(note -> note.startsWith("A loaner"))
                .contains("Safety valve: the validator re-sets no safety valve")
                .anyMatch(note -> note.contains("has no limits for the temperature of 134 wrapped"));
    }

    @Test
    void says_which_reasons_and_cycles_there_are() {
        SterilizerRecord machine = new Machine().build();
        assertThatIllegalArgumentException()
                .isThrownBy(() -> plan(machine, List.of(), "anual"))
                .withMessage("no reason is called anual; there are yearly, seal, new-load, valve");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> plan(machine, List.of("135"), "new-load"))
                .withMessage("steriliser ST-01 has no cycle called 135; it has 134 wrapped, 121 rubber, 134 quick");
        assertThatIllegalArgumentException().isThrownBy(() -> plan(machine, List.of()));
    }

    @Test
    void says_that_no_cycle_is_in_use() {
        assertThat(plan(new Machine().running(InventedRegister.UNUSED).build(), List.of(), "yearly")
                        .notes())
                .anyMatch(note -> note.startsWith("The register names no cycle in use"));
    }
}
