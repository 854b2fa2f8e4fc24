package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Author;
import org.steamwright.report.language.Language;

/** What stands in a visit that no field would take, as after an import, in the words of the desk. */
class WrongValuesTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final String NUMBER = "R-2026-0060";

    /** How a file is named and its lines are counted. */
    private static final Pattern OF_A_FILE =
            Pattern.compile("visit\\.yaml|\\b(?:line|Zeile|ligne) \\d+|found &quot;|found \"");

    @TempDir
    private Path folder;

    private Draft wrong(OpenDesk desk, Map<String, Object> facts) throws Exception {
        desk.post(
                "/visits",
                Map.of(
                        "number", NUMBER,
                        "purpose", "yearly requalification",
                        "date", "2026-08-03",
                        "criteria-set", "eu-en13060",
                        "clinic", "Harbour Street Dental (invented)",
                        "serial", "EX-3003",
                        "zone", "Australia/Adelaide",
                        "technician", "Kim Sample (invented)"));
        Draft draft = new Drafts(desk.records()).find(NUMBER).orElseThrow();
        var change = draft.change();
        facts.forEach((path, value) -> change.set(FactPath.parse(path), Optional.of(value)));
        return change.keep(KIM, "as imported");
    }

    private static String closing(OpenDesk desk, Draft draft, Language language) throws Exception {
        var answer = desk.send(HttpRequest.newBuilder(desk.address("/visits/" + draft.id() + "/close"))
                .header("Accept-Language", language.code()));
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    private static final Map<String, Object> WRONG = Map.of(
            "conditions/barometer", "1004",
            "conditions/altitude", "high",
            "date", "2026-02-30",
            "zone", "Adelaide",
            "sterilizers/1/counter-at-arrival", "many");

    private static final Map<String, String> SAID = Map.of(
            "conditions/barometer", "Barometer: “1004” has no unit. Expected: a barometer reading in",
            "conditions/altitude", "“high” can’t be read. Expected: an altitude in",
            "date", "“2026-02-30” is no day of the calendar.",
            "zone", "“Adelaide” is no time zone with its summer time.",
            "sterilizers/1/counter-at-arrival", "“many” is no whole number from 0 to 999999999.");

    @Test
    void a_wrong_value_is_said_with_its_field_and_leads_there() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = wrong(desk, WRONG);
            String page = closing(desk, draft, Language.ENGLISH);
            assertThat(page).doesNotContainPattern(OF_A_FILE);
            SAID.forEach((path, said) -> assertThat(
                            page.lines().filter(line -> line.contains("#" + Field.id(path) + "\"")))
                    .as(path)
                    .anyMatch(line -> line.contains(said)));
        }
    }

    @Test
    void a_value_outside_of_what_is_possible_is_said_with_what_is() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = wrong(desk, Map.of("conditions/barometer", "1009 kPa"));
            assertThat(closing(desk, draft, Language.ENGLISH))
                    .contains("“1009 kPa” is not possible here: 50 to 110 kPa are.")
                    .doesNotContainPattern(OF_A_FILE);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "GERMAN, „1004“ hat keine Einheit., Barometer",
        "FRENCH, « 1004 » n’a pas d’unité., Baromètre",
    })
    void it_is_said_in_the_readers_language(Language language, String said, String field) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = wrong(desk, WRONG);
            String page = closing(desk, draft, language);
            assertThat(page).contains(field, said).doesNotContainPattern(OF_A_FILE);
            assertThat(page.lines().filter(line -> line.contains("#f-conditions")))
                    .isNotEmpty()
                    .noneMatch(line -> line.contains("lang=\"en\""));
        }
    }

    @Test
    void a_word_that_nobody_offers_is_told_with_those_to_choose_from() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = wrong(desk, Map.of("runs", List.of(Map.of("kind", "leakage"))));
            assertThat(closing(desk, draft, Language.ENGLISH))
                    .contains("“leakage” is none of these:")
                    .contains("runs#" + Field.id("runs/1/kind"))
                    .contains("Run 1: no recording yet.")
                    .doesNotContainPattern(OF_A_FILE);
        }
    }
}
