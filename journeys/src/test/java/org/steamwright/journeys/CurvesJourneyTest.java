package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** The curves of a run: found by a finding, read at a moment, zoomed and moved by buttons and by keys. */
@ExtendWith(Chromium.class)
class CurvesJourneyTest {

    private static final String RUN = "/visits/DEMO-112/runs/4";
    private static final Pattern MINUTES = Pattern.compile("(\\d+):(\\d\\d(?:\\.\\d)?)");

    /** The view is shorter than that share of the whole. */
    private static final String SHORTER =
            "most => { const d = document.querySelector('#curves').dataset; return d.shownTo - d.shownFrom < most; }";

    private static final String ABOUT = "seconds => { const d = document.querySelector('#curves').dataset;"
            + " return Math.abs(d.shownTo - d.shownFrom - seconds) < 0.01 * seconds; }";
    private static final String LATER = "was => document.querySelector('#curves').dataset.shownFrom > was + 1";

    private static double shown(Page page, String end) {
        return Double.parseDouble(page.locator("#curves").getAttribute("data-shown-" + end));
    }

    private static double length(Page page) {
        return shown(page, "to") - shown(page, "from");
    }

    private static List<Double> moments(String words) {
        return MINUTES.matcher(words)
                .results()
                .map(one -> 60 * Double.parseDouble(one.group(1)) + Double.parseDouble(one.group(2)))
                .toList();
    }

    private static double read(Page page) {
        return moments(page.locator(".readings caption").innerText()).get(0);
    }

    /** The moment that is read once it is another one. */
    private static double otherThan(Page page, double before) {
        page.waitForFunction(
                "was => { const told = /(\\d+):(\\d\\d(\\.\\d)?)/.exec(document.querySelector('.readings caption').textContent);"
                        + " return Math.abs(60 * told[1] + 1 * told[2] - was) > 0.05; }",
                before);
        return read(page);
    }

    private static double figure(String words) {
        return Double.parseDouble(words.replaceAll("[^-−0-9.]", "").replace('−', '-'));
    }

    private static void press(Page page, String button) {
        page.locator("#curves .ways button", new Page.LocatorOptions().setHasText(Pattern.compile("^" + button + "$")))
                .click();
    }

    @Test
    void a_finding_that_is_clicked_shows_its_place_on_the_curves(Browser browser, RunningDesk desk) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(RUN);
            double whole = length(page);
            Locator button = page.locator(".finding", new Page.LocatorOptions().setHasText("Holding time"))
                    .first()
                    .locator("button.show");
            List<Double> told = moments(button.innerText());
            assertThat(told).hasSize(2);
            button.click();
            page.waitForFunction(SHORTER, 0.9 * whole);
            assertThat(page.locator(".finding[aria-current=true]")).containsText("Holding time");
            assertThat(shown(page, "from")).isBetween(told.get(0) - 120, told.get(0) - 20);
            assertThat(shown(page, "to")).isBetween(told.get(1) + 20, told.get(1) + 120);
            assertThat(read(page)).isBetween(told.get(0) - 0.1, told.get(1) + 0.1);
            assertThat(page.locator("#curves .moment").first()).isVisible();
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    void the_reading_line_reads_every_channel_beside_the_theoretical_temperature(Browser browser, RunningDesk desk) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(RUN);
            Locator plot = page.locator("#curves .u-over").first();
            plot.scrollIntoViewIfNeeded();
            BoundingBox box = plot.boundingBox();
            page.mouse().move(box.x + box.width * 0.2, box.y + box.height / 2);
            page.mouse().move(box.x + box.width * 0.5, box.y + box.height / 2);
            double middle = shown(page, "from") + length(page) / 2;
            page.waitForFunction(
                    "middle => { const told = /(\\d+):(\\d\\d)/.exec(document.querySelector('.readings caption')"
                            + ".textContent); return Math.abs(60 * told[1] + 1 * told[2] - middle) < 5; }",
                    middle);
            double steam = figure(page.locator(".readings tbody tr", new Page.LocatorOptions().setHasText("heoretical"))
                    .locator("td.figure")
                    .first()
                    .innerText());
            int beside = 0;
            for (Locator row : page.locator(".readings tbody tr").all()) {
                String value = row.locator("td.figure").first().innerText();
                String difference = row.locator("td.figure").last().innerText();
                assertThat(value).matches("[-−]?[0-9.]+ (°C|kPa)");
                if (!difference.isBlank()) {
                    assertThat(figure(difference)).isEqualTo(figure(value) - steam, offset(0.011));
                    beside++;
                }
            }
            assertThat(beside).as("channels beside the theoretical temperature").isGreaterThanOrEqualTo(2);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    void buttons_and_keys_move_the_view_and_the_reading_line(Browser browser, RunningDesk desk) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(RUN);
            double whole = length(page);
            press(page, "Closer");
            page.waitForFunction(ABOUT, 0.6 * whole);
            press(page, "Earlier");
            press(page, "Earlier");
            press(page, "Earlier");
            page.waitForFunction("() => Number(document.querySelector('#curves').dataset.shownFrom) < 1");
            press(page, "Later");
            page.waitForFunction(LATER, 0);
            press(page, "Wider");
            page.waitForFunction(ABOUT, whole);
            press(page, "Plateau");
            page.waitForFunction(SHORTER, 0.9 * whole);
            press(page, "Whole cycle");
            page.waitForFunction(ABOUT, whole);

            page.locator("#curves .frame").focus();
            page.keyboard().press("+");
            page.waitForFunction(ABOUT, 0.7 * whole);
            page.keyboard().press("Home");
            page.waitForFunction(ABOUT, whole);
            page.keyboard().press("p");
            page.waitForFunction(SHORTER, 0.9 * whole);
            double before = read(page);
            page.keyboard().press("Control+ArrowRight");
            double after = otherThan(page, before);
            assertThat(after).isGreaterThan(before);
            page.keyboard().press("ArrowLeft");
            assertThat(otherThan(page, after)).isBetween(before, after);
            double from = shown(page, "from");
            page.keyboard().press("Shift+ArrowRight");
            page.waitForFunction(LATER, from);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }
}
