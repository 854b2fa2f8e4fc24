package org.steamwright.journeys;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.TimeoutError;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.LoadState;
import com.microsoft.playwright.options.ReducedMotion;
import java.util.ArrayList;
import java.util.List;

/** Somebody at a browser of their own, who notices what a browser complains about. */
final class Visitor implements AutoCloseable {

    /** Tells the console of each thing that the page's policy has stopped. */
    private static final String WATCH_POLICY = """
            document.addEventListener('securitypolicyviolation', (event) =>
              console.error('policy: ' + event.violatedDirective + ' ' + event.blockedURI + ' ' + event.sample));
            """;

    /** Nothing is on its way any more, letters have their face, and curves that were announced are drawn. */
    private static final String SETTLED = """
            () => document.readyState === 'complete' && document.fonts.status === 'loaded'
              && !document.querySelector('.htmx-request, .htmx-swapping, .htmx-settling, #curves:not(.is-drawn)')
            """;

    /** A machine that builds other things at the same time is slow; a page that never comes is found all the same. */
    private static final double PATIENCE_MILLIS = 120_000;

    /** How long the network is waited for to be quiet. */
    private static final double QUIET_MILLIS = 20_000;

    private final BrowserContext context;
    private final Page page;
    private final String origin;
    private final List<String> complaints = new ArrayList<>();

    Visitor(Browser browser, RunningDesk desk) {
        this(browser, desk.origin(), new Browser.NewContextOptions());
    }

    Visitor(Browser browser, String origin, Browser.NewContextOptions options) {
        this.origin = origin;
        this.context = browser.newContext(
                options.setLocale("en-AU").setColorScheme(ColorScheme.LIGHT).setReducedMotion(ReducedMotion.REDUCE));
        context.addInitScript(WATCH_POLICY);
        context.setDefaultTimeout(PATIENCE_MILLIS);
        context.setDefaultNavigationTimeout(PATIENCE_MILLIS);
        this.page = watched(context.newPage());
    }

    private Page watched(Page one) {
        one.onConsoleMessage(message -> {
            if (message.type().equals("error") || message.type().equals("warning")) {
                complaints.add("%s: %s said: %s".formatted(one.url(), message.type(), message.text()));
            }
        });
        one.onPageError(error -> complaints.add(one.url() + ": script stopped: " + error));
        one.onRequest(request -> {
            if (!request.url().startsWith(origin + "/")
                    && !request.url().startsWith("data:")
                    && !request.url().startsWith("blob:")) {
                complaints.add(one.url() + ": asked another host: " + request.url());
            }
        });
        return one;
    }

    /** The first tab. */
    Page page() {
        return page;
    }

    /** One more tab of the same browser. */
    Page secondTab() {
        return watched(context.newPage());
    }

    /** The browser with its cookies and its network. */
    BrowserContext context() {
        return context;
    }

    /**
     * Goes to a path of the desk and waits until all of the page is there. What a new page fetches it asks for as soon as it
     * is loaded, and shows that it waits, so that its own signs are enough.
     */
    Page at(String path) {
        page.navigate(origin + path);
        page.waitForFunction(SETTLED);
        return page;
    }

    /**
     * Waits for what a page fetches by itself once it is shown. The browser's word that nothing is on its way is now and then
     * never given; then the page's own signs decide: it was loaded with all that belongs to it, nothing is being exchanged,
     * and its curves are drawn.
     */
    static void settle(Page page) {
        try {
            page.waitForLoadState(LoadState.NETWORKIDLE, new Page.WaitForLoadStateOptions().setTimeout(QUIET_MILLIS));
        } catch (TimeoutError neverSaid) {
            page.waitForLoadState(LoadState.LOAD);
        }
        page.waitForFunction(SETTLED);
    }

    /**
     * Does what leads to another page, and waits until that page is there. A press alone returns before the browser has begun
     * to leave, so that whoever goes on at once meets the old page, or stops what was pressed.
     */
    static void follow(Page page, Runnable press) {
        page.evaluate("document.documentElement.dataset.left = ''");
        press.run();
        page.waitForFunction("() => !('left' in document.documentElement.dataset)");
        settle(page);
    }

    /** Console errors and warnings, stopped scripts, breaches of the policy, requests to other hosts, since the last call. */
    List<String> takeComplaints() {
        List<String> taken = List.copyOf(complaints);
        complaints.clear();
        return taken;
    }

    @Override
    public void close() {
        context.close();
    }
}
