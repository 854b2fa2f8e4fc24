package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Filing;
import org.steamwright.records.Subject;
import org.steamwright.report.language.Speaker;
import org.steamwright.visit.AssessedVisit;

class RunPageTest {

    private static final String VISIT = "DEMO-2026-001";

    @TempDir
    private Path folder;

    private static String run(int number) {
        return "/visits/" + VISIT + "/runs/" + number;
    }

    private static AssessedVisit assessed(OpenDesk desk) throws Exception {
        Filing filing = new Filing(desk.records());
        Subject visit = filing.visit(VISIT).visit();
        return filing.assess(visit);
    }

    @Test
    void every_run_says_its_message_its_verdict_and_every_finding() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            for (var run : assessed(desk).runs()) {
                var answer = desk.get(run(run.run().number()));
                assertThat(answer.statusCode()).isEqualTo(200);
                String page = answer.body();
                assertThat(page).contains("class=\"verdict " + run.word().replace(' ', '-') + "\"");
                RunPage.drawing(run.evaluation(), Speaker.ENGLISH)
                        .ifPresent(drawing -> assertThat(page)
                                .contains("Run " + run.run().number() + ": " + escaped(drawing.title())));
                run.evaluation()
                        .findings()
                        .forEach(finding ->
                                assertThat(page).contains(escaped(finding.id().title()), escaped(finding.sentence())));
            }
        }
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }

    @Test
    void the_curves_are_those_of_the_assessment() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            for (var run : assessed(desk).runs()) {
                JsonNode data = new ObjectMapper()
                        .readTree(desk.get(run(run.run().number()) + "/traces").body());
                var channels = run.evaluation().corrected().channels();
                assertThat(data.path("curves")).hasSize(channels.size());
                assertThat(data.path("findings"))
                        .hasSize(run.evaluation().findings().size()
                                + run.loadFindings().size());
                for (int i = 0; i < channels.size(); i++) {
                    List<Double> shown = new ArrayList<>();
                    data.path("curves").get(i).path("v").forEach(value -> {
                        if (!value.isNull()) {
                            shown.add(value.asDouble());
                        }
                    });
                    double[] whole = java.util.Arrays.stream(channels.get(i).toArray())
                            .filter(Double::isFinite)
                            .toArray();
                    assertThat(shown).as(channels.get(i).name()).hasSize(whole.length);
                    for (int k = 0; k < whole.length; k++) {
                        assertThat(shown.get(k)).isCloseTo(whole[k], org.assertj.core.data.Offset.offset(5.1e-5));
                    }
                }
            }
        }
    }

    @Test
    void without_script_the_reports_own_pictures_are_shown() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            int loaded = assessed(desk).runs().stream()
                    .filter(run -> run.evaluation().plateau().isPresent())
                    .findFirst()
                    .orElseThrow()
                    .run()
                    .number();
            assertThat(desk.get(run(loaded)).body()).contains("<noscript>", "whole.svg", "plateau.svg");
            for (String picture : List.of("/whole.svg", "/plateau.svg")) {
                var answer = desk.get(run(loaded) + picture);
                assertThat(answer.headers().firstValue("Content-Type").orElse(""))
                        .startsWith("image/svg+xml");
                assertThat(answer.body())
                        .startsWith("<svg")
                        .doesNotContain(" style=")
                        .doesNotContain("<script");
            }
        }
    }

    @Test
    void a_page_holds_no_script_or_style_of_its_own() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            for (String path : List.of(run(1), "/visits/" + VISIT + "/compare")) {
                assertThat(desk.get(path).body())
                        .doesNotContain("<style")
                        .doesNotContain(" style=")
                        .doesNotContain(" onclick=")
                        .doesNotContainPattern("<script(?![^>]* src=)");
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/visits/NO-SUCH/runs/1",
                "/visits/DEMO-2026-001/runs/999",
                "/visits/DEMO-2026-001/runs/0",
                "/visits/DEMO-2026-001/runs/1e2",
                "/visits/DEMO-2026-001/runs/-1/traces",
                "/visits/NO-SUCH/compare"
            })
    void what_is_not_there_is_said_to_be_missing(String path) throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            var answer = desk.get(path);
            assertThat(answer.statusCode()).isEqualTo(404);
            assertThat(answer.body()).contains("There is no such visit or run in this record.");
        }
    }

    @Test
    void a_stretch_of_the_curves_can_be_asked_for() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            int loaded = assessed(desk).runs().stream()
                    .filter(run -> run.evaluation().plateau().isPresent())
                    .findFirst()
                    .orElseThrow()
                    .run()
                    .number();
            JsonNode part = new ObjectMapper()
                    .readTree(
                            desk.get(run(loaded) + "/traces?from=100&to=200.5").body());
            part.path("curves")
                    .forEach(curve -> curve.path("t")
                            .forEach(moment -> assertThat(moment.asDouble()).isBetween(100.0, 200.5)));
            assertThat(desk.get(run(loaded) + "/traces?from=200&to=100").statusCode())
                    .isEqualTo(400);
        }
    }

    @Test
    void runs_with_a_plateau_can_be_laid_over_one_another() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            List<Integer> plateaus = assessed(desk).runs().stream()
                    .filter(run -> run.evaluation().plateau().isPresent())
                    .map(run -> run.run().number())
                    .toList();
            String all = desk.get("/visits/" + VISIT + "/compare").body();
            assertThat(all.split("checked", -1)).hasSize(plateaus.size() + 1);
            String one = desk.get("/visits/" + VISIT + "/compare?run=" + plateaus.get(0))
                    .body();
            assertThat(one.split("checked", -1)).hasSize(2);
        }
    }
}
