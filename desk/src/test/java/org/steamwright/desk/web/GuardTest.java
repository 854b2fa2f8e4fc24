package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.desk.OpenDesk;

class GuardTest {

    @TempDir
    private Path folder;

    @Test
    void every_page_forbids_scripts_that_are_not_the_desks_own() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            var headers = desk.get("/today").headers();
            assertThat(headers.firstValue("Content-Security-Policy").orElse(""))
                    .contains("default-src 'none'")
                    .contains("script-src 'self'")
                    .doesNotContain("unsafe");
            assertThat(headers.firstValue("X-Content-Type-Options")).contains("nosniff");
            assertThat(headers.firstValue("Set-Cookie").orElse("")).contains("HttpOnly", "SameSite=Strict");
        }
    }

    @ParameterizedTest
    @CsvSource({
        "Origin, http://elsewhere.example",
        "Origin, null",
        "Sec-Fetch-Site, cross-site",
        "Sec-Fetch-Site, same-site"
    })
    void a_change_from_elsewhere_is_refused(String header, String value) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            var answer = desk.send(desk.form("/today", Map.of())
                    .header("X-Token", desk.token())
                    .header(header, value));
            assertThat(answer.statusCode()).isEqualTo(403);
            assertThat(answer.body()).contains("the change comes from");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/static/",
                "/static/../desk.css",
                "/static/nothing.js",
                "/today/",
                "/TODAY",
                "/%2e%2e/today",
                "/visits/x/answer",
                "/visits/01a21483-6048-7000-aa3d-6bbe6f6fb02e/answer"
            })
    void what_is_not_named_is_not_there(String path) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get(path).statusCode()).isBetween(400, 404);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "desk.css",
                "desk.js",
                "plots.js",
                "runs.css",
                "drop.js",
                "htmx.js",
                "uplot.js",
                "uplot.css",
                "sans.ttf",
                "sans-bold.ttf"
            })
    void what_pages_name_is_there(String name) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/static/" + name).statusCode()).isEqualTo(200);
        }
    }

    @Test
    void the_language_that_was_chosen_stays() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.post("/language", Map.of("language", "de", "from", "/today"))
                            .headers()
                            .firstValue("Location"))
                    .contains("/today");
            assertThat(desk.get("/today").body()).contains("lang=\"de\"").contains("Heute, 3. Aug. 2026");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", "", "today"})
    void nobody_is_sent_elsewhere(String from) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.post("/language", Map.of("language", "de", "from", from))
                            .headers()
                            .firstValue("Location"))
                    .contains("/today");
        }
    }
}
