package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.desk.web.Role;
import org.steamwright.records.accounts.LogInEntry;

/** Log-ins for which a provider of identities vouches: one that tells the truth, and many that do not. */
class ProviderLogInTest {

    private static final String FINISH = "/log-in/provider/finish";

    @TempDir
    private Path folder;

    private static OfficeSettings vouchedBy(ProviderSettings provider) {
        return new OfficeSettings(
                Optional.of(provider), EnumSet.allOf(Role.class), EnumSet.noneOf(Role.class), Map.of());
    }

    private OpenOffice office(TestProvider provider) throws IOException {
        OpenOffice office = new OpenOffice(folder, vouchedBy(provider.settings()));
        known(office, provider, "technician", provider.subject, "");
        return office;
    }

    private static void known(OpenOffice office, TestProvider provider, String name, String subject, String mail) {
        String id = office.logIns.book().find(name).orElseThrow().id();
        assertThat(office.logIns.stateIdentity(id, provider.issuer(), subject, mail, "test"))
                .isEmpty();
    }

    private static URI away(OpenOffice.Browser browser) throws IOException, InterruptedException {
        HttpResponse<String> answer = browser.get("/log-in/provider");
        assertThat(answer.statusCode()).isEqualTo(303);
        return URI.create(answer.headers().firstValue("Location").orElseThrow());
    }

    /** What a browser does at the provider and on the way back, up to the last step. */
    private static HttpResponse<String> logIn(OpenOffice.Browser browser, TestProvider provider)
            throws IOException, InterruptedException {
        return finish(browser, provider.agree(away(browser)));
    }

    private static HttpResponse<String> finish(OpenOffice.Browser browser, URI back)
            throws IOException, InterruptedException {
        return browser.get(FINISH + "?" + back.getRawQuery());
    }

    private static String last(OpenOffice office) {
        return office.logIns.book().log(1).get(0).result();
    }

    private static void isKeptOut(OpenOffice.Browser browser) throws IOException, InterruptedException {
        assertThat(browser.get("/today").headers().firstValue("Location")).contains("/log-in");
    }

