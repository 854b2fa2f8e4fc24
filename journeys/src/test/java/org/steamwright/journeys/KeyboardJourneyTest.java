package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.TimeoutError;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** One way through the desk for each who works at it, by keys alone: tab to it, type, enter. Nothing is clicked. */
@ExtendWith(Chromium.class)
class KeyboardJourneyTest {

    /** More than any page has. */
    private static final int MOST_STOPS = 400;

    private static final int MOST_PRESSES = 3;
    private static final double CHOICE_MILLIS = 20_000;

    @TempDir
    Path folder;

    Visitor visitor;
    Page page;

    @BeforeAll
    static void bePatient() {
        PlaywrightAssertions.setDefaultAssertionTimeout(OpenOffice.PATIENCE_MILLIS);
    }

    @AfterAll
    static void beAsUsual() {
        PlaywrightAssertions.setDefaultAssertionTimeout(OpenOffice.USUAL_MILLIS);
    }

    @BeforeEach
    void sit(Browser browser, RunningDesk desk) {
        visitor = new Visitor(browser, desk);
        page = visitor.page();
    }

    @AfterEach
    void rise() {
        visitor.close();
    }

    @Test
    void a_technician_begins_a_visit_fills_fields_brings_a_recording_and_sees_what_is_missing() throws IOException {
        visitor.at("/visits");
        if (!page.getByLabel("Report number").isVisible()) {
            reach(page.locator("main summary").first());
            page.keyboard().press("Enter");
        }
        type(labelled("Report number"), "J-KEYS");
        type(labelled("The clinic"), "Example Clinic (invented)");
        type(labelled("Serial number"), "EX-9001");
        type(labelled("Time zone of the site"), "Australia/Adelaide");
        enter(page.getByRole(
                AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Begin").setExact(true)));
        page.waitForURL(url -> url.endsWith("/identity"));
        Sheet sheet = Sheet.on(page);
        save(sheet, "Serial number as the name plate says it", "EX-9001");

        goTo("As found");
        save(sheet, "Barometer", "1004 hPa");

        goTo("Runs (OQ and PQ)");
        enter(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Add: empty chamber")));
        Locator recording = page.locator("main a[href$='/runs/1/recordings']");
        assertThat(recording).isVisible();
        enter(recording);
        page.waitForURL(url -> url.endsWith("/recordings"));
        // what the page loads behind its first sight may take the focus away between reaching the field and pressing
        // the key
        Visitor.settle(page);
        choose(page.locator("#recording"), recording());
        assertThat(page.locator("main")).containsText("run-1.csv");

        visitor.at(sheet.path());
        enter(page.locator("main").getByRole(AriaRole.LINK, new Locator.GetByRoleOptions().setName("Close")));
        page.waitForURL(url -> url.endsWith("/close"));
        reach(page.locator("main .missing a").first());
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    @Test
    void the_office_looks_farther_ahead_and_goes_on_to_the_plan() {
        visitor.at("/due");
        Locator ahead = page.locator("main a[href^='/due?days=']").first();
        enter(ahead);
        page.waitForURL(url -> url.contains("days="));
        enter(page.locator("main a[href^='/plan']").first());
        page.waitForURL(url -> url.contains("/plan"));
        assertThat(page.locator("main table").first()).isVisible();
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    @Test
    void a_reviewer_opens_a_visit_and_approves_it() {
        visitor.at("/review");
        Locator first = page.locator("main a[href^='/review/']")
                .filter(new Locator.FilterOptions().setHasText("DEMO-"))
                .first();
        String visit = first.getAttribute("href");
        enter(first);
        page.waitForURL(url -> url.endsWith(visit));
        type(page.locator("#why"), "Read from end to end (invented)");
        enter(page.locator("button[value=approve]"));
        page.waitForURL(url -> url.endsWith("/review"));
        visitor.at(visit);
        assertThat(page.locator("main")).containsText("Read from end to end (invented)");
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    @Test
    void the_clinic_asks_about_a_load_and_reads_the_answer() {
        visitor.at("/clinic");
        enter(page.locator("main a[href^='/clinic/']").first());
        page.waitForURL(url -> url.matches(".*/clinic/.+"));
        enter(page.locator("main a[href$='/load']").first());
        page.waitForURL(url -> url.endsWith("/load"));
        type(page.locator("#cycle"), "134 wrapped");
        type(page.locator("#name-1"), "mirror and probe set");
        type(page.locator("#count-1"), "4");
        page.keyboard().press("Enter");
        page.waitForURL(url -> url.contains("cycle="));
        assertThat(page.locator("main")).containsText("not covered by what was tested");
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    private Locator labelled(String label) {
        return page.getByLabel(label, new Page.GetByLabelOptions().setExact(true))
                .first();
    }

    /** Presses the tab key until the focus is there. */
    private void reach(Locator wanted) {
        wanted.waitFor();
        for (int i = 0; i < MOST_STOPS; i++) {
            if ((Boolean) wanted.evaluate("one => one === document.activeElement")) {
                assertThat((Boolean) wanted.evaluate("one => one.matches(':focus-visible')"))
                        .as("the focus shows at " + wanted)
                        .isTrue();
                return;
            }
            page.keyboard().press("Tab");
        }
        throw new AssertionError("the tab key does not reach " + wanted + " within " + MOST_STOPS + " presses");
    }

    /**
     * Opens the choice of files by the space bar, which presses every button; Enter opens it in some states of this browser
     * only. A browser that is busy showing the page now and then drops the first press, as it does for a person.
     */
    private void choose(Locator field, Path file) {
        for (int press = 1; ; press++) {
            reach(field);
            try {
                page.waitForFileChooser(
                                new Page.WaitForFileChooserOptions().setTimeout(CHOICE_MILLIS),
                                () -> page.keyboard().press("Space"))
                        .setFiles(file);
                return;
            } catch (TimeoutError dropped) {
                if (press == MOST_PRESSES) {
                    throw dropped;
                }
            }
        }
    }

    private void type(Locator field, String text) {
        reach(field);
        page.keyboard().type(text);
    }

    private void enter(Locator one) {
        reach(one);
        page.keyboard().press("Enter");
    }

    private void save(Sheet sheet, String label, String value) {
        type(sheet.field(label), value);
        page.keyboard().press("Tab");
        assertThat(sheet.around(label).locator(".saved")).containsText("Saved");
    }

    private void goTo(String stage) {
        enter(page.locator("nav.stages")
                .getByRole(
                        AriaRole.LINK,
                        new Locator.GetByRoleOptions().setName(stage).setExact(true)));
        assertThat(page.locator("h1")).containsText(stage);
        Visitor.settle(page);
    }

    private Path recording() throws IOException {
        StringBuilder rows = new StringBuilder(UsualRows.HEAD);
        for (int row = 0; row < UsualRows.OF_ONE_CYCLE; row++) {
            rows.append(UsualRows.line(row));
        }
        return Files.writeString(folder.resolve("run-1.csv"), rows);
    }
}
