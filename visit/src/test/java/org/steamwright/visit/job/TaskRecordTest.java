package org.steamwright.visit.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.visit.job.TaskEntry.Condition;
import org.steamwright.visit.job.TaskEntry.Outcome;
import org.steamwright.visit.job.TaskRecord.Standing;

class TaskRecordTest {

    static final TaskList LIST = new TaskList(
            "bench-yearly",
            "1",
            "0".repeat(64),
            TaskList.Part.SAFETY,
            "bench, vacuum",
            "12 months",
            "invented for tests",
            List.of(
                    new Task("seal", "Door seal", "", Optional.empty()),
                    new Task(
                            "earth",
                            "Protective earth",
                            "Unplug first.",
                            Optional.of(new Task.TaskLimit(Comparison.AT_MOST, 0.2, "Ω", "local rule")))));

    @Test
    void every_task_of_the_list_stands_in_the_record_answered_or_not() {
        TaskRecord record = new TaskRecord("A", LIST, List.of(entry("earth", Outcome.DONE, Optional.of(0.1))));
        assertThat(record.lines())
                .extracting(TaskRecord.Line::standing)
                .containsExactly(Standing.UNANSWERED, Standing.GOOD);
        assertThat(record.isBad()).isFalse();
    }

    @ParameterizedTest(name = "{0} Ω: {1}")
    @CsvSource({"0.19, GOOD", "0.2, GOOD", "0.21, BAD", "NaN, BAD"})
    void a_reading_is_held_against_its_limit(double reading, Standing expected) {
        TaskRecord record = new TaskRecord("A", LIST, List.of(entry("earth", Outcome.DONE, Optional.of(reading))));
        assertThat(record.lines().get(1).standing()).isEqualTo(expected);
    }

    @Test
    void done_without_the_reading_it_needs_is_not_good() {
        TaskRecord record = new TaskRecord("A", LIST, List.of(entry("earth", Outcome.DONE, Optional.empty())));
        assertThat(record.lines().get(1).standing()).isEqualTo(Standing.NOT_READ);
    }

    @Test
    void a_check_that_is_done_says_nothing_until_somebody_says_whether_it_is_good() {
        assertThat(standing(Condition.NOT_STATED)).isEqualTo(Standing.NOT_SAID);
        assertThat(standing(Condition.GOOD)).isEqualTo(Standing.GOOD);
        assertThat(standing(Condition.WORN)).as("good, with advice").isEqualTo(Standing.GOOD);
        assertThat(standing(Condition.FAILED)).isEqualTo(Standing.BAD);
        assertThat(new TaskRecord("A", maintenance(), List.of(entry("seal", Outcome.DONE, Optional.empty())))
                        .lines()
                        .get(0)
                        .standing())
                .as("maintenance is work, and done is done")
                .isEqualTo(Standing.GOOD);
    }

    @ParameterizedTest
    @EnumSource(
            value = Outcome.class,
            names = {"NOT_DUE", "NOT_APPLICABLE"})
    void a_check_is_left_out_for_a_reason_only(Outcome outcome) {
        for (String none : List.of("", "  ", "-", "n/a")) {
            assertThat(leftOut(outcome, none, LIST)).as(none).isEqualTo(Standing.UNEXPLAINED);
        }
        assertThat(leftOut(outcome, "no plug, wired in", LIST)).isEqualTo(Standing.LEFT_OUT);
        assertThat(leftOut(outcome, "", maintenance()))
                .as("of maintenance a plan says what is due")
                .isEqualTo(Standing.LEFT_OUT);
    }

    private static Standing leftOut(Outcome outcome, String why, TaskList list) {
        TaskEntry entry = new TaskEntry(
                "seal", outcome, why, Condition.NOT_STATED, Optional.empty(), "", "", Optional.empty(), "");
        return new TaskRecord("A", list, List.of(entry)).lines().get(0).standing();
    }

    private static TaskList maintenance() {
        return new TaskList(
                "service",
                "1",
                "0".repeat(64),
                TaskList.Part.MAINTENANCE,
                "bench",
                "12 months",
                "invented",
                LIST.tasks());
    }

