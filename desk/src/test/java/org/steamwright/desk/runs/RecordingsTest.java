package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.records.Author;

class RecordingsTest {

    private static final Author AUTHOR = new Author("Alex Sample (invented)", "technician");
    private static final String PAGE = "/visits/R-1/runs/1/recordings";

    @TempDir
    private Path folder;

    private static Drafts begun(OpenDesk desk) throws Exception {
        Drafts drafts = new Drafts(desk.records());
        drafts.open(
                AUTHOR,
                "R-1",
                Map.of(
                        "zone",
                        "Australia/Adelaide",
                        "criteria-set",
                        "au-as5369",
                        "sterilizers",
                        List.of(Map.of(
                                "serial",
                                "SN-0417",
                                "cycles",
                                List.of(Map.of(
                                        "name", "134 wrapped", "type", "B", "sterilizing-temperature", "134 °C")))),
                        "runs",
                        List.of(Map.of("kind", "empty-chamber"))));
        return drafts;
    }

    private static Draft draft(Drafts drafts) {
        return drafts.find("R-1").orElseThrow();
    }

    /** An invented cycle with as many rows and temperatures as asked for, and a pressure. */
    private static String cycle(String pressure, int rows, int temperatures) {
        StringBuilder text = new StringBuilder("# Steamwright simulated recording - invented data, not a real cycle\n");
        text.append("time");
        for (int i = 1; i <= temperatures; i++) {
            text.append(",T").append(i).append(" [°C]");
        }
        text.append(",P [").append(pressure).append("]\n");
        for (int i = 0; i < rows; i++) {
            double share = i / (double) rows;
            double celsius = share < 0.3 ? 20 + share / 0.3 * 115.2 : share < 0.7 ? 135.2 : 135.2 - (share - 0.7) * 350;
            text.append(String.format(Locale.ROOT, "2026-03-02T%02d:%02d:%02d", 9 + i / 3600, i / 60 % 60, i % 60));
            for (int k = 0; k < temperatures; k++) {
                text.append(String.format(Locale.ROOT, ",%.2f", celsius + 0.01 * k + 0.02 * Math.sin(i + k)));
            }
            double kilopascal = share < 0.3 ? 5 + share / 0.3 * 310 : share < 0.7 ? 315 : 101;
            text.append(String.format(Locale.ROOT, ",%.1f", kilopascal + 0.1 * Math.sin(i)))
                    .append('\n');
        }
        return text.toString();
    }

    private static HttpResponse<String> put(OpenDesk desk, String name, String content) throws Exception {
        return put(desk, PAGE, name, content);
    }

    private static HttpResponse<String> put(OpenDesk desk, String page, String name, String content) throws Exception {
        String token = desk.token();
        String body = "--cut\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n" + token
                + "\r\n--cut\r\nContent-Disposition: form-data; name=\"recording\"; filename=\"" + name
                + "\"\r\nContent-Type: application/octet-stream\r\n\r\n" + content + "\r\n--cut--\r\n";
        return desk.send(HttpRequest.newBuilder(desk.address(page))
                .header("Content-Type", "multipart/form-data; boundary=cut")
                .POST(HttpRequest.BodyPublishers.ofString(body, StandardCharsets.UTF_8)));
    }

