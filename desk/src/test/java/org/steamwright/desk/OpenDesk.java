package org.steamwright.desk;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.shelf.Alarms;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.filing.DueInRecord;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/** A desk that is open for one test, and a browser without a screen that keeps its cookies. */
public final class OpenDesk implements AutoCloseable {

    /** The day on which tests take place. */
    public static final Instant NOW = Instant.parse("2026-08-03T07:30:00Z");

    private static final Pattern TOKEN = Pattern.compile("<meta name=\"token\" content=\"([^\"]+)\"");

    static {
        Logger.getLogger("").setLevel(Level.WARNING);
    }

    private final Records records;
    private final DeskServer server;
    private final HttpClient browser = HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();

    private OpenDesk(Records records, Path scratch, Doorkeeper doorkeeper) throws IOException {
        this.records = records;
        Office office = Office.with(records);
        this.server = DeskServer.start(new DeskServer.Setup.Maker(Desk.routes(office), doorkeeper, scratch)
                .isInvented(() -> records.subjects(Kind.VISIT, 1).stream()
                        .anyMatch(visit -> visit.text("simulated").equals("true")))
                .alarm(() -> Alarms.of(office))
                .make());
    }

    /** A desk with an empty record in that folder. */
    public static OpenDesk empty(Path folder) throws IOException {
        Records records = Records.open(
                Place.folder(folder.resolve("record")), Clock.fixed(NOW, ZoneOffset.UTC), DueInRecord.RULE);
        return new OpenDesk(records, folder, Doorkeeper.single("Alex Sample (invented)"));
    }

    /** A desk with a record that a test has made; it is closed with the desk. */
    public static OpenDesk with(Records records, Path folder) throws IOException {
        return new OpenDesk(records, folder, Doorkeeper.single("Alex Sample (invented)"));
    }

    /** A desk with the invented year. */
    public static OpenDesk demo(Path folder) throws IOException {
        Records records = Records.open(
                Place.folder(folder.resolve("record")), Clock.fixed(NOW, ZoneOffset.UTC), DueInRecord.RULE);
        DemoRecord.fill(records, folder);
        return new OpenDesk(records, folder, Doorkeeper.single("Alex Sample (invented)"));
    }

    /** Its record. */
    public Records records() {
        return records;
    }

    /** Address of a path. */
    public URI address(String path) {
        return URI.create("http://127.0.0.1:" + server.port() + path);
    }

    /** Looks at a page. */
    public HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return send(HttpRequest.newBuilder(address(path)));
    }

    /** Sends a form as the desk's own page would, with the token of the session. */
    public HttpResponse<String> post(String path, Map<String, String> typed) throws IOException, InterruptedException {
        return send(form(path, typed).header("X-Token", token()));
    }

    /** A form without a token, to be made worse by a test. */
    public HttpRequest.Builder form(String path, Map<String, String> typed) {
        String body = typed.entrySet().stream()
                .map(field -> encoded(field.getKey()) + "=" + encoded(field.getValue()))
                .collect(Collectors.joining("&"));
        return HttpRequest.newBuilder(address(path))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(body));
    }

    /** Sends what a test has put together. */
    public HttpResponse<String> send(HttpRequest.Builder request) throws IOException, InterruptedException {
        return browser.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    /** The token of this browser's session. */
    public String token() throws IOException, InterruptedException {
        Matcher token = TOKEN.matcher(get("/nowhere").body());
        if (!token.find()) {
            throw new AssertionError("the page has no token");
        }
        return token.group(1);
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }

    @Override
    public void close() throws IOException {
        server.close();
        records.close();
    }
}
