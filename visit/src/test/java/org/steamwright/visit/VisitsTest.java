package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.INVALID;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.LoadFindingsTest.indicator;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.failure.InventedMatrix;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

class VisitsTest {

    static final String CLOSING =
            "This is the technician's evidence. What is released, and what becomes of loads already used, the clinic decides.";

    static final String NO_END =
            "Nothing says until when it stands, so it covers no load: the criteria set names no period and the visit no end. State the last day, or the cycles until it is due with the counter at departure.";

    final Invented invented = new Invented();

    @Test
    void a_complete_visit_qualifies_its_cycle_and_says_so_first() {
        AssessedVisit assessed = complete().assessed();
        assertThat(assessed.standing()).isEqualTo(Standing.PASS);
        assertThat(assessed.qualifiedCycles()).containsExactly("EX-0001: Wrapped 134");
        assertThat(assessed.validUntil()).contains(LocalDate.of(2027, 11, 25));
        assertThat(assessed.openPoints()).isEmpty();
        assertThat(assessed.summary())
                .containsExactly(
                        "Cycle ‘Wrapped 134’ of steriliser EX-0001 may be run with the load that was tested and nothing larger or harder, up to and including 25 November 2027.",
                        CLOSING);
    }

    @Test
    void evaluates_every_run_by_the_set_of_the_visit_and_in_order() {
        List<String> seen = new ArrayList<>();
        Visit visit = complete().visit();
        Visits.assess(visit, (test, set) -> {
            seen.add(test.id() + " by " + set.name());
            return invented.evaluator().apply(test, set);
        });
        assertThat(seen).hasSize(6).startsWith("run-1 by example-set").endsWith("run-6 by example-set");
    }

    @Test
    void the_same_visit_gives_the_same_answer_twice() {
        Visit visit = complete().visit();
        AssessedVisit one = Visits.assess(visit, invented.evaluator());
        AssessedVisit two = Visits.assess(visit, invented.evaluator());
        assertThat(two.summary()).isEqualTo(one.summary());
        assertThat(two.qualifications()).isEqualTo(one.qualifications());
        assertThat(two.openPoints()).isEqualTo(one.openPoints());
    }

    @Test
    void refuses_what_belongs_to_no_sterilizer_of_the_visit() {
        invented.checklists = List.of(new Checklist(Checklist.Section.MAINTENANCE, "Z", List.of()));
        assertThatIllegalArgumentException()
                .isThrownBy(invented::assessed)
                .withMessage("no steriliser 'Z' in this visit");
    }