    @Test
    void roles_and_places_of_the_visit_before_are_taken_over_column_by_column() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            drafts.open(
                            AUTHOR,
                            "R-0",
                            Map.of(
                                    "date",
                                    "2025-03-03",
                                    "zone",
                                    "Australia/Adelaide",
                                    "criteria-set",
                                    "au-as5369",
                                    "sterilizers",
                                    List.of(Map.of("serial", "SN-0417")),
                                    "runs",
                                    List.of(
                                            Map.of("kind", "reference-load", "channels", Map.of("T1", "load")),
                                            Map.of(
                                                    "kind",
                                                    "empty-chamber",
                                                    "channels",
                                                    Map.of(
                                                            "old.csv/T1",
                                                            Map.of(
                                                                    "role",
                                                                    "reference-point",
                                                                    "position",
                                                                    "A",
                                                                    "place",
                                                                    "front, bottom",
                                                                    "instrument",
                                                                    "TL-07"))))))
                    .settle(AUTHOR);
            put(desk, "kitchen 1.csv", cycle("kPa abs", 900, 2));
            assertThat(desk.get(PAGE).body())
                    .containsPattern(
                            "Last time: [^<]*front, bottom[^<]* <button type=\"submit\" name=\"take\" value=\"\\d\"")
                    .contains("TL-07");
            assertThat(draft(drafts).find(FactPath.of("runs", 1, "channels")))
                    .as("nothing by itself")
                    .isEmpty();
            desk.post(PAGE + "/channels", Map.of("file", "kitchen 1.csv", "column", "T1", "take", "0"));
            assertThat(draft(drafts).find(FactPath.of("runs", 1, "channels", "T1")))
                    .contains(Map.of(
                            "role", "reference-point",
                            "position", "A",
                            "place", "front, bottom",
                            "instrument", "TL-07"));
            assertThat(desk.get(PAGE).body()).doesNotContain("name=\"take\"");
        }
    }

    @Test
    void from_a_dropped_file_over_its_question_and_its_columns_to_a_verdict() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            assertThat(desk.get(PAGE).body()).contains("No recording yet.");

            var answer = put(desk, "kitchen 1.csv", cycle("kPa", 900, 2));
            assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "recording"))).isEqualTo("kitchen 1.csv");
            String page = desk.get(PAGE).body();
            assertThat(page)
                    .contains("900 samples", "T1", "the file does not say", "First rows")
                    .doesNotContain("See the curves");

            var said = desk.post(
                    PAGE + "/channels",
                    Map.of(
                            "file", "kitchen 1.csv",
                            "column", "T1",
                            "role-0", "reference-point",
                            "position-0", "A",
                            "place-0", "front, bottom"));
            assertThat(said.statusCode()).as(said.body()).isEqualTo(303);
            desk.post(PAGE + "/channels", Map.of("file", "kitchen 1.csv", "column", "T2", "role-0", "free-chamber"));
            desk.post(
                    PAGE + "/channels",
                    Map.of("file", "kitchen 1.csv", "column", "P", "role-0", "pressure", "reference-0", "absolute"));
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "channels", "T1", "place")))
                    .isEqualTo("front, bottom");
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "channels", "T2")))
                    .isEqualTo("free-chamber");
            String assessed = desk.get(PAGE).body();
            assertThat(assessed).contains("See the curves", "class=\"verdict ");
            assertThat(desk.get("/visits/R-1/runs/1").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void from_what_a_pressure_counts_is_asked_only_where_neither_file_nor_instrument_says_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            draft(drafts)
                    .set(
                            FactPath.of("instruments"),
                            Optional.of(List.of(
                                    Map.of("id", "PT-1", "measures", "pressure", "pressure-reference", "absolute"))),
                            AUTHOR,
                            "");
            put(desk, "a.csv", cycle("kPa", 900, 1));
            assertThat(desk.get(PAGE).body())
                    .as("nothing is known of it yet")
                    .contains("name=\"reference-1\"", "the file does not say");
            desk.post(
                    PAGE + "/channels",
                    Map.of("file", "a.csv", "column", "T1", "role-0", "reference-point", "position-0", "A"));
            Map<String, String> named = new HashMap<>(Map.of(
                    "file", "a.csv", "form", "columns", "column", "P", "role-0", "pressure", "instrument-0", "PT-1"));
            assertThat(desk.send(desk.form(PAGE + "/channels", named)
                                    .header("X-Token", desk.token())
                                    .header("HX-Request", "true"))
                            .body())
                    .as("the page that stands is told at once")
                    .containsPattern(
                            "id=\"counts-0-1\" hx-swap-oob=\"true\">\\s*<p class=\"hint\">PT-1 counts from vacuum")
                    .doesNotContain("name=\"reference-1\"");
            assertThat(desk.get(PAGE).body())
                    .contains("PT-1 counts from vacuum (absolute).", "class=\"verdict ")
                    .doesNotContain("name=\"reference-1\"");
            named.put("reference-0", "gauge");
            desk.post(PAGE + "/channels", named);
            assertThat(desk.get(PAGE).body())
                    .as("what contradicts the instrument stays in sight and can be changed")
                    .contains("name=\"reference-1\"", "<p class=\"problem\">PT-1 counts from vacuum (absolute).");
            named.put("reference-0", "");
            named.put("was-reference-0", "gauge");
            desk.post(PAGE + "/channels", named);
            assertThat(desk.get(PAGE).body()).doesNotContain("name=\"reference-1\"");
        }
    }

    @Test
    void a_file_that_says_from_what_its_pressure_counts_is_not_asked_again() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 900, 1));
            assertThat(desk.get(PAGE).body())
                    .contains("name=\"role-1\"")
                    .doesNotContain("name=\"reference-1\"", "as the file says");
        }
    }

    @Test
    void what_the_columns_of_a_run_stand_for_is_said_once_and_taken_over_for_the_next_run() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            for (String kind : List.of("reference-load", "empty-chamber", "empty-chamber")) {
                draft(drafts).add(FactPath.of("runs"), Map.of("kind", kind), AUTHOR, "");
            }
            put(desk, "one.csv", cycle("kPa abs", 900, 2));
            assertThat(desk.get(PAGE).body()).as("there is no other run").doesNotContain("name=\"as-run\"");
            for (int run = 1; run <= 2; run++) {
                String page = PAGE.replace("runs/1", "runs/" + run);
                if (run == 2) {
                    put(desk, page, "two.csv", cycle("kPa abs", 910, 2));
                }
                String file = run == 1 ? "one.csv" : "two.csv";
                String role = run == 1 ? "free-chamber" : "load";
                desk.post(
                        page + "/channels",
                        Map.of("file", file, "column", "T1", "role-0", "reference-point", "position-0", "A"));
                desk.post(page + "/channels", Map.of("file", file, "column", "T2", "role-0", role, "position-0", "B"));
                desk.post(page + "/channels", Map.of("file", file, "column", "P", "role-0", "pressure"));
            }
            String page = PAGE.replace("runs/1", "runs/3");
            put(desk, page, "three.csv", cycle("kPa abs", 920, 2));
            assertThat(desk.get(page).body())
                    .as("the run of the same kind, though another one came after it")
                    .contains("name=\"as-run\" value=\"1\">All columns as in run 1 (");
            String fourth = PAGE.replace("runs/1", "runs/4");
            put(desk, fourth, "other.csv", cycle("kPa abs", 930, 3));
            assertThat(desk.get(fourth).body()).as("a third column is unknown").doesNotContain("name=\"as-run\"");

            String sent = "file=three.csv&column=T1&column=T2&column=P&as-run=1";
            var answer = desk.send(HttpRequest.newBuilder(desk.address(page + "/channels"))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .header("X-Token", desk.token())
                    .POST(HttpRequest.BodyPublishers.ofString(sent)));
            assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
            assertThat(draft(drafts).find(FactPath.of("runs", 3, "channels")))
                    .isEqualTo(draft(drafts).find(FactPath.of("runs", 1, "channels")));
            assertThat(desk.get(page).body()).contains("class=\"verdict ").doesNotContain("name=\"as-run\"");
            assertThat(desk.post(page + "/channels", Map.of("file", "three.csv", "column", "T1", "as-run", "9"))
                            .statusCode())
                    .isEqualTo(422);
        }
    }

    @Test
    void a_column_that_the_reading_takes_for_granted_says_for_what() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            put(desk, "one.csv", cycle("kPa abs", 900, 1));
            assertThat(desk.get(PAGE).body())
                    .contains("the only pressure: of the chamber", "the only temperature: reference point");
            put(desk, "two.csv", cycle("kPa abs", 900, 2));
            assertThat(desk.get(PAGE).body()).doesNotContain("the only pressure", "the only temperature");
        }
    }

    @Test
    void a_question_is_shown_with_its_evidence_and_its_answer_is_kept() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(
                    desk,
                    "a.csv",
                    "time,T1,T2\n2026-03-02T09:00:00,20.0,21.0\n2026-03-02T09:00:01,20.1,21.1\n2026-03-02T09:00:02,20.2,21.2\n");
            String page = desk.get(PAGE).body();
            assertThat(page).contains("name=\"key\" value=\"unit:");
            var answer = desk.post(PAGE + "/reading", Map.of("file", "a.csv", "key", "unit:T1", "value", "°C"));
            assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "reading", "units", "T1")))
                    .isEqualTo("°C");
            desk.post(PAGE + "/reading", Map.of("file", "a.csv", "key", "unit:T2", "value", "skip"));
            assertThat(desk.get(PAGE).body()).contains("3 samples");
        }
    }

    @Test
    void several_clocks_are_stated_with_their_reason_or_not_at_all() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            put(desk, "b.csv", cycle("kPa abs", 310, 2));
            assertThat(desk.get(PAGE).body()).contains("Clock of a.csv", "Clock of b.csv");
            var refused = desk.post(
                    PAGE + "/clock", Map.of("file", "b.csv", "way", "offset", "offset", "-1", "half-width", "1"));
            assertThat(refused.statusCode()).isEqualTo(422);
            desk.post(
                    PAGE + "/clock",
                    Map.of(
                            "file",
                            "b.csv",
                            "way",
                            "offset",
                            "offset",
                            "-1,5",
                            "half-width",
                            "1",
                            "because",
                            "read side by side"));
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "recording", 2, "clock", "offset")))
                    .isEqualTo("-1.5 s");
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "recording", 2, "clock", "by")))
                    .isEqualTo("Alex Sample (invented)");
            HttpResponse<String> silent = desk.post(PAGE + "/remove", Map.of("file", "b.csv"));
            assertThat(silent.statusCode()).isEqualTo(422);
            assertThat(silent.body()).contains("No reason is stated, so the recording stays.");
            desk.post(PAGE + "/remove", Map.of("file", "b.csv", "because", "recording of another machine"));
            FactPath away = FactPath.of("runs", 1, "taken-away", 1);
            assertThat(draft(drafts).text(away.then("recording"))).isEqualTo("b.csv");
            assertThat(draft(drafts).text(away.then("because"))).isEqualTo("recording of another machine");
            assertThat(draft(drafts).text(away.then("by"))).isEqualTo("Alex Sample (invented)");
            assertThat(draft(drafts).text(away.then("sha256"))).hasSize(64);
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "recording"))).isEqualTo("a.csv");
            assertThat(draft(drafts).files()).containsOnlyKeys("a.csv");
        }
    }

    @Test
    void markup_in_names_stays_text_and_nothing_is_overwritten() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            put(
                    desk,
                    "a.csv",
                    "time,<b>T1</b> [°C]\n2026-03-02T09:00:00,20.0\n2026-03-02T09:00:01,20.1\n2026-03-02T09:00:02,20.2\n");
            assertThat(desk.get(PAGE).body()).contains("&lt;b>T1&lt;/b>").doesNotContain("<b>T1</b>");
            assertThat(put(desk, "a.csv", "other").statusCode()).isEqualTo(409);
            assertThat(put(desk, "../visit.yaml", "x").statusCode()).isEqualTo(409);
            assertThat(desk.post(PAGE + "/remove", Map.of("file", "c.csv")).statusCode())
                    .isEqualTo(422);
        }
    }

    @Test
    void a_recording_of_3000_by_6_is_assessed_when_the_page_is_shown_after_its_drop() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            draft(drafts)
                    .set(
                            FactPath.of("runs", 1, "channels"),
                            java.util.Optional.of(Map.of(
                                    "T1",
                                    "reference-point",
                                    "T2",
                                    "free-chamber",
                                    "T3",
                                    "free-chamber",
                                    "T4",
                                    "load",
                                    "T5",
                                    "load",
                                    "P",
                                    "pressure")),
                            AUTHOR,
                            "");
            String content = cycle("kPa abs", 3000, 5);
            var answer = put(desk, "a.csv", content);
            assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
            // how long that takes is measured in a browser, by VerdictSpeedTest
            assertThat(desk.get(PAGE).body()).contains("3000 samples", "class=\"verdict ", "See the curves");
        }
    }

    /** Sends a form as the page does by itself, without leaving it. */
    private static HttpResponse<String> quietly(OpenDesk desk, String path, Map<String, String> typed)
            throws Exception {
        return desk.send(desk.form(path, typed).header("X-Token", desk.token()).header("HX-Request", "true"));
    }

    @Test
    void recordings_that_two_tablets_send_at_once_are_all_named_by_the_run() throws Exception {
        int each = 6;
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            desk.token();
            ExecutorService tablets = Executors.newFixedThreadPool(2);
            try {
                List<Future<Integer>> answers = new ArrayList<>();
                for (int i = 0; i < 2 * each; i++) {
                    String name = "logger-" + i + ".csv";
                    answers.add(tablets.submit(
                            () -> put(desk, name, "# " + name + "\ntime,T1\n").statusCode()));
                }
                for (Future<Integer> answer : answers) {
                    assertThat(answer.get()).isEqualTo(303);
                }
            } finally {
                tablets.shutdownNow();
            }
            assertThat(draft(drafts).files()).hasSize(2 * each);
            assertThat(draft(drafts).find(FactPath.of("runs", 1, "recording")).orElseThrow())
                    .asInstanceOf(InstanceOfAssertFactories.LIST)
                    .containsExactlyInAnyOrderElementsOf(draft(drafts).files().keySet());
        }
    }

    @Test
    void the_recording_of_another_run_is_not_taken_in_and_hides_nothing() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            assertThat(put(desk, "copy of a.csv", cycle("kPa abs", 300, 1)).body())
                    .contains("copy of a.csv holds the same as the recording a.csv of run 1.");
            draft(drafts).add(FactPath.of("runs"), Map.of("kind", "empty-chamber"), AUTHOR, "");
            String second = PAGE.replace("/runs/1/", "/runs/2/");
            assertThat(put(desk, second, "b.csv", cycle("kPa abs", 300, 1)).body())
                    .contains("b.csv holds the same as the recording a.csv of run 1.");
            assertThat(draft(drafts).files()).containsOnlyKeys("a.csv");
            assertThat(put(desk, second, "b.csv", cycle("kPa abs", 301, 1)).statusCode())
                    .isEqualTo(303);
        }
    }

    @Test
    void an_instrument_that_the_visit_does_not_have_is_not_kept() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            assertThat(desk.get(PAGE).body()).contains("No instrument is in this visit yet.");
            Map<String, String> typed = Map.of(
                    "form", "columns",
                    "file", "a.csv",
                    "column", "T1",
                    "role-0", "reference-point",
                    "instrument-0", "tl-01");
            assertThat(quietly(desk, PAGE + "/channels", typed).body())
                    .contains("No instrument of this visit is called tl-01: none is there yet.");
            assertThat(draft(drafts).find(FactPath.of("runs", 1, "channels"))).isEmpty();
            draft(drafts)
                    .add(
                            FactPath.of("instruments"),
                            Map.of("id", "TL-01", "measures", "temperature", "description", "invented logger"),
                            AUTHOR,
                            "");
            assertThat(desk.get(PAGE).body())
                    .contains("<option value=\"TL-01\">")
                    .doesNotContain("No instrument is in this visit yet.");
            quietly(desk, PAGE + "/channels", typed);
            assertThat(draft(drafts).text(FactPath.of("runs", 1, "channels", "T1", "instrument")))
                    .as("written as the visit has it")
                    .isEqualTo("TL-01");
        }
    }

    @Test
    void a_recording_of_another_day_says_so_where_it_was_put_in_and_at_its_run() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            draft(drafts)
                    .change()
                    .set(FactPath.of("date"), "2026-08-03")
                    .set(
                            FactPath.of("runs", 1, "channels"),
                            Optional.of(Map.of("T1", "reference-point", "P", "pressure")))
                    .keep(AUTHOR, "");
            String doubt = "The recording began on 2026-03-02, the visit was on 2026-08-03.";
            assertThat(desk.get(PAGE).body()).contains(doubt);
            assertThat(desk.get(PAGE.replace("/recordings", "")).body())
                    .contains(doubt)
                    .doesNotContain("runs[1]");
            assertThat(desk.get("/visits/R-1/close").body())
                    .containsPattern("href=\"[^\"]+/runs/1/recordings\">Run 1: The recording began on 2026-03-02")
                    .doesNotContain("VISIT-055", "runs[1]");
        }
    }

    @Test
    void a_choice_is_saved_by_itself_and_leaves_alone_what_another_window_wrote() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            assertThat(desk.get(PAGE).body()).contains("name=\"was-role-0\" value=\"\"");
            var saved = quietly(
                    desk,
                    PAGE + "/channels",
                    Map.of(
                            "form", "columns",
                            "file", "a.csv",
                            "column", "T1",
                            "role-0", "free-chamber",
                            "was-role-0", "",
                            "place-0", "",
                            "was-place-0", ""));
            assertThat(saved.statusCode()).as(saved.body()).isEqualTo(200);
            assertThat(saved.body())
                    .contains(
                            "name=\"was-role-0\" value=\"free-chamber\"",
                            "innerHTML:#kept-columns-0",
                            "id=\"trail\" hx-swap-oob=\"true\"",
                            "/recordings/follows");
            FactPath channel = FactPath.of("runs", 1, "channels", "T1");
            assertThat(draft(drafts).text(channel)).isEqualTo("free-chamber");

            // a window that still shows the page as it was before
            Map<String, String> stale = new HashMap<>(Map.of(
                    "file", "a.csv",
                    "column", "T1",
                    "role-0", "",
                    "was-role-0", "",
                    "place-0", "front, top",
                    "was-place-0", ""));
            assertThat(quietly(desk, PAGE + "/channels", stale).statusCode()).isEqualTo(200);
            assertThat(draft(drafts).text(channel.then("role"))).isEqualTo("free-chamber");
            assertThat(draft(drafts).text(channel.then("place"))).isEqualTo("front, top");

            stale.put("role-0", "load");
            var refused = quietly(desk, PAGE + "/channels", stale);
            assertThat(refused.statusCode()).isEqualTo(422);
            assertThat(refused.body()).contains("now it says: free-chamber");
            assertThat(draft(drafts).text(channel.then("role"))).isEqualTo("free-chamber");
        }
    }

    @Test
    void a_tap_on_the_plan_moves_a_channel_and_is_taken_back_where_it_was_made() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            Map<String, String> tap = Map.of("channel", "a.csv/T1", "at", "back,left");
            assertThat(desk.post(PAGE + "/places", tap).statusCode())
                    .as("the channel stands for nothing yet")
                    .isEqualTo(422);
            desk.post(
                    PAGE + "/channels",
                    Map.of(
                            "file", "a.csv",
                            "column", "T1",
                            "role-0", "load",
                            "place-0", "front, top, in the pack"));
            FactPath place = FactPath.of("runs", 1, "channels", "T1", "place");
            assertThat(desk.post(PAGE + "/places", tap).statusCode()).isEqualTo(303);
            assertThat(draft(drafts).text(place)).isEqualTo("back, left, top, in the pack");
            var moved = quietly(desk, PAGE + "/places", Map.of("channel", "a.csv/T1", "at", "back,bottom"));
            assertThat(moved.body())
                    .contains(
                            "value=\"back, left, bottom, in the pack\"", "data-spots=\"above-0-2 side-2-2 door-2-0\"");
            for (String at : List.of("", "left", "left,right", "back,roof")) {
                var answer = desk.post(PAGE + "/places", Map.of("channel", "a.csv/T1", "at", at));
                assertThat(answer.statusCode()).as(at).isEqualTo(at.equals("left") ? 303 : 422);
            }
            assertThat(draft(drafts).text(place)).isEqualTo("back, left, bottom, in the pack");

            Matcher change = Pattern.compile("name=\"change\" value=\"([^\"]+)\"")
                    .matcher(desk.get(PAGE).body());
            assertThat(change.find()).isTrue();
            var undone = desk.post(PAGE + "/undo", Map.of("change", change.group(1)));
            assertThat(undone.headers().firstValue("Location").orElseThrow()).endsWith("/runs/1/recordings");
            assertThat(draft(drafts).text(place)).isEqualTo("back, left, top, in the pack");
            assertThat(desk.post(PAGE + "/undo", Map.of("change", change.group(1)))
                            .statusCode())
                    .as("that change is not the last any more")
                    .isEqualTo(409);
            assertThat(desk.post(PAGE + "/undo", Map.of("change", "x")).statusCode())
                    .isEqualTo(422);
        }
    }

    @Test
    void an_offset_that_is_typed_bit_by_bit_is_not_lost_and_counts_once_it_is_complete() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", cycle("kPa abs", 300, 1));
            put(desk, "b.csv", cycle("kPa abs", 310, 2));
            Map<String, String> typed = new HashMap<>(
                    Map.of("form", "clock", "file", "b.csv", "way", "offset", "offset", "-1,5", "half-width", ""));
            assertThat(quietly(desk, PAGE + "/clock", typed).statusCode()).isEqualTo(200);
            FactPath recording = FactPath.of("runs", 1, "recording", 2);
            assertThat(draft(drafts).text(recording)).isEqualTo("b.csv");
            assertThat(desk.get(PAGE).body()).contains("name=\"offset\" inputmode=\"text\" value=\"-1.5 s\"");
            for (String ambiguous : List.of("1.234,5", "1,234", "soon")) {
                typed.put("half-width", ambiguous);
                assertThat(quietly(desk, PAGE + "/clock", typed).statusCode())
                        .as(ambiguous)
                        .isEqualTo(422);
            }
            typed.put("half-width", "0,5");
            typed.put("because", "read side by side");
            assertThat(quietly(desk, PAGE + "/clock", typed).statusCode()).isEqualTo(200);
            assertThat(draft(drafts).text(recording.then("clock").then("half-width")))
                    .isEqualTo("0.5 s");
            assertThat(draft(drafts).notes()).isEmpty();
        }
    }

    /** An elapsed-time recording whose beginning is stated in words. */
    private static String begun(OpenDesk desk, Drafts drafts, Map<String, Object> reading) throws Exception {
        draft(drafts)
                .set(
                        FactPath.of("runs", 1),
                        java.util.Optional.of(
                                Map.of("kind", "empty-chamber", "recording", "e.csv", "reading", reading)),
                        AUTHOR,
                        "");
        return desk.get(PAGE).body();
    }

    @Test
    void the_page_reads_a_recording_as_the_visit_will_with_offset_doubled_hours_and_unknown_zones() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "e.csv", "Time [s],T1 [°C],P [kPa abs]\n0,20.0,100\n1,20.1,100\n2,20.2,100\n");
            assertThat(begun(desk, drafts, Map.of("start", "2026-04-05T02:30:00+10:30")))
                    .contains("2026-04-05 02:30:00 Australia/Adelaide");
            assertThat(begun(desk, drafts, Map.of("start", "2026-04-05T02:30:00")))
                    .contains("showed twice")
                    .doesNotContain("3 samples");
            assertThat(begun(desk, drafts, Map.of("start", "2026-10-04T02:30:00")))
                    .contains("skipped")
                    .doesNotContain("3 samples");
            assertThat(begun(desk, drafts, Map.of("start", "2026-04-05T02:30:00", "zone", "Adelaide")))
                    .contains("Australia/Adelaide", "expected a time zone")
                    .doesNotContain("3 samples");
        }
    }

    @Test
    void a_reading_profile_of_the_visit_answers_on_the_page_too() throws Exception {
        String recording = "time,T1\n2026-03-02T09:00:00,20.0\n2026-03-02T09:00:01,20.1\n2026-03-02T09:00:02,20.2\n";
        Path file = Files.writeString(folder.resolve("a.csv"), recording);
        Path profile = ReadingProfiles.keep(
                Files.createDirectory(folder.resolve("profiles")), "kitchen", file, Map.of("unit:T1", "°C"));
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            put(desk, "a.csv", recording);
            assertThat(desk.get(PAGE).body()).contains("name=\"key\" value=\"unit:");
            try (InputStream bytes = Files.newInputStream(profile)) {
                draft(drafts)
                        .change()
                        .putFile("readings/" + profile.getFileName(), bytes)
                        .keep(AUTHOR, "");
            }
            assertThat(desk.get(PAGE).body()).contains("3 samples").doesNotContain("name=\"key\" value=\"unit:");
        }
    }

    @Test
    void curves_are_told_when_the_clocks_of_the_site_went_back() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            StringBuilder elapsed = new StringBuilder();
            int second = 0;
            for (String line : cycle("kPa abs", 900, 2).lines().toList()) {
                boolean isRow = line.startsWith("2026");
                elapsed.append(isRow ? second++ + line.substring(line.indexOf(',')) : line.replace("time", "Time [s]"))
                        .append('\n');
            }
            put(desk, "e.csv", elapsed.toString());
            begun(desk, drafts, Map.of("start", "2026-04-05T02:55:00+10:30"));
            draft(drafts)
                    .set(
                            FactPath.of("runs", 1, "channels"),
                            java.util.Optional.of(
                                    Map.of("T1", "reference-point", "T2", "free-chamber", "P", "pressure")),
                            AUTHOR,
                            "");
            String traces = desk.get("/visits/R-1/runs/1/traces").body();
            assertThat(traces).contains("\"clockChanges\":[{\"at\":300.0,\"by\":-3600}]");
            begun(desk, drafts, Map.of("start", "2026-04-06T02:55:00"));
            assertThat(desk.get("/visits/R-1/runs/1/traces").body()).doesNotContain("clockChanges");
        }
    }

    @Test
    void an_upload_whose_connection_is_lost_leaves_nothing_half() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = begun(desk);
            String token = desk.token();
            String head = "--cut\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n" + token
                    + "\r\n--cut\r\nContent-Disposition: form-data; name=\"recording\"; filename=\"half.csv\"\r\n\r\n";
            String half = cycle("kPa abs", 3000, 5);
            AtomicInteger given = new AtomicInteger();
            InputStream torn = new SequenceInputStream(
                    new ByteArrayInputStream((head + half).getBytes(StandardCharsets.UTF_8)), new InputStream() {
                        @Override
                        public int read() throws IOException {
                            given.incrementAndGet();
                            throw new IOException("the cable was pulled");
                        }
                    });
            HttpRequest.Builder request = HttpRequest.newBuilder(desk.address(PAGE))
                    .header("Content-Type", "multipart/form-data; boundary=cut")
                    .header("X-Token", token)
                    .POST(HttpRequest.BodyPublishers.fromPublisher(
                            HttpRequest.BodyPublishers.ofInputStream(() -> torn), 2L * half.length()));
            assertThatThrownBy(() -> desk.send(request)).isInstanceOf(IOException.class);
            assertThat(given).hasPositiveValue();
            assertThat(draft(drafts).files()).isEmpty();
            assertThat(draft(drafts).find(FactPath.of("runs", 1, "recording"))).isEmpty();
            assertThat(desk.get(PAGE).body()).contains("No recording yet.");
            assertThat(put(desk, "half.csv", half).statusCode()).isEqualTo(303);
        }
    }
}
