package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The process is killed without warning between two entries; what the page had called saved is there afterwards. */
@ExtendWith(Chromium.class)
class PulledPlugTest {

    private static final int ROUNDS = 3;
    private static final String SECRET = "five small kettles sing";

    @TempDir
    static Path folder;

    @Test
    void nothing_that_was_called_saved_is_lost(Browser browser) {
        RunningDesk desk = RunningDesk.record(folder);
        try {
            String path;
            try (Visitor visitor = new Visitor(browser, desk)) {
                path = Sheet.begin(visitor, "J-PLUG").path();
            }
            for (int round = 1; round <= ROUNDS; round++) {
                String company = "Sample Service " + round + " (invented)";
                String reason = "yearly, round " + round + " (invented)";
                try (Visitor visitor = new Visitor(browser, desk)) {
                    visitor.at(path + "/identity");
                    Sheet sheet = Sheet.on(visitor.page());
                    sheet.enter("Your company", company).enter("Reason of the visit", reason);
                    desk.pullThePlug();
                    sheet.type("Your company", "typed into a dead page");
                    assertThat(sheet.notSaved()).containsText("Not saved", Sheet.soon());
                }
                desk = RunningDesk.record(folder);
                try (Visitor visitor = new Visitor(browser, desk)) {
                    visitor.at(path + "/identity");
                    Sheet.on(visitor.page()).shows("Your company", company).shows("Reason of the visit", reason);
                }
                assertThat(desk.said()).as("what the desk says at its start").doesNotContain("WARNING");
            }
        } finally {
            desk.close();
        }
    }

    /** The plug is pulled while the signature is under way, and once more as soon as it stands there. */
    @Test
    void a_visit_is_signed_wholly_or_not_at_all(Browser browser, @TempDir Path own) throws Exception {
        SigningJourneyTest.performVisit(own);
        RunningDesk desk = RunningDesk.record(own);
        try {
            String close;
            try (Visitor visitor = new Visitor(browser, desk)) {
                Page page = visitor.at("/visits/" + SigningJourneyTest.NUMBER);
                page.locator("nav.stages a[href$='/close'], main a[href$='/close']")
                        .first()
                        .click();
                page.waitForURL(url -> url.endsWith("/close"));
                close = page.url().replaceFirst("https?://[^/]+", "");
                Locator keys = of(page, "keys");
                keys.locator("input[name=secret]").fill(SECRET);
                keys.locator("input[name=again]").fill(SECRET);
                keys.locator("button").click();
                assertThat(of(page, "signatures")).hasCount(1, patiently());
                of(page, "signatures").locator("input[name=secret]").fill(SECRET);
                of(page, "signatures").evaluate("form => form.requestSubmit()");
                desk.pullThePlug();
            }
            desk = RunningDesk.record(own);
            try (Visitor visitor = new Visitor(browser, desk)) {
                Page page = visitor.at(close);
                if (of(page, "signatures").count() > 0) {
                    of(page, "signatures").locator("input[name=secret]").fill(SECRET);
                    of(page, "signatures").locator("button").click();
                    assertThat(of(page, "signatures")).hasCount(0, patiently());
                }
                desk.pullThePlug();
            }
            desk = RunningDesk.record(own);
            try (Visitor visitor = new Visitor(browser, desk)) {
                Page page = visitor.at(close);
                assertThat(of(page, "signatures")).hasCount(0);
                visitor.at(close.replace("/close", "/identity"));
                assertThat(page.locator("main form.field [name=value]").first()).isVisible();
                assertThat(page.locator("main form.field [name=value]:not([disabled])"))
                        .hasCount(0);
                assertThat(page.locator("main")).containsText("This visit is signed");
            }
            assertThat(desk.said()).as("what the desk says at its start").doesNotContain("WARNING");
        } finally {
            desk.close();
        }
    }

    private static LocatorAssertions.HasCountOptions patiently() {
        return new LocatorAssertions.HasCountOptions().setTimeout(OpenOffice.PATIENCE_MILLIS);
    }

    private static Locator of(Page page, String action) {
        return page.locator("form[action$='/" + action + "']")
                .filter(new Locator.FilterOptions().setHasText(SigningJourneyTest.NAME));
    }
}
