package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Request;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** A technician writes a visit, with whatever gets in the way in a basement. */
@ExtendWith(Chromium.class)
class TechnicianJourneyTest {

    private static final List<String> STAGES = List.of(
            "Identity",
            "As found",
            "Maintenance",
            "Installation (IQ)",
            "Runs (OQ and PQ)",
            "Load and challenge pack",
            "Indicators",
            "The steriliser's own indication",
            "Safety",
            "Close");

    /** Whatever is pressed otherwise than with a finger is a complaint. */
    private static final String TELL_OF_OTHER_POINTERS = """
            for (const kind of ['pointerdown', 'click']) {
              window.addEventListener(kind, (event) => {
                if (event.isTrusted && event.pointerType && event.pointerType !== 'touch') {
                  console.error(`${kind} by ${event.pointerType} on ${event.target.tagName}`);
                }
              }, true);
            }
            """;

    @TempDir
    static Path folder;

    static RunningDesk desk;
    Visitor visitor;

    @BeforeAll
    static void open() {
        desk = RunningDesk.record(folder);
    }

    @AfterAll
    static void close() {
        if (desk != null) {
            desk.close();
        }
    }

    @BeforeEach
    void sit(Browser browser) {
        visitor = new Visitor(browser, desk);
    }

    @AfterEach
    void rise() {
        visitor.close();
    }

    @Test
    void begins_a_visit_and_walks_its_path_to_the_close() {
        Sheet sheet = Sheet.begin(visitor, "J-WALK");
        sheet.enter("Serial number as the name plate says it", "EX-9001").enter("Your company", "Sample (invented)");
        for (String stage : STAGES) {
            sheet.go(stage);
            assertThat(sheet.page().getByRole(AriaRole.HEADING, new Page.GetByRoleOptions().setLevel(1)))
                    .containsText(stage);
        }
        Locator missing = sheet.page().locator("main .missing a");
        assertThat(missing.count()).as("what is missing before signing").isPositive();
        Visitor.follow(sheet.page(), () -> missing.first().click());
        assertThat(sheet.page().url()).startsWith(desk.origin() + sheet.path());
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    @Test
    void finds_the_visit_again_from_today() {
        Sheet sheet = Sheet.begin(visitor, "J-TODAY");
        Page page = visitor.at("/today");
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("J-TODAY"))
                .click();
        page.waitForURL(url -> url.endsWith(sheet.path()));
        assertThat(page.locator("h1")).containsText("J-TODAY");
    }

    @Test
    void a_value_that_cannot_be_used_stays_in_the_field_and_is_explained() {
        Sheet sheet = Sheet.begin(visitor, "J-REFUSED");
        sheet.type("Time zone of the site", "Nowhere/Nothing");
        assertThat(sheet.around("Time zone of the site").locator(".problem")).containsText("Not usable", Sheet.soon());
        sheet.shows("Time zone of the site", "Nowhere/Nothing");
        assertThat(sheet.field("Time zone of the site")).hasAttribute("aria-invalid", "true");
        sheet.enter("Time zone of the site", "Europe/Paris");
    }

    @Test
    void takes_the_last_change_back() {
        Sheet sheet = Sheet.begin(visitor, "J-UNDO");
        sheet.enter("Your company", "Wrong (invented)");
        sheet.page()
                .getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Take the last change back"))
                .click();
        sheet.shows("Your company", "");
    }

    @Test
    void the_back_button_shows_what_was_saved() {
        Sheet sheet = Sheet.begin(visitor, "J-BACK");
        sheet.enter("Your company", "Sample Service (invented)").go("As found");
        sheet.page().goBack();
        sheet.shows("Your company", "Sample Service (invented)");
        sheet.page().goForward();
        assertThat(sheet.page().locator("h1")).containsText("As found");
    }

    @Test
    void two_tabs_do_not_overwrite_each_other() {
        Sheet first = Sheet.begin(visitor, "J-TABS");
        Page tab = visitor.secondTab();
        tab.navigate(first.page().url());
        Visitor.settle(tab);
        Sheet second = Sheet.on(tab);
        first.enter("Your company", "First (invented)");
        second.type("Your company", "Second (invented)");
        assertThat(second.around("Your company").locator(".problem")).containsText("First (invented)", Sheet.soon());
        first.page().reload();
        first.shows("Your company", "First (invented)");
        second.enter("Report number", "J-TABS-2");
    }

