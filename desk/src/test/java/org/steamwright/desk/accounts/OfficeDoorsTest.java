package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.web.Limit;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.accounts.LogInEntry;

/** What an office sets: who needs a second factor, how much one may ask, and what its log tells. */
class OfficeDoorsTest {

    @TempDir
    private Path folder;

    private final OneTimeCodes codes = new OneTimeCodes();

    private static OfficeSettings wanting(Role role) {
        return new OfficeSettings(Optional.empty(), EnumSet.allOf(Role.class), EnumSet.of(role), Map.of());
    }

    private static OfficeSettings limited(Map<Limit, Long> limits) {
        return new OfficeSettings(Optional.empty(), EnumSet.allOf(Role.class), EnumSet.noneOf(Role.class), limits);
    }

    @Test
    void who_needs_a_second_factor_sets_it_up_after_the_password_and_reaches_nothing_before() throws Exception {
        try (OpenOffice office = new OpenOffice(folder, wanting(Role.REVIEWER))) {
            OpenOffice.Browser browser = office.as("reviewer");
            for (String path : new String[] {"/today", "/visits", "/account", "/account/second-factor", "/review"}) {
                assertThat(browser.get(path).headers().firstValue("Location"))
                        .as(path)
                        .contains("/log-in");
            }
            assertThat(browser.post("/account/password", Map.of("old", OpenOffice.PASSWORD, "password", "x"))
                            .statusCode())
                    .isEqualTo(403);
            String page = browser.get("/log-in").body();
            assertThat(page).contains("Your office wants a second factor").contains("<svg");
            byte[] secret = OpenOffice.secret(page);
            assertThat(browser.post("/log-in/second-factor", Map.of("code", "000000"))
                            .statusCode())
                    .isEqualTo(422);
            HttpResponse<String> taken =
                    browser.post("/log-in/second-factor", Map.of("code", codes.code(secret, office.clock.instant())));
            assertThat(taken.body())
                    .contains("Write these recovery codes on paper")
                    .contains("href=\"/log-in\"");
            assertThat(browser.get("/log-in").headers().firstValue("Location")).contains("/today");
            assertThat(browser.get("/today").statusCode()).isEqualTo(200);
            assertThat(office.as("technician").get("/today").statusCode())
                    .as("other roles need none")
                    .isEqualTo(200);

            office.clock.forward(Duration.ofMinutes(1));
            office.logIns.dropSecondFactor(
                    office.logIns.book().find("reviewer").orElseThrow().id(), "test");
            assertThat(office.as("reviewer").get("/today").statusCode())
                    .as("taken away, so it has to be set up again")
                    .isEqualTo(303);
        }
    }