    @Test
    void a_failed_loaded_run_lets_nothing_be_run() {
        AssessedVisit assessed = invented.leak("without sensors", PASS)
                .empty(PASS)
                .loaded(PASS, FAIL, PASS)
                .assessed();
        assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.validUntil()).isEmpty();
        assertThat(assessed.summary())
                .containsExactly(
                        "Nothing may be run on the strength of this visit: performance qualification (PQ) of cycle ‘Wrapped 134’ of steriliser EX-0001: fail.",
                        "Performance qualification (PQ), cycle ‘Wrapped 134’ of steriliser EX-0001: fail. Run 4 failed: The holding time was 170 s and not 180 s. The count starts again after a failed run: 1 of 3 passes in a row since. Of 3 runs in all: 2 passed and 1 failed.",
                        CLOSING);
    }

    @Test
    void awaited_indicators_let_nothing_be_run_yet() {
        invented.requiresIndicators().leak("without sensors", PASS).empty(PASS);
        for (int i = 0; i < 3; i++) {
            invented.run(
                    TestKind.LOADED,
                    B134,
                    PASS,
                    run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "awaited")));
        }
        AssessedVisit assessed = invented.assessed();
        assertThat(assessed.standing()).isEqualTo(Standing.AWAITED);
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.validUntil()).isEmpty();
        assertThat(assessed.summary().get(0))
                .isEqualTo(
                        "Nothing may be run yet on the strength of this visit: the recordings pass, but the biological indicators of cycle ‘Wrapped 134’ of steriliser EX-0001 are not read.");
        assertThat(assessed.summary().get(1))
                .isEqualTo(
                        "Performance qualification (PQ), cycle ‘Wrapped 134’ of steriliser EX-0001: awaited. The recordings pass; the indicators of runs 3, 4 and 5 are not read yet. Until they are, nothing is qualified by them.");
    }

    @Test
    void an_awaited_run_before_a_full_row_delays_nothing() {
        invented.requiresIndicators();
        invented.run(
                TestKind.LOADED,
                B134,
                PASS,
                run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "grown")));
        for (int i = 0; i < 3; i++) {
            invented.run(
                    TestKind.LOADED,
                    B134,
                    PASS,
                    run -> run.indicators(indicator("1", false, "clear"), indicator("C", true, "grown")));
        }
        assertThat(standing(invented.assessed(), Kind.PERFORMANCE)).isEqualTo(Standing.PASS);
    }

    @Test
    void an_awaited_run_after_a_full_row_may_still_break_it() {
        invented.requiresIndicators();
        for (int i = 0; i < 3; i++) {
            invented.run(
                    TestKind.LOADED,
                    B134,
                    PASS,
                    run -> run.indicators(indicator("1", false, "clear"), indicator("C", true, "grown")));
        }
        invented.run(
                TestKind.LOADED,
                B134,
                PASS,
                run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "grown")));
        assertThat(standing(invented.assessed(), Kind.PERFORMANCE)).isEqualTo(Standing.AWAITED);
    }

    @Test
    void a_leak_keeps_a_passing_cycle_from_being_run() {
        AssessedVisit assessed = invented.leak("without sensors", FAIL)
                .empty(PASS)
                .loaded(PASS, PASS, PASS)
                .assessed();
        assertThat(standing(assessed, Kind.PERFORMANCE)).isEqualTo(Standing.PASS);
        assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.summary().get(0))
                .isEqualTo(
                        "Nothing may be run on the strength of this visit: air leakage of steriliser EX-0001: fail.");
    }

    @Test
    void a_failed_empty_chamber_keeps_its_own_cycle_from_being_run() {
        AssessedVisit assessed = invented.leak("without sensors", PASS)
                .empty(FAIL)
                .loaded(PASS, PASS, PASS)
                .assessed();
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
    }

    @Test
    void an_empty_chamber_that_was_not_tested_is_an_open_point_and_qualifies_nothing() {
        AssessedVisit assessed =
                invented.leak("without sensors", PASS).loaded(PASS, PASS, PASS).assessed();
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.validUntil()).isEmpty();
        assertThat(assessed.summary().get(0))
                .isEqualTo(
                        "Nothing may be run on the strength of this visit: the loaded runs pass, but not everything else that it takes was shown.");
        assertThat(assessed.openPoints())
                .containsExactly(
                        "Operational qualification (OQ), steriliser EX-0001, cycle ‘Wrapped 134’: not assessed. No empty-chamber run was made.");
        assertThat(assessed.summary()).contains("One point is open.");
    }

    @Test
    void loaded_runs_alone_say_what_to_add_and_how_long_it_takes() {
        invented.job.afterChange = Optional.of(InventedMatrix.get());
        assertThat(invented.loaded(PASS, PASS, PASS).assessed().summary())
                .as("10 for the leak test; 10 beside the cycle, 30 + 4 + 10 for it")
                .contains(
                        "Steriliser EX-0001 passes with a load, but its air leakage was not tested. Add an air leakage test without sensors, about 10 minutes.",
                        "Cycle ‘Wrapped 134’ of steriliser EX-0001 passes with its load, but was not run with the chamber empty. Add an empty-chamber run of it, about 54 minutes.",
                        "Loaded runs alone qualify no cycle; that is this program's own rule.");
        invented.job.afterChange = Optional.empty();
        assertThat(invented.assessed().summary())
                .as("no times are known")
                .contains(
                        "Steriliser EX-0001 passes with a load, but its air leakage was not tested. Add an air leakage test without sensors.",
                        "Cycle ‘Wrapped 134’ of steriliser EX-0001 passes with its load, but was not run with the chamber empty. Add an empty-chamber run of it.");
        assertThat(invented.leak("without sensors", PASS).empty(PASS).assessed().summary())
                .as("added, it is enough")
                .noneMatch(sentence -> sentence.contains("Add an ") || sentence.contains("own rule"));
    }

    @Test
    void a_load_that_failed_is_not_asked_to_be_completed() {
        assertThat(invented.loaded(PASS, FAIL).assessed().summary())
                .noneMatch(sentence -> sentence.contains("Add an ") || sentence.contains("own rule"));
    }

    @Test
    void an_order_that_can_qualify_nothing_says_so() {
        invented.job.scope = new Scope(Set.of(Kind.LEAK, Kind.OPERATIONAL), List.of(), "loaded runs were ordered");
        String beginning = "The visit was asked for loaded runs and not for this: ";
        String end = ". Without it loaded runs qualify no cycle.";
        assertThat(invented.loaded(PASS, PASS, PASS).assessed().openPoints())
                .contains(beginning + "Air leakage" + end, beginning + "Operational qualification (OQ)" + end);
        invented.requires(CriterionId.LEAK_RATE, Use.REPORTS, Optional.empty());
        assertThat(invented.assessed().openPoints())
                .contains(beginning + "Operational qualification (OQ)" + end)
                .doesNotContain(beginning + "Air leakage" + end);
        invented.job.scope = new Scope(Set.of(Kind.values()), List.of(), "service only");
        assertThat(invented.assessed().openPoints())
                .as("where no loaded runs are asked for nobody expects a cycle to be qualified")
                .noneMatch(point -> point.startsWith(beginning));
    }

    @Test
    void empty_chamber_runs_alone_allow_no_load() {
        AssessedVisit assessed =
                invented.leak("without sensors", PASS).empty(PASS).assessed();
        assertThat(assessed.standing()).as("loaded runs were asked for").isEqualTo(Standing.INCOMPLETE);
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.validUntil()).isEmpty();
        assertThat(assessed.summary().get(0))
                .isEqualTo(
                        "Nothing may be run on the strength of this visit: what was tested passes, but no loaded run shows that a load is reached.");
    }

    @Test
    void a_visit_without_runs_says_that_nothing_was_tested() {
        AssessedVisit assessed = invented.assessed();
        assertThat(assessed.standing()).isEqualTo(Standing.NOT_ASSESSED);
        assertThat(assessed.summary().get(0))
                .isEqualTo("Nothing may be run on the strength of this visit: nothing was tested that could show it.");
    }

    @Test
    void only_invalid_runs_leave_the_visit_incomplete() {
        assertThat(invented.empty(INVALID).assessed().standing()).isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void says_only_when_another_cycle_is_not_shown_fit() {
        CycleDefinition other = CycleDefinition.of("Wrapped 121", CycleType.B, 121);
        invented.cycles = List.of(B134, other);
        AssessedVisit assessed = complete().run(TestKind.LOADED, other, FAIL).assessed();
        assertThat(assessed.standing()).isEqualTo(Standing.FAIL);
        assertThat(assessed.qualifiedCycles()).containsExactly("EX-0001: Wrapped 134");
        assertThat(assessed.summary().get(0))
                .isEqualTo(
                        "Only cycle ‘Wrapped 134’ of steriliser EX-0001 may be run with the load that was tested and nothing larger or harder, up to and including 25 November 2027.");
    }

    @ParameterizedTest(name = "{0} + {1} months: good until {2}")
    @CsvSource({
        "2026-11-25, 12, 2027-11-25, the anniversary is the last good day",
        "2024-02-29, 12, 2025-02-28, a leap day has no anniversary: the last of February",
        "2026-01-31, 1,  2026-02-28, a short month ends the period early rather than late",
        "2027-02-28, 12, 2028-02-28, not moved to the end of a leap February",
    })
    void validity_ends_with_the_anniversary(LocalDate date, int months, LocalDate last, String why) {
        invented.date = Optional.of(date);
        invented.revalidation = Optional.of(months);
        assertThat(complete().assessed().validUntil()).as(why).contains(last);
    }

    @Test
    void no_end_of_validity_if_the_set_or_the_visit_says_nothing() {
        invented.revalidation = Optional.empty();
        AssessedVisit assessed = complete().assessed();
        assertThat(assessed.validUntil()).isEmpty();
        assertThat(assessed.summary().get(0))
                .endsWith("may be run with the load that was tested and nothing larger or harder.");
    }

    @Test
    void the_end_that_the_visit_names_holds_where_the_set_names_none_and_where_it_comes_first() {
        invented.job.validUntil = Optional.of(LocalDate.of(2027, 5, 31));
        assertThat(complete().assessed().validUntil()).contains(LocalDate.of(2027, 5, 31));
        invented.revalidation = Optional.empty();
        assertThat(invented.assessed().validUntil()).contains(LocalDate.of(2027, 5, 31));
        invented.revalidation = Optional.of(3);
        assertThat(invented.assessed().validUntil()).contains(LocalDate.of(2027, 2, 25));
    }

    @Test
    void a_pass_without_an_end_is_an_open_point() {
        invented.revalidation = Optional.empty();
        assertThat(complete().assessed().openPoints()).contains(NO_END);
        invented.job.cyclesUntilDue = OptionalInt.of(1500);
        assertThat(invented.assessed().openPoints())
                .as("no counter at departure")
                .contains(NO_END);
        invented.counterAtDeparture = OptionalInt.of(4700);
        assertThat(invented.assessed().openPoints()).doesNotContain(NO_END);
        invented.job.cyclesUntilDue = OptionalInt.empty();
        invented.job.validUntil = Optional.of(LocalDate.of(2027, 5, 31));
        assertThat(invented.assessed().openPoints()).doesNotContain(NO_END);
    }

    @Test
    void simulated_data_never_reads_like_a_release() {
        AssessedVisit assessed = complete()
                .run(TestKind.LOADED, B134, PASS, Invented.Draft::simulated)
                .assessed();
        assertThat(assessed.summary().get(0)).startsWith("Simulated, not a real steriliser: ");
        assertThat(assessed.openPoints().get(0))
                .isEqualTo(
                        "Simulated recordings: this visit says nothing about a real steriliser and is signed in an invented record only.");
    }

    private Invented complete() {
        return invented.leak("without sensors", PASS)
                .empty(PASS)
                .loaded(PASS, PASS, PASS)
                .leak("after", PASS);
    }

    private static Standing standing(AssessedVisit assessed, Kind kind) {
        return assessed.qualifications().stream()
                .filter(q -> q.kind() == kind)
                .map(Qualification::standing)
                .findFirst()
                .orElseThrow();
    }
}