    @Test
    void an_entry_without_network_says_that_it_is_not_saved() {
        Sheet sheet = Sheet.begin(visitor, "J-NETWORK");
        visitor.context().setOffline(true);
        sheet.type("Your company", "Sample Service (invented)");
        assertThat(sheet.notSaved()).containsText("Not saved", Sheet.soon());
        sheet.shows("Your company", "Sample Service (invented)");
        visitor.context().setOffline(false);
        sheet.page().evaluate("() => { const now = Date.now; Date.now = () => now() + 7_200_000; }");
        Request sent = sheet.page()
                .waitForRequest(
                        request -> request.url().endsWith("/facts"),
                        () -> sheet.field("Your company").press("Enter"));
        assertThat(sent.postData()).as("it was typed two hours ago").containsPattern("[&^]?held=720[0-9]");
        assertThat(sheet.around("Your company").locator(".saved")).containsText("Saved", Sheet.soon());
        assertThat(sheet.notSaved()).hasCount(0);
        sheet.page().reload();
        sheet.shows("Your company", "Sample Service (invented)");
    }

    @Test
    void a_second_person_sees_what_the_first_has_saved(Browser browser) {
        Sheet sheet = Sheet.begin(visitor, "J-SECOND");
        sheet.enter("Your company", "Sample Service (invented)");
        try (Visitor other = new Visitor(browser, desk)) {
            other.at(sheet.path() + "/identity");
            Sheet theirs = Sheet.on(other.page());
            theirs.shows("Your company", "Sample Service (invented)");
            theirs.enter("Reason of the visit", "moved (invented)");
        }
        sheet.page().reload();
        sheet.shows("Reason of the visit", "moved (invented)");
    }