    @Test
    void who_begins_a_visit_for_another_is_not_taken_for_its_technician() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String field = "name=\"technician\" type=\"text\" list=\"technicians\" value=\"%s\"";
            assertThat(office.as("office").get("/visits").body()).contains(field.formatted(""));
            assertThat(office.as("technician").get("/visits").body()).contains(field.formatted("technician"));
            String begun = office.as("office")
                    .post(
                            "/visits",
                            Map.of(
                                    "number",
                                    "R-7",
                                    "date",
                                    "2026-12-24",
                                    "technician",
                                    "Lee Sample (invented)",
                                    "clinic",
                                    "Example Dental (invented)",
                                    "serial",
                                    "EX-7"))
                    .headers()
                    .firstValue("Location")
                    .orElseThrow();
            String visit = begun.substring(0, begun.lastIndexOf('/'));
            assertThat(office.as("office").get("/plan?days=3660").body())
                    .as("who goes, also where the register knows nobody of that name")
                    .contains("R-7", "Lee Sample (invented)");
            assertThat(office.as("office").get(visit + "/go").body()).doesNotContain("Nobody is chosen");
        }
    }

    @Test
    void a_technician_whom_the_register_does_not_know_is_named_with_what_is_missing() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            RegisterFiling filing = new RegisterFiling(office.records);
            Path register = Files.createDirectory(folder.resolve("register"));
            Files.writeString(register.resolve("register.yaml"), """
                    steamwright-register: 1
                    clinics:
                      - id: example
                        name: Example Foot (invented)
                        sites:
                          - {id: example-main, zone: Australia/Adelaide, rooms: [{id: room-1, name: Room}]}
                    sterilizers:
                      - id: EX-8
                        serial: EX-8
                        room: room-1
                        cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]
                    """);
            filing.take(register, new Author("Kim Sample (invented)", "office"), "");
            OpenOffice.Browser browser = office.as("office");
            String begun = browser.post(
                            "/visits",
                            Map.of(
                                    "number",
                                    "R-8",
                                    "date",
                                    "2026-12-24",
                                    "technician",
                                    "Lee Sample (invented)",
                                    "serial",
                                    "EX-8"))
                    .headers()
                    .firstValue("Location")
                    .orElseThrow();
            assertThat(browser.get(begun.substring(0, begun.lastIndexOf('/')) + "/go")
                            .body())
                    .contains("The register has no competence of Lee Sample (invented) for validation")
                    .doesNotContain("Nobody is chosen");
        }
    }

    @Test
    void a_password_for_once_is_changed_first_and_then_the_second_factor_is_set_up() throws Exception {
        try (OpenOffice office = new OpenOffice(folder, wanting(Role.TECHNICIAN))) {
            office.logIns.add("Lee", "technician", "", "once only, please", "test");
            OpenOffice.Browser lee = office.browser();
            lee.post("/log-in", Map.of("name", "Lee", "password", "once only, please"));
            assertThat(lee.post("/log-in/second-factor", Map.of("code", "000000"))
                            .headers()
                            .firstValue("Location"))
                    .as("not yet")
                    .contains("/log-in");
            assertThat(lee.post(
                                    "/log-in/password",
                                    Map.of("old", "once only, please", "password", "pouch under basket"))
                            .headers()
                            .firstValue("Location"))
                    .contains("/log-in");
            assertThat(lee.get("/log-in").body()).contains("Your office wants a second factor");
            assertThat(lee.get("/today").statusCode()).isEqualTo(303);
        }
    }

    @Test
    void somebody_who_may_already_be_in_cannot_take_another_second_factor_at_the_log_in() throws Exception {
        try (OpenOffice office = new OpenOffice(folder, wanting(Role.REVIEWER))) {
            OpenOffice.Browser technician = office.as("technician");
            assertThat(technician
                            .post("/log-in/second-factor", Map.of("code", "000000"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(office.browser()
                            .post("/log-in/second-factor", Map.of("code", "000000"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(office.logIns.book().log(20)).extracting(LogInEntry::act).doesNotContain("second factor");
        }
    }

    @Test
    void too_many_changes_are_told_when_to_come_back_and_pages_still_open() throws Exception {
        try (OpenOffice office = new OpenOffice(folder, limited(Map.of(Limit.CHANGES_AT_ONCE_PER_USER, 10L)))) {
            OpenOffice.Browser browser = office.as("office");
            HttpResponse<String> answer = browser.post("/language", Map.of("language", "en", "from", "/today"));
            for (int i = 0; i < 10; i++) {
                assertThat(answer.statusCode()).isEqualTo(303);
                answer = browser.post("/language", Map.of("language", "en", "from", "/today"));
            }
            assertThat(answer.statusCode()).isEqualTo(429);
            assertThat(answer.headers().firstValue("Retry-After")).contains("1");
            assertThat(answer.body()).contains("more than the desk takes from one user");
            assertThat(browser.get("/today").statusCode()).isEqualTo(200);
            assertThat(office.logIns.book().log(1).get(0).result()).isEqualTo("too much within a short time");
            office.clock.forward(Duration.ofSeconds(1));
            assertThat(browser.post("/language", Map.of("language", "en", "from", "/today"))
                            .statusCode())
                    .isEqualTo(303);
        }
    }

    @Test
    void an_upload_is_counted_before_it_is_read_and_has_to_say_how_long_it_is() throws Exception {
        try (OpenOffice office = new OpenOffice(folder, limited(Map.of(Limit.UPLOADS_PER_HOUR_PER_USER, 1L)))) {
            OpenOffice.Browser browser = office.as("technician");
            String token = browser.token();
            assertThat(browser.send(upload(office, token, true)).statusCode()).isNotIn(411, 429);
            HttpResponse<String> second = browser.send(upload(office, token, true));
            assertThat(second.statusCode()).isEqualTo(429);
            assertThat(second.headers().firstValue("Retry-After")).contains("3600");
            assertThat(browser.send(upload(office, token, false)).statusCode()).isEqualTo(411);
        }
    }

    private static HttpRequest.Builder upload(OpenOffice office, String token, boolean isLengthKnown) {
        String body = "--b\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.csv\"\r\n\r\n1\r\n--b--\r\n";
        return HttpRequest.newBuilder(office.address("/visits/nothing/runs/1/recordings"))
                .header("Content-Type", "multipart/form-data; boundary=b")
                .header("X-Token", token)
                .POST(
                        isLengthKnown
                                ? HttpRequest.BodyPublishers.ofString(body)
                                : HttpRequest.BodyPublishers.fromPublisher(HttpRequest.BodyPublishers.ofString(body)));
    }

    @Test
    void what_was_refused_stands_in_the_log_and_the_log_can_not_be_flooded() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser technician = office.as("technician");
            assertThat(technician.get("/users").statusCode()).isEqualTo(403);
            assertThat(office.logIns.book().log(1).get(0)).satisfies(entry -> {
                assertThat(entry.act()).isEqualTo("refused: GET /users");
                assertThat(entry.result()).isEqualTo("no right");
                assertThat(entry.account())
                        .isEqualTo(office.logIns
                                .book()
                                .find("technician")
                                .orElseThrow()
                                .id());
            });
            technician.send(technician.form("/log-out", Map.of()));
            assertThat(office.logIns.book().log(1).get(0).result()).isEqualTo("without the token of its page");
            technician.send(technician.form("/log-out", Map.of()).header("Origin", "https://elsewhere.example"));
            assertThat(office.logIns.book().log(1).get(0).result()).isEqualTo("sent by a page of somebody else");
            long before = office.logIns.book().log(1).get(0).nr();
            for (int i = 0; i < 100; i++) {
                technician.get("/users");
            }
            assertThat(office.logIns.book().log(1).get(0).nr() - before).isLessThanOrEqualTo(60);
        }
    }

    @Test
    void the_log_is_taken_along_as_a_table_without_formulas_and_read_page_by_page() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            office.user("=1+2", Role.TECHNICIAN);
            office.as("=1+2");
            for (int i = 0; i < 300; i++) {
                office.logIns.book().note("", "192.0.2.7", "log-in", "no such user");
            }
            OpenOffice.Browser desk = office.as("office");
            HttpResponse<String> table = desk.get("/users/log.csv");
            assertThat(table.headers().firstValue("Content-Disposition").orElse(""))
                    .contains("log-ins.csv");
            assertThat(table.body())
                    .startsWith("\"nr\",\"time\",\"user\",\"address\",\"act\",\"result\"")
                    .contains("\"'=1+2\"")
                    .contains("\"192.0.2.7\",\"log-in\",\"no such user\"");
            assertThat(table.body().lines().count())
                    .as("all lines and the heads")
                    .isEqualTo(office.logIns.book().log(1).get(0).nr() + 1);
            Matcher older = Pattern.compile("/users/log\\?before=(\\d+)")
                    .matcher(desk.get("/users/log").body());
            assertThat(older.find()).isTrue();
            assertThat(desk.get("/users/log?before=" + older.group(1)).body()).contains("user added");
            assertThat(desk.get("/users/log?before=x").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void every_change_of_a_user_is_noted_with_who_made_it() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser desk = office.as("office");
            String id = office.logIns.book().find("technician").orElseThrow().id();
            office.logIns.started();
            desk.post("/users/" + id + "/role", Map.of("role", "reviewer"));
            desk.post(
                    "/users/" + id + "/password", Map.of("password", "pouch under basket", "own", OpenOffice.PASSWORD));
            desk.post("/users/" + id + "/second-factor", Map.of("own", OpenOffice.PASSWORD));
            desk.post("/users/" + id + "/sessions", Map.of());
            desk.post("/users/" + id + "/active", Map.of("active", "no"));
            desk.post("/users/" + id + "/active", Map.of("active", "yes"));
            desk.post("/log-out", Map.of());
            assertThat(office.logIns.book().log(8))
                    .extracting(entry -> entry.act() + ": " + entry.result())
                    .containsExactly(
                            "log-out: done",
                            "let in again: by office",
                            "shut off: by office",
                            "sessions ended: by office",
                            "second factor: taken away by office",
                            "password reset: by office",
                            "role: technician to reviewer, by office",
                            "start: passwords for technician reviewer office clinic, second factor for nobody,"
                                    + " vouched for by nobody");
        }
    }
}
