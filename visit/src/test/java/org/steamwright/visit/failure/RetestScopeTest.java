package org.steamwright.visit.failure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.visit.job.EarlierEvidence.Kind;

class RetestScopeTest {

    private static final String EMPTY = "operational qualification";
    private static final String LOADED = "performance qualification";

    final ChangeMatrix matrix = ChangeMatrix.of(InventedMatrix.get());

    private RetestScope scope(Kind failed, String... changes) {
        return matrix.scope(List.of(changes), failed);
    }

    @Test
    void one_change_asks_for_the_tests_of_its_row() {
        RetestScope scope = scope(Kind.AIR_LEAKAGE, "seal");
        assertThat(scope.tests())
                .containsExactly("air leakage test", EMPTY + ", one run of the cycle that is hardest to do right");
        assertThat(scope.because())
                .isEqualTo("after-change matrix: Door seal (invented matrix; common practice, no source);"
                        + " the test that failed is repeated in any case");
        assertThat(scope(Kind.AIR_LEAKAGE, "valve").tests())
                .containsExactly(
                        "examination by the competent person for pressure",
                        "installation qualification",
                        "air leakage test");
    }

    @Test
    void of_two_changes_the_wider_extent_holds() {
        assertThat(scope(Kind.AIR_LEAKAGE, "seal", "cycle").tests())
                .containsExactly(
                        "air leakage test",
                        "steam penetration test of every cycle in use that draws a vacuum",
                        EMPTY + " of the cycles that failed",
                        LOADED + " of the cycles that failed");
        assertThat(scope(Kind.AIR_LEAKAGE, "cycle", "pump").tests())
                .as("the cycles that failed and those that draw a vacuum are all")
                .containsExactly(
                        "electrical and pressure safety checks",
                        "air leakage test",
                        "steam penetration test of every cycle in use that draws a vacuum",
                        EMPTY + " of every cycle in use",
                        LOADED + " of every cycle in use");
        assertThat(scope(Kind.AIR_LEAKAGE, "pump", "cycle").tests())
                .as("whatever the order")
                .isEqualTo(scope(Kind.AIR_LEAKAGE, "cycle", "pump").tests());
    }

    @Test
    void loaded_runs_are_never_repeated_alone() {
        assertThat(scope(Kind.BIOLOGICAL, "load").tests())
                .containsExactly(
                        "air leakage test",
                        EMPTY + " of the cycles that failed",
                        LOADED + " of the cycles that failed");
        assertThat(scope(Kind.BIOLOGICAL, "load").because())
                .isEqualTo("after-change matrix: New load (invented matrix; common practice, no source);"
                        + " the test that failed is repeated in any case; air leakage and empty chamber are added to loaded"
                        + " runs by the program's own rule");
        assertThat(scope(Kind.THERMOMETRIC, "seal").tests())
                .as("one run of the hardest cycle says nothing of the cycle that failed")
                .contains(EMPTY + " of the cycles that failed", LOADED + " of the cycles that failed");
        assertThat(matrix.scope(List.of("load")))
                .containsExactly(
                        "air leakage test",
                        EMPTY + " of the cycles that failed",
                        LOADED + " of the cycles that failed");
        assertThat(scope(Kind.SAFETY, "pump").tests())
                .as("cycles without vacuum are loaded too")
                .contains(EMPTY + " of every cycle in use");
        assertThat(scope(Kind.AIR_LEAKAGE, "cycle").because())
                .as("all of it is asked for")
                .doesNotContain("own rule");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "AIR_LEAKAGE | air leakage test",
                "STEAM_PENETRATION | steam penetration test of the cycles that failed",
                "BIOLOGICAL | performance qualification of the cycles that failed",
                "THERMOMETRIC | performance qualification of the cycles that failed",
                "INDICATION | comparison of the steriliser's own indication with the reference",
                "SAFETY | electrical and pressure safety checks",
            })
    void the_test_that_failed_is_in_the_scope_whatever_was_changed(Kind failed, String test) {
        assertThat(scope(failed, "load").tests()).contains(test);
    }

    @ParameterizedTest
    @EnumSource
    void where_no_change_or_an_unknown_one_is_stated_everything_is_tested_again(Kind failed) {
        assertThat(scope(failed).tests()).isEqualTo(ChangeMatrix.EVERYTHING);
        assertThat(scope(failed).because())
                .isEqualTo("nobody stated what was changed, so nothing narrower can be justified");
        assertThat(scope(failed, "seal", "paint").tests()).isEqualTo(ChangeMatrix.EVERYTHING);
        assertThat(scope(failed, "seal", "paint").because())
                .isEqualTo("‘paint’ is no row of the after-change matrix, so nothing narrower can be justified;"
                        + " its rows are seal, load, cycle, pump, valve");
        assertThat(ChangeMatrix.UNKNOWN.scope(List.of("seal"), failed).tests()).isEqualTo(ChangeMatrix.EVERYTHING);
    }
}
