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
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.simulator.DemoVisit;

/** A performance qualification made at the desk and nowhere else: from a record without visits to the final report. */
@ExtendWith(Chromium.class)
class WholeVisitJourneyTest {

    private static final String NAME = "Kim Sample (invented)";
    private static final String SECRET = "five small kettles sing";
    private static final String NUMBER = "J-WHOLE";
    /** The loaded runs of the invented visit, whose recordings are dropped. */
    private static final List<Integer> LOADED = List.of(6, 7, 8);

    @TempDir
    Path folder;

    private Map<String, Object> demo = Map.of();
    private Path invented = Path.of("");
    private Visitor visitor;
    private Page page;
    private String visit = "";

    /** The office knows the clinic, its machine and the instruments; no visit was ever written. */
    private void openOffice() throws Exception {
        Path year = folder.resolve("year");
        invented = DemoVisit.writeYear(year).get(1);
        demo = StatedFacts.of(invented.resolve("visit.yaml"));
        String facts = Files.readString(invented.resolve("visit.yaml"));
        int from = facts.indexOf("\ninstruments:\n") + 1;
        int to = facts.indexOf("\n\n", from);
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(
                office.resolve("instruments.yaml"), "steamwright-instruments: 1\n" + facts.substring(from, to) + "\n");
        Files.createDirectories(office.resolve("certificates"));
        try (var certificates = Files.list(invented.resolve("certificates"))) {
            for (Path one : certificates.toList()) {
                Files.copy(one, office.resolve("certificates").resolve(one.getFileName()));
            }
        }
        Files.writeString(
                office.resolve("register.yaml"),
                Files.readString(year.resolve("office/register.yaml")) + "\ninstruments: instruments.yaml\n");
        Clock clock = Clock.fixed(Instant.parse("2026-03-01T09:00:00Z"), ZoneOffset.UTC);
        try (Records records = Records.open(Place.folder(folder.resolve("record")), clock)) {
            new RegisterFiling(records).take(office, new Author(NAME, "office"), "");
        }
    }

    private void go(String below) {
        visitor.at(visit + "/" + below);
    }

