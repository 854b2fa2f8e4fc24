package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.N134;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

class OperationalQualificationTest {

    final Invented invented = new Invented();

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "P,    PASS,       1, 1, one pass is enough as long as nothing failed",
        "PP,   PASS,       1, 2, a second pass does no harm",
        "I,    INCOMPLETE, 1, 0, nothing decided",
        "IP,   PASS,       1, 1, an invalid run breaks nothing",
        "F,    FAIL,       3, 0, failed",
        "FP,   FAIL,       3, 1, one pass after a failure may be luck",
        "FPP,  FAIL,       3, 2, two are not three",
        "FPPP, PASS,       3, 3, as many in a row as performance asks for",
        "FPIPP,PASS,       3, 3, an invalid run between breaks nothing",
        "PF,   FAIL,       3, 0, a pass before the failure does not excuse it",
    })
    void asks_for_more_once_a_run_has_failed(String row, Standing standing, int needed, int inARow, String why) {
        invented.empty(PerformanceQualificationTest.outcomes(row));
        Qualification found = operational();
        assertThat(found.standing()).as(why).isEqualTo(standing);
        assertThat(found.needed()).as(why).isEqualTo(needed);
        assertThat(found.consecutivePasses()).as(why).isEqualTo(inARow);
    }

    @Test
    void says_so_in_one_line_when_it_passes() {
        invented.empty(PASS);
        assertThat(operational().sentence()).isEqualTo("One pass: run 1; 1 asked for.");
    }

    @Test
    void is_not_assessed_by_loaded_runs() {
        invented.loaded(PASS, PASS, PASS);
        assertThat(operational().standing()).isEqualTo(Standing.NOT_ASSESSED);
        assertThat(operational().sentence()).isEqualTo("No empty-chamber run was made.");
    }

    @Test
    void does_not_count_a_pass_made_through_a_leaking_feed_through() {
        invented.leak("without sensors", PASS).leak("with sensors", FAIL).empty(PASS);
        Qualification found = operational();
        assertThat(found.standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(found.sentence())
                .isEqualTo(
                        "0 of 1 passes in a row. "
                                + "Run 3 was made while the test with sensors fitted showed a leak, so its pass is not counted.");
    }

    @Test
    void does_not_count_it_either_if_the_leak_was_found_only_afterwards() {
        invented.empty(PASS).leak("with sensors", FAIL);
        assertThat(operational().standing()).isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void counts_a_pass_made_after_the_feed_through_was_made_tight() {
        invented.leak("with sensors", FAIL)
                .empty(PASS)
                .leak("with sensors", PASS)
                .empty(PASS);
        Qualification found = operational();
        assertThat(found.standing()).isEqualTo(Standing.PASS);
        assertThat(found.consecutivePasses()).isEqualTo(1);
    }

    @Test
    void never_excuses_a_failed_run_by_a_leaking_feed_through() {
        invented.leak("with sensors", FAIL).empty(FAIL);
        assertThat(operational().standing()).isEqualTo(Standing.FAIL);
    }

    @Test
    void a_cycle_without_vacuum_does_not_mind_the_feed_through() {
        invented.cycles = List.of(N134);
        invented.leak("with sensors", FAIL).run(TestKind.EMPTY_CHAMBER, N134, PASS);
        assertThat(operational().standing()).isEqualTo(Standing.PASS);
    }

    private Qualification operational() {
        return invented.assessed().qualifications().stream()
                .filter(q -> q.kind() == Kind.OPERATIONAL)
                .findFirst()
                .orElseThrow();
    }
}
