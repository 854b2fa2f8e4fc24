package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/** The instruments of a visit, from the register to the check before leaving, and a lot from the store. */
@ExtendWith(Chromium.class)
class InstrumentsJourneyTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "office");

    @TempDir
    Path folder;

    private Page page;
    private Visitor visitor;

    private static String logger(String id) {
        return "  - {id: %s, measures: temperature, description: logger (invented), certificate: {number: K-%s, laboratory: Example Calibration (invented), calibrated-on: 2026-02-10, due-on: 2027-02-10, U: 0.06 K, k: 2, points: [[0.00 °C, 0.10 °C], [134.00 °C, 134.10 °C]]}}\n"
                .formatted(id, id);
    }

    private void office() throws Exception {
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), """
                steamwright-register: 1
                instruments: instruments.yaml
                lots:
                  - {id: lot-1, kind: biological, product: spore strip, number: L-226, expires: 2026-12-31, incubation: 24 h}
                  - {id: lot-2, kind: biological, product: spore strip, number: L-100, expires: 2026-02-28, incubation: 24 h}
                """);
        Files.writeString(
                office.resolve("instruments.yaml"),
                "steamwright-instruments: 1\ninstruments:\n" + logger("EX-L1") + logger("EX-L2"));
        Clock clock = Clock.fixed(Instant.parse("2026-03-01T09:00:00Z"), ZoneOffset.UTC);
        try (Records records = Records.open(Place.folder(folder.resolve("record")), clock)) {
            new RegisterFiling(records).take(office, KIM, "");
        }
    }

    private void press(String words) {
        Visitor.follow(
                page,
                () -> page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(words))
                        .first()
                        .click());
    }

    /** The form of a fact of an instrument, by the end of its path. */
    private Locator form(String id, String when, String key) {
        return page.locator(
                "form.field:has(input[name=path][value*='instrument=" + id + "/'][value*='" + when + "/" + key + "'])");
    }

    private Locator enter(String id, String when, String key, String value) {
        Locator form = form(id, when, key);
        Locator fold = page.locator("details.fold:not([open])").filter(new Locator.FilterOptions().setHas(form));
        if (fold.count() > 0) {
            fold.locator("summary").first().click();
        }
        form.locator("[name=value]").fill(value);
        form.locator("[name=value]").press("Tab");
        assertThat(form.locator(".saved")).containsText("Saved", Sheet.soon());
        return form.locator(".saved");
    }

    private static String recording() {
        StringBuilder text = new StringBuilder("Time,T1 [°C],T2 [°C]\n");
        for (int second = 0; second < 60; second++) {
            text.append(String.format(
                    Locale.ROOT, "2026-03-02 09:00:%02d,%.2f,%.2f%n", second, 20 + 2.0 * second, 19.5 + 2.0 * second));
        }
        return text.toString();
    }

    /** Names the instrument of a column on the page of the recordings, from its list. */
    private void column(int place, String id) {
        Locator field = page.locator("input[name='instrument-" + place + "']");
        assertThat(field.getAttribute("list")).isNotBlank();
        page.waitForResponse(
                answer ->
                        answer.request().method().equals("POST") && answer.url().endsWith("/channels"),
                () -> {
                    field.fill(id);
                    field.press("Tab");
                });
    }

    @Test
    void instruments_come_from_the_register_are_checked_before_leaving_and_what_is_missing_leads_to_its_field(
            Browser browser) throws Exception {
        office();
        Path file = Files.writeString(folder.resolve("run.csv"), recording());
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor technician = new Visitor(browser, desk)) {
            visitor = technician;
            Sheet sheet = Sheet.begin(visitor, "J-TOOLS");
            page = sheet.page();
            Locator day = page.locator("form.field:has(input[name=path][value='date']) [name=value]");
            day.fill("2026-03-02");
            day.press("Tab");
            assertThat(page.locator("form.field:has(input[name=path][value='date']) .saved"))
                    .containsText("Saved", Sheet.soon());
            sheet.go("Instruments");
            press("From the register: EX-L1");
            assertThat(page.locator("main")).containsText("In date: certificate K-EX-L1");

            sheet.go("Runs (OQ and PQ)");
            press("Add: reference load");
            visitor.at(sheet.path() + "/runs/1/recordings");
            page.waitForResponse(
                    answer -> answer.request().method().equals("GET")
                            && answer.url().contains("/recordings"),
                    () -> page.locator("#recording").setInputFiles(file));
            Visitor.settle(page);
            column(0, "EX-L1");
            column(1, "EX-L2");

            visitor.at(sheet.path() + "/close");
            assertThat(page.locator("main")).containsText("Not checked since the runs: EX-L1, EX-L2.");
            page.locator(".missing a:has-text('Instruments EX-L1, EX-L2: no check after the runs.')")
                    .first()
                    .click();
            page.waitForURL(url -> url.contains("/instruments#"));
            Visitor.settle(page);
            assertThat(page.locator("main")).containsText("In date: certificate K-EX-L2");
            assertThat(form("EX-L1", "when=after", "indicated").locator("[name=value]"))
                    .isInViewport();

            enter("EX-L1", "when=after", "reference", "0.00 °C");
            enter("EX-L1", "when=after", "tolerance", "±0.2 K");
            assertThat(enter("EX-L1", "when=after", "indicated", "0.15 °C"))
                    .containsText("Good: corrected, it read 0.050 °C at 0.000 °C; ±0.200 K is allowed.");
            visitor.at(sheet.path() + "/instruments");
            press("The same check for EX-L2: 0.00 °C, ±0.2 K");
            assertThat(enter("EX-L2", "when=after", "indicated", "0.55 °C"))
                    .containsText("Failed: corrected, it read 0.450 °C");
            press("Read the clock now");
            assertThat(page.locator(".missing a:has-text('no check after the runs')"))
                    .hasCount(0);
            press("Take the last change back");

            visitor.at(sheet.path() + "/indicators");
            assertThat(page.locator("main"))
                    .containsText("Expired: lot L-100 (spore strip) was good until 28 Feb 2026.");
            press("Exposed, from the store: spore strip, lot L-226");
            assertThat(page.locator("form.field:has(input[name=path][value='runs/1/indicators/1/lot']) [name=value]"))
                    .hasValue("L-226");
            assertThat(visitor.takeComplaints()).isEmpty();
            Inspection.holds(visitor, Inspection.inEveryWay(visitor, sheet.path() + "/instruments"));
        }
    }
}
