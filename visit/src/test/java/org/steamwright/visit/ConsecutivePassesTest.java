package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.LoadFindingsTest.indicator;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

/**
 * The counting of passes against a second, slow one written from the definition: try every way in which the awaited runs
 * may turn out, and look at what stands behind the last failed run.
 */
class ConsecutivePassesTest {

    /** P passes, F fails, I is invalid, A is awaited. */
    @Provide
    Arbitrary<String> rows() {
        return Arbitraries.strings()
                .withChars('P', 'P', 'P', 'F', 'I', 'A')
                .ofMinLength(1)
                .ofMaxLength(9);
    }

    @Property(tries = 400)
    void performance_agrees_with_the_definition(
            @ForAll("rows") String row, @ForAll @IntRange(min = 1, max = 4) int needed) {
        assertThat(standing(row, needed)).as(row + ", " + needed).isEqualTo(byDefinition(row, needed));
    }

    @Property(tries = 200)
    void an_invalid_run_changes_nothing_wherever_it_stands(
            @ForAll("rows") String row, @ForAll @IntRange(min = 0, max = 9) int place) {
        String with = new StringBuilder(row)
                .insert(Math.min(place, row.length()), 'I')
                .toString();
        assertThat(standing(with, 3)).as(with).isEqualTo(standing(row, 3));
    }

    @Property(tries = 200)
    void a_failed_run_at_the_end_never_passes(@ForAll("rows") String row) {
        assertThat(standing(row + "F", 3)).isEqualTo(Standing.FAIL);
    }

    @Property(tries = 200)
    void turning_a_run_into_a_failed_one_never_makes_it_better(
            @ForAll("rows") String row, @ForAll @IntRange(min = 0, max = 8) int place) {
        int at = Math.min(place, row.length() - 1);
        String worse = row.substring(0, at) + "F" + row.substring(at + 1);
        boolean passes = standing(worse, 3) == Standing.PASS;
        assertThat(!passes || standing(row, 3) == Standing.PASS)
                .as("%s passes although %s does not", worse, row)
                .isTrue();
    }

    private static Standing byDefinition(String row, int needed) {
        List<String> futures = new ArrayList<>(List.of(""));
        for (char run : row.replace("I", "").toCharArray()) {
            List<String> longer = new ArrayList<>();
            for (String future : futures) {
                if (run == 'A') {
                    longer.add(future + 'P');
                    longer.add(future + 'F');
                } else {
                    longer.add(future + run);
                }
            }
            futures = longer;
        }
        long full = futures.stream()
                .filter(future -> future.length() - future.lastIndexOf('F') - 1 >= needed)
                .count();
        if (full == futures.size()) {
            return Standing.PASS;
        }
        return full > 0 ? Standing.AWAITED : row.contains("F") ? Standing.FAIL : Standing.INCOMPLETE;
    }

    private static Standing standing(String row, int needed) {
        Invented invented = new Invented().requiresIndicators();
        invented.consecutiveRuns = needed;
        for (char run : row.toCharArray()) {
            RunOutcome outcome = run == 'F' ? RunOutcome.FAIL : run == 'I' ? RunOutcome.INVALID : RunOutcome.PASS;
            invented.run(
                    TestKind.LOADED,
                    B134,
                    outcome,
                    draft -> draft.indicators(
                            indicator("1", false, run == 'A' ? "awaited" : "clear"), indicator("C", true, "grown")));
        }
        return invented.assessed().qualifications().stream()
                .filter(q -> q.kind() == Kind.PERFORMANCE)
                .map(Qualification::standing)
                .findFirst()
                .orElseThrow();
    }
}
