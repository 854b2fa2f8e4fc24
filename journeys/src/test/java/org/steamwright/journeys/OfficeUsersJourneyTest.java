package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.SelectOption;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/**
 * An office with users, each at a browser of their own, with password and one-time code, which the office wants of everybody. Each
 * sees and may do what is theirs. One desk serves the tests in their order, as one office serves its users over a day.
 */
@ExtendWith(Chromium.class)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class OfficeUsersJourneyTest {

    private static final Pattern SECRET = Pattern.compile("By hand: ([A-Z2-7 ]+)");
    private static final String FOR_ONCE = "for the first day only";
    private static final long STEP_SECONDS = 30;

    /** What each user has on the telephone, and the last step of which a code was used. */
    private static final Map<String, byte[]> TELEPHONES = new HashMap<>();

    private static final Map<String, Long> USED = new HashMap<>();

    @TempDir
    static Path folder;

    static OpenOffice office;
    static RunningDesk desk;

    @BeforeAll
    static void open() throws IOException {
        office = OpenOffice.open(folder, "second_factor_for = all\n");
        desk = office.desk();
    }

    @AfterAll
    static void close() {
        if (office != null) {
            office.close();
        }
    }

    /** The first log-in: password, a new one, and the second factor. */
    private static void comeIn(Visitor visitor, String name, String password) {
        boolean isFirst = TELEPHONES.isEmpty();
        if (isFirst) {
            holds(visitor.at("/log-in"));
        }
        Page page = OpenOffice.askedToChange(visitor, name, password);
        if (isFirst) {
            holds(page);
        }
        OpenOffice.changePassword(page, password, own(name));
        assertThat(page.locator("main")).containsText("Your office wants a second factor");
        if (isFirst) {
            holds(page);
        }
        visitor.at("/today");
        assertThat(page).hasURL(Pattern.compile(".*/log-in"));
        Matcher secret = SECRET.matcher(page.locator("main").innerText());
        assertThat(secret.find()).as("the secret by hand").isTrue();
        TELEPHONES.put(name, bytes(secret.group(1)));
        page.locator("#code").fill(code(name));
        OpenOffice.press(page, "Take into use");
        assertThat(page.locator("ul.codes li")).hasCount(8);
        if (isFirst) {
            holds(page);
        }
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("I have them on paper"))
                .click();
        page.waitForURL(url -> !url.contains("/log-in"));
    }

    /** Any later log-in. */
    private static Page logIn(Visitor visitor, String name) {
        Page page = visitor.at("/log-in");
        page.locator("#name").fill(name);
        page.locator("#password").fill(own(name));
        OpenOffice.press(page, "Log in");
        page.locator("#code").fill(code(name));
        OpenOffice.press(page, "Log in");
        assertThat(page.locator(".who")).containsText(name);
        return page;
    }

    /** A page that only its user can reach holds as every page does; with the keyboard, by night, folds opened. */
    private static void holds(Page page) {
        assertThat(Inspection.ofWhatIsThere(page)).isEmpty();
    }

    private static String own(String name) {
        return "tray under " + name + " lamp";
    }

    private static byte[] bytes(String typed) {
        String letters = typed.replace(" ", "");
        byte[] bytes = new byte[letters.length() * 5 / 8];
        for (int i = 0; i < bytes.length * 8; i++) {
            int value = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(letters.charAt(i / 5));
            if ((value >> (4 - i % 5) & 1) == 1) {
                bytes[i / 8] |= (byte) (1 << (7 - i % 8));
            }
        }
        return bytes;
    }

    /**
     * The code of a step that was not used yet: a desk takes one step before and after, and each code once.
     *
     * @source RFC 6238, 4; RFC 4226, 5.3
     */
    private static String code(String name) {
        long now = Instant.now().getEpochSecond() / STEP_SECONDS;
        long step = Math.max(USED.getOrDefault(name, 0L) + 1, now - 1);
        USED.put(name, step);
        try {
            Mac mac = Mac.getInstance("HmacSHA1");
            mac.init(new SecretKeySpec(TELEPHONES.getOrDefault(name, new byte[1]), "HmacSHA1"));
            byte[] hash = mac.doFinal(ByteBuffer.allocate(8).putLong(step).array());
            int at = hash[hash.length - 1] & 0xf;
            int number = ByteBuffer.wrap(hash).getInt(at) & 0x7fff_ffff;
            String digits = "00000" + number % 1_000_000;
            return digits.substring(digits.length() - 6);
        } catch (GeneralSecurityException missing) {
            throw new IllegalStateException(missing);
        }
    }

    private static int status(Visitor visitor, String path) {
        Response answer = visitor.page().navigate(desk.origin() + path);
        return answer.status();
    }

    /** The browser notes refusals that a test asks for; everything else is a complaint. */
    private static void noComplaintsBut(Visitor visitor, String expected) {
        assertThat(visitor.takeComplaints()).allMatch(complaint -> complaint.contains(expected));
    }

    @Test
    @Order(1)
    void the_office_comes_in_and_adds_its_users(Browser browser) {
        try (Visitor first = new Visitor(browser, desk)) {
            comeIn(first, "office", office.firstPassword());
            Page page = first.at("/users");
            for (String[] user : new String[][] {
                {"Alex Sample (invented)", "technician"},
                {"Robin Sample (invented)", "technician"},
                {"Lee Sample (invented)", "reviewer"},
                {"Nurse Sample (invented)", "clinic"}
            }) {
                page.locator("#name").fill(user[0]);
                page.locator("#role").selectOption(user[1]);
                if (user[1].equals("clinic")) {
                    page.locator("#clinic").selectOption(new SelectOption().setIndex(1));
                }
                page.locator("#password").fill(FOR_ONCE);
                OpenOffice.press(page, "Add a user");
                assertThat(page.locator("main h3", new Page.LocatorOptions().setHasText(user[0])))
                        .hasCount(1);
            }
            assertThat(page.locator("main")).containsText("Has to set up a second factor at the next log-in");
            for (String own : List.of("/users", "/users/log", "/account")) {
                holds(first.at(own));
            }
            noComplaintsBut(first, "nothing");
        }
        for (String name : List.of(
                "Alex Sample (invented)",
                "Robin Sample (invented)",
                "Lee Sample (invented)",
                "Nurse Sample (invented)")) {
            try (Visitor user = new Visitor(browser, desk)) {
                comeIn(user, name, FOR_ONCE);
                noComplaintsBut(user, "nothing");
            }
        }
    }

    @Test
    @Order(2)
    void a_technician_writes_visits_and_reaches_neither_users_nor_reviews(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            logIn(visitor, "Alex Sample (invented)");
            Sheet.begin(visitor, "J-OFFICE").enter("Your company", "Sample Service (invented)");
            assertThat(status(visitor, "/users")).isEqualTo(403);
            assertThat(status(visitor, "/users/log.csv")).isEqualTo(403);
            holds(visitor.page());
            noComplaintsBut(visitor, "status of 403");
        }
    }

    @Test
    @Order(3)
    void a_reviewer_reads_a_visit_and_writes_none(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = logIn(visitor, "Lee Sample (invented)");
            visitor.at("/review");
            Locator waiting = page.locator("main a[href^='/review/']")
                    .filter(new Locator.FilterOptions().setHasText("DEMO-"))
                    .first();
            assertThat(waiting).isVisible();
            holds(visitor.at(waiting.getAttribute("href")));
            assertThat(page.locator("main button[value=approve]")).isVisible();
            visitor.at("/visits");
            assertThat(page.getByLabel("Report number")).hasCount(0);
            page.locator("main a[href^='/visits/']")
                    .filter(new Locator.FilterOptions().setHasText("J-OFFICE"))
                    .first()
                    .click();
            page.waitForURL(url -> url.matches(".*/visits/[^/]+"));
            visitor.at(page.url().substring(desk.origin().length()) + "/identity");
            assertThat(page.locator("main")).containsText("Your role reads this visit");
            assertThat(page.getByLabel("Your company", new Page.GetByLabelOptions().setExact(true))
                            .first())
                    .isDisabled();
            assertThat(status(visitor, "/users")).isEqualTo(403);
            noComplaintsBut(visitor, "status of 403");
        }
    }

    @Test
    @Order(4)
    void a_reviewer_approves_one_visit_and_sends_another_back_and_the_technician_reads_why(Browser browser) {
        String why = "The second loaded run wants a word about its slow pack (invented)";
        List<String> answered = new ArrayList<>();
        try (Visitor reviewer = new Visitor(browser, desk)) {
            Page page = logIn(reviewer, "Lee Sample (invented)");
            for (String answer : List.of("Approve", "Send back")) {
                reviewer.at("/review");
                answered.add(page.locator("main a[href^='/review/']")
                        .filter(new Locator.FilterOptions().setHasText("DEMO-"))
                        .nth(answered.size())
                        .getAttribute("href"));
                reviewer.at(answered.get(answered.size() - 1));
                page.locator("#why")
                        .fill(answer.equals("Approve") ? "Its open points do not touch the verdict (invented)" : why);
                page.locator("main")
                        .getByRole(
                                AriaRole.BUTTON,
                                new Locator.GetByRoleOptions().setName(answer).setExact(true))
                        .click();
                page.waitForURL(url -> url.endsWith("/review"));
            }
            noComplaintsBut(reviewer, "nothing");
        }
        try (Visitor technician = new Visitor(browser, desk)) {
            Page page = logIn(technician, "Alex Sample (invented)");
            technician.at(answered.get(0));
            assertThat(page.locator("main")).containsText("approved");
            technician.at(answered.get(1));
            assertThat(page.locator("main")).containsText("sent back");
            assertThat(page.locator("main")).containsText(why);
            assertThat(page.locator("main button[value=approve]")).hasCount(0);
            noComplaintsBut(technician, "nothing");
        }
    }

    @Test
    @Order(5)
    void a_clinic_sees_its_own_page_and_nothing_of_the_office(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = logIn(visitor, "Nurse Sample (invented)");
            assertThat(page).hasURL(Pattern.compile(".*/clinic/.+"));
            assertThat(page.locator("header nav a")).hasCount(1);
            holds(page);
            page.locator("main a[href$='/load']").click();
            page.waitForURL(url -> url.endsWith("/load"));
            holds(page);
            for (String path : List.of("/today", "/visits", "/due", "/register", "/review", "/users")) {
                assertThat(status(visitor, path)).as(path).isEqualTo(403);
            }
            noComplaintsBut(visitor, "status of 403");
        }
    }

    @Test
    @Order(6)
    void two_technicians_on_one_visit_overwrite_nothing_of_each_other(Browser browser) {
        try (Visitor alex = new Visitor(browser, desk);
                Visitor robin = new Visitor(browser, desk)) {
            logIn(alex, "Alex Sample (invented)");
            Sheet first = Sheet.begin(alex, "J-TOGETHER");
            logIn(robin, "Robin Sample (invented)");
            robin.at(first.path() + "/identity");
            Sheet second = Sheet.on(robin.page());
            first.enter("Your company", "Alex was here (invented)");
            second.type("Your company", "Robin was here (invented)");
            assertThat(second.around("Your company").locator(".problem"))
                    .containsText("Alex was here (invented)", Sheet.soon());
            second.shows("Your company", "Robin was here (invented)");
            second.enter("Reason of the visit", "moved (invented)");
            first.page().reload();
            first.shows("Your company", "Alex was here (invented)").shows("Reason of the visit", "moved (invented)");
            noComplaintsBut(alex, "nothing");
        }
    }

    @Test
    @Order(7)
    void a_session_that_the_office_ends_is_told_and_loses_nothing(Browser browser) {
        try (Visitor robin = new Visitor(browser, desk);
                Visitor office = new Visitor(browser, desk)) {
            logIn(robin, "Robin Sample (invented)");
            Sheet sheet = Sheet.begin(robin, "J-SESSION").enter("Your company", "Sample Service (invented)");
            Page users = logIn(office, "office");
            office.at("/users");
            Locator entry =
                    users.locator("ol.entries > li", new Page.LocatorOptions().setHasText("Robin Sample (invented)"));
            entry.locator("summary").click();
            Visitor.follow(
                    users,
                    () -> entry.locator("form[action$='/sessions'] button").click());
            sheet.type("Reason of the visit", "typed too late (invented)");
            assertThat(sheet.notSaved()).containsText("your session has ended", Sheet.soon());
            sheet.shows("Reason of the visit", "typed too late (invented)");
            robin.at("/today");
            assertThat(robin.page()).hasURL(Pattern.compile(".*/log-in"));
            noComplaintsBut(robin, "403");
            logIn(robin, "Robin Sample (invented)");
            robin.at(sheet.path() + "/identity");
            Sheet.on(robin.page()).shows("Your company", "Sample Service (invented)");

            office.at("/users/log");
            assertThat(users.locator("main")).containsText("granted with code");
            assertThat(users.locator("main")).containsText("sessions ended");
        }
    }

    @Test
    @Order(8)
    void logging_out_leaves_nothing_behind(Browser browser) {
        try (Visitor visitor = new Visitor(browser, desk)) {
            Page page = logIn(visitor, "Lee Sample (invented)");
            visitor.at("/account");
            OpenOffice.press(page, "Log out");
            page.goBack();
            page.reload();
            assertThat(page).hasURL(Pattern.compile(".*/log-in"));
        }
    }
}
