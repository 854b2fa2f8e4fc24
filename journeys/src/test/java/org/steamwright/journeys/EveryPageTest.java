package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every page of the invented year, at every size, by day and by night, with the keyboard alone. */
@ExtendWith(Chromium.class)
class EveryPageTest {

    /** {@code -Djourneys.looks=long}: in the other languages too every page is looked at. */
    private static final boolean IS_LONG = "long".equals(System.getProperty("journeys.looks"));

    private static final String GO = "([path]) => { location.assign(path); }";

    /** A form as a page of the desk would send it. */
    private static final String SEND = """
            ([path, values]) => {
              const form = Object.assign(document.createElement('form'), { method: 'post', action: path });
              const all = { token: document.querySelector('meta[name=token]').content, ...values };
              for (const [name, value] of Object.entries(all)) {
                form.append(Object.assign(document.createElement('input'), { type: 'hidden', name, value }));
              }
              document.body.append(form);
              form.submit();
            }
            """;

    static Visitor visitor;
    static Crawl crawl;
    static String origin;

    @BeforeAll
    static void open(Browser browser, RunningDesk desk) {
        visitor = new Visitor(browser, desk);
        origin = desk.origin();
        crawl = Crawl.of(origin, "/today");
    }

    @AfterAll
    static void close() {
        if (visitor != null) {
            visitor.close();
        }
    }

    @Test
    void no_link_leads_nowhere() {
        assertThat(crawl.pages()).as("pages found from /today").isNotEmpty();
        assertThat(crawl.broken()).isEmpty();
    }

    @TestFactory
    Stream<DynamicTest> holds_at_every_size_by_day_and_by_night_and_with_the_keyboard_alone() {
        return asked(crawl.oneOfEach())
                .map(path -> DynamicTest.dynamicTest(
                        path, () -> Inspection.holds(visitor, Inspection.inEveryWay(visitor, path))));
    }

    @TestFactory
    Stream<DynamicTest> holds_for_another_page_of_its_kind() {
        return asked(crawl.others())
                .map(path -> DynamicTest.dynamicTest(path, () -> {
                    Page page = Inspection.at(visitor, path, Inspection.NARROWEST);
                    Inspection.holds(visitor, Inspection.asItStands(path, page));
                }));
    }

    @ParameterizedTest
    @ValueSource(strings = {"de", "fr"})
    void holds_in_another_language_and_does_not_scroll_sideways(String language, Browser browser, RunningDesk desk) {
        List<String> problems = new ArrayList<>();
        try (Visitor reader = new Visitor(
                browser,
                desk.origin(),
                new Browser.NewContextOptions().setExtraHTTPHeaders(Map.of("Accept-Language", language)))) {
            List<String> paths = asked(crawl.oneOfEach()).toList();
            // the short form looks at every third page, another third in each language; the long form at all
            int step = IS_LONG ? 1 : 3;
            for (int i = IS_LONG || language.equals("de") ? 0 : 1; i < paths.size(); i += step) {
                String path = paths.get(i);
                Page page = Inspection.at(reader, path, Inspection.NARROWEST);
                Look.axe(page, List.of()).forEach(problem -> problems.add(path + ": " + problem));
                for (int width : Inspection.WIDTHS) {
                    Inspection.widen(page, width);
                    String where = path + " at " + width + " px: ";
                    Look.wider(page).forEach(problem -> problems.add(where + problem));
                    Look.widerTables(page).forEach(problem -> problems.add(where + problem));
                }
            }
        }
        assertThat(problems).isEmpty();
    }

    @TestFactory
    Stream<DynamicTest> a_refusal_holds_as_every_page_does() {
        String visit = crawl.pages().get("/visits/{id}").get(0);
        return Stream.of(
                        new Refused(404, "/nowhere", Map.of()),
                        new Refused(404, "/visits/R-0", Map.of()),
                        new Refused(403, "/visits", Map.of("token", "forged")),
                        new Refused(422, "/visits", Map.of("number", "", "zone", "Nowhere/Nothing")),
                        new Refused(
                                409,
                                visit + "/removals",
                                Map.of("path", "people/1", "seen", "something else", "stage", "identity")))
                .map(one -> DynamicTest.dynamicTest(one.status() + " at " + one.path(), () -> {
                    Page page = visitor.at("/today");
                    Response answer = page.waitForResponse(
                            response -> response.url().equals(origin + one.path()),
                            () -> page.evaluate(one.values().isEmpty() ? GO : SEND, List.of(one.path(), one.values())));
                    assertThat(answer.status()).isEqualTo(one.status());
                    page.locator("main [role=alert]").first().waitFor();
                    assertThat(Inspection.ofWhatIsThere(page)).isEmpty();
                    assertThat(visitor.takeComplaints())
                            .as("the browser notes the refusal and nothing else")
                            .allMatch(complaint -> complaint.contains("status of " + one.status()));
                }));
    }

    /** What is refused, and how: a path that is asked for, or a form that is sent to it. */
    private record Refused(int status, String path, Map<String, String> values) {}

    /** All pages, or those that {@code -Djourneys.pages=PATTERN} asks for. */
    private static Stream<String> asked(List<String> paths) {
        Pattern wanted = Pattern.compile(System.getProperty("journeys.pages", ".*"));
        return paths.stream().filter(path -> wanted.matcher(path).matches());
    }
}
