package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.util.function.Consumer;

/** A visit as somebody fills it in: fields by the words beside them, buttons by what they say. */
final class Sheet {

    private static final double PATIENCE_MILLIS = 60_000;

    private final Page page;
    private final String path;

    private Sheet(Page page, String path) {
        this.page = page;
        this.path = path;
    }

    /** Begins a visit to an invented clinic. */
    static Sheet begin(Visitor visitor, String number) {
        return begin(visitor, number, Locator::click);
    }

    /** The same with a finger. */
    static Sheet beginByTouch(Visitor visitor, String number) {
        return begin(visitor, number, Locator::tap);
    }

    private static Sheet begin(Visitor visitor, String number, Consumer<Locator> press) {
        Page page = visitor.at("/visits");
        if (!page.getByLabel("Report number").isVisible()) {
            press.accept(page.locator("summary").first());
        }
        page.getByLabel("Report number").fill(number);
        page.getByLabel("The clinic", exactly()).fill("Example Clinic (invented)");
        page.getByLabel("Serial number", exactly()).fill("EX-9001");
        page.getByLabel("Time zone of the site").fill("Australia/Adelaide");
        press.accept(page.getByRole(
                AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Begin").setExact(true)));
        page.waitForURL(url -> url.endsWith("/identity"));
        Visitor.settle(page);
        return on(page);
    }

    /** The sheet that a page shows. */
    static Sheet on(Page page) {
        String address = page.url().replaceFirst("https?://[^/]+", "");
        return new Sheet(page, address.substring(0, address.lastIndexOf('/')));
    }

    /** Path of the visit. */
    String path() {
        return path;
    }

    Page page() {
        return page;
    }

    private static Page.GetByLabelOptions exactly() {
        return new Page.GetByLabelOptions().setExact(true);
    }

    /** The field that has those words as its label. */
    Locator field(String label) {
        return page.getByLabel(label, exactly()).first();
    }

    /** The form around a field, with what is said about it. */
    Locator around(String label) {
        return page.locator("form.field")
                .filter(new Locator.FilterOptions().setHas(page.getByLabel(label, exactly())))
                .first();
    }

    /** What tells that an entry did not reach the desk. */
    Locator notSaved() {
        return page.locator("#unsaved[role=alert]");
    }

    /** Types and leaves the field, as a person does. */
    Sheet type(String label, String value) {
        field(label).fill(value);
        field(label).press("Tab");
        return this;
    }

    /** Types, leaves the field and sees that it was saved. */
    Sheet enter(String label, String value) {
        type(label, value);
        assertThat(around(label).locator(".saved")).containsText("Saved", soon());
        return this;
    }

    /** Goes to another stage by its link. */
    Sheet go(String stage) {
        Visitor.follow(
                page,
                () -> page.locator("nav.stages")
                        .getByRole(
                                AriaRole.LINK,
                                new Locator.GetByRoleOptions().setName(stage).setExact(true))
                        .click());
        return this;
    }

    /** Sees a value in a field. */
    Sheet shows(String label, String value) {
        assertThat(field(label)).hasValue(value, new LocatorAssertions.HasValueOptions().setTimeout(PATIENCE_MILLIS));
        return this;
    }

    static LocatorAssertions.ContainsTextOptions soon() {
        return new LocatorAssertions.ContainsTextOptions().setTimeout(PATIENCE_MILLIS);
    }
}
