package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Pictures of the screens, for the tutorial and for whoever looks whether they are fit to be seen. Off unless {@code
 * -Dpictures=FOLDER} names a folder below the checkout; {@code -Dpictures.of=all} takes every page at every size.
 */
@ExtendWith(Chromium.class)
@EnabledIfSystemProperty(named = "steamwright.pictures", matches = ".+", disabledReason = "no -Dpictures=FOLDER")
class PicturesTest {

    /**
     * A way to look.
     *
     * @param name end of the file's name
     * @param width of the window in CSS pixels
     * @param height of the window in CSS pixels
     * @param scheme by day or by night
     * @param media screen or paper
     */
    record Way(String name, int width, int height, ColorScheme scheme, Media media) {}

    static final Way LAPTOP = new Way("laptop", 1280, 800, ColorScheme.LIGHT, Media.SCREEN);
    static final Way NIGHT = new Way("laptop-night", 1280, 800, ColorScheme.DARK, Media.SCREEN);
    static final Way TABLET = new Way("tablet", 820, 1180, ColorScheme.LIGHT, Media.SCREEN);
    static final Way PHONE = new Way("telephone", 390, 844, ColorScheme.LIGHT, Media.SCREEN);
    static final Way PAPER = new Way("print", 720, 1020, ColorScheme.LIGHT, Media.PRINT);
    static final List<Way> ALL = List.of(LAPTOP, NIGHT, TABLET, PHONE, PAPER);

    /** Screens of the tutorial by the shape of their path, and how each is shown there. */
    static final Map<String, List<Way>> TUTORIAL = Map.of(
            "/today", List.of(LAPTOP, PHONE),
            "/visits/{id}/identity", List.of(TABLET),
            "/visits/{id}/close", List.of(TABLET),
            "/visits/{id}/runs/{n}", List.of(LAPTOP, NIGHT, PAPER),
            "/review/{id}", List.of(LAPTOP),
            "/due", List.of(LAPTOP),
            "/clinic/{id}", List.of(PHONE));

    @Test
    void pictures_are_taken(Browser browser, RunningDesk desk) throws IOException {
        Path into = Path.of(System.getProperty("steamwright.root", "."))
                .resolve(System.getProperty("steamwright.pictures", ""));
        boolean isAll = "all".equals(System.getProperty("pictures.of"));
        Files.createDirectories(into);
        List<String> taken = new ArrayList<>();
        try (Visitor visitor = new Visitor(browser, desk)) {
            Map<String, List<String>> pages = Crawl.of(desk.origin(), "/today").pages();
            for (Map.Entry<String, List<String>> page : pages.entrySet()) {
                for (Way way : isAll ? ALL : TUTORIAL.getOrDefault(page.getKey(), List.of())) {
                    String name = name(page.getKey()) + "-" + way.name() + ".png";
                    take(visitor, withPlateau(page.getValue().get(0)), way, into.resolve(name));
                    taken.add(name);
                }
            }
        }
        assertThat(taken).isNotEmpty();
    }

    /** Of the runs the fourth: a loaded cycle in each visit of the year that has one. */
    private static String withPlateau(String path) {
        return path.replaceFirst("/runs/[0-9]+$", "/runs/4");
    }

    private static String name(String shape) {
        return shape.substring(1)
                .replaceAll("\\{[a-z]+\\}", "one")
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
    }

    private static void take(Visitor visitor, String path, Way way, Path file) throws IOException {
        Page page = visitor.page();
        page.setViewportSize(way.width(), way.height());
        page.emulateMedia(
                new Page.EmulateMediaOptions().setColorScheme(way.scheme()).setMedia(way.media()));
        visitor.at(path);
        page.evaluate("() => document.fonts.ready.then(() => true)");
        byte[] shot = page.screenshot(new Page.ScreenshotOptions().setFullPage(true));
        Files.write(file, Picture.small(shot, 2 * way.height(), way.media() == Media.PRINT));
    }
}
