package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.io.IOException;
import java.nio.file.Path;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** A technician moves the end of the drying where the finder erred, and the report tells it. */
@ExtendWith(Chromium.class)
class BordersJourneyTest {

    private static final String VISIT = "/visits/DEMO-112";
    private static final String RUN = VISIT + "/runs/4";

    /** How far the border is dragged, in pixels. */
    private static final double PIXELS = 18;

    @TempDir
    static Path folder;

    @Test
    void a_border_is_dragged_typed_kept_and_told_by_the_report(Browser browser) throws IOException {
        try (RunningDesk desk = RunningDesk.demo(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(RUN);
            assertThat(page.locator(".curves.is-drawn")).isVisible();
            page.locator("#borders summary").click();
            page.locator("#border").selectOption("drying/to");
            Locator at = page.locator("#border-at");
            double found = Double.parseDouble(at.inputValue());

            double dragged = drag(page, at, found);
            assertThat(dragged).as("dragged to the left").isLessThan(found - 1);

            at.focus();
            at.press("ArrowDown");
            double typed = Double.parseDouble(at.inputValue());
            assertThat(typed).as("one step by key").isBetween(dragged - 1.5, dragged - 0.05);

            page.locator("#border-because").fill("the air valve opened slowly (invented)");
            page.locator("#border-form button").click();
            assertThat(page.locator("main")).containsText("drying, stated");
            assertThat(page.locator("main")).containsText("the air valve opened slowly (invented)");
            assertThat(page.locator("aside")).containsText("by the stated border");
            assertThat(visitor.takeComplaints()).isEmpty();

            String report = report(page, desk.origin() + VISIT + "/report.pdf");
            assertThat(report)
                    .contains("stated border")
                    .contains("stated by Kim Sample (invented)")
                    .contains("no stated border feeds them");

            page.getByText("Take away the stated end of drying").click();
            assertThat(page.locator("main")).not().containsText("drying, stated");
        }
    }

    private static double drag(Page page, Locator at, double found) {
        Locator plot = page.locator(".u-over").first();
        plot.scrollIntoViewIfNeeded();
        BoundingBox box = plot.boundingBox();
        double first = Double.parseDouble(at.getAttribute("data-first"));
        double last = Double.parseDouble(at.getAttribute("data-last"));
        double x = box.x + (found - first) / (last - first) * box.width;
        double y = box.y + box.height / 2;
        page.mouse().move(x, y);
        page.mouse().down();
        page.mouse().move(x - PIXELS / 2, y);
        page.mouse().move(x - PIXELS, y);
        page.mouse().up();
        return Double.parseDouble(at.inputValue());
    }

    private static String report(Page page, String address) throws IOException {
        APIResponse answer = page.request().get(address);
        try (PDDocument document = Loader.loadPDF(answer.body())) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }
}
