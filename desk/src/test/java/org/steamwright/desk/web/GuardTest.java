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
            strings = {"/static/", "/static/../desk.css", "/static/nothing.js", "/today/", "/TODAY", "/%2e%2e/today"})
    void what_is_not_named_is_not_there(String path) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get(path).statusCode()).isGreaterThanOrEqualTo(400);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "desk.css",
                "desk.js",
                "plots.js",
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
}
