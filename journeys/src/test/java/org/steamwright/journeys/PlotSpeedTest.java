package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.StringJoiner;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/**
 * Many runs over one another, zoomed and panned in every frame that the browser gives. A usual build lays {@code
 * journeys.runs} runs over one another and asks for few of the {@code journeys.frames} a second of the long form, which is
 * in docs/how-to/run-the-campaigns.md.
 */
@ExtendWith(Chromium.class)
class PlotSpeedTest {

    private static final int RUNS = Integer.getInteger("journeys.runs", 10);
    private static final double LEAST = Double.parseDouble(System.getProperty("journeys.frames", "25"));
    private static final int FRAMES = 180;

    /** In each frame one key: closer, later, earlier, wider; the times between frames are those of requestAnimationFrame. */
    private static final String MEASURE = """
            (frames) => new Promise((done) => {
              const frame = document.querySelector('#curves .frame');
              frame.focus();
              const keys = [];
              const times = [];
              for (let i = 0; i < 6; i++) keys.push({ key: '+' });
              for (let i = 0; i < 24; i++) keys.push({ key: 'ArrowRight', shiftKey: true });
              for (let i = 0; i < 24; i++) keys.push({ key: 'ArrowLeft', shiftKey: true });
              for (let i = 0; i < 6; i++) keys.push({ key: '-' });
              const turn = (now) => {
                times.push(now);
                if (times.length > frames) {
                  const gaps = times.slice(1).map((time, i) => time - times[i]).sort((a, b) => a - b);
                  done({
                    rate: 1000 * frames / (times[frames] - times[0]),
                    median: gaps[Math.floor(frames / 2)],
                    worst: gaps[Math.floor(frames * 0.95)],
                  });
                  return;
                }
                frame.dispatchEvent(new KeyboardEvent('keydown', { ...keys[times.length % keys.length], bubbles: true, cancelable: true }));
                requestAnimationFrame(turn);
              };
              requestAnimationFrame(turn);
            })
            """;

    @TempDir
    static Path folder;

    @Test
    void runs_over_one_another_follow_the_hand(Browser browser) {
        String visit = FiftyRuns.into(folder, RUNS);
        try (RunningDesk desk = RunningDesk.record(folder);
                Visitor visitor = new Visitor(browser, desk)) {
            visitor.page().setViewportSize(1180, 820);
            StringJoiner chosen = new StringJoiner("&run=", "?run=", "");
            IntStream.rangeClosed(1, RUNS).forEach(run -> chosen.add(Integer.toString(run)));
            Page page = visitor.at("/visits/" + visit + "/compare" + chosen);
            page.evaluate(MEASURE, FRAMES / 3);
            double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
            Map<?, ?> measured = (Map<?, ?>) page.evaluate(MEASURE, FRAMES);
            double rate = ((Number) measured.get("rate")).doubleValue();
            System.out.printf(
                    Locale.ROOT,
                    "%d runs over one another: %.1f frames a second (a frame %.1f ms in the median, %.1f ms at 95 %%), drawn"
                            + " without a graphics card, load %.1f on %d cores%n",
                    RUNS,
                    rate,
                    ((Number) measured.get("median")).doubleValue(),
                    ((Number) measured.get("worst")).doubleValue(),
                    load,
                    Runtime.getRuntime().availableProcessors());
            assertThat(visitor.takeComplaints()).isEmpty();
            Assumptions.assumeTrue(
                    load <= 2.0 * Runtime.getRuntime().availableProcessors(),
                    "the machine does other work (load " + load + "), so the frames say nothing about the page");
            assertThat(rate).as("frames a second").isGreaterThanOrEqualTo(LEAST);
        }
    }
}
