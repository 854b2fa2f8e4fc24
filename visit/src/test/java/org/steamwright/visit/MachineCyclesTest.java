package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

/** Passes in a row by the steriliser's own numbers: trap 'a run hidden because the numbers jump by one'. */
class MachineCyclesTest {

    final Invented invented = new Invented();

    @Test
    void a_jump_that_nobody_explains_starts_the_row_again() {
        passes(10, 11, 13);
        Qualification found = performance();
        assertThat(found.standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(found.sentence())
                .isEqualTo(
                        "1 of 3 passes in a row. Between runs 2 and 3 the steriliser counted cycle 12 (not explained), so the row starts again at run 3.");
        assertThat(invented.assessed().qualifiedCycles()).isEmpty();
    }

    @Test
    void a_named_other_cycle_explains_the_jump() {
        invented.job.otherCycles.add(new OtherCycles("A", 12, 12, OtherCycles.Kind.OWN_TEST, ""));
        passes(10, 11, 13);
        assertThat(performance().standing()).isEqualTo(Standing.PASS);
        assertThat(invented.assessed().openPoints()).noneMatch(point -> point.contains("cycle 12"));
    }

    @Test
    void a_named_cycle_that_failed_does_not() {
        invented.job.otherCycles.add(
                new OtherCycles("A", 12, 12, OtherCycles.Kind.FAILED, "stopped with an alarm of the door"));
        passes(10, 11, 13);
        assertThat(performance().standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(invented.assessed().openPoints())
                .contains(
                        "Steriliser EX-0001: cycle 12, failed: stopped with an alarm of the door. It is no test run, but it failed; the cause belongs into the report.");
    }

    @Test
    void a_row_that_is_full_after_the_jump_passes() {
        passes(10, 12, 13, 14);
        assertThat(performance().standing()).isEqualTo(Standing.PASS);
        assertThat(performance().consecutivePasses()).isEqualTo(3);
    }

    @Test
    void part_of_a_gap_explains_nothing_of_the_rest() {
        invented.counterAtArrival = OptionalInt.of(9);
        invented.job.otherCycles.add(new OtherCycles("A", 12, 12, OtherCycles.Kind.WARM_UP, ""));
        passes(10, 11, 14);
        assertThat(performance().standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(invented.assessed().openPoints())
                .anyMatch(point ->
                        point.startsWith("Steriliser EX-0001: cycle 13 between run 2 and run 3 is not explained."));
    }

    @Test
    void the_count_of_all_runs_stands_with_a_pass_after_failures() {
        for (int i = 0; i < 4; i++) {
            invented.run(TestKind.LOADED, B134, i % 2 == 0 ? FAIL : PASS);
        }
        invented.loaded(PASS, PASS);
        assertThat(performance().sentence())
                .as("best of five is seen to be the best of five")
                .endsWith("Of 6 runs in all: 4 passed and 2 failed.");
    }

    /** A slow second look: the longest stretch at the end in which every number is a pass or named. */
    @Property(tries = 200)
    void agrees_with_a_look_at_the_numbers_one_by_one(@ForAll long seed) {
        Random random = new Random(seed);
        Invented drawn = new Invented();
        boolean[] isNamed = new boolean[40];
        boolean[] isRun = new boolean[40];
        int number = 1;
        int runs = 1 + random.nextInt(6);
        int last = 0;
        for (int i = 0; i < runs; i++) {
            int jump = random.nextInt(3);
            for (int j = 0; j < jump; j++) {
                isNamed[number + j] = random.nextBoolean();
                if (isNamed[number + j]) {
                    drawn.job.otherCycles.add(
                            new OtherCycles("A", number + j, number + j, OtherCycles.Kind.WARM_UP, ""));
                }
            }
            number += jump;
            isRun[number] = true;
            last = number;
            int own = number;
            drawn.run(TestKind.LOADED, B134, PASS, run -> run.machineCycle(own));
            number++;
        }
        // by definition: somewhere three runs follow each other with nothing but named numbers between them
        boolean isThree = false;
        int row = 0;
        for (int n = 0; n <= last; n++) {
            if (isRun[n]) {
                row++;
                isThree |= row >= 3;
            } else if (!isNamed[n]) {
                row = 0;
            }
        }
        Standing standing = drawn.assessed().qualifications().stream()
                .filter(q -> q.kind() == Kind.PERFORMANCE)
                .map(Qualification::standing)
                .findFirst()
                .orElseThrow();
        assertThat(standing).isEqualTo(isThree ? Standing.PASS : Standing.INCOMPLETE);
    }

    private void passes(int... cycles) {
        for (int cycle : cycles) {
            invented.run(TestKind.LOADED, B134, PASS, run -> run.machineCycle(cycle));
        }
    }

    private Qualification performance() {
        List<Qualification> all = invented.assessed().qualifications();
        return all.stream()
                .filter(q -> q.kind() == Kind.PERFORMANCE)
                .findFirst()
                .orElseThrow();
    }
}
