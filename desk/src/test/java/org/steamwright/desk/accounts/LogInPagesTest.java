package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.web.Role;
import org.steamwright.records.accounts.LogInEntry;

class LogInPagesTest {

    @TempDir
    private Path folder;

    @Test
    void a_stranger_is_sent_to_the_log_in_and_gets_a_new_session_by_it() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser browser = office.browser();
            assertThat(browser.get("/today").headers().firstValue("Location")).contains("/log-in");
            browser.get("/log-in");
            String planted = browser.sessionCookie();
            String token = browser.token();
            var in = browser.post("/log-in", Map.of("name", "technician", "password", OpenOffice.PASSWORD));
            assertThat(in.headers().firstValue("Location")).contains("/today");
            assertThat(browser.sessionCookie()).isNotEqualTo(planted);
            assertThat(browser.token()).isNotEqualTo(token);
            assertThat(browser.get("/today").statusCode()).isEqualTo(200);
            assertThat(browser.post("/log-out", Map.of()).headers().firstValue("Clear-Site-Data"))
                    .contains("\"cache\", \"storage\"");
            assertThat(browser.get("/today").headers().firstValue("Location")).contains("/log-in");
        }
    }

    @Test
    void a_wrong_password_says_neither_that_the_name_is_known_nor_that_it_is_not() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser browser = office.browser();
            String known = browser.post("/log-in", Map.of("name", "technician", "password", "wrong"))
                    .body();
            String unknown = browser.post("/log-in", Map.of("name", "nobody", "password", "wrong"))
                    .body();
            assertThat(known).contains("Name or password is not right.").isEqualTo(unknown);
        }
    }

    @Test
    void a_session_ends_by_itself_and_with_a_change_of_the_user() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser browser = office.as("technician");
            office.clock.forward(LogIns.IDLE.minusSeconds(1));
            assertThat(browser.get("/today").statusCode()).isEqualTo(200);
            office.clock.forward(LogIns.IDLE);
            assertThat(browser.get("/today").statusCode()).as("idle").isEqualTo(303);

            OpenOffice.Browser busy = office.as("technician");
            for (int i = 0; i < 47; i++) {
                office.clock.forward(Duration.ofMinutes(15));
                assertThat(busy.get("/today").statusCode()).isEqualTo(200);
            }
            office.clock.forward(Duration.ofMinutes(15));
            assertThat(busy.get("/today").statusCode()).as("twelve hours").isEqualTo(303);

            OpenOffice.Browser again = office.as("technician");
            office.clock.forward(Duration.ofSeconds(1));
            String id = office.logIns.book().find("technician").orElseThrow().id();
            office.as("office").post("/users/" + id + "/active", Map.of("active", "no"));
            assertThat(again.get("/today").statusCode()).as("shut off").isEqualTo(303);
        }
    }

    @Test
    void a_second_factor_is_set_up_and_asked_from_then_on() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser browser = office.as("reviewer");
            String page = browser.get("/account/second-factor").body();
            assertThat(page).contains("<svg").contains("Square of dots");
            byte[] secret = OpenOffice.secret(page);
            OneTimeCodes codes = new OneTimeCodes();
            String code = codes.code(secret, office.clock.instant());
            assertThat(browser.post("/account/second-factor", Map.of("code", code))
                            .statusCode())
                    .as("a session that was left open sets up nothing")
                    .isEqualTo(422);
            assertThat(browser.post("/account/second-factor", Map.of("code", code, "own", "wrong"))
                            .statusCode())
                    .isEqualTo(422);
            assertThat(office.logIns.book().find("reviewer").orElseThrow().secondFactor())
                    .isEmpty();
            String taken = browser.post("/account/second-factor", Map.of("code", code, "own", OpenOffice.PASSWORD))
                    .body();
            assertThat(taken).contains("Write these recovery codes on paper");
            assertThat(browser.get("/account").statusCode()).as("still in").isEqualTo(200);

            OpenOffice.Browser other = office.browser();
            other.post("/log-in", Map.of("name", "reviewer", "password", OpenOffice.PASSWORD));
            assertThat(other.get("/today").statusCode()).as("not in yet").isEqualTo(303);
            assertThat(other.get("/log-in").body()).contains("One-time code");
            assertThat(other.post("/log-in/code", Map.of("code", "123456")).statusCode())
                    .isEqualTo(422);
            office.clock.forward(Duration.ofSeconds(31));
            assertThat(other.post("/log-in/code", Map.of("code", codes.code(secret, office.clock.instant())))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(other.get("/today").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void a_secret_begun_in_one_session_is_not_taken_in_the_next() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser browser = office.as("reviewer");
            byte[] begun =
                    OpenOffice.secret(browser.get("/account/second-factor").body());
            browser.post("/log-in", Map.of("name", "technician", "password", OpenOffice.PASSWORD));
            assertThat(OpenOffice.secret(browser.get("/account/second-factor").body()))
                    .isNotEqualTo(begun);
        }
    }

    @Test
    void the_office_shows_its_own_password_before_it_opens_somebodys_way_in() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser desk = office.as("office");
            String id = office.logIns.book().find("technician").orElseThrow().id();
            String before = office.logIns.book().findById(id).orElseThrow().password();
            byte[] factor = new OneTimeCodes().newSecret();
            office.logIns.takeSecondFactor(
                    id, factor, new OneTimeCodes().code(factor, office.clock.instant()), "192.0.2.7");
            for (Map<String, String> typed : java.util.List.of(Map.<String, String>of(), Map.of("own", "wrong"))) {
                Map<String, String> reset = new java.util.HashMap<>(typed);
                reset.put("password", "once only, please");
                assertThat(desk.post("/users/" + id + "/password", reset).statusCode())
                        .isEqualTo(422);
                assertThat(desk.post("/users/" + id + "/second-factor", typed).statusCode())
                        .isEqualTo(422);
            }
            assertThat(office.logIns.book().findById(id).orElseThrow().password())
                    .isEqualTo(before);
            assertThat(office.logIns.book().findById(id).orElseThrow().secondFactor())
                    .isNotEmpty();
            desk.post(
                    "/users/" + id + "/password", Map.of("password", "once only, please", "own", OpenOffice.PASSWORD));
            desk.post("/users/" + id + "/second-factor", Map.of("own", OpenOffice.PASSWORD));
            assertThat(office.logIns.book().findById(id).orElseThrow().password())
                    .isNotEqualTo(before);
            assertThat(office.logIns.book().findById(id).orElseThrow().secondFactor())
                    .isEmpty();
        }
    }

    @Test
    void the_last_user_of_the_office_keeps_the_role_and_the_way_in() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser desk = office.as("office");
            String id = office.logIns.book().find("office").orElseThrow().id();
            assertThat(desk.post("/users/" + id + "/role", Map.of("role", "technician"))
                            .body())
                    .contains("This is the last user of the office.");
            assertThat(office.logIns.setActive(id, false, "test")).contains(LogIns.Obstacle.LAST_OFFICE);
            office.user("Second Office (invented)", Role.OFFICE);
            assertThat(desk.post("/users/" + id + "/role", Map.of("role", "technician"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(office.logIns.book().findById(id).orElseThrow().role()).isEqualTo("technician");
        }
    }

    @Test
    void a_password_that_the_office_gave_has_to_be_changed_before_anything_else() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser desk = office.as("office");
            assertThat(desk.post("/users", Map.of("name", "Lee", "role", "technician", "password", "password1"))
                            .body())
                    .contains("among those that are tried first");
            desk.post("/users", Map.of("name", "Lee", "role", "technician", "password", "once only, please"));
            OpenOffice.Browser lee = office.browser();
            lee.post("/log-in", Map.of("name", "Lee", "password", "once only, please"));
            assertThat(lee.get("/today").statusCode()).isEqualTo(303);
            assertThat(lee.get("/log-in").body()).contains("Somebody else knows this password.");
            lee.post("/log-in/password", Map.of("old", "once only, please", "password", "pouch under basket"));
            assertThat(lee.get("/today").statusCode()).isEqualTo(200);
            assertThat(desk.post("/users", Map.of("name", "Nurse", "role", "clinic", "password", "pouch under basket"))
                            .body())
                    .contains("a user of a clinic needs the clinic too");
        }
    }

    @Test
    void the_log_tells_who_when_from_where_and_the_result() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            office.browser().post("/log-in", Map.of("name", "technician", "password", "wrong"));
            OpenOffice.Browser desk = office.as("office");
            assertThat(desk.get("/users/log").body())
                    .contains("wrong password")
                    .contains("127.0.0.1")
                    .contains("technician");
            assertThat(office.logIns.book().log(100))
                    .extracting(LogInEntry::result)
                    .contains("granted", "wrong password");
        }
    }

    @Test
    void markup_in_a_name_stays_text() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            office.user("<script>alert(1)</script>", Role.OFFICE);
            assertThat(office.as("office").get("/users").body())
                    .contains("&lt;script&gt;alert(1)&lt;/script&gt;")
                    .doesNotContain("<script>alert");
        }
    }

    private static final Pattern SESSION = Pattern.compile("name=\"session\" value=\"([0-9a-f-]{36})\"");

    private static long sessionsOn(String page) {
        return SESSION.matcher(page).results().count();
    }

    private static boolean isIn(OpenOffice.Browser browser) throws Exception {
        return browser.get("/today").statusCode() == 200;
    }

    @Test
    void own_sessions_are_listed_and_ended_one_by_one_with_the_password() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser laptop = office.as("technician");
            OpenOffice.Browser tablet = office.as("technician");
            OpenOffice.Browser lost = office.as("technician");
            OpenOffice.Browser stranger = office.as("reviewer");
            String page = lost.get("/account").body();
            assertThat(sessionsOn(page))
                    .as("three of the technician, none of the reviewer")
                    .isEqualTo(3);
            assertThat(page).doesNotContain(lost.sessionCookie());
            String seen = laptop.get("/account").body();
            Matcher thisOne = Pattern.compile(
                            "this one</span>.*?name=\"session\" value=\"([0-9a-f-]{36})\"", Pattern.DOTALL)
                    .matcher(page);
            assertThat(thisOne.find()).isTrue();
            String ofLost = thisOne.group(1);
            assertThat(seen).contains(ofLost);

            assertThat(laptop.post("/account/sessions", Map.of("session", ofLost, "password", "wrong"))
                            .statusCode())
                    .isEqualTo(422);
            assertThat(isIn(lost)).as("a wrong password ends nothing").isTrue();
            assertThat(stranger.post("/account/sessions", Map.of("session", ofLost, "password", OpenOffice.PASSWORD))
                            .statusCode())
                    .as("nobody ends the session of somebody else")
                    .isEqualTo(422);
            assertThat(isIn(lost)).isTrue();

            assertThat(laptop.post("/account/sessions", Map.of("session", ofLost, "password", OpenOffice.PASSWORD))
                            .statusCode())
                    .isEqualTo(200);
            assertThat(isIn(lost)).isFalse();
            assertThat(isIn(laptop)).isTrue();
            assertThat(isIn(tablet)).isTrue();

            laptop.post("/account/sessions", Map.of("session", "others", "password", OpenOffice.PASSWORD));
            assertThat(isIn(tablet)).isFalse();
            assertThat(isIn(laptop)).isTrue();
            assertThat(sessionsOn(laptop.get("/account").body())).isEqualTo(1);
            assertThat(isIn(stranger)).isTrue();

            laptop.post("/account/sessions", Map.of("session", "all", "password", OpenOffice.PASSWORD));
            assertThat(isIn(laptop)).isFalse();
        }
    }

    @Test
    void a_session_that_ended_by_itself_is_not_listed() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            office.as("technician");
            office.clock.forward(Duration.ofMinutes(20));
            OpenOffice.Browser second = office.as("technician");
            assertThat(sessionsOn(second.get("/account").body())).isEqualTo(2);
            office.clock.forward(Duration.ofMinutes(11));
            assertThat(sessionsOn(second.get("/account").body())).isEqualTo(1);
            second.post("/log-out", Map.of());
            assertThat(sessionsOn(office.as("technician").get("/account").body()))
                    .isEqualTo(1);
        }
    }

    @Test
    void many_users_are_shown_a_page_at_a_time_and_found_by_a_part_of_the_name() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            for (int i = 0; i < 130; i++) {
                office.user("Zed " + (100 + i) + " (invented)", Role.TECHNICIAN);
            }
            OpenOffice.Browser browser = office.as("office");
            String first = browser.get("/users").body();
            assertThat(first)
                    .contains("users in all: 134", "Zed 195 (invented)", "/users?from=100")
                    .doesNotContain("Zed 196");
            assertThat(browser.get("/users?from=100").body())
                    .contains("Zed 196 (invented)", "Zed 229 (invented)", "/users?from=0")
                    .doesNotContain("Zed 195");
            assertThat(browser.get("/users?q=zed+20").body())
                    .contains("Zed 200 (invented)", "Zed 209 (invented)")
                    .doesNotContain("Zed 210");
            assertThat(browser.get("/users?q=nobody").body()).contains("No user has that in the name.");
        }
    }
}
