package org.steamwright.visit.state;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class VisitStateTest {

    static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    /** Every pair, written out by hand: a row for each state now, a column for each state wanted. */
    @ParameterizedTest(name = "from {0}")
    @CsvSource({
        // from      OPEN PERFORMED INTERIM ISSUED REPLACED WITHDRAWN BROKEN_OFF
        "OPEN,       0,   1,        0,      0,     0,       0,        1",
        "PERFORMED,  0,   0,        1,      1,     1,       1,        0",
        "INTERIM,    0,   0,        0,      1,     1,       1,        0",
        "ISSUED,     0,   0,        0,      0,     1,       1,        0",
        "REPLACED,   0,   0,        0,      0,     0,       0,        0",
        "WITHDRAWN,  0,   0,        0,      0,     0,       0,        0",
        "BROKEN_OFF, 0,   0,        0,      0,     0,       0,        0",
    })
    void the_table_holds_for_every_pair(
            VisitState from,
            int open,
            int performed,
            int interim,
            int issued,
            int replaced,
            int withdrawn,
            int brokenOff) {
        int[] row = {open, performed, interim, issued, replaced, withdrawn, brokenOff};
        assertThat(VisitState.values()).hasSameSizeAs(row);
        for (VisitState to : VisitState.values()) {
            boolean may = row[to.ordinal()] == 1;
            assertThat(from.mayBecome(to)).as("%s to %s", from, to).isEqualTo(may);
            assertThat(step(from, to, true).refusals().isEmpty()
                            || step(from, to, false).refusals().isEmpty())
                    .as("a complete step from %s to %s", from, to)
                    .isEqualTo(may);
        }
    }

    @Test
    void every_state_is_reached_from_open_and_none_leads_back() {
        Set<VisitState> reached = EnumSet.of(VisitState.OPEN);
        Deque<VisitState> next = new ArrayDeque<>(reached);
        while (!next.isEmpty()) {
            for (VisitState follower : next.remove().followers()) {
                assertThat(follower).isGreaterThan(VisitState.OPEN);
                if (reached.add(follower)) {
                    next.add(follower);
                }
            }
        }
        assertThat(reached).containsExactlyInAnyOrder(VisitState.values());
        for (VisitState state : VisitState.values()) {
            assertThat(state.followers()).allMatch(follower -> follower.compareTo(state) > 0);
            assertThat(state.isFinal()).isEqualTo(state.followers().isEmpty());
            assertThat(state.isOpenForFacts()).isEqualTo(state == VisitState.OPEN);
        }
        assertThat(EnumSet.allOf(VisitState.class).stream().filter(VisitState::isOut))
                .containsExactly(VisitState.INTERIM, VisitState.ISSUED);
    }

    @ParameterizedTest
    @EnumSource(names = {"PERFORMED", "INTERIM", "ISSUED", "REPLACED", "WITHDRAWN"})
    void nothing_simulated_is_ever_signed(VisitState to) {
        for (VisitState from : VisitState.values()) {
            StateStep step = new StateStep(from, to, TODAY, "A. Example", "why", true, true, Optional.of(TODAY));
            assertThat(step.refusals()).as("from %s", from).isNotEmpty();
        }
    }

    @Test
    void what_is_awaited_makes_it_interim_with_a_last_day_and_never_issued() {
        assertThat(refusals(VisitState.PERFORMED, VisitState.ISSUED, true, Optional.of(TODAY)))
                .containsExactly("An answer is still awaited, so it can't be final. Make it interim with a last day.");
        assertThat(refusals(VisitState.PERFORMED, VisitState.INTERIM, true, Optional.empty()))
                .containsExactly("An interim report has a last day. State until when it stands.");
        assertThat(refusals(VisitState.PERFORMED, VisitState.INTERIM, true, Optional.of(TODAY.minusDays(1))))
                .containsExactly(
                        "The last day of the interim report, 2026-11-24, lies before 2026-11-25. State a later one.");
        assertThat(refusals(VisitState.PERFORMED, VisitState.INTERIM, false, Optional.of(TODAY)))
                .containsExactly("Nothing is awaited, so nothing is interim. Issue it instead.");
        assertThat(refusals(VisitState.PERFORMED, VisitState.INTERIM, true, Optional.of(TODAY)))
                .as("the last day itself is good")
                .isEmpty();
    }

    @Test
    void whatever_is_taken_back_has_a_reason_and_a_name() {
        for (VisitState to : List.of(VisitState.REPLACED, VisitState.WITHDRAWN)) {
            assertThat(new StateStep(VisitState.ISSUED, to, TODAY, " ", " ", false, false, Optional.empty()).refusals())
                    .containsExactly(
                            "Nobody stands for this step. State who makes it.",
                            "No reason is stated, expected one. It stays with the visit.");
        }
    }

    @Test
    void a_step_that_is_not_in_the_table_says_what_is() {
        assertThat(refusals(VisitState.OPEN, VisitState.ISSUED, false, Optional.empty()))
                .containsExactly("A visit that is open can't become issued. It can become performed or broken off.");
        assertThat(refusals(VisitState.WITHDRAWN, VisitState.ISSUED, false, Optional.empty()))
                .containsExactly("A visit that is withdrawn stays so. Open a new issue instead.");
    }

    private static List<String> refusals(VisitState from, VisitState to, boolean awaiting, Optional<LocalDate> until) {
        return new StateStep(from, to, TODAY, "A. Example", "", false, awaiting, until).refusals();
    }

    private static StateStep step(VisitState from, VisitState to, boolean awaiting) {
        return new StateStep(from, to, TODAY, "A. Example", "why", false, awaiting, Optional.of(TODAY));
    }
}
