package org.steamwright.visit.validity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.validity.TodaysLoad.Thing;

class CoverageTest {

    static final LocalDate DAY = LocalDate.of(2026, 11, 25);
    static final List<String> FAMILIES = List.of("solid", "hollow A", "hollow B", "porous");
    static final List<String> WRAPPINGS =
            List.of("none", "single pouch", "double pouch", "wrapped once", "wrapped twice");

    static final ReferenceLoad TESTED =
            load(item("cassette", 4, "solid", "wrapped twice"), item("handpiece", 3, "hollow A", "single pouch"));

    @Test
    void the_tested_load_itself_is_covered_and_by_which_is_said() {
        Coverage coverage = Coverage.of(
                state(TESTED),
                today(
                        thing("cassette", 4, "solid", "wrapped twice"),
                        thing("handpiece", 3, "hollow A", "single pouch")));
        assertThat(coverage.isCovered()).isTrue();
        assertThat(coverage.by()).contains("the tested load");
    }

    @ParameterizedTest(name = "{0} × {1}, {2}: covered {3}")
    @CsvSource(
            delimiter = '|',
            value = {
                "7 | solid    | single pouch  | false | four wrapped and three pouched stood for wrapped or pouched"
                        + " things",
                "3 | solid    | single pouch  | true  | a handpiece stands for a solid thing in its pouch",
                "7 | solid    | none          | true  | unwrapped is the easiest",
                "8 | solid    | none          | false | one more than was tested",
                "3 | hollow B | single pouch  | true  | hollow A is harder than hollow B",
                "1 | hollow A | double pouch  | false | two layers were not tested round a lumen",
                "1 | hollow A | wrapped once  | false | kinds of packaging are not compared",
                "1 | porous   | wrapped twice | false | nothing porous was tested",
                "4 | solid    | wrapped once  | true  | one layer is easier than two",
                "1 | hollow A | paper pouch   | true  | a pouch of paper is a pouch",
                "1 | hollow A | triple pouch  | false | three layers were not tested",
                "1 | hollow A | 3 pouches     | false | nor said in figures",
                "1 | hollow A | 2x pouch      | false | nor in a word that is not on the list",
                "1 | solid    | wrapped thrice| false | three layers are harder than two",
                "1 | solid    | doppelt wrapped | false | nor in another language",
                "1 | lumen    | none          | false | nobody knows what family that is",
                "1 | solid    | ''            | false | packaging not stated",
            })
    void one_kind_of_things(int count, String family, String packaging, boolean isCovered, String why) {
        Coverage coverage = Coverage.of(state(TESTED), today(thing("thing", count, family, packaging)));
        assertThat(coverage.isCovered()).as(why + ": " + coverage.reasons()).isEqualTo(isCovered);
    }

    @Test
    void reasons_name_what_is_too_many_and_what_is_too_hard() {
        Coverage coverage = Coverage.of(
                state(TESTED),
                today(thing("cassette", 6, "solid", "wrapped twice"), thing("gown", 1, "porous", "wrapped once")));
        assertThat(coverage.reasons())
                .containsExactly(
                        "There are more things like ‘cassette’ than the tested load had of that kind or a harder one"
                                + " (2 too many).",
                        "Nothing as hard as ‘gown’ (porous, wrapped once) was in the tested load.");
    }

    @Test
    void mass_serial_tests_and_drying_count() {
        Thing one = thing("cassette", 1, "solid", "wrapped once");
        TodaysLoad base = today(one);
        TodaysLoad wrong = new TodaysLoad(
                "SN-2",
                "134 wrapped",
                DAY,
                OptionalInt.of(5),
                List.of(one),
                Optional.of(3.3),
                Optional.of(60.0),
                Optional.of(false));
        assertThat(Coverage.of(state(TESTED), base).isCovered()).isTrue();
        assertThat(Coverage.of(state(TESTED), wrong).reasons())
                .containsExactly(
                        "This is steriliser SN-2; what was tested is steriliser SN-1.",
                        "A test that is due today did not pass.",
                        "The drying is set shorter than what was tested.",
                        "The load weighs more than the one that was tested.");
    }

    private static TodaysLoad stated(Optional<Double> kilogram, Optional<Boolean> testsPassed) {
        return new TodaysLoad(
                "SN-1",
                "134 wrapped",
                DAY,
                OptionalInt.of(5),
                List.of(thing("cassette", 1, "solid", "wrapped once")),
                kilogram,
                Optional.empty(),
                testsPassed);
    }