    private void press(String words) {
        Visitor.follow(
                page,
                () -> page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(words))
                        .first()
                        .click());
    }

    /** Types into the field of a fact and sees that it was saved. */
    private void enter(String path, String value) {
        Locator form = page.locator("form.field:has(input[name=path][value='" + path + "'])");
        Locator field = form.locator("[name=value]");
        if (!field.isVisible()) {
            page.locator("details:has(input[name=path][value='" + path + "']) > summary")
                    .first()
                    .click();
        }
        if (field.evaluate("one => one.tagName").equals("SELECT")) {
            field.selectOption(value);
        } else {
            field.fill(value);
            field.press("Tab");
        }
        assertThat(form.locator(".saved")).containsText("Saved", Sheet.soon());
    }

    private void record(int number) throws Exception {
        go("runs");
        press("Add: reference load");
        enter("runs/" + number + "/machine-cycle", String.valueOf(1489 + number));
        press("The cycle starts now");
        if (number > 1) {
            go("runs/1");
            assertThat(page.locator("main .verdict").first()).isVisible();
        }
        Map<?, ?> run = (Map<?, ?>) demo.get("runs/" + LOADED.get(number - 1));
        String name = String.valueOf(run.get("recording"));
        String text = Files.readString(invented.resolve(name));
        // as if it were real, which only a test may do
        Path file = Files.writeString(
                folder.resolve(name.substring(name.lastIndexOf('/') + 1)), text.substring(text.indexOf('\n') + 1));
        go("runs/" + number + "/recordings");
        page.waitForResponse(
                answer ->
                        answer.request().method().equals("GET") && answer.url().contains("/recordings"),
                () -> page.locator("#recording").setInputFiles(file));
        Visitor.settle(page);
        for (Map.Entry<?, ?> channel : ((Map<?, ?>) run.get("channels")).entrySet()) {
            Map<?, ?> said = (Map<?, ?>) channel.getValue();
            Locator column = page.locator("fieldset.column:has(input[name=column][value='" + channel.getKey() + "'])");
            said("select[name^='role-']", column, String.valueOf(said.get("role")));
            said("input[name^='instrument-']", column, String.valueOf(said.get("instrument")));
        }
    }

    private void said(String what, Locator column, String value) {
        Locator field = column.locator(what);
        page.waitForResponse(
                answer ->
                        answer.request().method().equals("POST") && answer.url().endsWith("/channels"),
                () -> {
                    if (what.startsWith("select")) {
                        field.selectOption(value);
                    } else {
                        field.fill(value);
                        field.press("Tab");
                    }
                });
    }

    private void load() {
        go("load");
        enter("runs/1/load/description", "five cassettes, the largest load in use (invented)");
        enter("runs/1/load/challenge-pack", "hollow item in a double pouch");
        enter("runs/1/load/agreed-by", "practice manager");
        for (int run = 2; run <= LOADED.size(); run++) {
            go("load");
            press("Take over the load of run 1");
        }
        go("close");
        Visitor.follow(
                page,
                () -> page.locator("main .missing a:has-text('Run 1: no pack was weighed')")
                        .click());
        press("Add a weighed pack");
        press("The same packs as in run 1");
        press("The same packs as in run 2");
        go("load");
        for (int run = 1; run <= LOADED.size(); run++) {
            enter("runs/" + run + "/weighings/1/before", "1240.0 g");
            enter("runs/" + run + "/weighings/1/after", "1241.1 g");
        }
    }

    private void indicators() {
        go("indicators");
        press("Add an exposed indicator");
        enter("runs/1/indicators/1/lot", "L-226");
        enter("runs/1/indicators/1/expires", "2026-12-31");
        enter("runs/1/indicators/1/incubated-until", "2026-03-04 16:00");
        press("Add an unexposed control");
        press("The same indicators as in run 1");
        press("The same indicators as in run 2");
    }

    private void sign() {
        go("close");
        Locator form = page.locator("form[action$='/signatures']").filter(new Locator.FilterOptions().setHasText(NAME));
        form.locator("input[name=secret]").fill(SECRET);
        Visitor.follow(page, () -> form.locator("button").click());
    }

    @Test
    void a_performance_qualification_is_made_signed_as_interim_read_out_from_today_and_signed_as_final(Browser browser)
            throws Exception {
        openOffice();
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor technician = new Visitor(browser, desk)) {
            visitor = technician;
            page = visitor.at("/visits");
            if (!page.getByLabel("Report number").isVisible()) {
                page.locator("summary").first().click();
            }
            page.getByLabel("Report number").fill(NUMBER);
            page.locator("[name=machine]")
                    .selectOption(page.locator("[name=machine] option:has-text('EX-1001')")
                            .first()
                            .getAttribute("value"));
            page.locator("[name='criteria-set']").selectOption("au-as5369");
            page.locator("[name=date]").fill("2026-03-02");
            page.locator("[name=technician]").fill(NAME);
            press("Begin");
            page.waitForURL(url -> url.endsWith("/identity"));
            visit = page.url().replaceFirst("https?://[^/]+", "").replace("/identity", "");
            enter("sterilizers/1/name-plate/serial", "EX-1001");
            go("as-found");
            enter("conditions/barometer", "100.9 kPa");
            for (int number = 1; number <= LOADED.size(); number++) {
                record(number);
            }
            load();
            indicators();

            go("close");
            Visitor.follow(
                    page,
                    () -> page.locator("main .missing a:has-text('no last day of the interim report')")
                            .click());
            enter(
                    "job-sheet/interim-until",
                    LocalDate.now(ZoneOffset.UTC).plusDays(7).toString());
            go("close");
            Locator key = page.locator("form[action$='/keys']").filter(new Locator.FilterOptions().setHasText(NAME));
            key.locator("input[name=secret]").fill(SECRET);
            key.locator("input[name=again]").fill(SECRET);
            Visitor.follow(page, () -> key.locator("button").click());
            sign();
            go("close");
            assertThat(page.locator("form[action$='/signatures']")).hasCount(0);

            visitor.at("/today");
            press("Enter the read-out " + NUMBER);
            page.waitForURL(url -> url.contains("/indicators"));
            visit = page.url().replaceFirst("https?://[^/]+", "").replaceFirst("/indicators.*", "");
            go("indicators");
            for (int run = 1; run <= LOADED.size(); run++) {
                for (int i = 1; i <= 2; i++) {
                    String one = "runs/" + run + "/indicators/" + i;
                    enter(one + "/result", i == 1 ? "no-growth" : "growth");
                    enter(one + "/read-on", "2026-03-04 16:30");
                }
            }
            go("close");
            // no air leakage test was made at this visit, so its loaded runs qualify nothing
            assertThat(page.locator("main")).containsText("not everything else that it takes was shown");
            sign();
            go("close");
            assertThat(page.locator("form[action$='/signatures']")).hasCount(0);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }
}
