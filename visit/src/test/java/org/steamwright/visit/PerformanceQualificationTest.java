package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.INVALID;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.Invented.LOAD;
import static org.steamwright.visit.Invented.N134;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

class PerformanceQualificationTest {

    static final ReferenceLoad OTHER = Invented.load("one tray of wrapped instruments", "solid", "single pouch");

    final Invented invented = new Invented();

    @ParameterizedTest(name = "{0}: {2}, {3} in a row")
    @CsvSource({
        "PPP,     3, PASS,       3, three in a row",
        "PP,      3, INCOMPLETE, 2, one short",
        "P,       1, PASS,       1, a set that asks for one",
        "PPPP,    3, PASS,       4, more than asked for",
        "I,       3, INCOMPLETE, 0, invalid is neither pass nor fail",
        "PPIP,    3, PASS,       3, an invalid run breaks nothing",
        "PPFPP,   3, FAIL,       2, a failed run starts the count again",
        "PPFPPP,  3, PASS,       3, three after the failure",
        "PFPFPFP, 3, FAIL,       1, repeating until it fits does not help",
        "PPPF,    3, FAIL,       0, a failure after the third counts too",
        "FI,      3, FAIL,       0, an invalid run does not heal a failed one",
        "F,       1, FAIL,       0, a single failed run",
    })
    void counts_passes_in_a_row(String row, int needed, Standing standing, int inARow, String why) {
        invented.consecutiveRuns = needed;
        invented.loaded(outcomes(row));
        Qualification found = performance(B134);
        assertThat(found.standing()).as(why).isEqualTo(standing);
        assertThat(found.consecutivePasses()).as(why).isEqualTo(inARow);
        assertThat(found.needed()).as(why).isEqualTo(needed);
        assertThat(found.runNumbers()).as("every run is named").hasSize(row.length());
    }

    @Test
    void names_the_failed_run_its_cause_and_how_far_the_new_count_is() {
        invented.loaded(PASS, PASS, FAIL, PASS);
        assertThat(performance(B134).sentence())
                .isEqualTo(
                        "Run 3 failed: The holding time was 170 s and not 180 s. "
                                + "The count starts again after a failed run: 1 of 3 passes in a row since. Of 4 runs in all: 3 passed and 1 failed.");
    }

    @Test
    void still_names_the_failed_run_when_enough_passes_followed() {
        invented.loaded(FAIL, PASS, PASS, PASS);
        assertThat(performance(B134).sentence())
                .isEqualTo(
                        "Passes in a row: runs 2, 3 and 4; 3 asked for. "
                                + "Run 1 before them failed: The holding time was 170 s and not 180 s. Of 4 runs in all: 3 passed and 1 failed.");
    }

    @Test
    void names_the_invalid_run_and_its_cause() {
        invented.loaded(PASS, INVALID, PASS, PASS);
        assertThat(performance(B134).sentence())
                .isEqualTo("Passes in a row: runs 1, 3 and 4; 3 asked for. "
                        + "Run 2 is invalid and counts neither way: A sensor was dead.");
    }

    @Test
    void is_not_assessed_without_a_loaded_run() {
        invented.empty(PASS);
        Qualification found = performance(B134);
        assertThat(found.standing()).isEqualTo(Standing.NOT_ASSESSED);
        assertThat(found.sentence()).isEqualTo("No loaded run was made.");
    }

    @Test
    void does_not_mix_cycles() {
        CycleDefinition other = CycleDefinition.of("Wrapped 121", B134.type(), 121);
        invented.cycles = List.of(B134, other);
        invented.loaded(PASS, PASS).run(TestKind.LOADED, other, PASS);
        assertThat(performance(B134).standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(performance(other).standing()).isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void a_failure_of_another_cycle_breaks_nothing() {
        CycleDefinition other = CycleDefinition.of("Wrapped 121", B134.type(), 121);
        invented.cycles = List.of(B134, other);
        invented.loaded(PASS, PASS).run(TestKind.LOADED, other, FAIL).loaded(PASS);
        assertThat(performance(B134).standing()).isEqualTo(Standing.PASS);
        assertThat(performance(other).standing()).isEqualTo(Standing.FAIL);
    }

    @Test
    void reads_the_name_of_a_cycle_without_regard_to_case_and_blanks() {
        CycleDefinition typed = CycleDefinition.of("  WRAPPED  134 ", B134.type(), 134);
        invented.loaded(PASS, PASS).run(TestKind.LOADED, typed, PASS);
        assertThat(performance(B134).standing()).isEqualTo(Standing.PASS);
    }

    @Test
    void finds_a_cycle_that_the_sterilizer_does_not_list() {
        invented.cycles = List.of();
        invented.loaded(PASS, PASS, PASS);
        assertThat(performance(B134).standing()).isEqualTo(Standing.PASS);
    }

    @Test
    void a_change_of_the_load_starts_the_count_of_the_new_load() {
        invented.loaded(PASS, PASS).run(TestKind.LOADED, B134, PASS, run -> run.load(OTHER));
        Qualification found = performance(B134);
        assertThat(found.standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(found.consecutivePasses()).isEqualTo(1);
        assertThat(found.sentence())
                .isEqualTo("3 passes in a row with the same load are asked for; "
                        + "there are 2 with the load ‘two trays of wrapped instruments’, "
                        + "1 with the load ‘one tray of wrapped instruments’.");
    }

    @Test
    void loads_that_take_turns_reach_no_row() {
        for (int i = 0; i < 3; i++) {
            invented.loaded(PASS).run(TestKind.LOADED, B134, PASS, run -> run.load(OTHER));
        }
        assertThat(performance(B134).standing()).isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void two_loads_with_a_full_row_each_pass() {
        invented.loaded(PASS, PASS, PASS);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, B134, PASS, run -> run.load(OTHER));
        }
        Qualification found = performance(B134);
        assertThat(found.standing()).isEqualTo(Standing.PASS);
        assertThat(found.sentence())
                .isEqualTo("Passes in a row: runs 1, 2 and 3 with the load ‘two trays of wrapped instruments’ "
                        + "and runs 4, 5 and 6 with the load ‘one tray of wrapped instruments’; 3 asked for.");
    }

    @Test
    void a_smaller_load_after_a_failure_has_to_earn_its_own_row() {
        invented.loaded(FAIL);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, B134, PASS, run -> run.load(OTHER));
        }
        assertThat(performance(B134).standing()).isEqualTo(Standing.PASS);
    }

