package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.INVALID;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.N134;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;

class LeakQualificationTest {

    final Invented invented = new Invented();

    @ParameterizedTest(name = "without {0}, with {1}, after {2}: {3}")
    @CsvSource({
        "PASS,    ,        ,        PASS,       tight as tested,            wireless loggers need no test with sensors",
        "PASS,    PASS,    PASS,    PASS,       and after they were taken,  the full set",
        ",        PASS,    PASS,    PASS,       with sensors and after,     the harder ones suffice",
        ",        ,        PASS,    PASS,       tight as tested,            a closed port is without sensors",
        "PASS,    PASS,    ,        INCOMPLETE, the port is tight again,    the port stays open until shown tight",
        "PASS,    PASS,    INVALID, INCOMPLETE, the port is tight again,    an invalid test shows nothing",
        "PASS,    FAIL,    ,        INCOMPLETE, gland or along the cables,  only with sensors",
        "PASS,    FAIL,    PASS,    INCOMPLETE, gland or along the cables,  only with sensors; the rest is tight",
        ",        FAIL,    ,        FAIL,       Repeat it without sensors,  nothing tells the two apart",
        "INVALID, FAIL,    ,        FAIL,       Repeat it without sensors,  nothing tells the two apart",
        "FAIL,    ,        ,        FAIL,       leaks without any sensor,   the steriliser itself",
        "FAIL,    FAIL,    ,        FAIL,       leaks without any sensor,   the steriliser itself",
        "FAIL,    PASS,    PASS,    FAIL,       does not close by itself,   a contradiction is not a pass",
        "PASS,    PASS,    FAIL,    FAIL,       plug of the port,           left open",
        "INVALID, ,        ,        INCOMPLETE, could be decided (run 1),   nothing decided",
    })
    void reads_the_three_tests_together(
            RunOutcome without, RunOutcome with, RunOutcome after, Standing standing, String words, String why) {
        Optional.ofNullable(without).ifPresent(outcome -> invented.leak("without sensors", outcome));
        Optional.ofNullable(with).ifPresent(outcome -> invented.leak("with sensors", outcome));
        Optional.ofNullable(after).ifPresent(outcome -> invented.leak("after", outcome));
        Qualification found = leak().orElseThrow();
        assertThat(found.standing()).as(why).isEqualTo(standing);
        assertThat(found.sentence()).as(why).contains(words);
    }

    @Test
    void explains_a_leak_that_is_there_only_with_sensors() {
        invented.leak("without sensors", PASS).leak("with sensors", FAIL);
        assertThat(leak().orElseThrow().sentence())
                .isEqualTo(
                        "Passes without sensors and fails with them: the air comes in at the gland or along the cables, "
                                + "not by the steriliser itself. Runs made through that port are not counted. "
                                + "Make the feed-through tight, then repeat the test with sensors and those runs.");
    }

    @Test
    void takes_the_last_decided_test_of_a_stage_and_names_the_failed_one() {
        invented.leak("without sensors", FAIL).leak("without sensors", PASS).leak("without sensors", INVALID);
        Qualification found = leak().orElseThrow();
        assertThat(found.standing()).isEqualTo(Standing.PASS);
        assertThat(found.sentence())
                .isEqualTo(
                        "The steriliser is tight as tested. Run 1 had failed before; the cause belongs into the report.");
        assertThat(found.runNumbers()).containsExactly(1, 2, 3);
        assertThat(found.consecutivePasses()).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"without sensors", "without-sensors", "Without  Sensors", "", "routine"})
    void knows_the_stages_however_they_are_written(String stage) {
        invented.leak(stage, FAIL)
                .leak("with-sensors", PASS)
                .leak("After", PASS)
                .leak("as-found", PASS);
        assertThat(leak().orElseThrow().sentence()).startsWith("Fails without sensors and passes with them.");
    }

    @Test
    void keeps_the_state_as_found_apart() {
        invented.leak("as found", FAIL).leak("without sensors", PASS);
        Qualification found = leak().orElseThrow();
        assertThat(found.standing()).isEqualTo(Standing.PASS);
        assertThat(found.sentence()).isEqualTo("The steriliser is tight as tested. As found (run 1): fail.");
    }

    @Test
    void a_test_as_found_alone_says_nothing_about_the_state_that_is_handed_back() {
        invented.leak("as found", PASS);
        assertThat(leak().orElseThrow().standing()).isEqualTo(Standing.NOT_ASSESSED);
    }

    @Test
    void reads_a_test_without_a_stage_as_the_steriliser_alone() {
        invented.leak("", FAIL);
        assertThat(leak().orElseThrow().sentence())
                .isEqualTo(
                        "The steriliser leaks without any sensor in it (run 1): The holding time was 170 s and not 180 s. "
                                + "Door seal, valves, pipework and air filter are looked at first; a wet chamber looks the same.");
    }

    @Test
    void is_not_assessed_if_a_vacuum_cycle_was_never_tested() {
        assertThat(leak().orElseThrow().standing()).isEqualTo(Standing.NOT_ASSESSED);
        assertThat(leak().orElseThrow().sentence()).isEqualTo("No air leakage test was made.");
    }

    @Test
    void is_not_asked_of_a_sterilizer_that_draws_no_vacuum() {
        invented.cycles = List.of(N134);
        assertThat(leak()).isEmpty();
    }

    private Optional<Qualification> leak() {
        return invented.assessed().qualifications().stream()
                .filter(q -> q.kind() == Kind.LEAK)
                .findFirst();
    }
}
