package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.INVALID;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

class WholeTest {

    final Invented invented = new Invented();

    @Test
    void what_was_asked_for_and_not_made_keeps_the_whole_from_a_pass() {
        assertThat(whole(leak().empty(PASS))).isEqualTo(Standing.INCOMPLETE);
        assertThat(whole(new Invented().empty(PASS).loaded(PASS, PASS, PASS))).isEqualTo(Standing.INCOMPLETE);
        assertThat(whole(new Invented().leak("without sensors", PASS).loaded(PASS, PASS, PASS)))
                .isEqualTo(Standing.INCOMPLETE);
        assertThat(whole(complete(new Invented()))).isEqualTo(Standing.PASS);
    }

    @Test
    void what_the_scope_leaves_out_does_not_but_a_failure_counts_whether_asked_for_or_not() {
        invented.job.scope = new Scope(Set.of(Kind.PERFORMANCE), List.of(), "a new door seal");
        assertThat(whole(leak().empty(PASS))).isEqualTo(Standing.PASS);
        assertThat(whole(invented.loaded(FAIL))).isEqualTo(Standing.FAIL);
    }

    @Test
    void a_cycle_that_the_scope_leaves_out_does_not() {
        invented.cycles = List.of(B134, CycleDefinition.of("Wrapped 121", CycleType.B, 121));
        assertThat(whole(complete(invented))).isEqualTo(Standing.INCOMPLETE);
        invented.job.scope = new Scope(Set.of(), List.of("wrapped-134"), "the other one is not in use");
        assertThat(whole(invented)).isEqualTo(Standing.PASS);
    }

    @Test
    void a_narrowed_scope_wants_a_reason() {
        invented.job.scope = new Scope(Set.of(Kind.LEAK), List.of(), "");
        assertThat(invented.assessed().openPoints())
                .contains("The visit was asked for less than everything, and nobody says why. State the reason.");
    }

    @ParameterizedTest(name = "{0} {1} {2}: {3}")
    @CsvSource({
        "SAFETY, DONE, 5, FAIL",
        "SAFETY, DONE, 0.1, PASS",
        "SAFETY, DONE, , INCOMPLETE",
        "SAFETY, NOT_POSSIBLE, , INCOMPLETE",
        "SAFETY, NOT_APPLICABLE, , PASS",
        "INSTALLATION, DONE, 5, FAIL",
        "MAINTENANCE, DONE, 5, INCOMPLETE",
    })
    void no_pass_stands_over_a_failed_check(
            TaskList.Part part, TaskEntry.Outcome outcome, Double reading, Standing standing) {
        invented.job.tasks.add(earth(part, outcome, Optional.ofNullable(reading)));
        assertThat(whole(complete(invented))).isEqualTo(standing);
    }

    @Test
    void an_unanswered_safety_check_is_a_hole() {
        invented.job.tasks.add(new TaskRecord("A", list(TaskList.Part.SAFETY), List.of()));
        assertThat(whole(complete(invented))).isEqualTo(Standing.INCOMPLETE);
    }

