package org.steamwright.journeys;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;
import org.opentest4j.TestAbortedException;

/**
 * One Chromium, and one desk with the invented year, for all tests of this module; starting them takes longer than most
 * journeys. A test class that is extended with this gets the {@link Browser} and the {@link RunningDesk} as parameters;
 * without a Chromium it is skipped and says so.
 */
final class Chromium implements BeforeAllCallback, ParameterResolver {

    /** Nothing but the page under test: no updates, no experiments, no second process for graphics. */
    private static final List<String> OPTIONS = List.of(
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--lang=en-AU");

    private static final ExtensionContext.Namespace SHARED = ExtensionContext.Namespace.create(Chromium.class);

    /** Closed by JUnit when the last test has ended. */
    private static final class Shared implements AutoCloseable {

        private final Playwright playwright;
        private final Browser browser;

        Shared(Path program) {
            playwright = Playwright.create(
                    new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
            browser = playwright
                    .chromium()
                    .launch(new BrowserType.LaunchOptions()
                            .setExecutablePath(program)
                            .setArgs(OPTIONS));
        }

        @Override
        public void close() {
            browser.close();
            playwright.close();
        }
    }

    /** The desk with the invented year, and its folder. */
    private static final class Year implements AutoCloseable {

        private final Path folder;
        private final RunningDesk desk;

        Year() {
            try {
                folder = Files.createTempDirectory("steamwright-year");
            } catch (IOException failed) {
                throw new UncheckedIOException(failed);
            }
            desk = RunningDesk.demo(folder);
        }

        @Override
        public void close() throws IOException {
            desk.close();
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(one);
                }
            }
        }
    }

    @Override
    public void beforeAll(ExtensionContext context) {
        Path program = Path.of(System.getProperty("steamwright.chromium", "/usr/bin/chromium"));
        if (!Files.isExecutable(program)) {
            throw new TestAbortedException("There is no Chromium at " + program
                    + ", so nothing was looked at. On Debian: apt-get install chromium; elsewhere name one with"
                    + " -Dchromium=PATH.");
        }
        shared(context, program);
    }

    private static Shared shared(ExtensionContext context, Path program) {
        return context.getRoot()
                .getStore(SHARED)
                .computeIfAbsent(Shared.class, key -> new Shared(program), Shared.class);
    }

    @Override
    public boolean supportsParameter(ParameterContext parameter, ExtensionContext context) {
        Class<?> type = parameter.getParameter().getType();
        return type == Browser.class || type == RunningDesk.class;
    }

    @Override
    public Object resolveParameter(ParameterContext parameter, ExtensionContext context) {
        if (parameter.getParameter().getType() == RunningDesk.class) {
            return context.getRoot().getStore(SHARED).computeIfAbsent(Year.class, key -> new Year(), Year.class).desk;
        }
        return shared(context, Path.of(System.getProperty("steamwright.chromium", "/usr/bin/chromium"))).browser;
    }
}
