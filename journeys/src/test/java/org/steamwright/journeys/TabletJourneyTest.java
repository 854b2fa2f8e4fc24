package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.BoundingBox;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.tablet.LocalNetwork;

/**
 * A tablet beside the steriliser: let in with a code over an encrypted line, then a visit by touch from its beginning to its
 * signature.
 */
@ExtendWith(Chromium.class)
class TabletJourneyTest {

    private static final String SECRET = "five small kettles sing";
    private static final int WIDTH = 820;
    private static final int HEIGHT = 1180;

    @TempDir
    Path folder;

    private Page tablet;

    @BeforeAll
    static void bePatient() {
        PlaywrightAssertions.setDefaultAssertionTimeout(OpenOffice.PATIENCE_MILLIS);
    }

    @AfterAll
    static void beAsUsual() {
        PlaywrightAssertions.setDefaultAssertionTimeout(OpenOffice.USUAL_MILLIS);
    }

    @Test
    void is_let_in_by_a_code_and_writes_a_visit_from_new_to_signed(Browser browser) throws Exception {
        List<String> addresses = LocalNetwork.addresses();
        assumeFalse(addresses.isEmpty(), "this machine is in no network, so no tablet could reach it");
        int port = freePort();
        String origin = "https://" + addresses.get(0) + ":" + port;
        try (RunningDesk desk = RunningDesk.record(folder, "--tablet", "--tablet-port", String.valueOf(port));
                Visitor laptop = new Visitor(browser, desk);
                Visitor visitor = new Visitor(
                        browser,
                        origin,
                        new Browser.NewContextOptions()
                                .setViewportSize(WIDTH, HEIGHT)
                                .setHasTouch(true)
                                .setIgnoreHTTPSErrors(true))) {
            tablet = visitor.page();
            comeIn(laptop, visitor, origin);
            begin(visitor);
            String visit = tablet.url().replaceFirst("https?://[^/]+", "").replaceFirst("/identity.*", "");
            fact("sterilizers/1/name-plate/serial", "EX-9001");
            fact("company", "Sample Service (invented)");
            fact("sterilizers/1/maker", "Sample Works (invented)");
            fact("sterilizers/1/model", "S-17");
            fact("sterilizers/1/chamber", "17 L");
            tap("Add a cycle that is in use");
            fact("sterilizers/1/cycles/1/name", "134 wrapped");
            fact("sterilizers/1/cycles/1/sterilizing-temperature", "134 °C");
            fact("sterilizers/1/cycles/1/holding-time", "3 min 30 s");
            go("As found");
            fact("conditions/barometer", "1004 hPa");
            go("Runs (OQ and PQ)");
            tap("Add: reference load, steriliser A");
            assertThat(tablet.locator("main a[href$='/runs/1/recordings']")).isVisible();
            record(visitor, visit);
            visitor.at(visit + "/load");
            fact("runs/1/load/description", "Five pouches of invented instruments");
            fact("runs/1/load/agreed-by", "Lee Placeholder (invented)");
            photograph();
            drawSignature();
            visitor.at(visit + "/close");
            assertThat(tablet.locator("main .verdict.incomplete")).isVisible();
            sign(visit, visitor);
            assertThat(visitor.takeComplaints()).isEmpty();
        }
    }

    /** The code of the laptop opens, another one does not; the fingerprint that both show is that of the line itself. */
    private void comeIn(Visitor laptop, Visitor visitor, String origin) throws Exception {
        visitor.at("/today");
        assertThat(tablet).hasURL(origin + "/tablet/enter");
        Page page = laptop.at("/tablet");
        assertThat(page.locator("main")).containsText(origin);
        OpenOffice.press(page, "Show a code");
        String code = page.locator(".code").innerText();
        String fingerprint = plain(page.locator(".digits").innerText());
        assertThat(fingerprint).isEqualTo(fingerprintOf(URI.create(origin)));
        assertThat(plain(tablet.locator(".digits").innerText())).isEqualTo(fingerprint);
        holds(page);
        holds(tablet);

        enter("00000000");
        assertThat(tablet.getByRole(AriaRole.ALERT)).containsText("That code does not open");
        holds(tablet);
        assertThat(visitor.takeComplaints()).allMatch(complaint -> complaint.contains("status of 422"));
        enter(code);
        assertThat(tablet).hasURL(origin + "/today");
        laptop.at("/tablet");
        assertThat(page.locator("main")).containsText("Tablet in the van (invented)");
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    /** Where a tablet is let in holds as every page does; then the tablet is a tablet again. */
    private void holds(Page page) {
        assertThat(Inspection.ofWhatIsThere(page)).isEmpty();
        if (page == tablet) {
            page.setViewportSize(WIDTH, HEIGHT);
        }
    }

    private void enter(String code) {
        write("Code from the laptop", code);
        write("Name of this tablet, for the list on the laptop", "Tablet in the van (invented)");
        tap("Let in");
    }

    private void begin(Visitor visitor) {
        visitor.at("/visits");
        write("Report number", "J-TOUCH");
        write("The clinic", "Example Clinic (invented)");
        write("Serial number", "EX-9001");
        write("Time zone of the site", "Australia/Adelaide");
        tap("Begin");
        tablet.waitForURL(url -> url.endsWith("/identity"));
    }

    private void record(Visitor visitor, String visit) throws IOException {
        StringBuilder rows = new StringBuilder(UsualRows.HEAD.substring(UsualRows.HEAD.indexOf('\n') + 1));
        for (int row = 0; row < UsualRows.OF_ONE_CYCLE; row++) {
            rows.append(UsualRows.line(row));
        }
        Path file = Files.writeString(folder.resolve("run-1.csv"), rows);
        visitor.at(visit + "/runs/1/recordings");
        tablet.waitForResponse(
                answer ->
                        answer.request().method().equals("GET") && answer.url().contains("/recordings"),
                () -> tablet.locator("#recording").setInputFiles(file));
        assertThat(tablet.locator("main")).containsText("run-1.csv");
        List<String> roles = List.of("reference-point", "free-chamber", "load", "load", "challenge-pack", "pressure");
        for (int column = 0; column < roles.size(); column++) {
            Locator role = tablet.locator("select[name=role-" + column + "]");
            String said = roles.get(column);
            tablet.waitForResponse(
                    answer -> answer.request().method().equals("POST")
                            && answer.url().endsWith("/channels"),
                    () -> role.selectOption(said));
        }
        assertThat(tablet.locator("#kept-columns-0")).containsText("Saved");
    }

    private void photograph() throws IOException {
        Path photo = folder.resolve("load.png");
        ImageIO.write(new BufferedImage(640, 480, BufferedImage.TYPE_INT_RGB), "png", photo.toFile());
        // taken is sent: there is nothing more to touch
        tablet.locator("input[type=file][name=photo]").first().setInputFiles(photo);
        assertThat(tablet.locator("form[action$='/photo-removals'] button")).isVisible();
    }

    /** A finger that goes over the pad, as the browser tells of it. */
    private void drawSignature() {
        Locator pad = tablet.locator(".pad canvas");
        pad.scrollIntoViewIfNeeded();
        BoundingBox box = pad.boundingBox();
        CDPSession fingers = tablet.context().newCDPSession(tablet);
        for (int i = 0; i <= 8; i++) {
            touch(fingers, i == 0 ? "touchStart" : "touchMove", box.x + 40 + i * 30, box.y + 40 + (i % 2) * 60);
        }
        fingers.send("Input.dispatchTouchEvent", touches("touchEnd", new JsonArray()));
        fingers.detach();
        assertThat(tablet.locator("input[name=strokes]")).hasValue(Pattern.compile("(\\d+,\\d+ ?){9}"));
        // the touches of the stroke were made beside the page, so its next tap may still be taken for part of them: a
        // click is not
        tablet.locator("main button", new Page.LocatorOptions().setHasText("Keep this signature"))
                .click();
        assertThat(tablet.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("The signature")))
                .isVisible();
    }