    @ParameterizedTest(name = "of {0}, {1}: {2}")
    @CsvSource({
        "SAFETY, '', INCOMPLETE",
        "INSTALLATION, -, INCOMPLETE",
        "SAFETY, 'wired in, no plug', PASS",
        "MAINTENANCE, '', PASS"
    })
    void a_check_that_is_left_out_without_a_reason_is_a_hole(TaskList.Part part, String why, Standing standing) {
        invented.job.tasks.add(earth(part, TaskEntry.Outcome.NOT_APPLICABLE, why, Optional.empty()));
        assertThat(whole(complete(invented))).isEqualTo(standing);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"failed, FAIL", "not done, INCOMPLETE", "good, PASS"})
    void a_check_that_is_told_in_words_counts_alike(String result, Standing standing) {
        invented.checklists.add(Invented.checklist(Checklist.Section.SAFETY, "safety valve", result));
        assertThat(whole(complete(invented))).isEqualTo(standing);
    }

    @Test
    void a_single_recording_is_asked_for_nothing_but_itself() {
        invented.clinic = Optional.empty();
        assertThat(whole(invented.empty(PASS))).isEqualTo(Standing.PASS);
    }

    /** Whatever the outcomes, nothing is better than the worst that was asked for, and an obstacle is a fail. */
    @Property(tries = 300)
    void the_whole_is_never_better_than_its_worst_asked_for_part(
            @ForAll("runs") List<Row> rows, @ForAll("scopes") Scope scope, @ForAll("readings") Optional<Double> earth) {
        Invented any = new Invented();
        any.job.scope = scope;
        earth.ifPresent(reading ->
                any.job.tasks.add(earth(TaskList.Part.SAFETY, TaskEntry.Outcome.DONE, Optional.of(reading))));
        for (Row row : rows) {
            switch (row.kind()) {
                case LEAK -> any.leak("without sensors", row.outcome());
                case OPERATIONAL -> any.empty(row.outcome());
                case PERFORMANCE -> any.loaded(row.outcome());
            }
        }
        AssessedVisit assessed = any.assessed();
        int whole = Whole.badness(assessed.standing());
        assessed.qualifications().stream()
                .filter(scope::asksFor)
                .forEach(part -> assertThat(whole)
                        .as("%s is %s, the whole %s", part.kind(), part.standing(), assessed.standing())
                        .isGreaterThanOrEqualTo(Whole.badness(part.standing())));
        if (earth.filter(reading -> reading > 0.2).isPresent()) {
            assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        }
        if (assessed.qualifications().stream().anyMatch(part -> part.standing() == Standing.FAIL)) {
            assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        }
        assertThat(Whole.of(assessed, "A")).isEqualTo(assessed.standing());
    }

    @Test
    void an_unassessed_part_is_a_hole_only_beside_assessed_ones() {
        assertThat(Whole.worst(List.of())).isEqualTo(Standing.NOT_ASSESSED);
        assertThat(Whole.worst(List.of(Standing.NOT_ASSESSED, Standing.NOT_ASSESSED)))
                .isEqualTo(Standing.NOT_ASSESSED);
        assertThat(Whole.worst(List.of(Standing.AWAITED, Standing.NOT_ASSESSED)))
                .isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void what_was_asked_for_and_not_made_is_said_and_nothing_else_is() {
        String missing =
                "What was asked for and not assessed keeps the visit as a whole from a pass; it is listed as open.";
        assertThat(leak().empty(PASS).assessed().summary()).contains(missing);
        assertThat(complete(new Invented()).assessed().summary()).doesNotContain(missing);
        assertThat(complete(new Invented()).loaded(FAIL).assessed().summary()).doesNotContain(missing);
        Invented narrowed = new Invented().leak("without sensors", PASS).empty(PASS);
        narrowed.job.scope = new Scope(Set.of(Kind.PERFORMANCE), List.of(), "a new door seal");
        assertThat(narrowed.assessed().summary()).doesNotContain(missing);
    }

    @Test
    void each_steriliser_stands_for_itself() {
        Invented both = complete(new Invented());
        both.isWithAnother = true;
        both.checklists.add(Invented.checklist("B", Checklist.Section.SAFETY, "door lock", "failed"));
        both.checklists.add(Invented.checklist("B", Checklist.Section.SAFETY, "safety valve", "not done"));
        AssessedVisit assessed = both.assessed();
        assertThat(Whole.of(assessed, "A")).isEqualTo(Standing.PASS);
        assertThat(Whole.of(assessed, "B")).isEqualTo(Standing.FAIL);
        assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        assertThat(assessed.qualifiedCycles()).containsExactly("EX-0001: Wrapped 134");
    }

    @Property(tries = 300)
    void of_any_parts_the_whole_is_the_worst_and_a_pass_only_where_all_pass(@ForAll("standings") List<Standing> parts) {
        Standing whole = Whole.worst(parts);
        parts.forEach(part -> assertThat(Whole.badness(whole)).isGreaterThanOrEqualTo(Whole.badness(part)));
        assertThat(whole == Standing.PASS)
                .isEqualTo(!parts.isEmpty() && parts.stream().allMatch(part -> part == Standing.PASS));
    }

    record Row(Kind kind, RunOutcome outcome) {}

    @Provide
    Arbitrary<List<Row>> runs() {
        return Combinators.combine(Arbitraries.of(Kind.values()), Arbitraries.of(PASS, PASS, PASS, FAIL, INVALID))
                .as(Row::new)
                .list()
                .ofMaxSize(7);
    }

    @Provide
    Arbitrary<Scope> scopes() {
        return Arbitraries.of(Kind.values())
                .set()
                .ofMaxSize(3)
                .map(leftOut -> new Scope(leftOut, List.of(), "because"));
    }

    @Provide
    Arbitrary<Optional<Double>> readings() {
        return Arbitraries.of(0.1, 0.1, 5.0).optional(0.5);
    }

    @Provide
    Arbitrary<List<Standing>> standings() {
        return Arbitraries.of(Standing.values()).list().ofMaxSize(5);
    }

    private static Standing whole(Invented those) {
        return those.assessed().standing();
    }

    private Invented leak() {
        return invented.leak("without sensors", PASS);
    }

    private static Invented complete(Invented those) {
        return those.leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);
    }

    static TaskRecord earth(TaskList.Part part, TaskEntry.Outcome outcome, Optional<Double> reading) {
        return earth(part, outcome, outcome == TaskEntry.Outcome.DONE ? "" : "no meter", reading);
    }

    private static TaskRecord earth(
            TaskList.Part part, TaskEntry.Outcome outcome, String why, Optional<Double> reading) {
        List<TaskEntry> entries = new ArrayList<>();
        entries.add(new TaskEntry(
                "earth", outcome, why, TaskEntry.Condition.NOT_STATED, Optional.empty(), "", "", reading, ""));
        return new TaskRecord("A", list(part), entries);
    }

    private static TaskList list(TaskList.Part part) {
        return new TaskList(
                "invented",
                "1",
                "0".repeat(64),
                part,
                "bench",
                "12 months",
                "invented for tests",
                List.of(new Task(
                        "earth",
                        "Protective earth",
                        "",
                        Optional.of(new Task.TaskLimit(Comparison.AT_MOST, 0.2, "Ω", "invented")))));
    }
}
