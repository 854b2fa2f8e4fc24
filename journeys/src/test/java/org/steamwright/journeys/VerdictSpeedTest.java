package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/**
 * How long somebody waits between dropping a recording of 3,000 samples of six channels and reading its verdict, in a
 * browser. A usual build allows for a machine that does other work; the long form is in docs/how-to/run-the-campaigns.md.
 */
@ExtendWith(Chromium.class)
class VerdictSpeedTest {

    /** Runs of the visit, all of which have a recording. */
    private static final int RUNS = Integer.getInteger("journeys.verdict.runs", 1);

    private static final int DROPS = Integer.getInteger("journeys.verdict.drops", 3);
    private static final double MOST_SECONDS = Double.parseDouble(System.getProperty("journeys.verdict.seconds", "5"));
    private static final int FIRST_SEED = 7_001;

    @TempDir
    static Path folder;

    @Test
    void a_dropped_recording_has_its_verdict_soon(Browser browser) throws IOException {
        String visit = FiftyRuns.into(folder, RUNS);
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.at("/visits/" + visit + "/runs/1/recordings");
            List<Double> seconds = new ArrayList<>();
            for (int drop = 0; drop < DROPS; drop++) {
                page.locator("details:has(form[action$='/remove']) > summary").click();
                page.locator("form[action$='/remove'] [name=because]").fill("dropped once more");
                page.locator("form[action$='/remove'] button").click();
                assertThat(page.locator("main")).containsText("No recording yet.");
                assertThat(page.locator("aside .verdict")).hasCount(0);
                Path file = FiftyRuns.recording(folder.resolve("drops"), FIRST_SEED + drop);
                long began = System.nanoTime();
                page.locator("#recording").setInputFiles(file);
                assertThat(page.locator("aside .verdict")).isVisible();
                seconds.add((System.nanoTime() - began) / 1e9);
                // which of them depends on the invented noise
                assertThat(page.locator("aside .verdict")).hasText(Pattern.compile("pass|fail|invalid"));
                assertThat(page.locator("section.file h2"))
                        .hasText(file.getFileName().toString());
                assertThat(page.locator("select[name=role-0]")).hasValue("reference-point");
            }
            System.out.printf(
                    Locale.ROOT,
                    "from the drop to the verdict, %d runs in the visit: %s s, one after another; load %.1f on %d cores%n",
                    RUNS,
                    seconds.stream()
                            .map(one -> String.format(Locale.ROOT, "%.2f", one))
                            .toList(),
                    ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage(),
                    Runtime.getRuntime().availableProcessors());
            assertThat(seconds).allSatisfy(one -> assertThat(one).isLessThan(MOST_SECONDS));
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }
}