    @Test
    void a_mass_that_nobody_states_is_not_covered_where_the_tested_load_has_one() {
        assertThat(TESTED.totalKilogram()).isPresent();
        Coverage unweighed = Coverage.of(state(TESTED), stated(Optional.empty(), Optional.of(true)));
        assertThat(unweighed.isCovered()).isFalse();
        assertThat(unweighed.reasons())
                .containsExactly("The tested load was weighed and today's load was not. State its mass.");
        ReferenceLoad tested =
                new ReferenceLoad("never weighed", TESTED.items(), "", "", "", Optional.empty(), "", List.of());
        Coverage neither = Coverage.of(state(tested), stated(Optional.empty(), Optional.of(true)));
        assertThat(neither.isCovered()).isTrue();
        assertThat(neither.notes()).contains("The tested load was not weighed, so the mass is not compared.");
    }

    @ParameterizedTest
    @CsvSource({"0", "-1", "NaN"})
    void a_mass_that_no_load_has_is_not_stated(double kilogram) {
        assertThat(Coverage.of(state(TESTED), stated(Optional.of(kilogram), Optional.of(true)))
                        .reasons())
                .containsExactly("The tested load was weighed and today's load was not. State its mass.");
    }

    @Test
    void the_mass_of_the_tested_load_is_itself_covered() {
        assertThat(Coverage.of(state(TESTED), stated(Optional.of(3.2), Optional.of(true)))
                        .isCovered())
                .isTrue();
    }

    private static Coverage onTrays(OptionalInt tested, OptionalInt today) {
        TodaysLoad load = stated(Optional.of(1.0), Optional.of(true));
        return Coverage.of(
                state(TESTED.withTrays(tested)),
                new TodaysLoad(
                        load.serial(),
                        load.cycle(),
                        load.day(),
                        load.count(),
                        load.things(),
                        load.kilogram(),
                        load.dryingSeconds(),
                        load.testsPassed(),
                        today));
    }

    @ParameterizedTest(name = "tested {0}, today {1}: {2}")
    @CsvSource({
        "3, 3, true,  as many",
        "3, 2, true,  fewer",
        "3, 4, false, more than tested",
        "3,  , false, stated for the tested load and not for today's",
        " , 4, true,  not stated for the tested load so not compared",
    })
    void trays_are_compared_where_the_tested_load_states_them(
            Integer tested, Integer today, boolean isCovered, String why) {
        Coverage coverage = onTrays(
                tested == null ? OptionalInt.empty() : OptionalInt.of(tested),
                today == null ? OptionalInt.empty() : OptionalInt.of(today));
        assertThat(coverage.isCovered()).as(why + coverage.reasons()).isEqualTo(isCovered);
    }

    @Test
    void trays_are_named_with_both_figures() {
        assertThat(onTrays(OptionalInt.of(3), OptionalInt.of(4)).reasons())
                .containsExactly("More trays than tested: 4 today, 3 in the tested load.");
        assertThat(onTrays(OptionalInt.of(3), OptionalInt.empty()).reasons())
                .containsExactly(
                        "It is stated on how many trays the tested load lay, and not for today's. State the trays.");
    }

    @Test
    void tests_of_the_day_of_which_nobody_says_anything_come_first() {
        Coverage unsaid = Coverage.of(state(TESTED), stated(Optional.of(1.0), Optional.empty()));
        assertThat(unsaid.isCovered()).isFalse();
        assertThat(unsaid.isWaitingForTests()).isTrue();
        assertThat(unsaid.reasons())
                .containsExactly("Not yet: nobody said whether the tests that are due today passed. Test first.");
        assertThat(Coverage.of(state(TESTED), stated(Optional.of(99.0), Optional.empty()))
                        .isWaitingForTests())
                .as("something else is missing too")
                .isFalse();
        assertThat(Coverage.of(state(TESTED), stated(Optional.of(1.0), Optional.of(true)))
                        .isWaitingForTests())
                .isFalse();
    }

    @Test
    void what_changes_nothing_and_has_to_be_known_stands_in_the_notes() {
        Coverage single = Coverage.of(
                state(load(item("gown", 1, "porous", "wrapped once"))),
                today(thing("gown", 1, "porous", "wrapped once")));
        assertThat(single.isCovered()).isTrue();
        assertThat(single.notes())
                .anyMatch(note -> note.startsWith("A single porous pack in an otherwise empty chamber"));
        Coverage mixed = Coverage.of(
                state(TESTED),
                today(thing("probe", 1, "solid", "none"), thing("cassette", 1, "solid", "wrapped once")));
        assertThat(mixed.notes())
                .contains(
                        "Unwrapped items are for use at once; they can't be kept sterile.",
                        "Wrapped and unwrapped items together: never put unwrapped items above wrapped ones.");
    }

