package org.steamwright.desk.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Filing;
import org.steamwright.intake.folder.ShippedTaskLists;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Phrasebook;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskList;

class ToldTest {

    private static final String VISIT = "DEMO-2026-001";

    @TempDir
    private Path folder;

    private static AssessedVisit assessed(OpenDesk desk) throws Exception {
        Filing filing = new Filing(desk.records());
        return filing.assess(filing.visit(VISIT).visit());
    }

    private static String page(OpenDesk desk, String path, Language language) throws Exception {
        var answer = desk.send(HttpRequest.newBuilder(desk.address(path)).header("Accept-Language", language.code()));
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return answer.body();
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void findings_open_points_and_verdict_are_said_in_the_readers_language(Language language) throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            AssessedVisit assessed = assessed(desk);
            Phrasebook book = Phrasebook.in(language);
            AssessedRun run = assessed.runs().stream()
                    .filter(one -> !one.isPass())
                    .findFirst()
                    .orElseThrow();
            String shown = page(desk, "/visits/" + VISIT + "/runs/" + run.run().number(), language);
            for (Finding finding : run.evaluation().findings()) {
                assertThat(shown)
                        .contains(escaped(book.say(finding.id().title())), escaped(book.say(finding.sentence())))
                        .doesNotContain(escaped(finding.sentence()));
            }
            String id = new Filing(desk.records()).visit(VISIT).visit().id().toString();
            String closing = page(desk, "/visits/" + id + "/close", language);
            for (String sentence : assessed.summary()) {
                assertThat(closing)
                        .contains(escaped(book.find(sentence).orElseThrow()))
                        .doesNotContain(escaped(sentence));
            }
            for (String point : assessed.openPoints()) {
                assertThat(closing).contains(escaped(book.find(point).orElseThrow()));
            }
            for (String path : List.of("/due?days=400", "/trends", "/register/sterilizers/EX-1001", "/review")) {
                assertThat(page(desk, path, language)).as(path).doesNotContain("overdue since", "Holding time");
            }
        }
    }

    @Test
    void what_is_odd_about_a_file_is_said_in_the_readers_language() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String path = "/visits/" + VISIT + "/runs/1";
            assertThat(page(desk, path, Language.GERMAN))
                    .contains(", Zeile 1: Die Datei sagt, dass sie simuliert wurde")
                    .doesNotContain("<span lang=\"en\">");
            assertThat(page(desk, path, Language.ENGLISH))
                    .contains(", row 1: The file says that it was simulated")
                    .doesNotContain("<span lang=\"en\">");
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void tasks_and_their_cautions_are_said_in_the_readers_language(Language language) throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String id = new Filing(desk.records()).visit(VISIT).visit().id().toString();
            Phrasebook book = Phrasebook.in(language);
            for (String part : List.of("safety", "installation", "maintenance")) {
                String shown = page(desk, "/visits/" + id + "/" + part, language);
                TaskList list = ShippedTaskLists.find(
                                part.equals("maintenance") ? "bench-vacuum-yearly" : "bench-" + part)
                        .orElseThrow();
                assertThat(shown).contains(book.say(list.family())).doesNotContain(list.family(), "<span lang=\"en\">");
                for (Task task : list.tasks()) {
                    assertThat(shown)
                            .contains(
                                    "<h3>" + escaped(book.find(task.title()).orElseThrow()) + "</h3>",
                                    escaped(book.find(task.caution()).orElseThrow()))
                            .doesNotContain("<h3>" + escaped(task.title()));
                }
            }
        }
    }

    @Test
    void what_no_catalogue_knows_is_marked_as_english() {
        Told told = Told.to(Language.GERMAN, "The moon rose in row 4.");

        assertThat(told.isEnglish()).isTrue();
        assertThat(told.text()).isEqualTo("The moon rose in row 4.");
        assertThat(Told.to(Language.ENGLISH, "The moon rose in row 4.").isEnglish())
                .isFalse();
    }

    @Test
    void a_problem_is_in_one_language_with_its_place() {
        assertThat(Told.of(
                        Language.GERMAN,
                        "run 2, channel T3",
                        List.of("found \"x\" with a comma, expected a decimal point.", "Write: 17.5 L")))
                .isEqualTo(Told.asItIs(
                        "Lauf 2, Kanal T3: Gefunden: „x“ mit Komma, erwartet ein Dezimalpunkt. Schreiben Sie: 17.5 L"));
        assertThat(Told.of(Language.FRENCH, "run 2, channel T3", List.of("The moon rose.", "Write: 17.5 L")))
                .isEqualTo(new Told("run 2, channel T3: The moon rose. Write: 17.5 L", true));
    }
}
