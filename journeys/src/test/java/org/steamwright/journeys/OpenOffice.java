package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The desk of an invented office with users and settings, and how somebody comes in for the first time. */
final class OpenOffice implements AutoCloseable {

    private static final Pattern FIRST_PASSWORD = Pattern.compile("with the password (\\S+)");
    private static final String SETTINGS = "office.settings";

    /** A machine that builds other things at the same time is slow. */
    static final double PATIENCE_MILLIS = 120_000;

    static final double USUAL_MILLIS = 5_000;

    private final RunningDesk desk;

    private OpenOffice(RunningDesk desk) {
        this.desk = desk;
    }

    static OpenOffice open(Path folder, String settings) throws IOException {
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MILLIS);
        Files.writeString(folder.resolve(SETTINGS), settings);
        return new OpenOffice(RunningDesk.start(folder, "--demo", "--users", "--settings", SETTINGS));
    }

    RunningDesk desk() {
        return desk;
    }

    /** The password of the first user, which the desk tells once at its start. */
    String firstPassword() {
        Matcher first = FIRST_PASSWORD.matcher(desk.said());
        assertThat(first.find()).as("the first password is told").isTrue();
        return first.group(1);
    }

    /** The first log-in: the password that somebody else knows, then one of one's own. */
    static Page changePassword(Visitor visitor, String name, String password, String own) {
        return changePassword(askedToChange(visitor, name, password), password, own);
    }

    /** Logs in with a password that somebody else knows, and is asked for another one. */
    static Page askedToChange(Visitor visitor, String name, String password) {
        Page page = visitor.at("/log-in");
        page.locator("#name").fill(name);
        page.locator("#password").fill(password);
        press(page, "Log in");
        assertThat(page.locator("main").innerText()).contains("Somebody else knows this password");
        return page;
    }

    /** Answers with a password of one's own. */
    static Page changePassword(Page page, String password, String own) {
        page.locator("#old").fill(password);
        page.locator("#password").fill(own);
        press(page, "Change");
        return page;
    }

    static void press(Page page, String button) {
        Visitor.follow(
                page,
                () -> page.locator("main")
                        .getByRole(
                                AriaRole.BUTTON,
                                new Locator.GetByRoleOptions().setName(button).setExact(true))
                        .click());
    }

    @Override
    public void close() {
        PlaywrightAssertions.setDefaultAssertionTimeout(USUAL_MILLIS);
        desk.close();
    }
}
