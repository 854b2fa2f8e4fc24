package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.report.language.Language;

/** Checklists that came with a visit: their results are chosen, and words of before that decide nothing say so. */
class ChecksTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final String NUMBER = "R-2026-0061";
    private static final String VALVE = "checklists/1/items/1/result";

    @TempDir
    private Path folder;

    private Draft begun(OpenDesk desk, String section, String title, String result) throws Exception {
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
        DraftChange change =
                new Drafts(desk.records()).find(NUMBER).orElseThrow().change();
        change.add(
                FactPath.of("checklists"),
                Map.of(
                        "section",
                        section,
                        "sterilizer",
                        "A",
                        "items",
                        List.of(Map.of("title", title, "result", result))));
        return change.keep(KIM, "as imported");
    }

    private static String page(OpenDesk desk, Draft draft, String stage, Language language) throws Exception {
        HttpResponse<String> answer =
                desk.send(HttpRequest.newBuilder(desk.address("/visits/" + draft.id() + "/" + stage))
                        .header("Accept-Language", language.code()));
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    @ParameterizedTest(name = "{0} {1} {2}")
    @CsvSource(delimiter = '|', textBlock = """
            safety            | dicht wie immer | ENGLISH | “dicht wie immer” is no result that the program knows, so it is not assessed.
            safety            | dicht wie immer | GERMAN  | „dicht wie immer“ ist kein Ergebnis, das das Programm kennt
            safety            | dicht wie immer | FRENCH  | « dicht wie immer » n’est pas un résultat que le programme connaît
            installation      | erledigt        | ENGLISH | “erledigt” says what was done and not whether it is good
            installation      | done            | GERMAN  | „erledigt“ sagt, was gemacht wurde, und nicht, ob es gut ist
            verification      | done            | FRENCH  | « fait » dit ce qui a été fait et non si c’est bon
            steam-penetration | so lala         | GERMAN  | „so lala“ ist kein Ergebnis, das das Programm kennt
            maintenance       | geht so         | GERMAN  | „geht so“ ist kein Ergebnis, das das Programm kennt
            as-found          | geht so         | GERMAN  | „geht so“ ist kein Ergebnis, das das Programm kennt
            safety            | not-applicable  | GERMAN  | Niemand sagt, warum es nicht zutrifft
            """)
    void a_line_that_decides_nothing_says_so_at_its_field(String section, String result, Language language, String said)
            throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk, section, "safety valve", result);
            String stage = section.equals("verification")
                    ? "indication"
                    : section.equals("steam-penetration") ? "runs" : section;
            String page = page(desk, draft, stage, language);
            assertThat(page)
                    .contains(
                            "safety valve",
                            "name=\"path\" value=\"" + VALVE + "\"",
                            "id=\"" + Field.id(VALVE) + "-problem\"")
                    .contains(said);
            assertThat(page(desk, draft, stage.equals("safety") ? "maintenance" : "safety", language))
                    .as("it stands at its own stage only")
                    .doesNotContain(VALVE);
        }
    }

    @ParameterizedTest
    @CsvSource({"good", "in Ordnung", "failed", "not-done"})
    void a_line_that_decides_is_no_mistake(String result) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk, "safety", "safety valve", result);
            assertThat(page(desk, draft, "safety", Language.ENGLISH))
                    .contains("name=\"path\" value=\"" + VALVE + "\"")
                    .doesNotContain(Field.id(VALVE) + "-problem");
        }
    }

    @Test
    void words_become_the_remark_where_a_result_is_chosen() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk, "safety", "safety valve", "dicht wie immer");
            desk.post(
                    "/visits/" + draft.id() + "/facts",
                    Map.of("stage", "safety", "path", VALVE, "value", "good", "seen", "dicht wie immer"));
            assertThat(draft.now().text(FactPath.parse(VALVE))).isEqualTo("good");
            assertThat(draft.now().text(FactPath.parse("checklists/1/items/1/remark")))
                    .isEqualTo("dicht wie immer");
            desk.post(
                    "/visits/" + draft.id() + "/facts",
                    Map.of("stage", "safety", "path", VALVE, "value", "failed", "seen", "good"));
            assertThat(draft.now().text(FactPath.parse("checklists/1/items/1/remark")))
                    .as("a choice that is corrected leaves no words behind")
                    .isEqualTo("dicht wie immer");
        }
    }

    @Test
    void a_choice_of_before_is_read_in_the_reader_s_language() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk, "as-found", "Clock of the steriliser against the reference clock", "not done");
            assertThat(page(desk, draft, "as-found", Language.GERMAN))
                    .containsPattern("<option value=\"not done\"[^>]*>nicht gemacht</option>");
        }
    }

    /** What a point says, and above all what somebody wrote in it, leads nowhere. */
    @ParameterizedTest
    @EnumSource
    void an_open_point_leads_to_its_fact_whatever_is_written_in_it(Language language) throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = new Drafts(desk.records())
                    .of(new Filing(desk.records())
                            .visit("DEMO-2026-001")
                            .visit()
                            .id());
            int list = draft.count(FactPath.of("checklists")) + 1;
            DraftChange change = draft.change();
            change.add(
                    FactPath.of("checklists"),
                    Map.of(
                            "section",
                            "installation",
                            "sterilizer",
                            "A",
                            "items",
                            List.of(Map.of("title", "safety indicator of the load", "result", "so lala"))));
            change.add(
                    FactPath.parse("job-sheet/conditions"),
                    Map.of(
                            "sterilizer",
                            "A",
                            "text",
                            "look at the indicator and the maintenance of the safety valve",
                            "owner",
                            "practice manager",
                            "until",
                            "2026-05-01"));
            change.set(FactPath.parse("conditions/barometer"), Optional.empty());
            change.keep(KIM, "as a test wants it");
            String closing = page(desk, draft, "close", language);
            String visit = "href=\"/visits/" + draft.id() + "/";
            assertThat(closing)
                    .containsPattern(Pattern.quote(visit + "installation#"
                                    + Field.id("checklists/" + list + "/items/1/result") + "\">")
                            + "[^<]*so lala")
                    .containsPattern(Pattern.quote(visit + "failures\">") + "[^<]*look at the indicator")
                    .contains(visit + "as-found#" + Field.id("conditions/barometer") + "\">");
            assertThat(page(desk, draft, "installation", language))
                    .contains("id=\"" + Field.id("checklists/" + list + "/items/1/result") + "\"");
        }
    }
}
