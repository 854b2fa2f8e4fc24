package org.steamwright.visit.validity;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.InventedRegister.Machine;
import org.steamwright.visit.register.SterilizerRecord;

/** What the register says since a visit, day by day around each border. */
class RegisteredSinceTest {

    private static final LocalDate VISIT = LocalDate.of(2026, 3, 2);
    private static final LocalDate TODAY = LocalDate.of(2026, 6, 1);
    private static final String CYCLE = "134 wrapped";
    private static final String LAPSED =
            "A condition lapsed, so it is not qualified any more: second pack. Owner: practice manager.";

    private OptionalInt untilCount = OptionalInt.empty();
    private List<PassCondition> conditions = List.of();
    private LocalDate day = TODAY;
    private OptionalInt count = OptionalInt.empty();

    private List<String> against(Machine machine) {
        ValidatedState state = new ValidatedState(
                "A",
                "SN-0417",
                "R-1",
                Optional.of(VISIT),
                Optional.of(VISIT.plusYears(1)),
                untilCount,
                List.of(),
                conditions,
                List.of(),
                false);
        return RegisteredSince.against(machine.build(), state, CYCLE, day, count);
    }

    @Test
    void a_machine_of_which_nothing_is_said_stands_as_it_was() {
        assertThat(against(new Machine())).isEmpty();
    }

    @ParameterizedTest
    @EnumSource
    void what_is_not_in_use_is_not_covered(SterilizerRecord.Status status) {
        List<String> against = against(new Machine().standing(status));
        if (status == SterilizerRecord.Status.IN_USE) {
            assertThat(against).isEmpty();
        } else {
            assertThat(against).containsExactly("The register has it as " + status.words() + ".");
        }
    }

    /** On the day of the visit it came before the visit; on the day that is asked for it has happened. */
    @ParameterizedTest(name = "on {0}: speaks against it {1}")
    @CsvSource({
        "2026-03-01, false",
        "2026-03-02, false",
        "2026-03-03, true",
        "2026-06-01, true",
        "2026-06-02, false",
    })
    void moves_changes_and_firmware_count_after_the_day_of_the_visit_up_to_the_day_asked(LocalDate on, boolean speaks) {
        Machine moved = new Machine().with(new SterilizerRecord.Movement(on, "R-1", "R-2", "lent"));
        assertThat(against(moved))
                .isEqualTo(speaks ? List.of("On " + on + " it was moved (lent). That ended it.") : List.of());
        Machine changed =
                new Machine().with(new SterilizerRecord.ChangeMade(on, "sensor", "sensor exchanged", Optional.empty()));
        assertThat(against(changed))
                .isEqualTo(
                        speaks
                                ? List.of(
                                        "On " + on
                                                + ": sensor exchanged. The tests that this asks for are not recorded as passed.")
                                : List.of());
        Machine renewed = new Machine()
                .with(new SterilizerRecord.Firmware("1.0", LocalDate.of(2020, 1, 1), ""))
                .with(new SterilizerRecord.Firmware("2.0", on, ""));
        assertThat(against(renewed))
                .isEqualTo(
                        speaks
                                ? List.of(
                                        "Since " + on
                                                + " it has firmware 2.0. The tests that this asks for are not recorded as passed.")
                                : List.of());
    }

    @Test
    void the_first_firmware_that_was_seen_changed_nothing() {
        assertThat(against(new Machine().with(new SterilizerRecord.Firmware("1.0", VISIT.plusDays(5), ""))))
                .isEmpty();
    }

    @Test
    void what_was_moved_or_changed_without_words_is_told_as_far_as_it_is_known() {
        assertThat(against(new Machine()
                        .with(new SterilizerRecord.Movement(VISIT.plusDays(1), "R-1", "R-2", ""))
                        .with(new SterilizerRecord.ChangeMade(VISIT.plusDays(2), "sensor", "", Optional.empty()))))
                .containsExactly(
                        "On 2026-03-03 it was moved. That ended it.",
                        "On 2026-03-04: sensor. The tests that this asks for are not recorded as passed.");
    }

    @ParameterizedTest(name = "settled on {0}: speaks against it {1}")
    @CsvSource({"2026-05-31, false", "2026-06-01, false", "2026-06-02, true"})
    void a_change_is_settled_from_the_day_of_its_tests_on(LocalDate settled, boolean speaks) {
        assertThat(against(new Machine()
                                .with(new SterilizerRecord.ChangeMade(
                                        VISIT.plusDays(1), "seal", "seal", Optional.of(settled))))
                        .isEmpty())
                .isEqualTo(!speaks);
    }