    @Test
    void a_reading_within_its_limit_does_not_make_a_failed_thing_good() {
        TaskEntry entry = new TaskEntry(
                "earth", Outcome.DONE, "", Condition.FAILED, Optional.empty(), "", "", Optional.of(0.1), "");
        assertThat(new TaskRecord("A", LIST, List.of(entry)).isBad()).isTrue();
    }

    private static Standing standing(Condition condition) {
        TaskEntry entry =
                new TaskEntry("seal", Outcome.DONE, "", condition, Optional.empty(), "", "", Optional.empty(), "");
        return new TaskRecord("A", LIST, List.of(entry)).lines().get(0).standing();
    }

    @Test
    void a_failed_thing_is_good_again_once_a_part_was_fitted() {
        TaskEntry found = new TaskEntry(
                "seal", Outcome.DONE, "", Condition.FAILED, Optional.empty(), "", "", Optional.empty(), "");
        TaskEntry mended = new TaskEntry(
                "seal",
                Outcome.DONE,
                "",
                Condition.FAILED,
                Optional.of(new TaskEntry.Part("DS-17", "lot 55", 1)),
                "",
                "",
                Optional.empty(),
                "");
        assertThat(new TaskRecord("A", LIST, List.of(found)).lines().get(0).standing())
                .isEqualTo(Standing.BAD);
        assertThat(new TaskRecord("A", LIST, List.of(mended)).lines().get(0).standing())
                .isEqualTo(Standing.GOOD);
    }

    @Test
    void not_possible_says_why_and_left_out_has_no_reading() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> entry("seal", Outcome.NOT_POSSIBLE, Optional.empty()))
                .withMessage("the task seal was not possible, and nobody says why");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> entry("earth", Outcome.NOT_DUE, Optional.of(0.1)))
                .withMessage("the task earth is 'not due' and still has a part or a reading");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new TaskRecord("A", LIST, List.of(entry("door", Outcome.DONE, Optional.empty()))))
                .withMessage("the list bench-yearly has no task door");
    }

    @Test
    void a_condition_has_an_owner_an_end_and_is_never_renewed_in_silence() {
        LocalDate day = LocalDate.of(2026, 11, 25);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new PassCondition(
                        "A",
                        "",
                        "filter",
                        " ",
                        Optional.of(day),
                        OptionalInt.empty(),
                        Optional.empty(),
                        Optional.empty()))
                .withMessage("a condition says what has to be put right, and who answers for it");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new PassCondition(
                        "A",
                        "",
                        "filter",
                        "B",
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.empty(),
                        Optional.empty()))
                .withMessage("a condition has an end, a day or a cycle number");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new PassCondition.Renewal("R-1", "", "C"))
                .withMessage("a condition is renewed with the report it stood in, a reason and a reviewer");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new PassCondition(
                        "A",
                        "",
                        "filter",
                        "B",
                        Optional.of(day),
                        OptionalInt.empty(),
                        Optional.empty(),
                        Optional.of(new PassCondition.Renewal("R-1", "out of stock", "b "))))
                .withMessage("a condition is renewed by another person than its owner");
    }

    @Test
    void a_condition_lapses_after_its_day_or_its_count_whichever_comes_first() {
        LocalDate day = LocalDate.of(2026, 11, 25);
        PassCondition both = new PassCondition(
                "A", "", "filter", "B", Optional.of(day), OptionalInt.of(100), Optional.empty(), Optional.empty());
        assertThat(both.isLapsed(day, OptionalInt.of(100))).isFalse();
        assertThat(both.isLapsed(day.plusDays(1), OptionalInt.of(50))).isTrue();
        assertThat(both.isLapsed(day, OptionalInt.of(101))).isTrue();
        assertThat(both.isLapsed(day, OptionalInt.empty())).isFalse();
    }

    private static TaskEntry entry(String task, Outcome outcome, Optional<Double> reading) {
        return new TaskEntry(task, outcome, "", Condition.GOOD, Optional.empty(), "", "", reading, "");
    }
}
