package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** Recordings as they are dropped on the page of a run: one of the usual length, and a large one. */
@ExtendWith(Chromium.class)
class RecordingJourneyTest {

    private static final double PATIENCE_MILLIS = 300_000;
    /** The long form takes 100: see docs/how-to/run-the-campaigns.md. */
    private static final long LARGE_BYTES = Long.getLong("journeys.megabytes", 10) * 1_000_000;

    private static final long MOST_SAMPLES = 400_000;
    private static final Pattern VERDICT = Pattern.compile("pass|fail|invalid");

    @TempDir
    static Path folder;

    @Test
    void a_recording_is_read_or_refused_in_words_whatever_its_size(Browser browser) throws IOException {
        String visit = FiftyRuns.into(folder, 1);
        Path usual = recording("usual.csv", UsualRows.OF_ONE_CYCLE, Long.MAX_VALUE);
        Path large = recording("large.csv", Integer.MAX_VALUE, LARGE_BYTES);
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            Page page = visitor.page();
            page.setDefaultTimeout(PATIENCE_MILLIS);
            String path = "/visits/" + visit + "/runs/1/recordings";
            takeAway(visitor.at(path));
            drop(visitor, path, usual);
            assertThat(page.locator("aside .verdict")).hasText(VERDICT);
            assertThat(page.locator("select[name=role-0]")).hasValue("reference-point");
            assertThat(page.locator("select[name=role-5]")).hasValue("pressure");
            takeAway(page);
            drop(visitor, path, large);
            if (isAskedForStretch(large)) {
                assertThat(page.locator("legend.act").first()).containsText("wanted");
                assertThat(page.locator("aside .verdict")).hasCount(0);
            } else {
                assertThat(page.locator("aside .verdict")).hasText(VERDICT);
                assertThat(page.locator("select[name=role-0]")).hasValue("reference-point");
            }
            visitor.at("/today");
            assertThat(page.locator("h1")).isVisible();
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    /** Far longer than any run: nobody assesses it before a stretch of it was chosen. */
    private static boolean isAskedForStretch(Path file) throws IOException {
        try (Stream<String> rows = Files.lines(file)) {
            return rows.skip(MOST_SAMPLES).findAny().isPresent();
        }
    }

    private static void takeAway(Page page) {
        Locator away = page.locator("details:has(form[action$='/remove'])");
        away.locator("summary").click();
        away.locator("textarea").fill("Another recording is tried (invented)");
        away.locator("button").click();
        assertThat(page.locator("main")).containsText("No recording yet.");
    }

    /** Chooses a file as the page's own drop would, and waits until the page names it. */
    private static void drop(Visitor visitor, String path, Path file) throws IOException {
        Page page = visitor.at(path);
        long began = System.nanoTime();
        page.waitForResponse(
                answer ->
                        answer.request().method().equals("GET") && answer.url().contains("/recordings"),
                () -> page.locator("#recording").setInputFiles(file));
        assertThat(page.locator("main"))
                .containsText(
                        file.getFileName().toString(),
                        new LocatorAssertions.ContainsTextOptions().setTimeout(PATIENCE_MILLIS));
        System.out.printf(
                Locale.ROOT,
                "%s, %.1f MB: %.2f s from the drop to the page that tells what follows%n",
                file.getFileName(),
                Files.size(file) / 1e6,
                (System.nanoTime() - began) / 1e9);
    }

    /** Six channels by formula, to as many rows or bytes. */
    private static Path recording(String name, int mostRows, long mostBytes) throws IOException {
        Path file = folder.resolve(name);
        long written = 0;
        try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            out.write(UsualRows.HEAD);
            for (int row = 0; row < mostRows && written < mostBytes; row++) {
                String line = UsualRows.line(row);
                out.write(line);
                written += line.length();
            }
        }
        return file;
    }
}