    @Test
    void mass_and_photos_may_differ_within_the_same_load() {
        ReferenceLoad weighed = new ReferenceLoad(
                " Two trays of  wrapped instruments",
                LOAD.items(),
                LOAD.challengePack(),
                "rear, top",
                LOAD.packaging(),
                Optional.of(2.4),
                "",
                List.of("tray.jpg"));
        invented.loaded(PASS, PASS).run(TestKind.LOADED, B134, PASS, run -> run.load(weighed));
        assertThat(performance(B134).standing()).isEqualTo(Standing.PASS);
    }

    @Test
    void another_challenge_pack_is_another_load() {
        ReferenceLoad other = new ReferenceLoad(
                LOAD.description(),
                LOAD.items(),
                "a lumen without a pouch",
                LOAD.challengePlace(),
                LOAD.packaging(),
                Optional.empty(),
                LOAD.agreedBy(),
                List.of());
        invented.loaded(PASS, PASS).run(TestKind.LOADED, B134, PASS, run -> run.load(other));
        assertThat(performance(B134).standing()).isEqualTo(Standing.INCOMPLETE);
    }

    @Test
    void runs_as_found_count_neither_way() {
        invented.run(TestKind.LOADED, B134, FAIL, run -> run.stage("as found")).loaded(PASS, PASS, PASS);
        Qualification found = performance(B134);
        assertThat(found.standing()).isEqualTo(Standing.PASS);
        assertThat(found.runNumbers()).containsExactly(1, 2, 3, 4);
        assertThat(found.sentence()).endsWith("Run 1 shows the state as found (fail) and is not counted.");
    }

    @Test
    void a_pass_as_found_alone_assesses_nothing() {
        invented.run(TestKind.LOADED, B134, PASS, run -> run.stage("As found"));
        assertThat(performance(B134).standing()).isEqualTo(Standing.NOT_ASSESSED);
    }

    @ParameterizedTest(name = "{0} packed in ''{1}''")
    @CsvSource({
        "hollow A, unwrapped,    handpiece (hollow A), steam has to get into a lumen without any vacuum",
        "porous,   '',           handpiece (porous),   air stays in textiles",
        "solid,    '',           handpiece (packaging not stated), nobody knows whether it was wrapped",
        "'',       unwrapped,    handpiece (family not stated), nobody knows whether it has a lumen",
        "solid,    single pouch, handpiece (single pouch) and packaging: single pouch, a pouch needs air removal",
    })
    void a_cycle_of_type_n_does_not_cover_wrapped_or_hollow_items(
            String family, String packaging, String named, String why) {
        invented.cycles = List.of(N134);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, N134, PASS, run -> run.load(Invented.load("a tray", family, packaging)));
        }
        AssessedVisit assessed = invented.assessed();
        Qualification found = performance(N134);
        assertThat(found.standing()).as(why).isEqualTo(Standing.INCOMPLETE);
        assertThat(found.sentence())
                .isEqualTo("The runs are good as recorded, but a cycle of type N is for unwrapped solid items only "
                        + "and the load held %s: this load is not covered.".formatted(named));
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(assessed.openPoints())
                .contains("Run 1, cycle ‘Quick 134’: type N is for unwrapped solid items only; not covered: %s."
                        .formatted(named));
    }

    @Test
    void a_cycle_of_type_n_covers_unwrapped_solid_items() {
        invented.cycles = List.of(N134);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, N134, PASS, run -> run.load(Invented.load("a tray", "solid", "unwrapped")));
        }
        assertThat(performance(N134).standing()).isEqualTo(Standing.PASS);
    }

    @Test
    void a_recording_that_failed_in_a_cycle_of_type_n_stays_failed() {
        invented.cycles = List.of(N134);
        invented.run(TestKind.LOADED, N134, FAIL);
        assertThat(performance(N134).standing()).isEqualTo(Standing.FAIL);
    }

    private Qualification performance(CycleDefinition cycle) {
        return invented.assessed().qualifications().stream()
                .filter(q -> q.kind() == Kind.PERFORMANCE && q.cycle().equals(cycle.name()))
                .findFirst()
                .orElseThrow();
    }

    static RunOutcome[] outcomes(String row) {
        return Arrays.stream(row.split(""))
                .map(letter -> letter.equals("P") ? PASS : letter.equals("F") ? FAIL : INVALID)
                .toArray(RunOutcome[]::new);
    }
}
