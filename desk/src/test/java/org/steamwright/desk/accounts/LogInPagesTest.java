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

    private static final Pattern SECRET = Pattern.compile("By hand: ([A-Z2-7 ]+)");

    @TempDir
    private Path folder;

    private static byte[] secret(String page) {
        Matcher secret = SECRET.matcher(page);
        assertThat(secret.find()).isTrue();
        String letters = secret.group(1).replace(" ", "");
        byte[] bytes = new byte[letters.length() * 5 / 8];
        for (int i = 0; i < bytes.length * 8; i++) {
            int value = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(letters.charAt(i / 5));
            if ((value >> (4 - i % 5) & 1) == 1) {
                bytes[i / 8] |= (byte) (1 << (7 - i % 8));
            }
        }
        return bytes;
    }

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
            byte[] secret = secret(page);
            OneTimeCodes codes = new OneTimeCodes();
            String taken = browser.post(
                            "/account/second-factor", Map.of("code", codes.code(secret, office.clock.instant())))
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
}
