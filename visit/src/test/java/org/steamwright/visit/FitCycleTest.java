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
import java.util.Set;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.Shown;
import org.steamwright.visit.validity.ValidatedState;

class FitCycleTest {

    private static final String ITS_CYCLE = "Wrapped 134";
    private static final ReferenceLoad HEAVY = Invented.load("five trays", "hollow A", "single pouch");

    final Invented invented = new Invented();

    private static Invented complete() {
        return new Invented().leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);
    }

    private static FitCycle only(Invented those) {
        List<FitCycle> cycles = FitCycle.of(those.assessed(), "A");
        assertThat(cycles).hasSize(1);
        return cycles.get(0);
    }

    private static List<String> loads(Invented those) {
        return ValidatedState.of(those.assessed()).get(0).cycles().get(0).loads().stream()
                .map(ReferenceLoad::description)
                .toList();
    }

    @Test
    void what_was_not_shown_is_not_fit_whatever_was_ordered() {
        assertThat(only(complete()).isFit()).isTrue();
        Invented withoutLeak = new Invented().empty(PASS).loaded(PASS, PASS, PASS);
        assertThat(only(withoutLeak).missing())
                .containsExactly("Air leakage: not assessed. No air leakage test was made.");
        withoutLeak.job.scope = new Scope(Set.of(Kind.LEAK), List.of(), "the clinic tests daily");
        assertThat(only(withoutLeak).isFit()).isFalse();
        Invented withoutEmpty = new Invented().leak("without sensors", PASS).loaded(PASS, PASS, PASS);
        withoutEmpty.job.scope = new Scope(Set.of(Kind.OPERATIONAL), List.of(), "loaded runs were ordered");
        assertThat(only(withoutEmpty).against())
                .containsExactly("Operational qualification (OQ): not assessed. No empty-chamber run was made.");
    }

    @ParameterizedTest
    @EnumSource
    void a_leak_test_may_be_missing_only_where_the_set_lets_no_leak_rate_decide(Use use) {
        Invented withoutLeak = new Invented().empty(PASS).loaded(PASS, PASS, PASS);
        withoutLeak.requires(CriterionId.LEAK_RATE, use, Optional.empty());
        assertThat(only(withoutLeak).isFit()).isEqualTo(use != Use.DECIDES);
        assertThat(withoutLeak.assessed().standing())
                .isEqualTo(use == Use.DECIDES ? Standing.INCOMPLETE : Standing.PASS);
        assertThat(only(withoutLeak.leak("without sensors", FAIL)).isFit())
                .as("what failed counts in any set")
                .isFalse();
    }

    @Test
    void a_cycle_that_carried_no_load_says_so_and_nothing_more() {
        assertThat(only(invented).against())
                .containsExactly("Performance qualification (PQ): not assessed. No loaded run was made.");
        assertThat(only(invented).found()).isEmpty();
    }

    @ParameterizedTest(name = "{0} ‘{1}’: {2}")
    @CsvSource({
        "SAFETY, failed, false",
        "SAFETY, 'Failed: does not open', false",
        "SAFETY, not passed, false",
        "SAFETY, bad, false",
        "SAFETY, not-done, false",
        "SAFETY, not possible today, false",
        "SAFETY, open, false",
        "SAFETY, opened and closed, false",
        "SAFETY, failure-free, false",
        "SAFETY, not-applicable, false",
        "SAFETY, done, false",
        "SAFETY, replaced, false",
        "SAFETY, good, true",
        "SAFETY, 'good, but it drips', false",
        "SAFETY, goood, false",
        "SAFETY, nicht in Ordnung, false",
        "SAFETY, Mangel, false",
        "SAFETY, défectueux, false",
        "SAFETY, défaut, false",
        "SAFETY, in Ordnung, true",
        "SAFETY, conforme, true",
        "INSTALLATION, failed, false",
        "VERIFICATION, failed, false",
        "STEAM_PENETRATION, fail, false",
        "STEAM_PENETRATION, 'uniform change, passed', true",
        "STEAM_PENETRATION, 'uniform change, some spots', false",
        "MAINTENANCE, failed, true",
        "MAINTENANCE, as ever, true",
        "AS_FOUND, failed, true",
    })
    void a_check_that_decides_about_use_is_good_only_where_that_was_chosen_or_is_known(
            Checklist.Section section, String result, boolean isFit) {
        Invented those = complete();
        those.checklists.add(Invented.checklist(section, "a check", result));
        assertThat(only(those).isFit()).as(only(those).against().toString()).isEqualTo(isFit);
        assertThat(Shown.of(those.assessed(), "A").contains(Duty.VALIDATION)).isEqualTo(isFit);
    }

    @Test
    void a_check_that_nobody_answered_is_open() {
        Invented those = complete();
        those.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "safety valve", " "));
        assertThat(only(those).missing()).containsExactly("Electrical and pressure safety: not shown: safety valve.");
        assertThat(those.assessed().standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(those.assessed().openPoints())
                .contains("Steriliser EX-0001, Electrical and pressure safety: safety valve – not answered.");
    }

    private static PenetrationTest penetration(String cycle, PenetrationTest.Result result) {
        return penetration(cycle, result, false);
    }

    private static PenetrationTest penetration(String cycle, PenetrationTest.Result result, boolean isAsFound) {
        return new PenetrationTest(
                "A",
                cycle,
                OptionalInt.empty(),
                PenetrationTest.Kind.HOLLOW,
                "a long lumen",
                "L-1",
                Optional.empty(),
                result,
                "Alex Example",
                isAsFound,
                "");
    }

    @Test
    void a_penetration_test_in_a_program_of_its_own_concerns_every_cycle() {
        Invented those = complete();
        those.cycles = List.of(B134, CycleDefinition.of("Penetration test", CycleType.B, 134));
        those.job.penetration.add(penetration("Penetration test", PenetrationTest.Result.FAIL));
        assertThat(those.assessed().qualifiedCycles()).isEmpty();
        Invented other = complete();
        other.cycles = List.of(B134, CycleDefinition.of("Wrapped 121", CycleType.B, 121));
        CycleDefinition wrapped121 = CycleDefinition.of("Wrapped 121", CycleType.B, 121);
        other.run(TestKind.LOADED, wrapped121, PASS);
        other.job.penetration.add(penetration("wrapped-121", PenetrationTest.Result.FAIL));
        assertThat(other.assessed().qualifiedCycles())
                .as("a test in a cycle for loads concerns that one")
                .containsExactly("EX-0001: " + ITS_CYCLE);
    }

    @Test
    void a_penetration_test_that_passed_is_no_hole_and_one_as_found_only_is() {
        Invented those = complete();
        those.job.penetration.add(penetration(ITS_CYCLE, PenetrationTest.Result.PASS));
        assertThat(only(those).isFit()).isTrue();
        Invented before = complete();
        before.job.penetration.add(penetration(ITS_CYCLE, PenetrationTest.Result.PASS, true));
        assertThat(only(before).isFit()).isFalse();
        Invented failed = complete();
        failed.job.penetration.add(penetration(ITS_CYCLE, PenetrationTest.Result.FAIL));
        assertThat(only(failed).missing()).as("found, and not missing").isEmpty();
        assertThat(only(failed).found()).hasSize(1);
    }

    @Test
    void of_two_sterilisers_each_has_its_own_cycles_and_checks() {
        Invented both = complete();
        both.isWithAnother = true;
        both.checklists.add(Invented.checklist("B", Checklist.Section.SAFETY, "safety valve", "not done"));
        both.checklists.add(Invented.checklist("B", Checklist.Section.SAFETY, "door lock", "failed"));
        AssessedVisit assessed = both.assessed();
        assertThat(FitCycle.of(assessed, "A")).singleElement().matches(FitCycle::isFit);
        assertThat(FitCycle.of(assessed, "B")).singleElement().matches(one -> !one.isFit());
        assertThat(FitCycle.found(assessed, "A", "a cycle that it does not know"))
                .isEmpty();
        assertThat(FitCycle.found(assessed, "B", "a cycle that it does not know"))
                .containsExactly("Electrical and pressure safety: not good: door lock.");
        assertThat(Shown.of(assessed, "A")).contains(Duty.VALIDATION);
        assertThat(Shown.of(assessed, "B")).isEmpty();
        Invented leaking = new Invented().leak("without sensors", FAIL);
        leaking.isWithAnother = true;
        assertThat(FitCycle.found(leaking.assessed(), "B", "a cycle that it does not know"))
                .as("the leak of another steriliser")
                .isEmpty();
    }

    private static Invented awaiting(String stage, RunOutcome leak) {
        return new Invented().requiresIndicators().leak(stage, leak).empty(PASS).indicated(LOAD, "awaited");
    }

    @Test
    void a_cycle_is_awaited_only_where_nothing_but_answers_is_missing() {
        assertThat(only(awaiting("without sensors", PASS)).isAwaited()).isTrue();
        assertThat(only(awaiting("without sensors", FAIL)).isAwaited()).isFalse();
        assertThat(only(awaiting("as found", PASS)).isAwaited())
                .as("no leak test as left")
                .isFalse();
        Invented unsafe = awaiting("without sensors", PASS);
        unsafe.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "door lock", "failed"));
        assertThat(only(unsafe).isAwaited()).isFalse();
        Invented open = awaiting("without sensors", PASS);
        open.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "door lock", "not done"));
        assertThat(only(open).isAwaited()).isFalse();
        assertThat(only(complete().loaded(FAIL)).isAwaited()).isFalse();
    }

    @Test
    void a_failed_run_makes_the_loads_before_it_worthless() {
        Invented those = new Invented().leak("without sensors", PASS).empty(PASS);
        for (int i = 0; i < 3; i++) {
            those.run(TestKind.LOADED, B134, PASS, run -> run.load(HEAVY));
        }
        assertThat(loads(those)).containsExactly(HEAVY.description());
        assertThat(loads(those.loaded(FAIL, PASS, PASS, PASS))).containsExactly(LOAD.description());
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        "SAFETY, good, ELECTRICAL_TEST",
        "SAFETY, failed, ",
        "SAFETY, not done, ",
        "SAFETY, '', ",
        "MAINTENANCE, done, SERVICE",
        "MAINTENANCE, 'failed, to be repeated', ",
        "MAINTENANCE, as ever, ",
        "SAFETY, erledigt, ",
        "SAFETY, bestanden, ELECTRICAL_TEST",
    })
    void a_list_that_was_worked_off_and_is_good_is_a_duty_done(Checklist.Section section, String result, Duty duty) {
        Invented those = new Invented();
        those.checklists.clear();
        assertThat(Shown.of(those.assessed(), "A")).as("no list, no duty").isEmpty();
        those.checklists.add(Invented.checklist(section, "a check", result));
        assertThat(Shown.of(those.assessed(), "A")).isEqualTo(duty == null ? Set.of() : Set.of(duty));
        those.isWithAnother = true;
        assertThat(Shown.of(those.assessed(), "B")).isEmpty();
    }

    @ParameterizedTest(name = "{0} {1} {2}: {3}")
    @CsvSource({
        "SAFETY, DONE, 0.1, ELECTRICAL_TEST",
        "SAFETY, DONE, 5, ",
        "SAFETY, DONE, , ",
        "SAFETY, NOT_APPLICABLE, , ",
        "MAINTENANCE, DONE, 0.1, SERVICE",
        "MAINTENANCE, DONE, 5, ",
    })
    void a_list_of_tasks_counts_alike(TaskList.Part part, TaskEntry.Outcome outcome, Double reading, Duty duty) {
        Invented those = new Invented();
        those.checklists.clear();
        those.isWithAnother = true;
        those.job.tasks.add(WholeTest.earth(part, outcome, Optional.ofNullable(reading)));
        assertThat(Shown.of(those.assessed(), "A")).isEqualTo(duty == null ? Set.of() : Set.of(duty));
        assertThat(Shown.of(those.assessed(), "B")).isEmpty();
        if (part == TaskList.Part.SAFETY && outcome == TaskEntry.Outcome.DONE && reading == null) {
            Invented loaded = complete();
            loaded.job.tasks.addAll(those.job.tasks);
            assertThat(only(loaded).missing())
                    .containsExactly("Electrical and pressure safety: not shown: Protective earth.");
        }
    }

    @Test
    void a_visit_that_was_asked_for_no_loads_passes_as_a_whole_and_validates_nothing() {
        Invented those = new Invented().leak("without sensors", PASS).empty(PASS);
        those.job.scope = new Scope(Set.of(Kind.PERFORMANCE), List.of(), "a new door seal");
        assertThat(Whole.of(those.assessed(), "A")).isEqualTo(Standing.PASS);
        assertThat(Shown.of(those.assessed(), "A")).doesNotContain(Duty.VALIDATION);
    }

    @ParameterizedTest
    @CsvSource({"NOT_APPLICABLE, true", "NOT_POSSIBLE, false"})
    void tasks_and_words_of_one_part_count_together(TaskEntry.Outcome outcome, boolean isDone) {
        Invented those = new Invented();
        those.checklists.clear();
        those.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "door lock", "good"));
        those.job.tasks.add(WholeTest.earth(TaskList.Part.SAFETY, outcome, Optional.empty()));
        assertThat(Shown.of(those.assessed(), "A").contains(Duty.ELECTRICAL_TEST))
                .isEqualTo(isDone);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"'', false", "-, false", "no, false", "good, false", "abc, true", "'wired in, no plug', true"})
    void a_line_that_does_not_apply_counts_with_a_reason_only(String remark, boolean isDone) {
        Invented those = new Invented();
        those.checklists.clear();
        those.checklists.add(new Checklist(
                Checklist.Section.SAFETY,
                "A",
                List.of(
                        new CheckItem("door lock", "good", "", "", "", "", ""),
                        new CheckItem("plug", "not-applicable", remark, "", "", "", ""))));
        assertThat(Shown.of(those.assessed(), "A").contains(Duty.ELECTRICAL_TEST))
                .isEqualTo(isDone);
    }

    @Test
    void an_unclear_penetration_test_leaves_a_hole_in_its_cycle() {
        Invented those = complete();
        those.job.penetration.add(penetration(ITS_CYCLE, PenetrationTest.Result.UNCLEAR));
        assertThat(only(those).missing())
                .containsExactly(
                        "Steam penetration test (hollow): void. Proves nothing: its reading is unclear. Repeat it with a fresh device.");
    }

    @Test
    void what_a_later_visit_found_counts_for_cycles_that_it_did_not_test_and_what_it_left_out_does_not() {
        assertThat(FitCycle.found(new Invented().leak("without sensors", PASS).assessed(), "A", ITS_CYCLE))
                .isEmpty();
        Invented open = new Invented().leak("without sensors", PASS).leak("with sensors", PASS);
        assertThat(FitCycle.found(open.assessed(), "A", ITS_CYCLE))
                .as("nobody knows whether the port is tight again")
                .hasSize(1);
        assertThat(FitCycle.found(open.assessed(), "A", "a cycle that it does not know"))
                .hasSize(1);
        Invented bad = new Invented();
        bad.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "safety valve", "failed"));
        assertThat(FitCycle.found(bad.assessed(), "A", "a cycle that it does not know"))
                .containsExactly("Electrical and pressure safety: not good: safety valve.");
        Invented notDone = new Invented();
        notDone.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "safety valve", "not done"));
        assertThat(FitCycle.found(notDone.assessed(), "A", ITS_CYCLE)).isEmpty();
        Invented unclear = new Invented();
        unclear.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "safety valve", "hinüber"));
        assertThat(FitCycle.found(unclear.assessed(), "A", "a cycle that it does not know"))
                .as("somebody looked at it, and nobody knows what was seen")
                .containsExactly("Electrical and pressure safety: not shown: safety valve.");
        unclear.isWithAnother = true;
        assertThat(FitCycle.found(unclear.assessed(), "B", ITS_CYCLE)).isEmpty();
        assertThat(FitCycle.found(new Invented().empty(FAIL).assessed(), "A", ITS_CYCLE))
                .hasSize(1);
        assertThat(FitCycle.found(new Invented().empty(FAIL).assessed(), "A", "another"))
                .isEmpty();
    }

    @Test
    void a_load_that_ran_while_the_feed_through_leaked_is_not_covered() {
        Invented those = new Invented().leak("without sensors", PASS).leak("with sensors", FAIL);
        those.run(TestKind.LOADED, B134, PASS, run -> run.load(HEAVY));
        those.leak("with sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS).leak("after", PASS);
        assertThat(only(those).isFit()).isTrue();
        assertThat(loads(those)).containsExactly(LOAD.description());
    }

    @Test
    void a_load_whose_last_run_is_awaited_is_not_covered_though_another_is() {
        Invented those = new Invented()
                .requiresIndicators()
                .leak("without sensors", PASS)
                .empty(PASS)
                .indicated(HEAVY, "clear")
                .indicated(HEAVY, "awaited", run -> run)
                .indicated(LOAD, "clear");
        assertThat(only(those).isFit()).as(only(those).against().toString()).isTrue();
        assertThat(loads(those)).containsExactly(LOAD.description());
    }

    record Row(Kind kind, RunOutcome outcome, String stage) {}

    /** Over any runs: the answer, the state and the due list say the same, and none is better than its parts. */
    @Property(tries = 400)
    void all_that_speak_of_a_cycle_agree(@ForAll("rows") List<Row> rows, @ForAll("checks") List<String> checks) {
        Invented those = new Invented();
        for (Row row : rows) {
            switch (row.kind()) {
                case LEAK -> those.leak(row.stage(), row.outcome());
                case OPERATIONAL -> those.empty(row.outcome());
                case PERFORMANCE -> those.loaded(row.outcome());
            }
        }
        checks.forEach(check -> those.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "a check", check)));
        AssessedVisit assessed = those.assessed();
        FitCycle fit = FitCycle.of(assessed, "A").get(0);
        boolean isShown = assessed.qualifications().stream().allMatch(one -> one.standing() == Standing.PASS)
                && checks.stream().allMatch("good"::equals);
        assertThat(fit.isFit()).as("%s %s", rows, checks).isEqualTo(isShown);
        assertThat(assessed.qualifiedCycles().isEmpty()).isEqualTo(!isShown);
        ValidatedState state = ValidatedState.of(assessed).get(0);
        assertThat(state.cycles().get(0).status() == QualifiedCycle.Status.QUALIFIED)
                .isEqualTo(isShown);
        assertThat(state.until().isPresent()).isEqualTo(isShown);
        assertThat(Shown.of(assessed, "A").contains(Duty.VALIDATION)).isEqualTo(isShown);
        assertThat(Whole.of(assessed, "A") == Standing.PASS).isEqualTo(isShown);
        assertThat(assessed.summary().get(0).contains("Nothing may be run")).isEqualTo(!isShown);
    }

    @Provide
    Arbitrary<List<Row>> rows() {
        Arbitrary<Row> row = Combinators.combine(
                        Arbitraries.of(Kind.values()),
                        Arbitraries.of(PASS, PASS, PASS, PASS, FAIL, INVALID),
                        Arbitraries.of("without sensors", "with sensors", "after", "as found"))
                .as(Row::new);
        List<Row> good = List.of(
                new Row(Kind.LEAK, PASS, "without sensors"),
                new Row(Kind.OPERATIONAL, PASS, ""),
                new Row(Kind.PERFORMANCE, PASS, ""),
                new Row(Kind.PERFORMANCE, PASS, ""),
                new Row(Kind.PERFORMANCE, PASS, ""));
        return Combinators.combine(
                        row.list().ofMaxSize(3),
                        Arbitraries.integers().between(0, good.size()),
                        row.list().ofMaxSize(2))
                .as((before, size, after) -> Stream.of(before, good.subList(0, size), after)
                        .flatMap(List::stream)
                        .toList());
    }

    @Provide
    Arbitrary<List<String>> checks() {
        return Arbitraries.of("good", "good", "good", "good", "failed", "not done", "")
                .list()
                .ofMaxSize(2);
    }
}