    /** An own secret, then the signature with it; nothing of the visit changes from then on. */
    private void sign(String visit, Visitor visitor) {
        Locator own = tablet.locator("form[action$='/keys']");
        own.locator("input[name=secret]").fill(SECRET);
        own.locator("input[name=again]").fill(SECRET);
        own.locator("button").tap();
        Locator signing = tablet.locator("form[action$='/signatures']");
        signing.locator("input[name=secret]").fill(SECRET);
        signing.locator("button").tap();
        assertThat(signing).hasCount(0);
        visitor.at(visit + "/identity");
        assertThat(tablet.locator("main form.field [name=value]:not([disabled])"))
                .hasCount(0);
    }

    private static void touch(CDPSession fingers, String what, double x, double y) {
        JsonObject point = new JsonObject();
        point.addProperty("x", x);
        point.addProperty("y", y);
        JsonArray points = new JsonArray();
        points.add(point);
        fingers.send("Input.dispatchTouchEvent", touches(what, points));
    }

    private static JsonObject touches(String what, JsonArray points) {
        JsonObject event = new JsonObject();
        event.addProperty("type", what);
        event.add("touchPoints", points);
        return event;
    }

    /** A finger on a field, then the keys of the tablet. */
    private void write(String label, String value) {
        Locator field = tablet.getByLabel(label, new Page.GetByLabelOptions().setExact(true))
                .first();
        field.tap();
        assertThat(field).isFocused();
        field.fill("");
        tablet.keyboard().type(value);
    }

    private void fact(String path, String value) {
        Locator form = tablet.locator("form.field:has(input[name=path][value='" + path + "'])");
        Locator field = form.locator("[name=value]");
        field.tap();
        field.fill("");
        tablet.keyboard().type(value);
        tablet.locator("h1").tap();
        assertThat(form.locator(".saved")).containsText("Saved", Sheet.soon());
    }

    private void go(String stage) {
        Visitor.follow(
                tablet,
                () -> tablet.locator("nav.stages")
                        .getByRole(
                                AriaRole.LINK,
                                new Locator.GetByRoleOptions().setName(stage).setExact(true))
                        .tap());
    }

    private void tap(String button) {
        // a control to choose files is a button by its role, too
        Visitor.follow(
                tablet,
                () -> tablet.locator("main button", new Page.LocatorOptions().setHasText(button))
                        .first()
                        .tap());
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    private static String plain(String digits) {
        return digits.replaceAll("[^0-9A-Fa-f]", "").toLowerCase(Locale.ROOT);
    }

    /** SHA-256 of the certificate that the other end of the line shows, whoever has signed it. */
    private static String fingerprintOf(URI address) throws Exception {
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, new TrustManager[] {new Anybody()}, null);
        try (SSLSocket socket =
                (SSLSocket) context.getSocketFactory().createSocket(address.getHost(), address.getPort())) {
            socket.startHandshake();
            Certificate shown = socket.getSession().getPeerCertificates()[0];
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(shown.getEncoded()));
        }
    }

    /** Only looks at what is shown; nothing is sent over such a line. */
    private static final class Anybody implements X509TrustManager {
        @Override
        public void checkClientTrusted(X509Certificate[] chain, String kind) {}

        @Override
        public void checkServerTrusted(X509Certificate[] chain, String kind) {}

        @Override
        public X509Certificate[] getAcceptedIssuers() {
            return new X509Certificate[0];
        }
    }
}
