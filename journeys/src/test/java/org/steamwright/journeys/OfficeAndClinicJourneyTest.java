package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** The office, a reviewer and somebody at the clinic, each with the invented year. */
@ExtendWith(Chromium.class)
class OfficeAndClinicJourneyTest {

    Visitor visitor;

    @BeforeEach
    void sit(Browser browser, RunningDesk desk) {
        visitor = new Visitor(browser, desk);
    }

    @AfterEach
    void rise() {
        List<String> complaints = visitor.takeComplaints();
        visitor.close();
        assertThat(complaints).isEmpty();
    }

    private static void press(Page page, String button) {
        Visitor.follow(
                page,
                () -> page.getByRole(
                                AriaRole.BUTTON,
                                new Page.GetByRoleOptions().setName(button).setExact(true))
                        .click());
    }

    @Test
    void the_office_finds_a_visit_by_its_number() {
        Page page = visitor.at("/find");
        page.locator("#q").fill("DEMO-110");
        page.locator("#q").press("Enter");
        page.waitForURL(url -> url.contains("q=DEMO-110"));
        assertThat(page.locator("main")).containsText("DEMO-110");
        assertThat(page.locator("main a[href^='/visits/'], main a[href*='DEMO']")
                        .first())
                .isVisible();
    }

    @Test
    void the_office_sees_what_is_due_and_takes_it_along_as_a_table() {
        Page page = visitor.at("/due");
        assertThat(page.locator("main table").first()).isVisible();
        assertThat(page.locator("main tbody tr").count()).as("what is due").isPositive();
        String table = String.valueOf(page.evaluate("() => fetch('/due.csv').then((answer) => answer.text())"));
        assertThat(table.lines().count()).as("lines of the table").isGreaterThan(1);
    }

    @Test
    void the_office_opens_a_non_conformity_and_closes_it_with_a_reason() {
        Page page = visitor.at("/nonconformities");
        page.locator("#what").fill("Logger returned with a scratched probe (invented)");
        page.locator("#owner").fill("Kim Sample (invented)");
        page.locator("main form[action='/nonconformities'] button").click();
        page.waitForURL(url -> url.matches(".*/nonconformities/[^/]+"));
        page.locator("#reason").fill("too early (invented)");
        Visitor.follow(page, () -> page.locator("form[action$='/close'] button").click());
        assertThat(page.getByRole(AriaRole.ALERT)).isVisible();
        assertThat(visitor.takeComplaints())
                .as("the browser notes the refusal and nothing else")
                .allMatch(complaint -> complaint.contains("status of 422"));
        page.locator("#cause").fill("Handled without its cap (invented)");
        page.locator("#correction").fill("Probe replaced (invented)");
        page.locator("#evidence").fill("Check at 134 °C, within 0.1 K (invented)");
        Visitor.follow(
                page,
                () -> page.locator("main form:not([action$='/close']) button.next")
                        .first()
                        .click());
        page.locator("#reason").fill("Probe replaced and checked (invented)");
        Visitor.follow(page, () -> page.locator("form[action$='/close'] button").click());
        assertThat(page.locator("main")).containsText("Probe replaced and checked (invented)");
    }

    @Test
    void a_reviewer_sends_a_visit_back_with_a_note() {
        Page page = visitor.at("/review");
        page.locator("main a[href^='/review/']").first().click();
        page.waitForURL(url -> url.matches(".*/review/.+"));
        String visit = page.url().replaceFirst("https?://[^/]+", "");
        page.locator("#why").fill("The second loaded run wants a word about its slow pack (invented)");
        page.locator("button[value=send-back]").click();
        page.waitForURL(url -> url.endsWith("/review"));
        visitor.at(visit);
        assertThat(page.locator("main")).containsText("wants a word about its slow pack (invented)");
    }

    @Test
    void the_clinic_sees_what_is_qualified_and_can_change_nothing() {
        Page page = visitor.at("/clinic");
        page.locator("main a[href^='/clinic/']").first().click();
        page.waitForURL(url -> url.matches(".*/clinic/.+"));
        assertThat(page.locator("main")).containsText("DEMO-1");
        assertThat(page.locator("main form[method=post]")).hasCount(0);
        page.locator("main a[href$='/load']").click();
        page.waitForURL(url -> url.endsWith("/load"));
        page.locator("#cycle").fill("134 wrapped");
        page.locator("#name-1").fill("mirror and probe set");
        page.locator("#count-1").fill("4");
        page.locator("main form button.next").click();
        page.waitForURL(url -> url.contains("cycle="));
        assertThat(page.locator("main form[method=post]")).hasCount(0);
        assertThat(page.locator("main")).containsText("not covered by what was tested");
    }

    @Test
    void what_new_staff_has_to_know_is_one_page_on_paper_in_every_language() throws IOException {
        Page page = visitor.at("/clinic");
        page.locator("main a[href^='/clinic/']").first().click();
        page.waitForURL(url -> url.matches(".*/clinic/.+"));
        page.locator("main a[href$='/induction']").click();
        page.waitForURL(url -> url.endsWith("/induction"));
        for (String language : List.of("Deutsch", "français", "English")) {
            press(page, language);
            byte[] pdf = page.pdf(new Page.PdfOptions().setFormat("A4"));
            try (PDDocument paper = Loader.loadPDF(pdf)) {
                assertThat(paper.getNumberOfPages()).as(language).isEqualTo(1);
            }
        }
        assertThat(page.locator("main")).containsText("Steam and hot water scald");
        assertThat(page.locator("main form[method=post]")).hasCount(0);
    }

    @Test
    void pages_are_read_in_another_language() {
        Page page = visitor.at("/today");
        press(page, "Deutsch");
        assertThat(page.locator("html")).hasAttribute("lang", "de");
        press(page, "français");
        assertThat(page.locator("html")).hasAttribute("lang", "fr");
    }
}
