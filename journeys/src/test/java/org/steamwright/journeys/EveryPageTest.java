package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.ExtendWith;

/** Every page of the invented year, at every size, by day and by night, with the keyboard alone. */
@ExtendWith(Chromium.class)
class EveryPageTest {

    /** Telephone, tablet upright, tablet across, desk. */
    private static final List<Integer> WIDTHS = List.of(390, 820, 1180, 1600);

    /** The same windows at 200 %: half the CSS pixels; 320 is the least that WCAG 2.2, 1.4.10, asks for. */
    private static final List<Integer> ENLARGED = List.of(320, 410, 590, 800);

    private static final int HEIGHT = 900;
    private static final int FIELD_TARGET = 44;

    /** What night can change. */
    private static final List<String> OF_COLOUR = List.of("color-contrast", "link-in-text-block");

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
        return asked(crawl.oneOfEach()).map(path -> DynamicTest.dynamicTest(path, () -> holds(atEverySize(path))));
    }

    @TestFactory
    Stream<DynamicTest> holds_for_another_page_of_its_kind() {
        return asked(crawl.others())
                .map(path -> DynamicTest.dynamicTest(path, () -> {
                    Page page = at(path, WIDTHS.get(0));
                    List<String> problems = new ArrayList<>(Look.axe(page, List.of()));
                    problems.addAll(Look.wider(page));
                    problems.addAll(tooSmall(path, page));
                    holds(problems);
                }));
    }

    @TestFactory
    Stream<DynamicTest> can_be_used_with_the_keyboard_alone() {
        return asked(crawl.oneOfEach())
                .map(path -> DynamicTest.dynamicTest(
                        path,
                        () -> assertThat(Look.withTheTabKey(at(path, 1180))).isEmpty()));
    }

    /** All pages, or those that {@code -Djourneys.pages=PATTERN} asks for. */
    private static Stream<String> asked(List<String> paths) {
        Pattern wanted = Pattern.compile(System.getProperty("journeys.pages", ".*"));
        return paths.stream().filter(path -> wanted.matcher(path).matches());
    }

    /** Nothing was found, and the browser did not complain while looking. */
    private static void holds(List<String> problems) {
        List<String> all = new ArrayList<>(problems);
        all.addAll(visitor.takeComplaints());
        assertThat(all).isEmpty();
    }

    private static Page at(String path, int width) {
        visitor.page().setViewportSize(width, HEIGHT);
        return visitor.at(path);
    }

    private static List<String> atEverySize(String path) {
        List<String> problems = new ArrayList<>();
        Page page = at(path, WIDTHS.get(0));
        for (int width : WIDTHS) {
            page.setViewportSize(width, HEIGHT);
            note(problems, width + " px", Look.wider(page));
            note(problems, width + " px", tooSmall(path, page));
            note(problems, width + " px", Look.axe(page, List.of()));
            page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
            note(problems, width + " px, dark", Look.axe(page, OF_COLOUR));
            page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
        }
        for (int width : ENLARGED) {
            page.setViewportSize(width, HEIGHT / 2);
            note(problems, width + " px (enlarged)", Look.wider(page));
        }
        return problems;
    }

    private static void note(List<String> problems, String where, List<String> found) {
        found.forEach(one -> problems.add(where + ": " + one));
    }

    /** What is too small on pages that are used with gloves on, at the machine; elsewhere axe asks for 24 px or room around. */
    private static List<String> tooSmall(String path, Page page) {
        return path.startsWith("/visits") || path.startsWith("/today")
                ? Look.smallerThan(FIELD_TARGET, page)
                : List.of();
    }
}
