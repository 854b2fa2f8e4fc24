package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
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

    static Visitor visitor;
    static Crawl crawl;

    @BeforeAll
    static void open(Browser browser, RunningDesk desk) {
        visitor = new Visitor(browser, desk);
        crawl = Crawl.of(desk.origin(), "/today");
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
    Stream<DynamicTest> holds_at_every_size_by_day_and_by_night() {
        return asked(crawl.oneOfEach())
                .map(path -> DynamicTest.dynamicTest(
                        path, () -> Inspection.holds(visitor, Inspection.atEverySize(visitor, path))));
    }

    @TestFactory
    Stream<DynamicTest> holds_for_another_page_of_its_kind() {
        return asked(crawl.others())
                .map(path -> DynamicTest.dynamicTest(path, () -> {
                    Page page = Inspection.at(visitor, path, Inspection.NARROWEST);
                    List<String> problems = new ArrayList<>(Look.axe(page, List.of()));
                    problems.addAll(Look.wider(page));
                    problems.addAll(Inspection.tooSmall(path, page));
                    Inspection.holds(visitor, problems);
                }));
    }

    @ParameterizedTest
    @ValueSource(strings = {"de", "fr"})
    void no_page_and_no_table_of_rows_scrolls_sideways(String language, Browser browser, RunningDesk desk) {
        List<String> problems = new ArrayList<>();
        try (Visitor reader = new Visitor(
                browser,
                desk.origin(),
                new Browser.NewContextOptions().setExtraHTTPHeaders(Map.of("Accept-Language", language)))) {
            for (String path : asked(crawl.oneOfEach()).toList()) {
                Page page = Inspection.at(reader, path, Inspection.NARROWEST);
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
    Stream<DynamicTest> can_be_used_with_the_keyboard_alone() {
        return asked(crawl.oneOfEach())
                .map(path -> DynamicTest.dynamicTest(
                        path,
                        () -> assertThat(Look.withTheTabKey(Inspection.at(visitor, path, 1180)))
                                .isEmpty()));
    }

    /** All pages, or those that {@code -Djourneys.pages=PATTERN} asks for. */
    private static Stream<String> asked(List<String> paths) {
        Pattern wanted = Pattern.compile(System.getProperty("journeys.pages", ".*"));
        return paths.stream().filter(path -> wanted.matcher(path).matches());
    }
}