    private static Counter counter(Object... dayAndShown) {
        Counter.Reading[] readings = new Counter.Reading[dayAndShown.length / 2];
        for (int i = 0; i < readings.length; i++) {
            readings[i] = new Counter.Reading(
                    LocalDate.parse(String.valueOf(dayAndShown[2 * i])),
                    Long.parseLong(String.valueOf(dayAndShown[2 * i + 1])),
                    "");
        }
        return new Counter(List.of(readings), List.of());
    }

    @Test
    void a_reading_above_the_last_number_ends_it_whatever_is_typed() {
        untilCount = OptionalInt.of(2000);
        Machine at = new Machine().with(counter("2026-03-02", 1500, "2026-05-01", 2000));
        assertThat(against(at)).as("the last number is itself good").isEmpty();
        Machine past = new Machine().with(counter("2026-03-02", 1500, "2026-05-01", 2001));
        assertThat(against(past)).containsExactly("It ended with cycle 2000; the counter showed 2001 on 2026-05-01.");
        count = OptionalInt.of(1600);
        assertThat(against(past)).containsExactly("It ended with cycle 2000; the counter showed 2001 on 2026-05-01.");
        assertThat(against(at))
                .containsExactly("The counter showed 2000 on 2026-05-01 already, so today's cycle is not number 1600.");
        count = OptionalInt.of(2000);
        assertThat(against(at)).as("the cycle that the counter shows").isEmpty();
    }

    @Test
    void readings_count_from_the_day_of_the_visit_to_the_day_asked() {
        untilCount = OptionalInt.of(2000);
        assertThat(against(new Machine().with(counter("2026-03-01", 2500))))
                .as("before the visit")
                .isEmpty();
        assertThat(against(new Machine().with(counter("2026-03-02", 2500)))).hasSize(1);
        assertThat(against(new Machine().with(counter("2026-06-01", 2500)))).hasSize(1);
        assertThat(against(new Machine().with(counter("2026-06-02", 2500))))
                .as("to come")
                .isEmpty();
    }

    @Test
    void where_no_number_ends_anything_the_counter_says_nothing() {
        count = OptionalInt.of(5);
        assertThat(against(new Machine().with(counter("2026-05-01", 2500)))).isEmpty();
    }

    @ParameterizedTest(name = "set back on {0}: speaks against it {1}")
    @CsvSource({
        "2026-03-01, false",
        "2026-03-02, true",
        "2026-06-01, true",
        "2026-06-02, false",
    })
    void a_counter_that_was_set_back_since_says_nothing_of_a_number(LocalDate on, boolean speaks) {
        untilCount = OptionalInt.of(2000);
        conditions = List.of(condition(CYCLE, OptionalInt.of(1800), Optional.empty()));
        count = OptionalInt.of(10);
        Counter reset = new Counter(List.of(), List.of(new Counter.Reset(on, 1700, 0, "board exchanged")));
        assertThat(against(new Machine().with(reset)))
                .isEqualTo(
                        speaks
                                ? List.of(
                                        "It ends at cycle 2000, and the counter was set back on " + on
                                                + ", so nobody can say whether that number is reached.",
                                        "A condition ends at cycle 1800, and the counter was set back on " + on
                                                + ", so nobody can say whether that number is reached: second pack.")
                                : List.of());
    }

    private static PassCondition condition(String cycle, OptionalInt end, Optional<LocalDate> metOn) {
        return new PassCondition(
                "A",
                cycle,
                "second pack",
                "practice manager",
                Optional.of(VISIT.plusYears(1)),
                end,
                metOn,
                Optional.empty());
    }

