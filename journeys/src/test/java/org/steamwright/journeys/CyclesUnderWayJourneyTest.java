package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The strip at the head of each page that says which cycles are under way, and for how long. */
@ExtendWith(Chromium.class)
class CyclesUnderWayJourneyTest {

    private static final Pattern TIME = Pattern.compile("(\\d+):(\\d\\d):(\\d\\d)");

    private static final List<String> PAGES = List.of(
            "",
            "/identity",
            "/as-found",
            "/maintenance",
            "/installation",
            "/runs",
            "/load",
            "/indicators",
            "/indication",
            "/safety",
            "/close",
            "/runs/2/recordings");

    /** A tablet whose clock is an hour ahead of the desk's. */
    private static final String AHEAD = "const now = Date.now; Date.now = () => now() + 3600000;";

    private static final String START = "The cycle starts now";

    @TempDir
    static Path folder;

    static RunningDesk desk;

    /** A visit with a recording, whose curves can be looked at. */
    static String recorded;

    @BeforeAll
    static void open() throws IOException {
        recorded = FiftyRuns.into(folder, 1);
        desk = RunningDesk.record(folder);
    }

    @AfterAll
    static void close() {
        if (desk != null) {
            desk.close();
        }
    }

    @Test
    void stands_on_every_page_of_the_visit_and_counts_on_for_several_cycles_until_each_has_ended(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Sheet sheet = Sheet.begin(visitor, "J-CYCLES");
            Page page = sheet.page();
            press(page, "Add a steriliser");
            sheet.go("Runs (OQ and PQ)");
            press(page, "Add: empty chamber, steriliser A");
            press(page, "Add: empty chamber, steriliser B");
            assertThat(page.locator(".running")).hasCount(0);
            long began = System.nanoTime();
            press(page, START);
            assertThat(clocks(page)).hasCount(1);
            counts(page);
            press(page, START);
            assertThat(clocks(page)).hasCount(2);
            counts(page);

            List<Long> before = seconds(page);
            for (String path : PAGES) {
                visitor.at(sheet.path() + path);
                assertThat(clocks(page)).hasCount(2);
                List<Long> now = seconds(page);
                for (int i = 0; i < now.size(); i++) {
                    assertThat(now.get(i))
                            .as("clock %d on %s goes on", i + 1, path)
                            .isGreaterThanOrEqualTo(before.get(i))
                            .isLessThanOrEqualTo((System.nanoTime() - began) / 1_000_000_000 + 1);
                }
                before = now;
            }
            visitor.at("/today");
            assertThat(clocks(page.getByRole(
                            AriaRole.REGION, new Page.GetByRoleOptions().setName("Cycles under way, visit J-CYCLES"))))
                    .hasCount(2);

            visitor.at(sheet.path() + "/runs");
            press(page, "The cycle has ended");
            assertThat(clocks(page)).hasCount(1);
            assertThat(page.locator(".running")).containsText("Run 2 is under way.");
            press(page, "The cycle has ended");
            assertThat(page.locator(".running")).hasCount(0);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    void stands_above_the_curves_too(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            String visit = "/visits/" + recorded;
            Page runs = visitor.at(visit + "/runs");
            assertThat(runs.locator("main button", new Page.LocatorOptions().setHasText(START)))
                    .hasCount(0);
            press(runs, "Add: empty chamber");
            press(runs, START);
            for (String path : List.of("/runs/1", "/runs/1/recordings", "/compare")) {
                Page page = visitor.at(visit + path);
                assertThat(clocks(page)).hasCount(1);
                counts(page);
            }
            press(visitor.at(visit + "/runs"), "The cycle has ended");
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    void counts_by_the_clock_of_the_desk_whatever_the_tablet_believes(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            visitor.context().addInitScript(AHEAD);
            Sheet sheet = Sheet.begin(visitor, "J-CLOCK").go("Runs (OQ and PQ)");
            press(sheet.page(), "Add: empty chamber, steriliser A");
            press(sheet.page(), START);
            counts(sheet.page());
            assertThat(seconds(sheet.page()))
                    .singleElement()
                    .satisfies(shown -> assertThat(shown)
                            .as("seconds since a start of just now")
                            .isLessThan(600L));
        }
    }

    /** Presses the first button that says so. */
    private static void press(Page page, String button) {
        Visitor.follow(
                page,
                () -> page.locator("main button", new Page.LocatorOptions().setHasText(button))
                        .first()
                        .click());
    }

    private static Locator clocks(Page page) {
        return page.locator(".running .clock");
    }

    private static Locator clocks(Locator strip) {
        return strip.locator(".clock");
    }

    /** Waits until every clock has gone on. */
    private static void counts(Page page) {
        List<Long> before = seconds(page);
        page.waitForCondition(() -> {
            List<Long> now = seconds(page);
            for (int i = 0; i < now.size(); i++) {
                if (now.get(i) <= before.get(i)) {
                    return false;
                }
            }
            return true;
        });
    }

    /** What each clock shows, in seconds. */
    private static List<Long> seconds(Page page) {
        List<Long> seconds = new ArrayList<>();
        for (String shown : clocks(page).allInnerTexts()) {
            Matcher time = TIME.matcher(shown);
            assertThat(time.matches()).as("a clock shows '%s'", shown).isTrue();
            seconds.add(Long.parseLong(time.group(1)) * 3600
                    + Long.parseLong(time.group(2)) * 60
                    + Long.parseLong(time.group(3)));
        }
        return seconds;
    }
}
