package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.BoundingBox;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The page of a run's recordings by touch, by keyboard and without script: what is chosen there is saved and seen at once. */
@ExtendWith(Chromium.class)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class RecordingsPageJourneyTest {

    private static final double LEAST_TARGET = 44;
    private static final int OTHER_LOGGER = 8_001;

    @TempDir
    static Path folder;

    private RunningDesk desk;
    private String path;

    @BeforeAll
    void open() {
        path = "/visits/" + FiftyRuns.into(folder, 1) + "/runs/1/recordings";
        desk = RunningDesk.record(folder);
    }

    @AfterAll
    void close() {
        desk.close();
    }

    private static Locator place(Page page, String channel) {
        return page.locator("fieldset.column")
                .filter(new Locator.FilterOptions().setHasText(Pattern.compile("^\\s*" + channel + "\\b")))
                .locator("input.place");
    }

    @Test
    @Order(1)
    void a_channel_is_put_at_its_place_by_touch_and_taken_back(Browser browser) {
        Browser.NewContextOptions tablet =
                new Browser.NewContextOptions().setHasTouch(true).setViewportSize(820, 1180);
        try (Visitor visitor = new Visitor(browser, desk.origin(), tablet)) {
            Page page = visitor.at(path);
            String before = place(page, "T2").inputValue();
            Locator mark = page.locator(".plan figure").first().locator("g.sign", exactly("A"));
            String stood = mark.getAttribute("transform");
            page.locator(".taps label", containing("T2")).tap();
            for (Locator spot : page.locator(".spots button").all()) {
                BoundingBox box = spot.boundingBox();
                assertThat(Math.min(box.width, box.height)).isGreaterThanOrEqualTo(LEAST_TARGET);
            }
            page.locator("#spot-above-2-2").tap();
            assertThat(place(page, "T2")).hasValue("back, right, top");
            assertThat(page.locator("#spot-above-2-2")).hasAttribute("aria-pressed", "true");
            assertThat(page.locator("#spot-side-0-2")).hasAttribute("aria-pressed", "true");
            assertThat(mark).not().hasAttribute("transform", stood);
            assertThat(page.locator("#plan .saved")).containsText("Saved");
            assertThat(page.locator(".taps input:checked")).hasValue(Pattern.compile("/T2$"));
            assertThat(page.locator("#follows .verdict")).isVisible();

            visitor.at(path);
            assertThat(place(page, "T2")).hasValue("back, right, top");
            page.locator("#trail button").tap();
            assertThat(place(page, "T2")).hasValue(before);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    @Order(2)
    void a_channel_is_put_at_its_place_with_arrow_keys_and_enter(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            page.locator(".taps label", containing("T3")).locator("input").focus();
            page.keyboard().press("Space");
            page.locator("#spot-side-1-1").focus();
            page.keyboard().press("ArrowLeft");
            page.keyboard().press("ArrowUp");
            assertThat(page.locator("#spot-side-0-0")).isFocused();
            page.keyboard().press("ArrowUp");
            assertThat(page.locator("#spot-side-0-0")).isFocused();
            page.keyboard().press("Enter");
            assertThat(place(page, "T3")).hasValue("front, centre, top");
            assertThat(page.locator("#spot-side-0-0")).isFocused();
            assertThat(page.locator("#spot-side-0-0")).hasAttribute("aria-pressed", "true");
            assertThat(page.locator("#follows .verdict")).isVisible();
            assertThat(page.locator("#spot-side-0-0")).isFocused();
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    @Order(3)
    void every_choice_of_a_column_is_saved_when_it_is_made(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            page.locator("select[name=role-3]").selectOption("load");
            assertThat(page.locator("#kept-columns-0")).containsText("Saved");
            page.locator("input[name=instrument-3]").fill("TL-09");
            page.locator("input[name=position-3]").focus();
            assertThat(page.locator("#trail")).containsText("Instrument");
            assertThat(page.locator("#follows")).not().containsText("Being assessed");
            visitor.at(path);
            assertThat(page.locator("select[name=role-3]")).hasValue("load");
            assertThat(page.locator("input[name=instrument-3]")).hasValue("TL-09");
            page.locator("#trail button").click();
            assertThat(page.locator("input[name=instrument-3]")).hasValue("TL-04");
            assertThat(page.locator("select[name=role-3]")).hasValue("load");
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    @Test
    @Order(4)
    void places_are_chosen_without_script_too(Browser browser) {
        Browser.NewContextOptions plain = new Browser.NewContextOptions().setJavaScriptEnabled(false);
        try (Visitor visitor = new Visitor(browser, desk.origin(), plain)) {
            Page page = visitor.page();
            page.navigate(desk.origin() + path);
            page.locator(".taps label", containing("T4")).click();
            page.locator("#spot-door-2-0").click();
            assertThat(place(page, "T4")).hasValue("left, bottom, rear");
        }
    }

    @Test
    @Order(5)
    void an_upload_that_is_cut_says_that_nothing_was_kept(Browser browser) throws IOException {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            page.route("**/recordings", route -> {
                if (route.request().method().equals("POST")) {
                    route.abort("connectionreset");
                } else {
                    route.resume();
                }
            });
            Path file = FiftyRuns.recording(folder.resolve("cut"), OTHER_LOGGER + 1);
            page.locator("#recording").setInputFiles(file);
            assertThat(page.locator("form.drop .sending")).containsText("Nothing was kept.");
            page.unroute("**/recordings");
            visitor.at(path);
            assertThat(page.locator("section.file")).hasCount(1);
            page.locator("#recording").setInputFiles(Files.writeString(folder.resolve("note.csv"), "other"));
            assertThat(page.locator("section.file")).hasCount(2);
            page.locator("summary", new Page.LocatorOptions().setHasText("Take note.csv away"))
                    .click();
            page.locator("details[open] textarea[name=because]").fill("it is no recording");
            page.locator("details[open] button", new Page.LocatorOptions().setHasText("Take note.csv away"))
                    .click();
            assertThat(page.locator("section.file")).hasCount(1);
        }
    }

    @Test
    @Order(6)
    void clocks_are_seen_over_one_another_while_an_offset_is_typed(Browser browser) throws IOException {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            Path other = FiftyRuns.recording(folder.resolve("drops"), OTHER_LOGGER);
            page.locator("#recording").setInputFiles(other);
            assertThat(page.locator(".clock-form")).hasCount(2);
            assertThat(page.locator("#clock-words")).isVisible();
            Locator form = page.locator(".clock-form").nth(1);
            String before = drawn(page, 0);
            String after = drawn(page, 1);
            form.locator("input[value=offset]").check();
            form.locator("input[name=offset]").pressSequentially("-12,5");
            assertThat(page.locator("#clock-words")).containsText(other.getFileName() + ": −12.5 s");
            page.waitForFunction(
                    "was => document.querySelectorAll('#clock-curves canvas')[1].toDataURL() !== was", after);
            assertThat(drawn(page, 0)).as("as stamped").isEqualTo(before);
            form.locator("input[name=offset]").fill("1.234,5");
            assertThat(page.locator("#clock-words")).containsText(other.getFileName() + ": not known yet");
            form.locator("input[name=offset]").fill("-12,5");
            form.locator("input[name=half-width]").fill("0,5");
            form.locator("input[name=because]").fill("both read side by side (invented)");
            form.locator("input[name=half-width]").focus();
            assertThat(page.locator("#kept-clock-1")).containsText("Saved");
            visitor.at(path);
            assertThat(page.locator(".clock-form").nth(1).locator("input[name=offset]"))
                    .hasValue("-12.5 s");
            assertThat(page.locator("#clock-words")).containsText(other.getFileName() + ": −12.5 s");
            Inspection.holds(visitor, Inspection.inEveryWay(visitor, path));
        }
    }

    @Test
    @Order(7)
    void signs_of_the_plan_keep_apart_and_inside_the_wall_and_the_legend_tells_each(Browser browser) {
        Browser.NewContextOptions telephone = new Browser.NewContextOptions().setViewportSize(390, 844);
        try (Visitor visitor = new Visitor(browser, desk.origin(), telephone)) {
            Page page = visitor.at(path);
            int channels = page.locator(".taps label").count();
            for (int i = 0; i < channels; i++) {
                page.locator("#tap-" + i).check();
                String channel = page.locator("#tap-" + i).inputValue();
                page.waitForResponse(
                        "**/recordings/places",
                        () -> page.locator("#spot-above-2-2").click());
                assertThat(page.locator(".taps input:checked")).hasValue(channel);
                assertThat(page.locator("#plan .saved")).containsText("Saved");
            }
            for (int width : new int[] {390, 1180}) {
                page.setViewportSize(width, 844);
                assertThat(page.locator(".plan figure g.sign")).hasCount(3 * channels);
                assertThat((List<?>) page.evaluate(CROWDED)).as(width + " px").isEmpty();
            }
            assertThat(page.locator("#plan-signs li")).hasCount(channels);
            assertThat(page.locator("#plan-signs li").first()).containsText("Sensor R: T1");
            assertThat(page.locator(".plan svg").first())
                    .hasAttribute("aria-label", Pattern.compile("What the signs mean"));
            assertThat(page.locator("#plan-signs-head")).hasText("What the signs mean");
            Inspection.holds(visitor, Inspection.inEveryWay(visitor, path));
        }
    }

    /** Signs that cover one another or reach over the wall of their view. */
    private static final String CROWDED = """
            () => [...document.querySelectorAll('.plan .view > svg')].flatMap((view) => {
              const wall = view.querySelector('.wall').getBoundingClientRect();
              const signs = [...view.querySelectorAll('g.sign')];
              const boxes = signs.map((one) => one.getBoundingClientRect());
              const bad = [];
              boxes.forEach((box, i) => {
                if (box.width < 4) bad.push(signs[i].textContent.trim() + ' is not seen');
                if (box.left < wall.left || box.right > wall.right || box.top < wall.top || box.bottom > wall.bottom)
                  bad.push(signs[i].textContent.trim() + ' crosses the wall');
                for (let j = 0; j < i; j += 1) {
                  const other = boxes[j];
                  if (box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom)
                    bad.push(signs[i].textContent.trim() + ' covers ' + signs[j].textContent.trim());
                }
              });
              return bad;
            })""";

    @Test
    @Order(8)
    void an_older_answer_never_replaces_what_follows_from_a_newer_change(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            List<Route> asked = new ArrayList<>();
            page.route("**/recordings/follows", asked::add);
            change(page, "load");
            page.waitForCondition(() -> asked.size() == 1);
            change(page, "free-chamber");
            // before the second question is asked the first is answered
            answer(asked.get(0), "an old answer");
            page.waitForCondition(() -> asked.size() == 2);
            assertThat(page.locator("#follows")).containsText("Being assessed");
            change(page, "load");
            page.waitForCondition(() -> asked.size() == 3);
            answer(asked.get(2), "the newest answer");
            assertThat(page.locator("#follows")).hasText("the newest answer");
            page.waitForResponse("**/recordings/follows", () -> answer(asked.get(1), "an old answer"));
            page.waitForTimeout(200);
            assertThat(page.locator("#follows")).hasText("the newest answer");
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    private static void change(Page page, String role) {
        page.waitForResponse(
                response -> response.request().method().equals("POST"),
                () -> page.locator("select[name=role-3]").first().selectOption(role));
        assertThat(page.locator("#follows")).containsText("Being assessed");
    }

    private static void answer(Route route, String text) {
        route.fulfill(new Route.FulfillOptions().setContentType("text/html").setBody("<p>" + text + "</p>"));
    }

    private static String drawn(Page page, int chart) {
        return (String) page.evaluate("i => document.querySelectorAll('#clock-curves canvas')[i].toDataURL()", chart);
    }

    private static Page.LocatorOptions containing(String text) {
        return new Page.LocatorOptions().setHasText(text);
    }

    private static Locator.LocatorOptions exactly(String text) {
        return new Locator.LocatorOptions().setHasText(Pattern.compile("^\\s*" + text + "\\s*$"));
    }
}
