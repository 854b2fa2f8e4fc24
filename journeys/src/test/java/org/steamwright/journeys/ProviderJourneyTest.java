package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** An office whose users come in by its provider of identities: desk, provider and browser are three, as in an office. */
@ExtendWith(Chromium.class)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ProviderJourneyTest {

    private static final String ROBIN = "Robin Sample (invented)";
    private static final String SUBJECT = "robin-4711";
    private static final String PROVIDER = "the provider of the test";

    @TempDir
    static Path folder;

    static OpenIdProvider provider;
    static OpenOffice office;
    static RunningDesk desk;

    @BeforeAll
    static void open() throws IOException {
        provider = new OpenIdProvider();
        Files.writeString(folder.resolve("provider.secret"), OpenIdProvider.SECRET);
        office = OpenOffice.open(folder, """
                issuer = %s
                client_id = %s
                client_secret_file = provider.secret
                provider_name = %s
                """.formatted(provider.issuer(), OpenIdProvider.CLIENT, PROVIDER));
        desk = office.desk();
    }

    @AfterAll
    static void close() {
        if (office != null) {
            office.close();
        }
        if (provider != null) {
            provider.close();
        }
    }

    /** From the log-in page to the provider, there as somebody, and back to where the desk leads. */
    private static Page comeBy(Visitor visitor, String subject) {
        Page page = visitor.at("/log-in");
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Log in with " + PROVIDER))
                .click();
        page.getByLabel("Who are you?").fill(subject);
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Agree"))
                .click();
        return page;
    }

    /** Only the way to the provider leads away from the desk. */
    private static void noComplaintsBut(Visitor visitor, String expected) {
        assertThat(visitor.takeComplaints())
                .allMatch(complaint -> complaint.contains("asked another host: " + provider.issuer() + "/")
                        || complaint.contains(expected));
    }

    @Test
    @Order(1)
    void the_office_says_who_is_known_to_the_provider(Browser browser) {
        try (Visitor first = new Visitor(browser, desk)) {
            Page page =
                    OpenOffice.changePassword(first, "office", office.firstPassword(), "tray under a lamp (invented)");
            first.at("/users");
            page.locator("#name").fill(ROBIN);
            page.locator("#role").selectOption("technician");
            OpenOffice.press(page, "Add a user");
            Locator entry = page.locator("ol.entries > li", new Page.LocatorOptions().setHasText(ROBIN));
            entry.locator("summary").click();
            entry.locator("input[name=subject]").fill(SUBJECT);
            entry.locator("form[action$='/identity'] button").click();
            assertThat(entry).containsText("Let in by the provider");
            noComplaintsBut(first, "nothing");
        }
    }

    @Test
    @Order(2)
    void a_person_comes_in_by_the_provider_works_and_leaves(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = comeBy(visitor, SUBJECT);
            page.waitForURL(desk.origin() + "/today");
            assertThat(page.locator(".who")).containsText(ROBIN);
            Sheet sheet = Sheet.begin(visitor, "J-PROVIDER").enter("Your company", "Sample Service (invented)");
            String visit = sheet.path() + "/identity";

            visitor.at("/account");
            OpenOffice.press(page, "Log out");
            assertThat(page).hasURL(desk.origin() + "/log-in");
            page.goBack();
            page.reload();
            assertThat(page).hasURL(desk.origin() + "/log-in");
            visitor.at(visit);
            assertThat(page).hasURL(desk.origin() + "/log-in");

            comeBy(visitor, SUBJECT);
            page.waitForURL(desk.origin() + "/today");
            visitor.at(visit);
            Sheet.on(page).shows("Your company", "Sample Service (invented)");
            noComplaintsBut(visitor, "nothing");
        }
        assertThat(provider.refusals())
                .as("codes with another verifier or secret")
                .isEmpty();
    }

    @Test
    @Order(3)
    void somebody_whom_the_office_has_not_named_is_turned_away(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = comeBy(visitor, "stranger-9");
            assertThat(page.locator("main [role=alert]"))
                    .containsText("You are known to " + PROVIDER + ", and not to this desk");
            visitor.at("/today");
            assertThat(page).hasURL(desk.origin() + "/log-in");
            noComplaintsBut(visitor, "status of 403");
        }
    }

    @Test
    @Order(4)
    void an_answer_of_the_provider_opens_one_session_only(Browser browser) {
        try (Visitor robin = new Visitor(browser, desk);
                Visitor thief = new Visitor(browser, desk)) {
            String[] answer = {""};
            robin.page().onRequest(request -> {
                if (request.url().contains("/log-in/provider/finish?")) {
                    answer[0] = request.url().substring(desk.origin().length());
                }
            });
            comeBy(robin, SUBJECT).waitForURL(desk.origin() + "/today");
            assertThat(answer[0]).as("the way back of the first browser").isNotEmpty();
            Page page = thief.at(answer[0]);
            assertThat(page.locator("main [role=alert]")).containsText("belongs to no log-in of this browser");
            thief.at("/today");
            assertThat(page).hasURL(desk.origin() + "/log-in");
            noComplaintsBut(robin, "nothing");
            noComplaintsBut(thief, "status of 403");
        }
    }
}
