package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.Desk;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.Rules;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.DueInRecord;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.AccountBook;

/** An office with users that is open for one test, and browsers without a screen, each with its own cookies. */
final class OpenOffice implements AutoCloseable {

    private static final Pattern BY_HAND = Pattern.compile("By hand: ([A-Z2-7 ]+)");

    static final String PASSWORD = "basket over pouch";

    /** Made once, because a hash of a password is slow on purpose. */
    private static final String HASH = new PasswordHash().of(PASSWORD.toCharArray());

    private static final Pattern TOKEN = Pattern.compile("name=\"token\" content=\"([^\"]+)\"");

    static {
        Logger.getLogger("").setLevel(Level.WARNING);
    }

    final HandClock clock = new HandClock();
    final Records records;
    final LogIns logIns;
    final SubjectId clinic;
    final SubjectId otherClinic;
    final List<Route> routes;
    private final DeskServer server;

    OpenOffice(Path folder) throws IOException {
        this(folder, OfficeSettings.USUAL);
    }

    OpenOffice(Path folder, OfficeSettings settings) throws IOException {
        records = Records.open(Place.folder(folder.resolve("record")), clock, DueInRecord.RULE);
        logIns = new LogIns(new AccountBook(records), SecretBox.open(folder.resolve("accounts.key")), clock, settings);
        Office office = Office.with(records, new Rules(true, settings.isSignedOnlyWhenApproved()));
        clinic = clinic("Example Dental (invented)");
        otherClinic = clinic("Sample Podiatry (invented)");
        for (Role role : Role.values()) {
            user(role.word(), role);
        }
        routes = new ArrayList<>(Desk.routes(office));
        routes.addAll(AccountRoutes.users(logIns, office));
        server = DeskServer.start(
                new DeskServer.Setup.Maker(routes, new AccountDoorkeeper(logIns, clock), folder).make());
    }

    /** The secret of one-time codes that a page tells for typing by hand. */
    static byte[] secret(String page) {
        Matcher secret = BY_HAND.matcher(page);
        assertThat(secret.find()).isTrue();
        String letters = secret.group(1).replace(" ", "");
        byte[] bytes = new byte[letters.length() * 5 / 8];
        for (int i = 0; i < bytes.length * 8; i++) {
            int value = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(letters.charAt(i / 5));
            if ((value >> (4 - i % 5) & 1) == 1) {
                bytes[i / 8] |= (byte) (1 << (7 - i % 8));
            }
        }
        return bytes;
    }

    private SubjectId clinic(String name) {
        SubjectId id = records.newSubject();
        records.append(
                new Author("Kim Sample (invented)", "office"), List.of(Change.set(Kind.CLINIC, id, "name", name)));
        return id;
    }

    /** A user whose password is known to nobody else. */
    String user(String name, Role role) {
        logIns.add(name, role.word(), role == Role.CLINIC ? clinic.toString() : "", "", "test");
        String id = logIns.book().find(name).orElseThrow().id();
        logIns.book().change(id, account -> account.withPassword(HASH, false, clock.instant()));
        return id;
    }

    URI address(String path) {
        return URI.create("http://127.0.0.1:" + server.port() + path);
    }

    int port() {
        return server.port();
    }

    Browser browser() {
        return new Browser();
    }

    /** A browser in which that user is logged in. */
    Browser as(String name) throws IOException, InterruptedException {
        Browser browser = browser();
        HttpResponse<String> answer = browser.post("/log-in", Map.of("name", name, "password", PASSWORD));
        if (answer.statusCode() != 303) {
            throw new AssertionError("not let in: " + answer.body());
        }
        return browser;
    }

    @Override
    public void close() throws IOException {
        server.close();
        records.close();
    }

    final class Browser {

        final CookieManager cookies = new CookieManager();
        private final HttpClient client = HttpClient.newBuilder()
                .cookieHandler(cookies)
                .followRedirects(HttpClient.Redirect.NEVER)
                .build();

        HttpResponse<String> get(String path) throws IOException, InterruptedException {
            return send(HttpRequest.newBuilder(address(path)));
        }

        HttpResponse<String> post(String path, Map<String, String> typed) throws IOException, InterruptedException {
            return send(form(path, typed).header("X-Token", token()));
        }

        HttpRequest.Builder form(String path, Map<String, String> typed) {
            String body = typed.entrySet().stream()
                    .map(field -> URLEncoder.encode(field.getKey(), StandardCharsets.UTF_8) + "="
                            + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
                    .collect(Collectors.joining("&"));
            return HttpRequest.newBuilder(address(path))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(body));
        }

        HttpResponse<String> send(HttpRequest.Builder request) throws IOException, InterruptedException {
            try {
                return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
            } catch (IOException closed) {
                // the server hangs up on a refused change whose body it did not read, maybe while the next one is on
                // its way
                return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
            }
        }

        String token() throws IOException, InterruptedException {
            Matcher token = TOKEN.matcher(get("/log-in").body());
            if (!token.find()) {
                token = TOKEN.matcher(get("/nowhere").body());
                if (!token.find()) {
                    throw new AssertionError("no page has a token");
                }
            }
            return token.group(1);
        }

        String sessionCookie() {
            return cookies.getCookieStore().getCookies().stream()
                    .filter(cookie -> cookie.getName().equals("steamwright-session"))
                    .findFirst()
                    .map(cookie -> cookie.getValue())
                    .orElse("");
        }
    }
}
