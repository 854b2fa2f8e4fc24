package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** Answers that come late, or in another order than their questions: nothing that was entered is lost or replaced by what was before. */
@ExtendWith(Chromium.class)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class OvertakenAnswersJourneyTest {

    /** Three taps and a letter, made one after the other before anything can be answered. */
    private static final String TAPS = """
            () => {
              for (const [channel, spot] of [['/T2', 'above-0-0'], ['/T3', 'above-2-2'], ['/T4', 'above-1-1']]) {
                document.querySelector(`.taps input[value$="${channel}"]`).click();
                document.getElementById(`spot-${spot}`).click();
              }
              const letter = document.querySelector('input[name=position-1]');
              letter.value = 'Q';
              letter.dispatchEvent(new Event('change', { bubbles: true }));
            }
            """;

    @TempDir
    static Path folder;

    private RunningDesk desk;
    private String visit;

    @BeforeAll
    void open() {
        visit = "/visits/" + FiftyRuns.into(folder, 1);
        desk = RunningDesk.record(folder);
    }

    @AfterAll
    void close() {
        desk.close();
    }

    /** Answers of the desk to the first question below an address, held back until they are let go. */
    private static final class HeldBack {
        private final AtomicReference<Route> first = new AtomicReference<>();
        private final AtomicReference<APIResponse> answer = new AtomicReference<>();
        private final Page page;

        HeldBack(Page page, String address) {
            this.page = page;
            page.route(address, route -> {
                boolean isFirst = first.compareAndSet(null, route);
                APIResponse answered = route.fetch();
                if (isFirst) {
                    answer.set(answered);
                } else {
                    route.fulfill(new Route.FulfillOptions().setResponse(answered));
                }
            });
        }

        void letGo() {
            page.waitForCondition(() -> answer.get() != null);
            first.get().fulfill(new Route.FulfillOptions().setResponse(answer.get()));
        }

        void await() {
            page.waitForCondition(() -> answer.get() != null);
        }
    }

    private static Locator field(Page page, String path) {
        return page.locator("form.field:has(input[name=path][value='" + path + "']) [name=value]");
    }

    private static Locator place(Page page, String channel) {
        return page.locator("fieldset.column")
                .filter(new Locator.FilterOptions().setHasText(Pattern.compile("^\\s*" + channel + "\\b")))
                .locator("input.place");
    }

    @Test
    void what_is_typed_while_an_answer_is_on_its_way_stays_and_is_saved(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(visit + "/identity");
            HeldBack held = new HeldBack(page, "**/facts");
            Locator room = field(page, "clinic/room");
            room.fill("room 1");
            room.press("Tab");
            held.await();
            room.fill("room 12");
            held.letGo();
            assertThat(page.locator("form.field.htmx-request")).hasCount(0);
            assertThat(room).hasValue("room 12");
            room.focus();
            room.press("Tab");
            assertThat(page.locator("form.field:has(input[value='clinic/room']) .saved"))
                    .containsText("Saved");
            assertThat(visitor.at(visit + "/identity").locator("[id='" + room.getAttribute("id") + "']"))
                    .hasValue("room 12");
        }
    }

    @Test
    void an_older_answer_does_not_say_what_was_saved_last(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(visit + "/identity");
            HeldBack held = new HeldBack(page, "**/facts");
            field(page, "clinic/contact").fill("Lee Sample (invented)");
            field(page, "clinic/contact").press("Tab");
            held.await();
            field(page, "clinic/reference").fill("C-17");
            field(page, "clinic/reference").press("Tab");
            assertThat(page.locator("#trail p")).containsText("Customer or order number");
            held.letGo();
            assertThat(page.locator("form.field:has(input[value='clinic/contact']) .saved"))
                    .containsText("Saved");
            assertThat(page.locator("#trail p")).containsText("Customer or order number");
        }
    }

    @Test
    void taps_and_choices_made_before_the_first_was_answered_are_all_kept(Browser browser) {
        String path = visit + "/runs/1/recordings";
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at(path);
            HeldBack held = new HeldBack(page, "**/recordings/places");
            page.evaluate(TAPS);
            held.letGo();
            assertThat(place(page, "T4")).hasValue(Pattern.compile("^middle, centre"));
            Visitor.settle(page);
            assertThat(place(page, "T2")).hasValue(Pattern.compile("^front, left"));
            assertThat(place(page, "T3")).hasValue(Pattern.compile("^back, right"));
            assertThat(place(page, "T4")).hasValue(Pattern.compile("^middle, centre"));
            page = visitor.at(path);
            assertThat(place(page, "T2")).hasValue(Pattern.compile("^front, left"));
            assertThat(place(page, "T3")).hasValue(Pattern.compile("^back, right"));
            assertThat(place(page, "T4")).hasValue(Pattern.compile("^middle, centre"));
            assertThat(page.locator("input[name=position-1]")).hasValue("Q");
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }
}