    @Test
    void two_tested_loads_are_never_added_up() {
        ReferenceLoad solids = load(item("cassette", 4, "solid", "wrapped once"));
        ReferenceLoad hollows = load(item("handpiece", 2, "hollow A", "single pouch"));
        TodaysLoad both =
                today(thing("cassette", 4, "solid", "wrapped once"), thing("handpiece", 2, "hollow A", "single pouch"));
        assertThat(Coverage.of(state(solids, hollows), both).isCovered()).isFalse();
    }

    @Test
    void type_n_is_for_unwrapped_solid_things_whatever_was_tested() {
        ValidatedState open = new ValidatedState(
                "A",
                "SN-1",
                "R-1",
                Optional.of(DAY),
                Optional.of(DAY.plusDays(30)),
                OptionalInt.empty(),
                List.of(new QualifiedCycle(
                        "134 wrapped",
                        CycleType.N,
                        QualifiedCycle.Status.QUALIFIED,
                        List.of(TESTED),
                        Optional.empty(),
                        List.of())),
                List.of(),
                List.of(),
                false);
        assertThat(Coverage.of(open, today(thing("probe", 1, "solid", "none"))).isCovered())
                .isTrue();
        assertThat(Coverage.of(open, today(thing("probe", 1, "solid", "single pouch")))
                        .reasons())
                .containsExactly("A cycle of type N is for unwrapped solid items only; ‘probe’ is not one.");
    }

    @ParameterizedTest(name = "day {0}, cycle {1}: {2}")
    @CsvSource({
        "2026-11-24, 100, false, the day before it begins",
        "2026-11-25, 100, true,  the day of the visit",
        "2027-11-24, 100, true,  the last day is itself good",
        "2027-11-25, 100, false, one day later",
        "2027-01-01, 2000, true, the last number is itself good",
        "2027-01-01, 2001, false, one cycle later although the day is good",
    })
    void day_or_count_whichever_comes_first(LocalDate day, int count, boolean isCovered, String why) {
        ValidatedState state = state(DAY.plusYears(1).minusDays(1), OptionalInt.of(2000), List.of(), List.of());
        assertThat(Coverage.of(state, on(day, OptionalInt.of(count))).isCovered())
                .as(why)
                .isEqualTo(isCovered);
    }

    @Test
    void a_count_that_nobody_read_covers_nothing_where_a_count_ends_it() {
        ValidatedState state = state(DAY.plusYears(1), OptionalInt.of(2000), List.of(), List.of());
        assertThat(Coverage.of(state, on(DAY, OptionalInt.empty())).reasons())
                .containsExactly("It ends at cycle 2000, and the counter was not read.");
    }

    @Test
    void a_condition_lapses_by_itself_and_takes_the_cycle_with_it() {
        PassCondition condition = new PassCondition(
                "A",
                "",
                "fit a new filter",
                "practice manager",
                Optional.of(DAY.plusDays(30)),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty());
        PassCondition met = new PassCondition(
                "A",
                "",
                "fit a new filter",
                "practice manager",
                Optional.of(DAY.plusDays(30)),
                OptionalInt.empty(),
                Optional.of(DAY.plusDays(10)),
                Optional.empty());
        ValidatedState open = state(DAY.plusYears(1), OptionalInt.empty(), List.of(condition), List.of());
        ValidatedState done = state(DAY.plusYears(1), OptionalInt.empty(), List.of(met), List.of());
        assertThat(Coverage.of(open, on(DAY.plusDays(30), OptionalInt.of(1))).isCovered())
                .isTrue();
        assertThat(Coverage.of(open, on(DAY.plusDays(31), OptionalInt.of(1))).reasons())
                .containsExactly(
                        "A condition lapsed, so it is not qualified any more: fit a new filter. Owner: practice"
                                + " manager.");
        assertThat(Coverage.of(done, on(DAY.plusDays(31), OptionalInt.of(1))).isCovered())
                .isTrue();
    }

