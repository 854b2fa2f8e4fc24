package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** Pages with known faults, which have to be found: a look that finds nothing on them would find nothing anywhere. */
@ExtendWith(Chromium.class)
class LookTest {

    private static final String SOUND = "<!doctype html><html lang=en><title>Sound</title>"
            + "<style>:focus-visible { outline: 3px solid } main { min-height: 3000px }</style>"
            + "<main><h1>Sound</h1><p>Nothing is wrong here.</p><button>One</button> <button>Two</button>%s</main>";

    static BrowserContext context;
    static Page page;

    @BeforeAll
    static void open(Browser browser) {
        context = browser.newContext();
        page = context.newPage();
    }

    @AfterAll
    static void close() {
        if (context != null) {
            context.close();
        }
    }

    @Test
    void a_sound_page_has_no_problems() {
        page.setContent(SOUND.formatted(""));

        assertThat(Look.axe(page, List.of())).isEmpty();
        assertThat(Look.wider(page)).isEmpty();
        assertThat(Look.withTheTabKey(page)).isEmpty();
    }

    @Test
    void the_tab_key_finds_what_it_never_reaches() {
        page.setContent(SOUND.formatted("<button>Skipped</button> <button id=three>Three</button>"));
        page.evaluate("() => addEventListener('keydown', (event) => { if (event.key === 'Tab'"
                + " && document.activeElement.textContent === 'Two') { event.preventDefault(); three.focus(); } })");

        assertThat(Look.withTheTabKey(page)).anyMatch(problem -> problem.endsWith("never reaches button 'Skipped'"));
    }

    @Test
    void the_tab_key_finds_a_stop_that_does_not_show_itself_or_is_out_of_sight_or_covered() {
        page.setContent(SOUND.formatted("<button style='outline: none'>Plain</button>"
                + "<button style='position: fixed; left: -500px'>Away</button>"
                + "<button id=below style='position: fixed; top: 0; left: 0; width: 90px; height: 40px'>Below</button>"
                + "<div style='position: fixed; top: 0; left: 0; width: 99px; height: 99px; background: #fff'></div>"));

        assertThat(Look.withTheTabKey(page))
                .containsExactly(
                        "button 'Plain' has the focus and does not show it",
                        "button 'Away' has the focus out of sight",
                        "button 'Below' has the focus below something else");
    }

    @Test
    void a_field_that_takes_the_tab_key_for_itself_ends_the_walk_and_the_rest_is_not_reached() {
        page.setContent(
                SOUND.formatted("<input aria-label=trap onkeydown=\"if (event.key === 'Tab') event.preventDefault()\">"
                        + "<button>Behind</button>"));

        assertThat(Look.withTheTabKey(page)).containsExactly("the tab key never reaches button 'Behind'");
    }

    @Test
    void a_width_that_shows_another_element_is_another_set_of_elements() {
        page.setContent(SOUND.formatted("<style>@media (min-width: 1000px) { .wide { display: none } }</style>"
                + "<p class=wide>Only where it is narrow</p>"));
        page.setViewportSize(1180, 900);
        String wide = Look.shown(page);
        page.setViewportSize(1600, 900);
        String wider = Look.shown(page);
        page.setViewportSize(390, 900);

        assertThat(wider).isEqualTo(wide);
        assertThat(Look.shown(page)).isNotEqualTo(wide);
    }

    @Test
    void a_width_that_changes_a_colour_of_the_night_is_looked_at_again() {
        page.setContent(
                SOUND.formatted("<style>@media (prefers-color-scheme: dark) { html { background: #111; color: #eee } }"
                        + "@media (prefers-color-scheme: dark) and (min-width: 1000px) { p { color: #222 } }</style>"));
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
        page.setViewportSize(390, 900);
        String narrow = Look.coloured(page);
        page.setViewportSize(820, 900);
        String wider = Look.coloured(page);
        page.setViewportSize(1180, 900);
        String wide = Look.coloured(page);
        List<String> problems = Look.axe(page, List.of("color-contrast"));
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));

        assertThat(wider).isEqualTo(narrow);
        assertThat(wide).isNotEqualTo(narrow);
        assertThat(problems).singleElement().asString().startsWith("color-contrast: p");
    }

    @Test
    void what_paper_can_not_use_or_would_lose_is_found() {
        page.setContent(SOUND.formatted("<style>html { background: #fff; color: #000 }"
                + " @media print { button { display: none } }</style><nav>Ways</nav>"
                + "<div class=table style='width: 300px; overflow-x: auto'><p style='width: 900px'>Long</p></div>"));
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        List<String> problems = Look.onPaper(page);
        page.addStyleTag(new Page.AddStyleTagOptions()
                .setContent("@media print { nav { display: none } .table { overflow: visible !important }"
                        + " html { background: #171614 !important } }"));
        List<String> dark = Look.onPaper(page);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));

        assertThat(problems)
                .containsExactly("nav 'Ways' is printed", "div.table 'Long' is cut: 900 px of it in a place of 300 px");
        assertThat(dark).containsExactly("the paper is rgb(23, 22, 20), the print rgb(0, 0, 0)");
    }

    @Test
    void what_is_folded_away_is_opened_and_looked_at() {
        page.setContent(
                SOUND.formatted("<details><summary>More</summary><div style='width: 3000px'>wide</div></details>"));

        assertThat(Look.wider(page)).isEmpty();
        assertThat(Look.unfold(page)).isTrue();
        assertThat(Look.unfold(page)).isFalse();
        assertThat(Look.wider(page)).hasSize(1);
    }

    @Test
    void what_is_wide_small_or_faint_is_found() {
        page.setContent(
                SOUND.formatted(
                        "<div style='width: 3000px'>wide</div>"
                                + "<button style='width: 20px; height: 20px'>S</button><p style='color: #ccc; background: #fff'>faint</p>"));

        assertThat(Look.wider(page)).singleElement().asString().contains("div");
        assertThat(Look.smallerThan(44, page)).anyMatch(problem -> problem.contains("20 by 20 px"));
        assertThat(Look.axe(page, List.of("color-contrast")))
                .singleElement()
                .asString()
                .startsWith("color-contrast: p");
    }
}
