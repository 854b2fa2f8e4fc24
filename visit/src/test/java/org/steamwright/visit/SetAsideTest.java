package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.NamePlate;

class SetAsideTest {

    private final Invented invented = new Invented();

    private AssessedVisit assessed() {
        return invented.assessed();
    }

    private static Qualification performance(AssessedVisit assessed) {
        return assessed.qualifications().stream()
                .filter(one -> one.kind() == Kind.PERFORMANCE)
                .findFirst()
                .orElseThrow();
    }

    private void aside(RunOutcome outcome) {
        invented.run(TestKind.LOADED, B134, outcome, draft -> draft.setAside("the sensor fell out of the pack"));
    }

    @Test
    void a_pass_that_is_set_aside_keeps_its_number_and_counts_for_nothing() {
        invented.loaded(PASS, PASS);
        aside(PASS);
        AssessedVisit assessed = assessed();
        assertThat(performance(assessed).standing()).isEqualTo(Standing.INCOMPLETE);
        assertThat(performance(assessed).consecutivePasses()).isEqualTo(2);
        assertThat(performance(assessed).runNumbers()).containsExactly(1, 2, 3);
        AssessedRun run = assessed.runs().get(2);
        assertThat(run.isPass()).isFalse();
        assertThat(run.isAwaited()).isFalse();
        assertThat(run.word()).isEqualTo("invalid");
        assertThat(run.cause()).isEqualTo("Set aside by Alex Example: the sensor fell out of the pack.");
        assertThat(performance(assessed).sentence()).contains("Run 3 is invalid", "the sensor fell out of the pack");
    }

    @Test
    void a_fail_that_is_set_aside_stays_a_fail_and_starts_the_count_again() {
        invented.loaded(PASS, PASS);
        aside(FAIL);
        invented.loaded(PASS);
        AssessedVisit assessed = assessed();
        assertThat(performance(assessed).standing()).isEqualTo(Standing.FAIL);
        assertThat(performance(assessed).consecutivePasses()).isEqualTo(1);
        assertThat(assessed.runs().get(2).word()).isEqualTo("fail");
    }

    @Test
    void nothing_is_set_aside_taken_away_or_changed_without_a_reason() {
        assertThatThrownBy(() -> new SetAside(" ", "Alex Example")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new TakenAway("run-1.csv", "", "", "")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new SetChange("one", "other", "", "")).isInstanceOf(IllegalArgumentException.class);
    }

    // ---- the name plate

    @Test
    void nothing_is_qualified_by_runs_at_another_name_plate() {
        invented.leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);
        assertThat(assessed().qualifiedCycles())
                .as("nobody said what the plate says")
                .hasSize(1);
        invented.plate = Optional.of(new NamePlate("ex- 0001", "", List.of()));
        assertThat(assessed().qualifiedCycles()).as("blanks and case aside").hasSize(1);
        invented.plate = Optional.of(new NamePlate("EX-9999", "Alex Example", List.of()));
        AssessedVisit other = assessed();
        assertThat(other.qualifiedCycles()).isEmpty();
        assertThat(other.openPoints())
                .anyMatch(point ->
                        point.contains("Its name plate says EX-9999, so nothing measured here belongs to it."));
    }

    @Test
    void a_photo_alone_says_no_serial_number() {
        NamePlate photo = new NamePlate("", "", List.of(new NamePlate.Photo("plate.jpg", "00")));
        assertThat(photo.isRead()).isFalse();
        assertThat(photo.isOther("EX-0001")).isFalse();
    }
}