    @Test
    void every_act_of_a_visit_is_done_by_touch_on_a_tablet(Browser browser) {
        try (Visitor tablet = new Visitor(
                browser,
                desk.origin(),
                new Browser.NewContextOptions().setViewportSize(820, 1180).setHasTouch(true))) {
            tablet.context().addInitScript(TELL_OF_OTHER_POINTERS);
            Sheet sheet = Sheet.beginByTouch(tablet, "J-TABLET");
            Page page = sheet.page();
            touch(sheet, "Serial number as the name plate says it", "EX-9001");
            Locator remove = page.locator("form[action$='/removals'] button");
            int entries = remove.count();
            tap(page, "Add a technician");
            assertThat(remove).hasCount(entries + 1);
            // the technician of the beginning is one line that opens
            page.locator("details.fold > summary").first().tap();
            remove.first().tap();
            assertThat(remove).hasCount(entries);
            touch(sheet, "Your company", "Wrong (invented)");
            tap(page, "Take the last change back");
            sheet.shows("Your company", "");
            for (String stage : STAGES) {
                page.locator("nav.stages")
                        .getByRole(
                                AriaRole.LINK,
                                new Locator.GetByRoleOptions().setName(stage).setExact(true))
                        .tap();
                assertThat(page.getByRole(AriaRole.HEADING, new Page.GetByRoleOptions().setLevel(1)))
                        .containsText(stage);
                Visitor.settle(page);
                if (stage.equals("As found")) {
                    touch(sheet, "Barometer", "1004 hPa");
                }
                if (stage.equals("Runs (OQ and PQ)")) {
                    tap(page, "Add: empty chamber, steriliser A");
                    tap(page, "The cycle starts now");
                    assertThat(page.locator(".running .clock")).hasCount(1);
                    tap(page, "The cycle has ended");
                    assertThat(page.locator(".running")).hasCount(0);
                }
            }
            page.locator("main summary", new Page.LocatorOptions().setHasText("New line"))
                    .first()
                    .tap();
            page.locator("main form.own textarea").first().tap();
            page.keyboard().type("The door seal is worn (invented)");
            page.locator("main form.own button").first().tap();
            assertThat(page.locator("main form.field textarea").first()).hasValue("The door seal is worn (invented)");
            page.locator("main .missing a").first().tap();
            page.waitForURL(url -> !url.endsWith("/close"));
            tablet.at("/today");
            page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("J-TABLET"))
                    .tap();
            page.waitForURL(url -> url.endsWith(sheet.path()));
            assertThat(tablet.takeComplaints()).isEmpty();
        }
    }

    private static void touch(Sheet sheet, String label, String value) {
        sheet.field(label).tap();
        assertThat(sheet.field(label)).isFocused();
        sheet.field(label).fill(value);
        sheet.page().locator("h1").tap();
        assertThat(sheet.around(label).locator(".saved")).containsText("Saved", Sheet.soon());
    }

    private static void tap(Page page, String button) {
        Visitor.follow(
                page,
                () -> page.locator("main button", new Page.LocatorOptions().setHasText(button))
                        .first()
                        .tap());
    }

    @Test
    void leaving_asks_while_an_entry_has_not_reached_the_desk_and_only_then() {
        Sheet sheet = Sheet.begin(visitor, "J-LEAVE");
        List<String> asked = stayWhenAsked(sheet.page());
        sheet.enter("Your company", "Sample Service (invented)").go("As found").go("Identity");
        assertThat(asked).as("all that was entered is saved").isEmpty();

        visitor.context().setOffline(true);
        sheet.type("Your company", "Other Service (invented)");
        assertThat(sheet.notSaved()).containsText("Not saved", Sheet.soon());
        leave(sheet, asked, 1);
        sheet.shows("Your company", "Other Service (invented)");

        visitor.context().setOffline(false);
        sheet.field("Your company").press("Enter");
        assertThat(sheet.around("Your company").locator(".saved")).containsText("Saved", Sheet.soon());
        sheet.go("As found").go("Identity").shows("Your company", "Other Service (invented)");
        assertThat(asked).as("it reached the desk, so nothing would be lost").hasSize(1);
    }

    @Test
    void leaving_asks_while_a_value_is_refused() {
        Sheet sheet = Sheet.begin(visitor, "J-LEAVE-REFUSED");
        List<String> asked = stayWhenAsked(sheet.page());
        sheet.type("Time zone of the site", "Nowhere/Nothing");
        assertThat(sheet.around("Time zone of the site").locator(".problem")).containsText("Not usable", Sheet.soon());
        leave(sheet, asked, 1);
        sheet.enter("Time zone of the site", "Europe/Paris").go("As found");
        assertThat(asked).hasSize(1);
    }

    @Test
    void leaving_asks_about_a_line_that_waits_for_its_button_and_the_button_itself_does_not() {
        Sheet sheet = Sheet.begin(visitor, "J-LEAVE-LINE").go("Close");
        Page page = sheet.page();
        List<String> asked = stayWhenAsked(page);
        page.locator("main summary", new Page.LocatorOptions().setHasText("New line"))
                .first()
                .click();
        page.locator("main form.own textarea").first().fill("The door seal is worn (invented)");
        leave(sheet, asked, 1);
        page.locator("main form.own").first().getByRole(AriaRole.BUTTON).first().click();
        assertThat(page.locator("main form.field textarea").first()).hasValue("The door seal is worn (invented)");
        sheet.go("As found");
        assertThat(asked).hasSize(1);
    }

    /** What the browser has asked before leaving; somebody stays each time. */
    private static List<String> stayWhenAsked(Page page) {
        List<String> asked = new ArrayList<>();
        page.onDialog(dialog -> {
            asked.add(dialog.type());
            dialog.dismiss();
        });
        return asked;
    }

    /** Tries to go to another stage, is asked, and stays. */
    private static void leave(Sheet sheet, List<String> asked, int times) {
        String here = sheet.page().url();
        sheet.page()
                .locator("nav.stages")
                .getByRole(
                        AriaRole.LINK,
                        new Locator.GetByRoleOptions()
                                .setName("Runs (OQ and PQ)")
                                .setExact(true))
                .click();
        sheet.page().waitForCondition(() -> asked.size() >= times);
        assertThat(asked).hasSize(times).containsOnly("beforeunload");
        assertThat(sheet.page().url()).isEqualTo(here);
    }

    @Test
    void forms_work_without_script(Browser browser) {
        try (Visitor plain =
                new Visitor(browser, desk.origin(), new Browser.NewContextOptions().setJavaScriptEnabled(false))) {
            Page page = plain.page();
            page.navigate(desk.origin() + "/visits");
            if (!page.getByLabel("Report number").isVisible()) {
                page.locator("summary").first().click();
            }
            page.getByLabel("Report number").fill("J-PLAIN");
            page.getByLabel("Serial number", new Page.GetByLabelOptions().setExact(true))
                    .fill("EX-9001");
            page.getByRole(
                            AriaRole.BUTTON,
                            new Page.GetByRoleOptions().setName("Begin").setExact(true))
                    .click();
            Sheet sheet = Sheet.on(page);
            sheet.field("Your company").fill("Sample Service (invented)");
            Visitor.follow(
                    page,
                    () -> sheet.around("Your company")
                            .getByRole(AriaRole.BUTTON)
                            .click());
            page.navigate(desk.origin() + sheet.path() + "/identity");
            sheet.shows("Your company", "Sample Service (invented)");
        }
    }
}
