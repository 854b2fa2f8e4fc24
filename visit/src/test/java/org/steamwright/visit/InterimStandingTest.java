package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.LOAD;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.visit.validity.InterimStanding;
import org.steamwright.visit.validity.InterimStanding.Standing;

/** How the indicators of a visit stand on a day; of several findings the worst decides. */
class InterimStandingTest {

    private static final LocalDate LAST = LocalDate.of(2026, 12, 2);

    private final Invented invented = new Invented().requiresIndicators();

    private InterimStanding on(LocalDate day) {
        return InterimStanding.of(invented.assessed(), day);
    }

    private Invented indicator(String reading) {
        return invented.indicated(LOAD, reading, run -> run);
    }

    @Test
    void without_a_loaded_run_and_where_no_indicator_decides_there_is_nothing_to_read() {
        assertThat(on(LAST)).isEqualTo(new InterimStanding(Standing.NONE, Optional.empty(), List.of()));
        Invented undecided = new Invented().loaded(PASS);
        assertThat(InterimStanding.of(undecided.assessed(), LAST).standing()).isEqualTo(Standing.NONE);
    }

    @Test
    void read_and_clear_says_no_more() {
        indicator("clear");
        assertThat(on(LAST).standing()).isEqualTo(Standing.READ);
        assertThat(on(LAST).standing().words()).isEqualTo("read, none grew");
        assertThat(on(LAST).sentences()).isEmpty();
    }

    @Test
    void awaited_stands_to_its_last_day_and_lapses_after_it() {
        indicator("clear");
        indicator("awaited");
        assertThat(on(LAST).sentences())
                .last()
                .isEqualTo("No last day is stated, so no interim report can be given out.");
        invented.job.interimUntil = Optional.of(LAST);
        assertThat(on(LAST).until()).contains(LAST);
        assertThat(on(LAST).standing()).isEqualTo(Standing.AWAITED);
        assertThat(on(LAST).sentences())
                .hasSize(2)
                .last()
                .isEqualTo(
                        "The interim report stands up to and including 2026-12-02. Until the indicators are read nothing is qualified by them.");
        assertThat(on(LAST).sentences()).first().asString().startsWith("Run 2: ");
        assertThat(on(LAST.plusDays(1)).standing()).isEqualTo(Standing.LAPSED);
        assertThat(on(LAST.plusDays(1)).sentences())
                .last()
                .isEqualTo(
                        "The interim report ended with 2026-12-02 and nothing was read: nothing is qualified by this visit.");
    }

    @Test
    void a_void_test_comes_before_an_awaited_one_and_growth_before_all() {
        invented.job.interimUntil = Optional.of(LAST);
        indicator("awaited");
        invented.indicated(
                LOAD,
                "clear",
                run -> run.indicators(
                        LoadFindingsTest.indicator("1", false, "clear"),
                        LoadFindingsTest.indicator("C", true, "clear")));
        assertThat(on(LAST).standing()).isEqualTo(Standing.VOID);
        assertThat(on(LAST).until()).contains(LAST);
        assertThat(on(LAST).sentences()).singleElement().asString().startsWith("Run 2: ");
        indicator("grown");
        assertThat(on(LAST).standing()).isEqualTo(Standing.POSITIVE);
        assertThat(on(LAST).until()).contains(LAST);
        assertThat(on(LAST).sentences()).hasSize(2);
        assertThat(on(LAST).sentences()).first().asString().startsWith("Run 3: ");
        assertThat(on(LAST).sentences())
                .last()
                .asString()
                .startsWith("Withdraw every report of this visit that is out");
    }
}
