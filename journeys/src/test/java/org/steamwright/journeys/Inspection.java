package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** One page looked at in every size, by day and by night. */
final class Inspection {

    /** Telephone, tablet upright, tablet across, desk. */
    static final List<Integer> WIDTHS = List.of(390, 820, 1180, 1600);

    static final int NARROWEST = 390;

    /** What is drawn by the size of its place is drawn anew once a frame was shown in the new one. */
    private static final String FRAMES =
            "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done))))";

    /** At these widths what was folded away is unfolded. */
    private static final List<Integer> UNFOLDED = List.of(NARROWEST, 1180);

    /** The same windows at 200 %: half the CSS pixels; 320 is the least that WCAG 2.2, 1.4.10, asks for. */
    private static final List<Integer> ENLARGED = List.of(320, 410, 590, 800);

    private static final int HEIGHT = 900;
    private static final int FIELD_TARGET = 44;

    /** What night can change. */
    private static final List<String> OF_COLOUR = List.of("color-contrast", "link-in-text-block");

    /**
     * Rules that measure; the others read the elements that are there, and are asked once for each set of them. Whether a
     * table is one of data is judged by its size too.
     */
    private static final List<String> OF_LAYOUT = List.of(
            "color-contrast",
            "link-in-text-block",
            "scrollable-region-focusable",
            "target-size",
            "td-has-header",
            "th-has-data-cells");

    private static final int USUAL = 1180;

    /** A4 upright between its margins, in CSS pixels: 190 mm. */
    private static final int PAPER = 718;

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

    /** At every size, by day and by night, enlarged, and with the keyboard alone; the page is loaded once. */
    static List<String> inEveryWay(Visitor visitor, String path) {
        List<String> problems = new ArrayList<>();
        Page page = at(visitor, path, NARROWEST);
        Set<String> seen = new HashSet<>();
        Set<String> byNight = new HashSet<>();
        for (int width : WIDTHS) {
            widen(page, width);
            note(problems, width + " px", asItStands(path, page, seen));
            note(problems, width + " px, dark", byNight(page, byNight));
        }
        for (int width : ENLARGED) {
            page.setViewportSize(width, HEIGHT / 2);
            note(problems, width + " px (enlarged)", Look.wider(page));
        }
        widen(page, USUAL);
        note(problems, "keyboard", Look.withTheTabKey(page));
        note(problems, "paper", onPaper(page));
        if (Look.unfold(page)) {
            for (int width : UNFOLDED) {
                widen(page, width);
                note(problems, width + " px, unfolded", asItStands(path, page, seen));
            }
        }
        return problems;
    }

    /**
     * The page that somebody has come to and that no address would bring back, such as an answer to a form: narrow and
     * wide, by day and by night, enlarged, and with the keyboard alone.
     */
    static List<String> ofWhatIsThere(Page page) {
        List<String> problems = new ArrayList<>();
        String path = page.url().replaceFirst("https?://[^/]+", "");
        Set<String> seen = new HashSet<>();
        Set<String> byNight = new HashSet<>();
        Look.unfold(page);
        for (int width : UNFOLDED) {
            widen(page, width);
            note(problems, path + " at " + width + " px", asItStands(path, page, seen));
            note(problems, path + " at " + width + " px, dark", byNight(page, byNight));
        }
        note(problems, path + ", keyboard", Look.withTheTabKey(page));
        page.setViewportSize(ENLARGED.get(0), HEIGHT / 2);
        note(problems, path + " at " + ENLARGED.get(0) + " px (enlarged)", Look.wider(page));
        widen(page, USUAL);
        return problems;
    }

    /** The page that is there, as it would be printed. */
    static List<String> onPaper(Page page) {
        widen(page, PAPER);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        page.evaluate(FRAMES);
        List<String> problems = new ArrayList<>(Look.onPaper(page));
        problems.addAll(Look.wider(page));
        problems.addAll(Look.axe(page, OF_COLOUR));
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
        return problems;
    }

    /** The page that is there, in the window that is there. */
    static List<String> asItStands(String path, Page page) {
        return asItStands(path, page, new HashSet<>());
    }

    /**
     * The page that is there, in the window that is there.
     *
     * @param seen elements that were there when all rules were asked; of them only what measures is asked again
     */
    private static List<String> asItStands(String path, Page page, Set<String> seen) {
        List<String> problems = new ArrayList<>(Look.axe(page, seen.add(Look.shown(page)) ? List.of() : OF_LAYOUT));
        problems.addAll(Look.wider(page));
        problems.addAll(Look.widerTables(page));
        problems.addAll(tooSmall(path, page));
        return problems;
    }

    /**
     * Colours of the page at night. What lies over what is looked at by day at every width, and night changes none of it.
     *
     * @param seen elements and colours that were looked at, which another width does not change
     */
    private static List<String> byNight(Page page, Set<String> seen) {
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
        List<String> problems = seen.add(Look.coloured(page)) ? Look.axe(page, OF_COLOUR) : List.of();
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
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
