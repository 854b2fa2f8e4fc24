package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.text.Words;
import org.steamwright.desk.web.Alarm;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Person;
import org.steamwright.report.language.Language;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.TodaysLoad.Thing;

/** What was typed becomes the load that is asked about, whole, or nothing is answered. */
class LoadFormTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);
    private static final Frame FRAME = new Frame(
            Words.in(Language.ENGLISH),
            new Figures(Language.ENGLISH),
            Person.STRANGER,
            "/clinic",
            "",
            Set.of(),
            false,
            false,
            Alarm.NONE);

    private final Map<String, String> typed = new LinkedHashMap<>(Map.of(
            "machine", "m-1",
            "cycle", "134 wrapped",
            "name-1", "cassette",
            "count-1", "2",
            "family-1", "solid",
            "packaging-1", "pouch"));
    private final List<String> problems = new ArrayList<>();

    private LoadForm form() {
        return LoadForm.of(name -> typed.getOrDefault(name, ""), FRAME);
    }

    private Optional<TodaysLoad> load() {
        problems.clear();
        return form().load("EX-1001", DAY, FRAME, problems);
    }

    @Test
    void everything_that_was_typed_is_in_the_load() {
        typed.putAll(Map.of(
                "counter", "1600",
                "mass", "2.4 kg",
                "trays", "3",
                "tests", "passed",
                "name-120", "gown",
                "count-120", "10000",
                "family-120", "porous",
                "packaging-120", "wrap"));
        TodaysLoad load = load().orElseThrow();
        assertThat(load.serial()).isEqualTo("EX-1001");
        assertThat(load.cycle()).isEqualTo("134 wrapped");
        assertThat(load.day()).isEqualTo(DAY);
        assertThat(load.count()).hasValue(1600);
        assertThat(load.kilogram()).contains(2.4);
        assertThat(load.trays()).hasValue(3);
        assertThat(load.testsPassed()).contains(true);
        assertThat(load.dryingSeconds()).isEmpty();
        assertThat(load.things())
                .containsExactly(
                        new Thing("cassette", 2, "solid", "pouch"), new Thing("gown", 10_000, "porous", "wrap"));
        assertThat(problems).isEmpty();
    }

    @Test
    void what_was_not_typed_is_not_stated() {
        TodaysLoad load = load().orElseThrow();
        assertThat(load.count()).isEmpty();
        assertThat(load.kilogram()).isEmpty();
        assertThat(load.trays()).isEmpty();
        assertThat(load.testsPassed()).isEmpty();
    }

    @Test
    void one_thing_is_a_load() {
        typed.put("count-1", "1");
        assertThat(load().orElseThrow().things()).containsExactly(new Thing("cassette", 1, "solid", "pouch"));
    }

    @ParameterizedTest
    @CsvSource({"passed, true", "failed, false", "'', ", "perhaps, "})
    void tests_passed_only_where_somebody_says_so(String word, Boolean passed) {
        typed.put("tests", word);
        assertThat(load().orElseThrow().testsPassed()).isEqualTo(Optional.ofNullable(passed));
    }

    @ParameterizedTest
    @CsvSource({
        "counter, 12a, The cycle number",
        "counter, -3, The cycle number",
        "counter, 1234567890, The cycle number",
        "mass, heavy, The mass",
        "mass, 0, The mass",
        "mass, -2, The mass",
        "mass, 0.0000001, The mass",
        "mass, 2 g, The mass",
        "trays, two, The number of trays",
        "trays, -1, The number of trays",
        "count-1, 0, Item 1: ‘0’",
        "count-1, -1, Item 1: ‘-1’",
        "count-1, two, Item 1: ‘two’",
        "count-1, 10001, Item 1: ‘10001’",
        "count-1, '', 'Item 1: how many there are, is missing'",
        "name-1, '', 'Item 1: what it is, is missing'",
    })
    void what_can_not_be_read_is_told_and_nothing_is_answered(String name, String value, String words) {
        typed.put(name, value);
        assertThat(load()).isEmpty();
        assertThat(problems).singleElement().asString().startsWith(words);
    }

    @ParameterizedTest
    @ValueSource(strings = {"name-2", "count-2", "family-2", "packaging-2"})
    void a_row_in_which_anything_was_typed_is_no_empty_row(String name) {
        typed.put(name, "3");
        assertThat(load()).isEmpty();
        assertThat(problems).isNotEmpty().allMatch(problem -> problem.startsWith("Item 2: "));
    }

    @Test
    void without_a_cycle_or_a_thing_there_is_no_load() {
        typed.put("cycle", "");
        assertThat(load()).isEmpty();
        typed.put("cycle", "134 wrapped");
        typed.keySet().removeIf(name -> name.endsWith("-1"));
        assertThat(load()).isEmpty();
        assertThat(problems).isEmpty();
    }

    @Test
    void there_are_six_rows_or_as_many_as_were_shown_and_six_more_where_more_are_wanted() {
        assertThat(form().rows()).hasSize(6);
        typed.put("rows", "9");
        assertThat(form().rows()).hasSize(9);
        typed.put("name-11", "gown");
        assertThat(form().rows()).hasSize(11);
        assertThat(form().rows().get(10).name()).isEqualTo("gown");
        assertThat(form().rows().get(9).isBlank()).isTrue();
        typed.put("more", "yes");
        assertThat(form().rows()).hasSize(17);
        assertThat(form().isMoreWanted()).isTrue();
        typed.put("rows", "5000");
        assertThat(form().rows()).hasSize(120);
        typed.put("rows", "3");
        typed.remove("more");
        typed.remove("name-11");
        assertThat(form().rows()).hasSize(6);
        assertThat(form().isMoreWanted()).isFalse();
    }

    @Test
    void an_address_that_somebody_kept_names_the_machine_by_its_serial_number() {
        typed.put("serial", "EX-1001");
        assertThat(form().machine()).isEqualTo("m-1");
        typed.remove("machine");
        assertThat(form().machine()).isEqualTo("EX-1001");
    }

    @Test
    void it_is_begun_where_a_cycle_of_a_machine_is_named_and_nothing_else() {
        assertThat(form().isBegun()).isFalse();
        typed.keySet().removeIf(name -> name.endsWith("-1"));
        assertThat(form().isBegun()).isTrue();
        for (String name : List.of("machine", "cycle")) {
            String kept = typed.remove(name);
            assertThat(form().isBegun()).as("without " + name).isFalse();
            typed.put(name, kept);
        }
        typed.put("more", "yes");
        assertThat(form().isBegun()).isFalse();
    }

    private static ReferenceLoad tested() {
        return new ReferenceLoad(
                "tested",
                List.of(
                        new ReferenceLoad.Item("cassette", 4, "solid", "double wrap"),
                        new ReferenceLoad.Item("handpiece", 2, "hollow-a", "")),
                "",
                "",
                "pouch",
                Optional.empty(),
                "",
                List.of());
    }

    @Test
    void the_tested_load_is_there_to_be_counted_for_today() {
        LoadForm counted = form().withTested(tested(), false);
        assertThat(counted.rows())
                .containsExactly(
                        new LoadForm.Row("cassette", "", "solid", "double wrap", "4"),
                        new LoadForm.Row("handpiece", "", "hollow-a", "pouch", "2"),
                        new LoadForm.Row("", "", "", "", ""));
        assertThat(form().withTested(tested(), true).rows())
                .extracting(LoadForm.Row::count)
                .containsExactly("4", "2", "");
    }

    @Test
    void of_a_tested_thing_none_or_nought_today_is_no_row_and_any_other_count_is_one() {
        typed.put("tested-1", "4");
        for (String none : Arrays.asList("", "0")) {
            typed.put("count-1", none);
            assertThat(load()).as("nothing is in it").isEmpty();
            assertThat(problems).isEmpty();
            assertThat(form().rows()).as("and the row stays").hasSize(6);
        }
        typed.put("tested-9", "4");
        assertThat(form().rows()).as("as one far below does").hasSize(9);
        typed.put("count-1", "3");
        assertThat(load().orElseThrow().things()).containsExactly(new Thing("cassette", 3, "solid", "pouch"));
        typed.put("count-1", "x");
        assertThat(load()).isEmpty();
        assertThat(problems).hasSize(1);
    }
}
