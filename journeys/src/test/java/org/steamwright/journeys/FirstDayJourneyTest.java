package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.simulator.DemoVisit;

/**
 * The first day of a technician with an empty record and a tablet: nothing is known, everything is done by touch, in German, and
 * what was said once is not asked again.
 */
@ExtendWith(Chromium.class)
class FirstDayJourneyTest {

    private static final int WIDTH = 820;
    private static final int HEIGHT = 1180;
    private static final double PATIENCE_MILLIS = 60_000;

    @TempDir
    Path folder;

    private Page tablet;
    private String visit = "";

    private void tap(Locator what) {
        Visitor.follow(tablet, what::tap);
    }

    private void tap(AriaRole role, String words) {
        tap(tablet.getByRole(role, new Page.GetByRoleOptions().setName(words)).first());
    }

    private Locator fact(String path) {
        return tablet.locator("form.field:has(input[name=path][value='" + path + "'])");
    }

    private void enter(String path, String value) {
        Locator field = fact(path).locator("[name=value]");
        field.fill(value);
        field.blur();
        assertThat(fact(path).locator(".saved")).containsText("Gespeichert", Sheet.soon());
    }

    /** An instrument from its paper, entered from the visit and taken into it. */
    private void instrument(String id, String measures, String points, Map<String, String> more) {
        tap(AriaRole.LINK, "Messgerät im Register eintragen");
        tablet.locator("[name='f/id']").fill(id);
        tablet.locator("[name='f/measures']").selectOption(measures);
        tablet.locator("[name='f/certificate/number']").fill("K-" + id);
        more.forEach((key, value) -> tablet.locator("[name='f/" + key + "']").fill(value));
        tablet.locator("[name='f/certificate/points']").fill(points);
        tap(AriaRole.BUTTON, "Speichern");
        assertThat(tablet.url()).as(tablet.locator("main").textContent()).endsWith(visit + "/instruments");
        tap(tablet.locator("form[action$='/offers'] button").first());
    }

    private void drop(int run, Path recording) {
        tap(AriaRole.BUTTON, "Hinzufügen: Leerkammer, Sterilisator A");
        tablet.navigate(tablet.url().replaceFirst("/runs.*", "/runs/" + run + "/recordings"));
        Visitor.follow(tablet, () -> tablet.locator("#recording").setInputFiles(recording));
    }

    private static LocatorAssertions.IsVisibleOptions soon() {
        return new LocatorAssertions.IsVisibleOptions().setTimeout(PATIENCE_MILLIS);
    }

    private Path recording(Path year, String name) throws Exception {
        Path invented = DemoVisit.writeYear(year).get(1);
        Map<String, Object> facts = StatedFacts.of(invented.resolve("visit.yaml"));
        assertThat(facts).isNotEmpty();
        String text = Files.readString(invented.resolve("recordings/" + name));
        // as if it were real, which only a test may do
        return Files.writeString(folder.resolve(name), text.substring(text.indexOf('\n') + 1));
    }

    @Test
    void from_nothing_to_a_second_run_by_touch(Browser browser) throws Exception {
        Path first = recording(folder.resolve("year"), "03-a-empty.csv");
        Path second = recording(folder.resolve("year"), "04-a-empty.csv");
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(
                        browser,
                        desk.origin(),
                        new Browser.NewContextOptions()
                                .setViewportSize(WIDTH, HEIGHT)
                                .setHasTouch(true)
                                .setIsMobile(true))) {
            List<String> asked = new ArrayList<>();
            tablet = visitor.at("/visits");
            tablet.onDialog(dialog -> {
                asked.add(dialog.type());
                dialog.accept();
            });
            tap(tablet.locator("button[name=language][value=de]"));
            tablet.getByLabel("Die Praxis").fill("Musterpraxis (erfunden)");
            tablet.locator("#new-serial").fill("EX-1001");
            tablet.locator("#new-zone").fill("Australia/Adelaide");
            tablet.locator("#new-date").fill("2026-03-02");
            tap(AriaRole.BUTTON, "Beginnen");
            visit = tablet.url().replaceFirst("https?://[^/]+", "").replace("/identity", "");
            enter("sterilizers/1/name-plate/serial", "EX-1001");
            tap(AriaRole.BUTTON, "Zyklus hinzufügen, der benutzt wird");
            enter("sterilizers/1/cycles/1/name", "134 verpackt");
            Locator temperature = fact("sterilizers/1/cycles/1/sterilizing-temperature");
            temperature.locator("[name=value]").fill("134");
            temperature.locator("[name=value]").blur();
            temperature.locator(".quick button").tap();
            assertThat(temperature.locator(".saved")).containsText("Gespeichert", Sheet.soon());
            assertThat(temperature.locator("[name=value]")).hasValue("134 °C");

            visitor.at(visit + "/instruments");
            Map<String, String> paper = Map.of(
                    "certificate/laboratory", "Musterlabor (erfunden)",
                    "certificate/calibrated-on", "2025-11-02",
                    "certificate/due-on", "2026-11-02",
                    "certificate/U", "0,06 K",
                    "certificate/k", "2");
            instrument("TL-01", "temperature", "90 89,97\n121 120,95\n134 133,95\n145 144,95", paper);
            instrument("TL-02", "temperature", "90 89,93\n121 120,94\n134 133,95\n145 144,95", Map.of());
            assertThat(tablet.locator("main"))
                    .containsText("Gültig: Kalibrierschein K-TL-02 von Musterlabor (erfunden)");

            visitor.at(visit + "/runs");
            drop(1, first);
            for (String column : List.of("T1", "T2", "T3", "T4", "T5", "P")) {
                Locator role = tablet.locator(
                        "fieldset.column:has(input[name=column][value=" + column + "]) select[name^=role-]");
                tablet.waitForResponse(
                        answer -> answer.request().method().equals("POST")
                                && answer.url().endsWith("/channels"),
                        () -> role.selectOption(
                                column.equals("P")
                                        ? "pressure"
                                        : column.equals("T1") ? "reference-point" : "free-chamber"));
            }
            assertThat(tablet.locator("#kept-columns-0")).containsText("Gespeichert", Sheet.soon());
            assertThat(tablet.locator("#follows .verdict")).isVisible(soon());
            // what was counted as entered was counted as sent, too
            tablet.waitForFunction("() => waiting.size === 0");
            tap(tablet.locator(".way a").first());
            assertThat(asked)
                    .as("all was saved, so nobody is asked before leaving")
                    .isEmpty();

            visitor.at(visit + "/runs");
            drop(2, second);
            tap(tablet.locator("button[name=as-run]"));
            assertThat(tablet.locator("select[name=role-5]")).hasValue("pressure");
            assertThat(tablet.locator("#follows .verdict")).isVisible(soon());

            visitor.at(visit + "/safety");
            int tasks = tablet.locator(".quick button").count();
            assertThat(tasks).isGreaterThan(3);
            tablet.locator(".quick button").first().tap();
            assertThat(tablet.locator(".quick button")).hasCount(tasks - 1);

            visitor.at(visit + "/as-found");
            Path photo = folder.resolve("counter.png");
            ImageIO.write(new BufferedImage(640, 480, BufferedImage.TYPE_INT_RGB), "png", photo.toFile());
            Visitor.follow(
                    tablet,
                    () -> tablet.locator("input[type=file][name=photo]").first().setInputFiles(photo));
            assertThat(tablet.locator("form[action$='/photo-removals'] button")).isVisible();
            assertThat(asked).isEmpty();
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }
}