    @Test
    void who_is_vouched_for_comes_in_with_the_role_that_the_desk_gives_and_a_new_session() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            provider.lie = claims -> claims.put("role", "office");
            OpenOffice.Browser browser = office.browser();
            assertThat(browser.get("/log-in").body()).contains("Log in with the invented provider");
            String planted = browser.sessionCookie();
            assertThat(logIn(browser, provider).headers().firstValue("Location"))
                    .contains("/today");
            assertThat(browser.sessionCookie()).isNotEqualTo(planted);
            assertThat(browser.get("/today").statusCode()).isEqualTo(200);
            assertThat(browser.get("/users").statusCode())
                    .as("roles are the desk's own")
                    .isEqualTo(403);
            assertThat(office.logIns.book().log(5))
                    .extracting(LogInEntry::act, LogInEntry::result)
                    .contains(org.assertj.core.groups.Tuple.tuple("log-in by provider", "granted by provider"));
            browser.post("/log-out", Map.of());
            isKeptOut(browser);
        }
    }

    @Test
    void what_is_asked_of_the_provider_carries_state_nonce_and_a_challenge() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            Map<String, String> asked =
                    TestProvider.fields(away(office.browser()).getRawQuery());
            assertThat(asked)
                    .containsEntry("response_type", "code")
                    .containsEntry("client_id", TestProvider.CLIENT)
                    .containsEntry("code_challenge_method", "S256")
                    .containsEntry(
                            "redirect_uri",
                            office.address("/log-in/provider/return").toString())
                    .doesNotContainValue(TestProvider.SECRET);
            assertThat(asked.get("state")).hasSizeGreaterThanOrEqualTo(43);
            assertThat(asked.get("nonce")).hasSizeGreaterThanOrEqualTo(43);
            assertThat(asked.get("code_challenge")).hasSize(43);
            assertThat(TestProvider.fields(away(office.browser()).getRawQuery()).get("state"))
                    .isNotEqualTo(asked.get("state"));
        }
    }

    @Test
    void the_way_back_is_a_page_without_a_session_that_leads_on_by_a_link_of_our_own() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            HttpResponse<String> hop = browser.get(
                    "/log-in/provider/return?code=c%22%3E&state=s&next=https://elsewhere.example&session_state=x");
            assertThat(hop.headers().firstValue("Set-Cookie")).isEmpty();
            assertThat(hop.body())
                    .contains("content=\"0;url=/log-in/provider/finish?code=c%22%3E&amp;state=s\"")
                    .doesNotContain("elsewhere")
                    .doesNotContain("session_state")
                    .doesNotContain("<script");
        }
    }

    static Stream<Arguments> lies() {
        return Stream.of(
                lie("wrong nonce", claims -> claims.put("nonce", "another")),
                lie("no nonce", claims -> claims.remove("nonce")),
                lie("wrong audience", claims -> claims.put("aud", "somebody-else")),
                lie("for two, authorised for the other", claims -> {
                    claims.put("aud", List.of(TestProvider.CLIENT, "somebody-else"));
                    claims.put("azp", "somebody-else");
                }),
                lie("wrong issuer", claims -> claims.put("iss", "https://elsewhere.example")),
                lie("expired", claims -> claims.put("exp", Instant.now().getEpochSecond() - 120)),
                lie("without end", claims -> claims.remove("exp")),
                lie("from the future", claims -> claims.put("iat", Instant.now().getEpochSecond() + 600)),
                lie("no subject", claims -> claims.remove("sub")),
                lie("an empty subject", claims -> claims.put("sub", "")));
    }

    private static Arguments lie(String name, Consumer<Map<String, Object>> lie) {
        return Arguments.of(name, lie);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("lies")
    void a_token_that_says_something_else_is_not_believed(String why, Consumer<Map<String, Object>> lie)
            throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            provider.lie = lie;
            OpenOffice.Browser browser = office.browser();
            HttpResponse<String> answer = logIn(browser, provider);
            assertThat(answer.statusCode()).as(why).isEqualTo(403);
            assertThat(answer.body()).contains("can not be believed");
            assertThat(last(office)).isEqualTo("not-believed");
            isKeptOut(browser);
        }
    }

    @ParameterizedTest
    @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "OWN_KEY")
    void a_token_that_the_provider_has_not_signed_is_not_believed(TestProvider.Signing signing) throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            provider.signing = signing;
            OpenOffice.Browser browser = office.browser();
            assertThat(logIn(browser, provider).statusCode()).isEqualTo(403);
            assertThat(last(office)).isEqualTo("not-believed");
            isKeptOut(browser);
        }
    }

    @Test
    void an_answer_with_another_state_or_to_another_browser_is_not_taken() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            URI back = provider.agree(away(browser));
            assertThat(browser.get(FINISH + "?" + back.getRawQuery().replaceAll("state=.*", "state=another"))
                            .statusCode())
                    .isEqualTo(403);
            assertThat(last(office)).isEqualTo("not-begun-here");
            assertThat(finish(browser, back).statusCode())
                    .as("a wrong answer has ended it")
                    .isEqualTo(403);

            OpenOffice.Browser victim = office.browser();
            away(victim);
            assertThat(finish(victim, provider.agree(away(office.browser()))).statusCode())
                    .as("somebody else's code")
                    .isEqualTo(403);
            assertThat(finish(office.browser(), provider.agree(away(browser))).statusCode())
                    .as("no log-in was begun")
                    .isEqualTo(403);
            isKeptOut(victim);
        }
    }

    @Test
    void an_answer_is_good_once_and_for_ten_minutes() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            URI back = provider.agree(away(browser));
            assertThat(finish(browser, back).statusCode()).isEqualTo(303);
            HttpResponse<String> again = finish(browser, back);
            assertThat(again.statusCode()).isEqualTo(403);
            assertThat(again.body()).contains("was used already");

            OpenOffice.Browser slow = office.browser();
            URI late = provider.agree(away(slow));
            office.clock.forward(Duration.ofMinutes(10));
            assertThat(finish(slow, late).statusCode()).isEqualTo(403);
            assertThat(last(office)).isEqualTo("not-begun-here");
        }
    }

    @Test
    void a_code_that_the_provider_does_not_know_lets_nobody_in() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            String query = provider.agree(away(browser)).getRawQuery();
            assertThat(browser.get(FINISH + "?" + query.replaceAll("code=[^&]+", "code=made-up"))
                            .statusCode())
                    .isEqualTo(403);
            isKeptOut(browser);
        }
    }

    @Test
    void an_error_of_the_provider_is_told_in_words_and_its_own_words_are_not_shown() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            String state = TestProvider.fields(away(browser).getRawQuery()).get("state");
            HttpResponse<String> answer =
                    browser.get(FINISH + "?error=access_denied&error_description=call%20this%20number&state=" + state);
            assertThat(answer.statusCode()).isEqualTo(403);
            assertThat(answer.body())
                    .contains("You were not let in by the invented provider")
                    .doesNotContain("call this number");
            assertThat(last(office)).isEqualTo("refused");
        }
    }

    @Test
    void a_log_out_message_at_the_same_address_is_none_to_a_log_in() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser browser = office.browser();
            away(browser);
            assertThat(browser.get(FINISH + "?sid=1").statusCode()).isEqualTo(403);
            away(browser);
            assertThat(browser.get(FINISH + "?logout_token=a.b.c").statusCode()).isEqualTo(403);
            isKeptOut(browser);
        }
    }

    @Test
    void nobody_is_made_by_logging_in() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            int users = office.logIns.book().all().size();
            provider.subject = "s-2002";
            OpenOffice.Browser browser = office.browser();
            HttpResponse<String> answer = logIn(browser, provider);
            assertThat(answer.statusCode()).isEqualTo(403);
            assertThat(answer.body()).contains("You are known to the invented provider, and not to this desk");
            assertThat(last(office)).isEqualTo("provider named nobody known");
            assertThat(office.logIns.book().all()).hasSize(users);
            isKeptOut(browser);

            String id = office.logIns.book().find("technician").orElseThrow().id();
            office.logIns.setActive(id, false, "test");
            provider.subject = "s-1001";
            assertThat(logIn(browser, provider).statusCode()).as("shut off").isEqualTo(403);
        }
    }

    @Test
    void a_verified_address_leads_to_the_subject_once() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = new OpenOffice(folder, vouchedBy(provider.settings()))) {
            known(office, provider, "reviewer", "", "robin@office.example");
            provider.lie = claims -> {
                claims.put("email", "Robin@office.example");
                claims.put("email_verified", false);
            };
            assertThat(logIn(office.browser(), provider).statusCode())
                    .as("not verified")
                    .isEqualTo(403);
            provider.lie = claims -> {
                claims.put("email", "Robin@office.example");
                claims.put("email_verified", true);
            };
            assertThat(logIn(office.browser(), provider).statusCode()).isEqualTo(303);
            provider.subject = "s-3003";
            assertThat(logIn(office.browser(), provider).statusCode())
                    .as("the address was given to somebody else")
                    .isEqualTo(403);
        }
    }

    @Test
    void the_address_may_come_from_the_user_info_if_it_is_about_the_same_subject() throws Exception {
        try (TestProvider provider = new TestProvider()) {
            provider.userInfo = Map.of("sub", "s-1001", "email", "robin@office.example", "email_verified", true);
            try (OpenOffice office = new OpenOffice(folder, vouchedBy(provider.settings()))) {
                known(office, provider, "reviewer", "", "robin@office.example");
                provider.subject = "s-9";
                assertThat(logIn(office.browser(), provider).statusCode())
                        .as("about somebody else")
                        .isEqualTo(403);
                assertThat(last(office)).isEqualTo("not-believed");
                provider.subject = "s-1001";
                assertThat(logIn(office.browser(), provider).statusCode()).isEqualTo(303);
            }
        }
    }

    @Test
    void a_way_of_log_in_that_the_office_wants_has_to_have_been_used() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = new OpenOffice(folder, vouchedBy(provider.settings("two-factors", "hardware")))) {
            known(office, provider, "technician", provider.subject, "");
            assertThat(TestProvider.fields(away(office.browser()).getRawQuery()))
                    .containsEntry("acr_values", "two-factors hardware");
            assertThat(logIn(office.browser(), provider).statusCode())
                    .as("none said")
                    .isEqualTo(403);
            provider.lie = claims -> claims.put("acr", "password");
            assertThat(logIn(office.browser(), provider).statusCode())
                    .as("weaker")
                    .isEqualTo(403);
            provider.lie = claims -> claims.put("acr", "hardware");
            assertThat(logIn(office.browser(), provider).statusCode()).isEqualTo(303);
        }
    }

    @Test
    void a_provider_that_is_down_is_told_and_passwords_still_work() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            OpenOffice.Browser begun = office.browser();
            URI back = provider.agree(away(begun));
            provider.goDown();
            HttpResponse<String> half = finish(begun, back);
            assertThat(half.statusCode()).as("went down in between").isEqualTo(503);
            assertThat(last(office)).isEqualTo("unreachable");
            office.clock.forward(Duration.ofHours(2));
            HttpResponse<String> answer = office.browser().get("/log-in/provider");
            assertThat(answer.statusCode()).isEqualTo(503);
            assertThat(answer.body())
                    .contains("No answer from the invented provider")
                    .contains("id=\"password\"");
            assertThat(office.as("technician").get("/today").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void a_provider_that_describes_itself_as_another_is_not_used() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            provider.claimedIssuer = Optional.of("https://elsewhere.example");
            assertThat(office.browser().get("/log-in/provider").statusCode()).isEqualTo(503);
        }
    }

    @Test
    void nobody_is_followed_elsewhere() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = office(provider)) {
            provider.sendsOn = Optional.of(provider.issuer() + "/elsewhere");
            OpenOffice.Browser browser = office.browser();
            assertThat(logIn(browser, provider).statusCode()).isGreaterThanOrEqualTo(403);
            assertThat(provider.wasElsewhere).isFalse();
            isKeptOut(browser);
        }
    }

    @Test
    void an_office_may_take_passwords_of_some_roles_only() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = new OpenOffice(
                        folder,
                        new OfficeSettings(
                                Optional.of(provider.settings()),
                                EnumSet.of(Role.OFFICE),
                                EnumSet.noneOf(Role.class),
                                Map.of()))) {
            OpenOffice.Browser browser = office.browser();
            HttpResponse<String> answer =
                    browser.post("/log-in", Map.of("name", "technician", "password", OpenOffice.PASSWORD));
            assertThat(answer.statusCode()).isEqualTo(422);
            assertThat(answer.body()).contains("no password is taken here");
            assertThat(browser.post("/log-in", Map.of("name", "technician", "password", "wrong"))
                            .body())
                    .as("nothing is said to whoever does not know the password")
                    .doesNotContain("no password is taken here");
            isKeptOut(browser);
            assertThat(office.as("office").get("/users").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void the_office_enters_by_what_a_user_is_known() throws Exception {
        try (TestProvider provider = new TestProvider();
                OpenOffice office = new OpenOffice(folder, vouchedBy(provider.settings()))) {
            OpenOffice.Browser desk = office.as("office");
            String id = office.logIns.book().find("clinic").orElseThrow().id();
            assertThat(desk.post("/users/" + id + "/identity", Map.of("subject", "", "mail", "no address"))
                            .statusCode())
                    .isEqualTo(422);
            assertThat(desk.post("/users/" + id + "/identity", Map.of("subject", provider.subject, "mail", ""))
                            .statusCode())
                    .isEqualTo(303);
            String other = office.logIns.book().find("reviewer").orElseThrow().id();
            assertThat(desk.post("/users/" + other + "/identity", Map.of("subject", provider.subject, "mail", ""))
                            .body())
                    .contains("Another user is known to the provider");
            assertThat(desk.get("/users").body()).contains("Let in by the provider");
            assertThat(logIn(office.browser(), provider).headers().firstValue("Location"))
                    .contains("/clinic");
        }
    }
}
