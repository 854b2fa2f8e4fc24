package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.Shown;
import org.steamwright.visit.validity.ValidatedState;

/** What a visit leaves behind of each of its sterilisers, and until when. */
class ValidatedStateTest {

    private static final String ITS_CYCLE = "Wrapped 134";
    private static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    private final Invented invented =
            new Invented().leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);

    private ValidatedState state() {
        return ValidatedState.of(invented.assessed()).get(0);
    }

    private List<String> against(LocalDate day, OptionalInt count) {
        return state().reasonsAgainst(ITS_CYCLE, day, count);
    }

    @Test
    void it_stands_from_the_day_of_the_visit_to_the_last_one() {
        assertThat(state().from()).contains(DAY);
        assertThat(state().until()).contains(DAY.plusYears(1));
        assertThat(state().isAnyQualified()).isTrue();
        assertThat(against(DAY, OptionalInt.empty())).isEmpty();
        assertThat(against(DAY.minusDays(1), OptionalInt.empty()))
                .containsExactly("It begins on 2026-11-25, and 2026-11-24 lies before it.");
        assertThat(against(DAY.plusYears(1), OptionalInt.empty())).isEmpty();
        assertThat(against(DAY.plusYears(1).plusDays(1), OptionalInt.empty()))
                .containsExactly("It ended with 2027-11-25.");
    }

    @Test
    void its_last_cycle_is_counted_from_the_departure() {
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        invented.counterAtArrival = OptionalInt.of(1400);
        invented.counterAtDeparture = OptionalInt.of(1489);
        assertThat(state().untilCount()).hasValue(1989);
        assertThat(against(DAY, OptionalInt.of(1989))).isEmpty();
        assertThat(against(DAY, OptionalInt.of(1990))).containsExactly("It ended with cycle 1989; this is cycle 1990.");
        assertThat(against(DAY, OptionalInt.empty()))
                .containsExactly("It ends at cycle 1989, and the counter was not read.");
    }

    @Test
    void a_number_of_cycles_that_is_counted_from_nowhere_covers_nothing() {
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        invented.counterAtArrival = OptionalInt.of(1400);
        assertThat(state().untilCount()).isEmpty();
        assertThat(against(DAY, OptionalInt.of(1401)))
                .containsExactly("It ends 500 cycles after the visit, and the counter was not read at its end.");
        assertThat(state().amongInvented().reasonsAgainst(ITS_CYCLE, DAY, OptionalInt.of(1401)))
                .hasSize(1);
        assertThat(state().endingBy(DAY).reasonsAgainst(ITS_CYCLE, DAY, OptionalInt.of(1401)))
                .hasSize(1);
        assertThat(invented.assessed().openPoints())
                .contains(
                        "Steriliser EX-0001: it ends 500 cycles after the visit, and the counter was not read at its end, so it covers no load. State the counter at departure.");
        invented.counterAtDeparture = OptionalInt.of(1489);
        assertThat(against(DAY, OptionalInt.of(1489))).isEmpty();
        assertThat(invented.assessed().openPoints()).noneMatch(point -> point.contains("cycles after the visit"));
        invented.counterAtDeparture = OptionalInt.empty();
        invented.job.cyclesUntilDue = OptionalInt.empty();
        assertThat(against(DAY, OptionalInt.empty())).isEmpty();
    }

    @Test
    void of_two_qualified_cycles_a_missing_counter_is_told_once() {
        CycleDefinition other = CycleDefinition.of("Wrapped 121", CycleType.B, 121);
        invented.cycles = List.of(B134, other);
        invented.run(TestKind.EMPTY_CHAMBER, other, PASS);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, other, PASS);
        }
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        assertThat(invented.assessed().openPoints())
                .filteredOn(point -> point.contains("cycles after the visit"))
                .hasSize(1);
    }

    @Test
    void where_nothing_is_qualified_nothing_ends() {
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        invented.loaded(FAIL);
        assertThat(state().isAnyQualified()).isFalse();
        assertThat(state().until()).isEmpty();
        assertThat(state().uncounted()).isEmpty();
        invented.counterAtDeparture = OptionalInt.of(1489);
        assertThat(state().untilCount()).isEmpty();
        assertThat(against(DAY.minusDays(1), OptionalInt.empty()))
                .as("what was never qualified has no time")
                .singleElement()
                .asString()
                .startsWith("Performance qualification (PQ): fail.");
        assertThat(invented.assessed().openPoints()).noneMatch(point -> point.contains("cycles after the visit"));
    }

    @Test
    void without_any_end_it_covers_nothing_and_without_a_day_neither() {
        invented.revalidation = Optional.empty();
        assertThat(state().isEndless()).isTrue();
        assertThat(against(DAY, OptionalInt.of(1)))
                .containsExactly(
                        "Nothing says until when it stands: neither the criteria set nor the visit names an end.");
        assertThat(state().endingBy(DAY).isEndless())
                .as("an interim report gives no end to what has none")
                .isTrue();
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        invented.counterAtDeparture = OptionalInt.of(1489);
        assertThat(state().isEndless()).isFalse();
        assertThat(against(DAY.plusYears(9), OptionalInt.of(1489))).isEmpty();
        invented.date = Optional.empty();
        assertThat(against(DAY, OptionalInt.of(1489)))
                .containsExactly("The day of the visit is not known, so nobody can say until when it stands.");
    }

    @Test
    void an_interim_report_ends_it_where_it_ends_sooner() {
        LocalDate last = DAY.plusDays(14);
        ValidatedState interim = state().endingBy(last);
        assertThat(interim.reasonsAgainst(ITS_CYCLE, last, OptionalInt.empty())).isEmpty();
        assertThat(interim.reasonsAgainst(ITS_CYCLE, last.plusDays(1), OptionalInt.empty()))
                .containsExactly("It ended with 2026-12-09.");
        assertThat(state().endingBy(DAY.plusYears(2)).until()).contains(DAY.plusYears(1));
        invented.revalidation = Optional.empty();
        invented.job.cyclesUntilDue = OptionalInt.of(500);
        invented.counterAtDeparture = OptionalInt.of(1489);
        assertThat(state().endingBy(last).until()).contains(last);
        assertThat(state().endingBy(last).untilCount()).hasValue(1989);
    }

    @Test
    void what_is_simulated_covers_nothing_except_among_invented_things() {
        invented.run(TestKind.LOADED, B134, PASS, Invented.Draft::simulated);
        assertThat(against(DAY, OptionalInt.empty()))
                .containsExactly("The recordings behind it are simulated; they say nothing about a real steriliser.");
        assertThat(state().amongInvented().reasonsAgainst(ITS_CYCLE, DAY, OptionalInt.empty()))
                .isEmpty();
    }

    @Test
    void each_steriliser_has_its_own_conditions_and_events() {
        invented.isWithAnother = true;
        for (String key : List.of("A", "B")) {
            invented.job.conditions.add(new PassCondition(
                    key,
                    "",
                    "filter of " + key,
                    "practice manager",
                    Optional.of(DAY),
                    OptionalInt.empty(),
                    Optional.empty(),
                    Optional.empty()));
            invented.job.events.add(new JobSheet.Event(key, EndingEvent.MOVED, DAY.plusDays(1), "of " + key));
        }
        List<ValidatedState> states = ValidatedState.of(invented.assessed());
        assertThat(states).extracting(ValidatedState::serial).containsExactly("EX-0001", "EX-0002");
        assertThat(states.get(0).reasonsAgainst(ITS_CYCLE, DAY, OptionalInt.empty()))
                .isEmpty();
        assertThat(states.get(0).reasonsAgainst(ITS_CYCLE, DAY.plusDays(1), OptionalInt.empty()))
                .containsExactly(
                        "A condition lapsed, so it is not qualified any more: filter of A. Owner: practice manager.",
                        "On 2026-11-26: moved to another place (of A). That ended it.");
        assertThat(states.get(1).conditions()).hasSize(1);
        assertThat(states.get(1).events()).hasSize(1);
    }

    private static PassCondition condition(String cycle, OptionalInt untilCount, Optional<LocalDate> metOn) {
        return new PassCondition(
                "A", cycle, "a filter", "practice manager", Optional.empty(), untilCount, metOn, Optional.empty());
    }

    @Test
    void a_condition_that_ends_with_a_number_wants_the_counter_read_while_it_is_open() {
        invented.job.conditions.add(condition("", OptionalInt.of(1500), Optional.of(DAY.plusDays(3))));
        assertThat(against(DAY.plusDays(2), OptionalInt.empty()))
                .containsExactly("A condition ends at cycle 1500, and the counter was not read: a filter.");
        assertThat(against(DAY.plusDays(2), OptionalInt.of(1500))).isEmpty();
        assertThat(against(DAY.plusDays(2), OptionalInt.of(1501))).hasSize(1);
        assertThat(against(DAY.plusDays(3), OptionalInt.empty())).as("met").isEmpty();
        assertThat(against(DAY.plusDays(3), OptionalInt.of(1501))).as("met").isEmpty();
    }

    @Test
    void an_event_without_a_note_and_a_condition_with_a_full_stop_read_as_sentences() {
        invented.job.events.add(new JobSheet.Event("A", EndingEvent.MOVED, DAY, " "));
        invented.job.conditions.add(new PassCondition(
                "A",
                "",
                "Fit a filter.",
                " practice manager ",
                Optional.of(DAY),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty()));
        assertThat(against(DAY.plusDays(1), OptionalInt.empty()))
                .containsExactly(
                        "A condition lapsed, so it is not qualified any more: Fit a filter. Owner: practice manager.",
                        "On 2026-11-25: moved to another place. That ended it.");
    }

    @Test
    void a_condition_of_another_cycle_leaves_this_one_alone() {
        invented.job.conditions.add(condition("another", OptionalInt.of(1500), Optional.empty()));
        assertThat(against(DAY, OptionalInt.empty())).isEmpty();
        invented.job.conditions.add(condition("wrapped-134", OptionalInt.of(1500), Optional.empty()));
        assertThat(state().reasonsAgainst("wrapped 134", DAY, OptionalInt.of(1501)))
                .hasSize(1);
    }

    @Test
    void a_cycle_is_found_by_its_name_as_somebody_writes_it() {
        assertThat(state().findCycle(" wrapped-134 ")).isPresent();
        assertThat(state().findCycle("wrapped 121")).isEmpty();
        assertThat(state().reasonsAgainst(" wrapped 121 ", DAY, OptionalInt.empty()))
                .containsExactly("The cycle ‘wrapped 121’ was not tested.");
    }

    @Test
    void a_cycle_that_the_steriliser_does_not_list_is_held_to_be_of_the_narrowest_type() {
        assertThat(state().cycles().get(0).type()).isEqualTo(CycleType.B);
        CycleDefinition unlisted = CycleDefinition.of("Unlisted 134", CycleType.B, 134);
        invented.run(TestKind.LOADED, unlisted, PASS);
        assertThat(state().findCycle("Unlisted 134").orElseThrow().type()).isEqualTo(CycleType.S);
    }

    private QualifiedCycle cycle() {
        return state().cycles().get(0);
    }

    @Test
    void the_least_drying_is_that_of_the_runs_and_the_declared_one_where_no_run_shows_it() {
        assertThat(cycle().leastDryingSeconds()).isEmpty();
        CycleDefinition declared = new CycleDefinition(
                B134.name(),
                B134.type(),
                B134.sterilizingTemperature(),
                Optional.empty(),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.of(Duration.ofMinutes(12)));
        invented.cycles = List.of(declared);
        assertThat(cycle().leastDryingSeconds()).contains(720.0);
        invented.run(TestKind.LOADED, B134, PASS, run -> run.drying(650));
        assertThat(cycle().leastDryingSeconds()).contains(650.0);
    }

    @Test
    void a_cycle_that_is_not_fit_has_no_loads_and_says_why_and_an_awaited_one_says_so() {
        invented.loaded(FAIL);
        assertThat(cycle().status()).isEqualTo(QualifiedCycle.Status.NOT_QUALIFIED);
        assertThat(cycle().loads()).isEmpty();
        assertThat(cycle().reasons()).isNotEmpty();
        Invented awaited = new Invented()
                .requiresIndicators()
                .leak("without sensors", PASS)
                .empty(PASS)
                .indicated(Invented.LOAD, "awaited");
        QualifiedCycle still =
                ValidatedState.of(awaited.assessed()).get(0).cycles().get(0);
        assertThat(still.status()).isEqualTo(QualifiedCycle.Status.AWAITED);
        assertThat(still.loads()).isEmpty();
    }

    /** Of two sterilisers one passes, and of the other an indicator is awaited. */
    @Test
    void a_visit_that_goes_out_as_interim_shows_no_validation_until_its_indicators_are_read() {
        Invented those = new Invented()
                .requiresIndicators()
                .leak("without sensors", PASS)
                .empty(PASS)
                .indicated(Invented.LOAD, "clear");
        those.isWithAnother = true;
        assertThat(Shown.of(those.assessed(), "A")).contains(Duty.VALIDATION);
        those.indicated(Invented.LOAD, "awaited", Invented.Draft::atAnother);
        assertThat(ValidatedState.of(those.assessed()).get(0).isAnyQualified()).isTrue();
        assertThat(Shown.of(those.assessed(), "A")).doesNotContain(Duty.VALIDATION);
    }
}