    @Test
    void an_event_ends_it_from_its_day_and_a_new_load_does_not() {
        ValidatedState moved = state(
                DAY.plusYears(1),
                OptionalInt.empty(),
                List.of(),
                List.of(new JobSheet.Event("A", EndingEvent.MOVED, DAY.plusDays(5), "to the cellar")));
        ValidatedState newLoad = state(
                DAY.plusYears(1),
                OptionalInt.empty(),
                List.of(),
                List.of(new JobSheet.Event("A", EndingEvent.NEW_LOAD, DAY.plusDays(5), "")));
        assertThat(Coverage.of(moved, on(DAY.plusDays(4), OptionalInt.of(1))).isCovered())
                .isTrue();
        assertThat(Coverage.of(moved, on(DAY.plusDays(5), OptionalInt.of(1))).reasons())
                .containsExactly("On 2026-11-30: moved to another place (to the cellar). That ended it.");
        assertThat(Coverage.of(newLoad, on(DAY.plusDays(5), OptionalInt.of(1))).isCovered())
                .isTrue();
    }

    @Test
    void nothing_simulated_awaited_or_unknown_covers_anything() {
        Thing one = thing("cassette", 1, "solid", "none");
        for (QualifiedCycle.Status status : QualifiedCycle.Status.values()) {
            boolean isGood = status == QualifiedCycle.Status.QUALIFIED;
            ValidatedState state = new ValidatedState(
                    "A",
                    "SN-1",
                    "R-1",
                    Optional.of(DAY),
                    Optional.of(DAY),
                    OptionalInt.empty(),
                    List.of(new QualifiedCycle(
                            "134 wrapped",
                            CycleType.B,
                            status,
                            isGood ? List.of(TESTED) : List.of(),
                            Optional.empty(),
                            isGood ? List.of() : List.of("not read yet"))),
                    List.of(),
                    List.of(),
                    false);
            assertThat(Coverage.of(state, today(one)).isCovered()).isEqualTo(isGood);
        }
        ValidatedState good = state(TESTED);
        ValidatedState simulated = new ValidatedState(
                good.sterilizer(),
                good.serial(),
                "",
                good.from(),
                good.until(),
                good.untilCount(),
                good.cycles(),
                List.of(),
                List.of(),
                true);
        assertThat(Coverage.of(simulated, today(one)).isCovered()).isFalse();
        TodaysLoad other = new TodaysLoad(
                "SN-1",
                "121 rubber",
                DAY,
                OptionalInt.empty(),
                List.of(one),
                Optional.empty(),
                Optional.empty(),
                Optional.of(true));
        assertThat(Coverage.of(good, other).reasons()).containsExactly("The cycle ‘121 rubber’ was not tested.");
    }

    private static TodaysLoad drying(double seconds) {
        TodaysLoad load = stated(Optional.of(1.0), Optional.of(true));
        return new TodaysLoad(
                load.serial(),
                load.cycle(),
                load.day(),
                load.count(),
                load.things(),
                load.kilogram(),
                Optional.of(seconds),
                load.testsPassed());
    }

    @Test
    void drying_as_long_as_was_tested_or_longer_is_covered() {
        assertThat(Coverage.of(state(TESTED), drying(600)).isCovered()).isTrue();
        assertThat(Coverage.of(state(TESTED), drying(601)).isCovered()).isTrue();
        assertThat(Coverage.of(state(TESTED), drying(599)).reasons())
                .containsExactly("The drying is set shorter than what was tested.");
    }