    @Test
    void a_condition_ends_with_the_reading_above_its_number_whatever_is_typed() {
        Machine past = new Machine().with(counter("2026-05-01", 1801));
        count = OptionalInt.of(1801);
        conditions = List.of(condition("", OptionalInt.of(1800), Optional.empty()));
        assertThat(against(past)).containsExactly(LAPSED);
        conditions = List.of(condition("134-Wrapped", OptionalInt.of(1800), Optional.empty()));
        assertThat(against(past)).containsExactly(LAPSED);
        conditions = List.of(condition("another cycle", OptionalInt.of(1800), Optional.empty()));
        assertThat(against(past)).as("of another cycle").isEmpty();
        conditions = List.of(condition("", OptionalInt.of(1800), Optional.of(TODAY)));
        assertThat(against(past)).as("met").isEmpty();
        conditions = List.of(condition("", OptionalInt.of(1801), Optional.empty()));
        assertThat(against(past)).as("the last number is itself good").isEmpty();
        conditions = List.of(condition("", OptionalInt.empty(), Optional.empty()));
        assertThat(against(past)).as("only a day ends it").isEmpty();
        conditions = List.of(condition("", OptionalInt.of(1900), Optional.empty()));
        count = OptionalInt.of(1700);
        assertThat(against(past))
                .containsExactly("The counter showed 1801 on 2026-05-01 already, so today's cycle is not number 1700.");
    }

    private static Machine with(LocalDate until, OptionalLong atCycles, Optional<LocalDate> metOn) {
        return new Machine()
                .with(new SterilizerRecord.PassCondition("second pack", "practice manager", until, atCycles, metOn));
    }

    @Test
    void a_condition_of_the_register_lapses_after_its_last_day_unless_it_was_met() {
        assertThat(against(with(TODAY, OptionalLong.empty(), Optional.empty())))
                .as("the last day is itself good")
                .isEmpty();
        assertThat(against(with(TODAY.minusDays(1), OptionalLong.empty(), Optional.empty())))
                .containsExactly(LAPSED);
        assertThat(against(with(TODAY.minusDays(1), OptionalLong.empty(), Optional.of(TODAY))))
                .isEmpty();
        assertThat(against(with(TODAY.minusDays(1), OptionalLong.empty(), Optional.of(TODAY.plusDays(1)))))
                .as("met later than the day asked")
                .containsExactly(LAPSED);
    }

    @Test
    void a_condition_that_ended_before_the_visit_was_one_of_an_earlier_pass() {
        assertThat(against(with(VISIT.minusDays(1), OptionalLong.empty(), Optional.empty())))
                .isEmpty();
        assertThat(against(with(VISIT, OptionalLong.empty(), Optional.empty()))).containsExactly(LAPSED);
    }

    @Test
    void a_condition_of_the_register_lapses_at_its_total_by_what_was_read_or_typed() {
        LocalDate far = TODAY.plusYears(1);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty())))
                .containsExactly("A condition ends at cycle 1800, and the counter was not read: second pack.");
        count = OptionalInt.of(1800);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()))).isEmpty();
        count = OptionalInt.of(1801);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()))).containsExactly(LAPSED);
        count = OptionalInt.of(5);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()).with(counter("2026-06-01", 1801))))
                .as("the counter knows better")
                .containsExactly(LAPSED);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()).with(counter("2026-06-02", 1801))))
                .as("read later than the day asked")
                .isEmpty();
        assertThat(against(with(far, OptionalLong.of(1800), Optional.of(TODAY))))
                .isEmpty();
    }

    @Test
    void a_total_goes_through_the_resets() {
        LocalDate far = TODAY.plusYears(1);
        Counter reset = new Counter(List.of(), List.of(new Counter.Reset(TODAY, 1750, 10, "board exchanged")));
        count = OptionalInt.of(60);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()).with(reset)))
                .as("1750 before and 50 after")
                .isEmpty();
        count = OptionalInt.of(61);
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()).with(reset)))
                .containsExactly(LAPSED);
        Counter later =
                new Counter(List.of(), List.of(new Counter.Reset(TODAY.plusDays(1), 1750, 10, "board exchanged")));
        assertThat(against(with(far, OptionalLong.of(1800), Optional.empty()).with(later)))
                .as("set back later than the day asked")
                .isEmpty();
    }

    @Test
    void where_the_day_of_the_visit_is_not_known_everything_counts() {
        ValidatedState state = new ValidatedState(
                "A",
                "SN-0417",
                "R-1",
                Optional.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                List.of(),
                List.of(),
                List.of(),
                false);
        assertThat(RegisteredSince.against(
                        new Machine()
                                .with(new SterilizerRecord.Movement(LocalDate.of(1990, 1, 1), "", "R-1", "bought"))
                                .build(),
                        state,
                        CYCLE,
                        TODAY,
                        OptionalInt.empty()))
                .hasSize(1);
    }
}
