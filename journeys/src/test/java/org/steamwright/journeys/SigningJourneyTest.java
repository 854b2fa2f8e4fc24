package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.simulator.DemoVisit;

/** The end of a visit: own secret, signature, papers, and what the clinic may rely on from then on. */
@ExtendWith(Chromium.class)
class SigningJourneyTest {

    static final String NAME = "Kim Sample (invented)";
    static final String NUMBER = "DEMO-2026-001";
    private static final String SECRET = "five small kettles sing";

    @TempDir
    Path folder;

    /** A record with one visit that is ready to be signed: the invented one without the mark that forbids it. */
    static void performVisit(Path folder) throws Exception {
        Path visit = DemoVisit.writeYear(folder.resolve("year")).get(1);
        try (Stream<Path> all = Files.list(visit.resolve("recordings"))) {
            for (Path recording : all.toList()) {
                List<String> lines = Files.readAllLines(recording);
                Files.write(recording, lines.subList(1, lines.size()));
            }
        }
        Clock clock = Clock.fixed(Instant.parse("2026-03-05T09:00:00Z"), ZoneOffset.UTC);
        try (Records records = Records.open(Place.folder(folder.resolve("record")), clock)) {
            new Filing(records).take(visit, new Author(NAME, "technician"), "");
        }
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    @Test
    void a_visit_is_signed_with_an_own_secret_and_the_clinic_reads_what_it_may_run(Browser browser) throws Exception {
        performVisit(folder);
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at("/visits");
            page.getByRole(AriaRole.LINK, named(NUMBER)).first().click();
            page.waitForURL(url -> url.matches(".*/visits/[^/]+"));
            String visit = page.url().replaceFirst("https?://[^/]+", "");
            visitor.at(visit + "/close");

            Locator newSecret =
                    page.locator("form[action$='/keys']").filter(new Locator.FilterOptions().setHasText(NAME));
            newSecret.locator("input[name=secret]").fill(SECRET);
            newSecret.locator("input[name=again]").fill(SECRET);
            Visitor.follow(page, () -> newSecret.locator("button").click());

            sign(page, "some other words");
            assertThat(page.getByRole(AriaRole.ALERT)).isVisible();
            assertThat(visitor.takeComplaints())
                    .as("the browser notes the refusal and nothing else")
                    .allMatch(complaint -> complaint.contains("status of 4"));
            visitor.at(visit + "/close");
            sign(page, SECRET);
            visitor.at(visit + "/close");
            assertThat(page.locator("form[action$='/signatures']")).hasCount(0);

            Download certificate = page.waitForDownload(() -> page.evaluate(
                    "path => { const a = document.createElement('a'); a.href = path; a.download = ''; document.body.append(a);"
                            + " a.click(); }",
                    visit + "/certificates?sterilizer=A"));
            try (PDDocument paper = Loader.loadPDF(certificate.path().toFile())) {
                assertThat(paper.getNumberOfPages()).isEqualTo(1);
                assertThat(new PDFTextStripper().getText(paper).replaceAll("\\s+", " "))
                        .contains("issue 1, signed", NAME, "EX-1001");
            }

            visitor.at(visit + "/identity");
            assertThat(page.locator("main form.field [name=value]:not([disabled])"))
                    .hasCount(0);

            visitor.at("/clinic");
            page.locator("main a[href^='/clinic/']").first().click();
            page.waitForURL(url -> url.matches(".*/clinic/.+"));
            assertThat(page.locator("main")).containsText("134 wrapped");
            assertThat(page.locator("main a[href*='/reports/']:has-text('Certificate')")
                            .first())
                    .isVisible();
            page.locator("main a[href$='/load']").click();
            page.waitForURL(url -> url.endsWith("/load"));
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    private static void keep(Page page, String day) {
        page.waitForResponse(answer -> answer.url().endsWith("/facts"), () -> {
            validUntil(page).fill(day);
            validUntil(page).blur();
        });
    }

    private static Locator validUntil(Page page) {
        return page.locator("form.field:has(input[name=path][value='job-sheet/valid-until']) input[name=value]");
    }

    private static Locator signatures(Page page) {
        return page.locator("form[action$='/signatures']").filter(new Locator.FilterOptions().setHasText(NAME));
    }

    /** A second tab, a save that is on its way, and somebody who was quicker. */
    @Test
    void a_signature_covers_what_its_page_shows_and_nothing_else(Browser browser) throws Exception {
        performVisit(folder);
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at("/visits");
            page.getByRole(AriaRole.LINK, named(NUMBER)).first().click();
            page.waitForURL(url -> url.matches(".*/visits/[^/]+"));
            String close = page.url() + "/close";
            page.navigate(close);
            Locator newSecret =
                    page.locator("form[action$='/keys']").filter(new Locator.FilterOptions().setHasText(NAME));
            newSecret.locator("input[name=secret]").fill(SECRET);
            newSecret.locator("input[name=again]").fill(SECRET);
            newSecret.locator("button").click();
            page.waitForLoadState();

            Page other = page.context().newPage();
            other.navigate(close);
            keep(other, "2026-12-31");
            sign(page, SECRET);
            assertThat(page.locator("main")).containsText("The visit was changed after this page was opened.");

            page.navigate(close);
            assertThat(page.locator("main")).containsText("31 December 2026");
            List<Route> onItsWay = new ArrayList<>();
            page.route("**/facts", onItsWay::add);
            validUntil(page).fill("2026-11-30");
            signatures(page).locator("input[name=secret]").fill(SECRET);
            signatures(page).locator("button").click();
            assertThat(signatures(page).locator(".waiting")).containsText("still on its way");
            onItsWay.forEach(Route::resume);
            page.waitForCondition(() -> page.locator("form.htmx-request").count() == 0);
            page.unroute("**/facts");

            page.navigate(close);
            assertThat(page.locator("main")).containsText("30 November 2026");
            other.navigate(close);
            sign(page, SECRET);
            page.navigate(close);
            assertThat(page.locator("#signed")).isVisible();
            sign(other, SECRET);
            assertThat(other.getByRole(AriaRole.ALERT).first()).isVisible();
            other.navigate(close);
            assertThat(other.locator("#signed")).containsText("1");
            visitor.takeComplaints();
        }
    }

    private static void sign(Page page, String secret) {
        Locator form = page.locator("form[action$='/signatures']").filter(new Locator.FilterOptions().setHasText(NAME));
        form.locator("input[name=secret]").fill(secret);
        Visitor.follow(page, () -> form.locator("button").click());
    }
}