    @Test
    void an_answer_and_its_reasons_never_contradict_each_other() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Coverage(true, List.of("a reason"), Optional.empty(), List.of()));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Coverage(false, List.of(), Optional.empty(), List.of()));
    }

    @Test
    void a_load_holds_things_and_a_thing_has_a_name_and_a_number() {
        assertThatIllegalArgumentException().isThrownBy(CoverageTest::today);
        assertThatIllegalArgumentException().isThrownBy(() -> thing("cassette", 0, "solid", "none"));
        assertThatIllegalArgumentException().isThrownBy(() -> thing(" ", 1, "solid", "none"));
    }

    @ParameterizedTest
    @CsvSource({"QUALIFIED, qualified", "AWAITED, awaited", "NOT_QUALIFIED, not qualified"})
    void a_cycle_is_qualified_or_has_a_reason_and_never_both(QualifiedCycle.Status status, String words) {
        boolean isGood = status == QualifiedCycle.Status.QUALIFIED;
        List<String> wrong = isGood ? List.of("a reason") : List.of();
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        new QualifiedCycle("134 wrapped", CycleType.B, status, List.of(), Optional.empty(), wrong));
        assertThat(status.words()).isEqualTo(words);
    }

    @Test
    void what_else_speaks_against_it_takes_the_answer_away_and_what_has_to_be_known_does_not() {
        Coverage covered = Coverage.of(state(TESTED), stated(Optional.of(1.0), Optional.of(true)));
        Coverage noted = covered.and(List.of(), List.of("to know"));
        assertThat(noted.isCovered()).isTrue();
        assertThat(noted.by()).contains("the tested load");
        assertThat(noted.notes()).contains("to know");
        Coverage against = covered.and(List.of("moved", "moved"), List.of());
        assertThat(against.isCovered()).isFalse();
        assertThat(against.by()).isEmpty();
        assertThat(against.reasons()).containsExactly("moved");
    }

    private static List<String> notes(ReferenceLoad tested, Thing... things) {
        return Coverage.of(state(tested), today(things)).notes();
    }

    @Test
    void nothing_is_noted_of_a_load_of_wrapped_things_of_which_all_is_known() {
        assertThat(notes(TESTED, thing("cassette", 1, "solid", "wrapped once"))).isEmpty();
        ReferenceLoad unweighed =
                new ReferenceLoad("never weighed", TESTED.items(), "", "", "", Optional.empty(), "", List.of());
        assertThat(Coverage.of(state(unweighed, TESTED), today(thing("cassette", 1, "solid", "wrapped once")))
                        .notes())
                .as("one of the tested loads was weighed")
                .isEmpty();
    }

    @Test
    void wrapped_and_unwrapped_things_are_noted_together_only_where_both_are_said() {
        String open = "Unwrapped items are for use at once; they can't be kept sterile.";
        assertThat(notes(TESTED, thing("probe", 1, "solid", "none"))).containsExactly(open);
        assertThat(notes(TESTED, thing("probe", 1, "solid", "none"), thing("mirror", 1, "solid", "?")))
                .containsExactly(open);
    }

    @Test
    void a_single_pack_is_noted_only_where_it_is_porous_and_alone() {
        ReferenceLoad porous = load(item("gown", 3, "porous", "wrapped once"));
        assertThat(notes(porous, thing("gown", 1, "porous", "wrapped once"))).hasSize(1);
        assertThat(notes(porous, thing("gown", 2, "porous", "wrapped once"))).isEmpty();
        assertThat(notes(porous, thing("cassette", 1, "solid", "wrapped once"))).isEmpty();
    }

    @Test
    void a_cycle_of_type_s_is_compared_with_the_makers_list() {
        QualifiedCycle good = state(TESTED).cycles().get(0);
        ValidatedState special = new ValidatedState(
                "A",
                "SN-1",
                "R-1",
                Optional.of(DAY),
                Optional.of(DAY),
                OptionalInt.empty(),
                List.of(new QualifiedCycle(
                        good.name(),
                        CycleType.S,
                        good.status(),
                        good.loads(),
                        good.leastDryingSeconds(),
                        good.reasons())),
                List.of(),
                List.of(),
                false);
        Coverage coverage = Coverage.of(special, today(thing("cassette", 1, "solid", "wrapped once")));
        assertThat(coverage.isCovered()).isTrue();
        assertThat(coverage.notes())
                .containsExactly("A cycle of type S is for what the maker's list names; compare the load with it.");
    }

    @Test
    void what_nobody_said_of_a_thing_is_told_of_that_thing_alone() {
        Coverage coverage = Coverage.of(
                state(TESTED),
                today(
                        thing("probe", 1, "lumen", "none"),
                        thing("mirror", 1, "solid", "-"),
                        thing("cassette", 1, "solid", "wrapped once")));
        assertThat(coverage.reasons())
                .containsExactly(
                        "Nobody says whether ‘probe’ is solid, hollow A, hollow B or porous.",
                        "The packaging of ‘mirror’ is not stated.",
                        "Nothing as hard as ‘probe’ (lumen, none) was in the tested load.",
                        "Nothing as hard as ‘mirror’ (solid, -) was in the tested load.");
    }

    @Test
    void packaging_that_nobody_stated_stands_for_nothing_and_nothing_stands_for_it() {
        ReferenceLoad unsaid = load(item("cassette", 4, "solid", ""));
        assertThat(Coverage.stands(unsaid.items().get(0), unsaid, thing("cassette", 1, "solid", "")))
                .isFalse();
        assertThat(Coverage.stands(unsaid.items().get(0), unsaid, thing("cassette", 1, "solid", "pouch")))
                .isFalse();
        assertThat(Coverage.stands(unsaid.items().get(0), unsaid, thing("cassette", 1, "solid", "none")))
                .as("unwrapped is easier than whatever it was")
                .isTrue();
        assertThat(Coverage.stands(TESTED.items().get(0), TESTED, thing("cassette", 1, "solid", "unknown")))
                .isFalse();
    }

    @Test
    void an_item_without_packaging_of_its_own_has_that_of_its_load() {
        ReferenceLoad pouched = new ReferenceLoad(
                "pouched",
                List.of(item("cassette", 4, "solid", ""), item("gown", 1, "porous", "wrap")),
                "",
                "",
                "pouch",
                Optional.empty(),
                "",
                List.of());
        assertThat(Coverage.of(state(pouched), today(thing("cassette", 4, "solid", "pouch")))
                        .isCovered())
                .isTrue();
        assertThat(Coverage.of(state(pouched), today(thing("gown", 1, "porous", "pouch")))
                        .isCovered())
                .isFalse();
    }

    @Test
    void things_that_have_their_counterparts_leave_the_others_without() {
        assertThat(Coverage.of(
                                state(TESTED),
                                today(
                                        thing("cassette", 1, "solid", "wrapped twice"),
                                        thing("gown", 1, "porous", "wrapped once")))
                        .reasons())
                .containsExactly("Nothing as hard as ‘gown’ (porous, wrapped once) was in the tested load.");
    }

    /**
     * As many find a counterpart as can: the rest is that of the kinds of things that have the fewest items for them, as Hall's
     * theorem has it, and what is not left over fits.
     */
    @Property(tries = 500)
    void no_more_are_left_over_than_have_to_be(@ForAll long seed) {
        Random random = new Random(seed);
        long[] things = counts(random);
        long[] items = counts(random);
        long[][] fits = new long[things.length][items.length];
        for (long[] row : fits) {
            for (int j = 0; j < row.length; j++) {
                row[j] = random.nextInt(5) < 2 ? 1 : 0;
            }
        }
        long[] left = Coverage.unmatched(things.clone(), items.clone(), fits);
        assertThat(Arrays.stream(left).sum()).isEqualTo(shortage(things, items, fits));
        long[] matched = new long[things.length];
        for (int i = 0; i < things.length; i++) {
            assertThat(left[i]).isBetween(0L, things[i]);
            matched[i] = things[i] - left[i];
        }
        assertThat(shortage(matched, items, fits)).isZero();
    }

    private static long[] counts(Random random) {
        long[] counts = new long[1 + random.nextInt(5)];
        for (int i = 0; i < counts.length; i++) {
            counts[i] = 1 + random.nextInt(9);
        }
        return counts;
    }

    private static long shortage(long[] things, long[] items, long[][] fits) {
        long most = 0;
        for (int some = 0; some < 1 << things.length; some++) {
            long wanted = 0;
            long there = 0;
            for (int i = 0; i < things.length; i++) {
                wanted += (some >> i & 1) * things[i];
            }
            for (int j = 0; j < items.length; j++) {
                boolean isFor = false;
                for (int i = 0; i < things.length; i++) {
                    isFor |= (some >> i & 1) == 1 && fits[i][j] == 1;
                }
                there += isFor ? items[j] : 0;
            }
            most = Math.max(most, wanted - there);
        }
        return most;
    }

    /** The flow against a slow search that tries every pairing of single things. */
    @Property(tries = 600)
    void agrees_with_trying_every_pairing(@ForAll long seed) {
        Random random = new Random(seed);
        List<ReferenceLoad.Item> items = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(3); i++) {
            items.add(item("i" + i, 1 + random.nextInt(2), pick(FAMILIES, random), pick(WRAPPINGS, random)));
        }
        List<Thing> things = drawThings(random);
        ReferenceLoad tested = load(items.toArray(ReferenceLoad.Item[]::new));
        boolean isCovered =
                Coverage.of(state(tested), today(things.toArray(Thing[]::new))).isCovered();
        List<ReferenceLoad.Item> single = new ArrayList<>();
        items.forEach(one -> {
            for (int i = 0; i < one.count(); i++) {
                single.add(one);
            }
        });
        List<Thing> wanted = new ArrayList<>();
        things.forEach(one -> {
            for (int i = 0; i < one.count(); i++) {
                wanted.add(one);
            }
        });
        assertThat(isCovered)
                .as("%s in %s", things, items)
                .isEqualTo(pairs(wanted, 0, single, new boolean[single.size()]));
    }

    @Property(tries = 300)
    void a_covered_load_stays_covered_when_something_is_taken_out(@ForAll long seed) {
        Random random = new Random(seed);
        List<ReferenceLoad.Item> items = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            items.add(item("i" + i, 1 + random.nextInt(4), pick(FAMILIES, random), pick(WRAPPINGS, random)));
        }
        ValidatedState state = state(load(items.toArray(ReferenceLoad.Item[]::new)));
        List<Thing> things = drawThings(random);
        boolean before = Coverage.of(state, today(things.toArray(Thing[]::new))).isCovered();
        int at = random.nextInt(things.size());
        Thing less = things.get(at);
        List<Thing> fewer = new ArrayList<>(things);
        if (less.count() > 1) {
            fewer.set(at, thing(less.name(), less.count() - 1, less.family(), less.packaging()));
        } else if (fewer.size() > 1) {
            fewer.remove(at);
        }
        boolean after = Coverage.of(state, today(fewer.toArray(Thing[]::new))).isCovered();
        assertThat(!before || after).isTrue();
    }

    @Property(tries = 200)
    void every_tested_load_covers_itself_and_never_itself_and_one_more(@ForAll long seed) {
        Random random = new Random(seed);
        List<ReferenceLoad.Item> items = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(4); i++) {
            items.add(item("i" + i, 1 + random.nextInt(5), pick(FAMILIES, random), pick(WRAPPINGS, random)));
        }
        List<Thing> same = new ArrayList<>();
        items.forEach(one -> same.add(thing(one.name(), one.count(), one.family(), one.packaging())));
        ValidatedState state = state(load(items.toArray(ReferenceLoad.Item[]::new)));
        assertThat(Coverage.of(state, today(same.toArray(Thing[]::new))).isCovered())
                .isTrue();
        same.add(thing("one more", 1, "solid", "none"));
        assertThat(Coverage.of(state, today(same.toArray(Thing[]::new))).isCovered())
                .isFalse();
    }

    /** Validity against its definition written out again, over drawn ends, conditions and events. */
    @Property(tries = 600)
    void validity_agrees_with_its_definition(@ForAll long seed) {
        Random random = new Random(seed);
        Optional<LocalDate> until =
                random.nextInt(4) == 0 ? Optional.empty() : Optional.of(DAY.plusDays(random.nextInt(6)));
        OptionalInt untilCount = random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(100 + random.nextInt(6));
        List<PassCondition> conditions = new ArrayList<>();
        for (int i = random.nextInt(3); i > 0; i--) {
            conditions.add(new PassCondition(
                    "A",
                    random.nextInt(3) == 0 ? "another cycle" : random.nextBoolean() ? "" : "134 Wrapped",
                    "something",
                    "somebody",
                    Optional.of(DAY.plusDays(random.nextInt(6))),
                    random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(100 + random.nextInt(6)),
                    random.nextInt(3) == 0 ? Optional.of(DAY.plusDays(random.nextInt(6))) : Optional.empty(),
                    Optional.empty()));
        }
        List<JobSheet.Event> events = new ArrayList<>();
        if (random.nextInt(3) == 0) {
            EndingEvent[] kinds = EndingEvent.values();
            events.add(new JobSheet.Event(
                    "A", kinds[random.nextInt(kinds.length)], DAY.plusDays(random.nextInt(8) - 1), ""));
        }
        ValidatedState base = state(TESTED);
        ValidatedState state = new ValidatedState(
                "A", "SN-1", "R-1", Optional.of(DAY), until, untilCount, base.cycles(), conditions, events, false);
        boolean wasEnded = false;
        for (int plus = 0; plus < 8; plus++) {
            LocalDate day = DAY.plusDays(plus);
            int count = 98 + plus;
            boolean isGood = until.isPresent() || untilCount.isPresent();
            isGood &= until.isEmpty() || day.compareTo(until.get()) <= 0;
            isGood &= untilCount.isEmpty() || count <= untilCount.getAsInt();
            for (PassCondition condition : conditions) {
                boolean isMet =
                        condition.metOn().isPresent() && condition.metOn().get().compareTo(day) <= 0;
                boolean isIn = day.compareTo(condition.until().orElseThrow()) <= 0
                        && (condition.untilCount().isEmpty()
                                || count <= condition.untilCount().getAsInt());
                isGood &= isMet || isIn || condition.cycle().equals("another cycle");
            }
            for (JobSheet.Event event : events) {
                isGood &= event.on().compareTo(day) > 0
                        || event.kind() == EndingEvent.NEW_LOAD
                        || event.kind() == EndingEvent.NEW_CYCLE;
            }
            List<String> reasons = state.reasonsAgainst("134-wrapped", day, OptionalInt.of(count));
            assertThat(reasons.isEmpty())
                    .as("%s on %s at %s: %s", state, day, count, reasons)
                    .isEqualTo(isGood);
            boolean isAnyMetLater =
                    conditions.stream().anyMatch(condition -> condition.metOn().isPresent());
            assertThat(wasEnded && reasons.isEmpty() && !isAnyMetLater)
                    .as("what ended stays ended")
                    .isFalse();
            wasEnded |= !reasons.isEmpty();
        }
    }

    private static boolean pairs(List<Thing> wanted, int at, List<ReferenceLoad.Item> items, boolean[] taken) {
        if (at == wanted.size()) {
            return true;
        }
        for (int j = 0; j < items.size(); j++) {
            if (!taken[j] && slowlyStands(items.get(j), wanted.get(at))) {
                taken[j] = true;
                if (pairs(wanted, at + 1, items, taken)) {
                    return true;
                }
                taken[j] = false;
            }
        }
        return false;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "pouch, not double | double pouch      | false",
                "pouch, not double | pouch, not double | true",
                "Beutel            | Beutel            | true",
                "Beutel            | zwei Beutel       | false",
                "Beutel            | pouch             | false",
                "double pouch      | pouch             | true",
                "single or double pouch | double pouch | false",
            })
    void words_that_are_not_on_the_list_stand_for_nothing_but_themselves(String tested, String now, boolean stands) {
        assertThat(Coverage.stands(item("handpiece", 1, "hollow A", tested), TESTED, thing("t", 1, "hollow A", now)))
                .isEqualTo(stands);
    }

    /** The order of families and packaging written out again, as two tables. */
    private static boolean slowlyStands(ReferenceLoad.Item item, Thing thing) {
        List<String> families = switch (item.family()) {
            case "hollow A" -> List.of("hollow A", "hollow B", "solid");
            case "hollow B" -> List.of("hollow B", "solid");
            case "porous" -> List.of("porous", "solid");
            default -> List.of("solid");
        };
        List<String> wrappings = switch (item.packaging()) {
            case "single pouch" -> List.of("none", "single pouch");
            case "double pouch" -> List.of("none", "single pouch", "double pouch");
            case "wrapped once" -> List.of("none", "wrapped once");
            case "wrapped twice" -> List.of("none", "wrapped once", "wrapped twice");
            default -> List.of("none");
        };
        return families.contains(thing.family()) && wrappings.contains(thing.packaging());
    }

    private static List<Thing> drawThings(Random random) {
        List<Thing> things = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(3); i++) {
            things.add(thing("t" + i, 1 + random.nextInt(2), pick(FAMILIES, random), pick(WRAPPINGS, random)));
        }
        return things;
    }

    private static String pick(List<String> words, Random random) {
        return words.get(random.nextInt(words.size()));
    }

    private static Thing thing(String name, int count, String family, String packaging) {
        return new Thing(name, count, family, packaging);
    }

    private static ReferenceLoad.Item item(String name, int count, String family, String packaging) {
        return new ReferenceLoad.Item(name, count, family, packaging);
    }

    private static ReferenceLoad load(ReferenceLoad.Item... items) {
        return new ReferenceLoad(
                "the tested load", List.of(items), "a lumen", "rear", "", Optional.of(3.2), "manager", List.of());
    }

    private static ValidatedState state(ReferenceLoad... loads) {
        return new ValidatedState(
                "A",
                "SN-1",
                "R-1",
                Optional.of(DAY),
                Optional.of(DAY.plusDays(30)),
                OptionalInt.empty(),
                List.of(new QualifiedCycle(
                        "134 wrapped",
                        CycleType.B,
                        QualifiedCycle.Status.QUALIFIED,
                        Arrays.asList(loads),
                        Optional.of(600.0),
                        List.of())),
                List.of(),
                List.of(),
                false);
    }

    private static ValidatedState state(
            LocalDate until, OptionalInt count, List<PassCondition> conditions, List<JobSheet.Event> events) {
        ValidatedState state = state(TESTED);
        return new ValidatedState(
                "A", "SN-1", "R-1", state.from(), Optional.of(until), count, state.cycles(), conditions, events, false);
    }

    private static TodaysLoad today(Thing... things) {
        return new TodaysLoad(
                "SN-1",
                "134 wrapped",
                DAY,
                OptionalInt.of(5),
                List.of(things),
                Optional.of(1.0),
                Optional.empty(),
                Optional.of(true));
    }

    private static TodaysLoad on(LocalDate day, OptionalInt count) {
        return new TodaysLoad(
                "SN-1",
                "134 wrapped",
                day,
                count,
                List.of(thing("cassette", 1, "solid", "none")),
                Optional.of(1.0),
                Optional.empty(),
                Optional.of(true));
    }
}
