package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.folder.Flaw.Sort;

class FlawTest {

    private List<Problem> problems(String yaml) {
        Problems problems = new Problems("visit.yaml");
        YamlSource.parse(yaml.getBytes(StandardCharsets.UTF_8), problems)
                .flatMap(entry -> entry.fields(Shape.CONDITIONS))
                .ifPresent(fields -> {
                    fields.quantity("barometer", Measure.BAROMETER);
                    fields.need("altitude", "450 m");
                    fields.find("room-temperature").flatMap(Entry::number);
                    fields.find("room-humidity").map(Entry::count);
                    fields.date("supply-voltage");
                });
        return problems.sorted();
    }

    @ParameterizedTest
    @CsvSource({
        "'barometer: 1004', NO_UNIT, 1004, 'a barometer reading|kPa, hPa, mbar, mmHg or inHg|1004 kPa'",
        "'barometer: much', NOT_A_QUANTITY, much, 'a barometer reading|kPa, hPa, mbar, mmHg or inHg|101.2 kPa'",
        "'room-temperature: warm', NOT_A_NUMBER, warm, ''",
        "'room-humidity: -1', NOT_A_COUNT, -1, '0|999999999'",
        "'supply-voltage: 2026-02-30', NOT_A_DAY, 2026-02-30, ''",
    })
    void what_was_found_and_what_was_expected_come_as_data(String line, Sort sort, String found, String expected) {
        Flaw flaw = problems("altitude: 450 m\n" + line + "\n").get(0).flaw();

        assertThat(flaw.sort()).isEqualTo(sort);
        assertThat(flaw.about()).isEqualTo(found);
        assertThat(String.join("|", flaw.expected())).isEqualTo(expected);
        assertThat(flaw.sentence()).startsWith("found ").contains(found).endsWith(".");
    }

    @Test
    void what_is_missing_is_told_by_its_key_and_how_to_write_it_stays_apart() {
        Problem missing = problems("barometer: 101.2 kPa\n").get(0);

        assertThat(missing.flaw())
                .isEqualTo(new Flaw(
                        Sort.MISSING,
                        "altitude",
                        List.of(),
                        "found no \"altitude\", expected it here.",
                        "",
                        "Add a line like: altitude: 450 m"));
        assertThat(missing)
                .hasToString("VISIT-008 visit.yaml, line 1: found no \"altitude\", expected it here."
                        + " Add a line like: altitude: 450 m");
    }

    @Test
    void a_way_keeps_names_apart_that_hold_stops_and_brackets() {
        Way way = Way.of("runs").entry(2).key("channels").key("T.3 [a]").key("role");

        assertThat(way).hasToString("runs[2].channels.T.3 [a].role");
        assertThat(way.steps()).containsExactly("runs", "2", "channels", "T.3 [a]", "role");
        assertThat(Way.WHOLE.steps()).isEmpty();
    }

    @Test
    void signs_of_a_template_in_what_somebody_wrote_do_no_harm() {
        List<String> found = new ArrayList<>();
        Words.find("45 %s", Words.YES_OR_NO, (mistake, flaw) -> found.add(flaw.text()));

        assertThat(found)
                .containsExactly("found \"45 %s\", expected one of yes, no, true, false. Write one of these words.");
    }
}
