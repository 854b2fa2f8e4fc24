package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.web.Method;
import org.steamwright.desk.web.Route;

/** Changes that a page elsewhere would make in the name of somebody who is logged in: none gets through. */
class ForgedRequestsTest {

    @TempDir
    private Path folder;

    /** A way to forge: what is done to a good request. */
    private record Forgery(String name, boolean hasToken, UnaryOperator<HttpRequest.Builder> worse) {}

    private static final List<Forgery> FORGERIES = List.of(
            new Forgery("no token", false, request -> request),
            new Forgery("an empty token", false, request -> request.header("X-Token", "")),
            new Forgery("a made-up token", false, request -> request.header("X-Token", "0123456789abcdef")),
            new Forgery(
                    "another page's origin", true, request -> request.header("Origin", "https://elsewhere.example")),
            new Forgery(
                    "the same host by another scheme", true, request -> request.header("Origin", "https://127.0.0.1")),
            new Forgery("an origin that hides", true, request -> request.header("Origin", "null")),
            new Forgery("another site", true, request -> request.header("Sec-Fetch-Site", "cross-site")),
            new Forgery("a sister site", true, request -> request.header("Sec-Fetch-Site", "same-site")));

    @Test
    void no_forged_change_is_made_in_200_attempts() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser user = office.as("office");
            OpenOffice.Browser other = office.as("reviewer");
            String token = user.token();
            String strange = other.token();
            long before = office.records.head().tree().size();
            List<String> through = new ArrayList<>();
            int tried = 0;
            List<Route> changes = office.routes.stream()
                    .filter(route -> route.method() == Method.POST)
                    .toList();
            for (Route route : changes) {
                String path = route.pattern().replaceAll("\\{[a-z]+}", "nothing");
                for (Forgery forgery : FORGERIES) {
                    HttpRequest.Builder request = user.form(path, Map.of("what", "forged", "owner", "forged"));
                    tried += tried(through, user, forgery, request, token, route);
                }
                tried++;
                HttpRequest.Builder request = user.form(path, Map.of("what", "forged", "owner", "forged"));
                if (user.send(request.header("X-Token", strange)).statusCode() != 403) {
                    through.add(route.pattern() + " with the token of somebody else");
                }
                for (String host :
                        List.of("elsewhere.example", "127.0.0.1", "127.0.0.1.elsewhere.example:" + office.port())) {
                    tried++;
                    if (!raw(office, path, host, token, user.sessionCookie()).contains(" 403 ")) {
                        through.add(route.pattern() + " sent to " + host);
                    }
                }
                tried++;
                if (get(user, path + "?what=forged&owner=forged&token=" + token) < 300
                        && office.records.head().tree().size() != before) {
                    through.add(route.pattern() + " as a mere link");
                }
            }
            assertThat(through).isEmpty();
            assertThat(tried).isGreaterThanOrEqualTo(200);
            assertThat(office.records.head().tree().size())
                    .as("nothing was written")
                    .isEqualTo(before);
            assertThat(user.get("/users").statusCode())
                    .as("the user is still in")
                    .isEqualTo(200);
        }
    }

    private static int tried(
            List<String> through,
            OpenOffice.Browser user,
            Forgery forgery,
            HttpRequest.Builder request,
            String token,
            Route route)
            throws IOException, InterruptedException {
        if (forgery.hasToken) {
            request.header("X-Token", token);
        }
        if (user.send(forgery.worse.apply(request)).statusCode() != 403) {
            through.add(route.pattern() + " with " + forgery.name);
        }
        return 1;
    }

    private static int get(OpenOffice.Browser user, String path) throws IOException, InterruptedException {
        return user.get(path).statusCode();
    }

    /** By hand, because a good client does not let a wrong host be said. */
    private static String raw(OpenOffice office, String path, String host, String token, String session)
            throws IOException {
        Function<String, String> line = text -> text + "\r\n";
        String body = "what=forged";
        try (Socket socket = new Socket("127.0.0.1", office.port())) {
            socket.getOutputStream()
                    .write((line.apply("POST " + path + " HTTP/1.1")
                                    + line.apply("Host: " + host)
                                    + line.apply("Cookie: steamwright-session=" + session)
                                    + line.apply("X-Token: " + token)
                                    + line.apply("Content-Type: application/x-www-form-urlencoded")
                                    + line.apply("Content-Length: " + body.length())
                                    + line.apply("Connection: close")
                                    + line.apply("")
                                    + body)
                            .getBytes(StandardCharsets.US_ASCII));
            return String.valueOf(
                    new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII))
                            .readLine());
        }
    }
}
