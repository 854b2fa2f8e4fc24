package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.util.ArrayList;
import java.util.List;

/** One page looked at in every size, by day and by night. */
final class Inspection {

    /** Telephone, tablet upright, tablet across, desk. */
    static final List<Integer> WIDTHS = List.of(390, 820, 1180, 1600);

    static final int NARROWEST = 390;

    /** The same windows at 200 %: half the CSS pixels; 320 is the least that WCAG 2.2, 1.4.10, asks for. */
    private static final List<Integer> ENLARGED = List.of(320, 410, 590, 800);

    private static final int HEIGHT = 900;
    private static final int FIELD_TARGET = 44;

    /** What night can change. */
    private static final List<String> OF_COLOUR = List.of("color-contrast", "link-in-text-block");

    private Inspection() {}

    /** Nothing was found, and the browser did not complain while looking. */
    static void holds(Visitor visitor, List<String> problems) {
        List<String> all = new ArrayList<>(problems);
        all.addAll(visitor.takeComplaints());
        assertThat(all).isEmpty();
    }

    static Page at(Visitor visitor, String path, int width) {
        visitor.page().setViewportSize(width, HEIGHT);
        return visitor.at(path);
    }

    /** The page that is there, in a window of another width. */
    static void widen(Page page, int width) {
        page.setViewportSize(width, HEIGHT);
    }

    static List<String> atEverySize(Visitor visitor, String path) {
        List<String> problems = new ArrayList<>();
        Page page = at(visitor, path, NARROWEST);
        for (int width : WIDTHS) {
            widen(page, width);
            note(problems, width + " px", Look.wider(page));
            note(problems, width + " px", Look.widerTables(page));
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
    static List<String> tooSmall(String path, Page page) {
        return path.startsWith("/visits") || path.startsWith("/today")
                ? Look.smallerThan(FIELD_TARGET, page)
                : List.of();
    }
}
