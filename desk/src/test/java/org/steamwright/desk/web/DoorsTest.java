package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a visitor costs before anybody knows who it is, a disk that fills, and answers that break. */
class DoorsTest {

    private static final Set<Role> STAFF = Set.of(Role.OFFICE);

    @TempDir
    private Path folder;

    private DeskServer server;
    private final HttpClient client =
            HttpClient.newBuilder().cookieHandler(new CookieManager()).build();

    @AfterEach
    void close() throws IOException {
        if (server != null) {
            server.close();
        }
    }

    /** Who says 'user' in a header is one; everybody else is a stranger. */
    private static final class Keeper implements Doorkeeper {

        private final Optional<Limits> limits;

        Keeper(Map<Limit, Long> limits) {
            this.limits = Optional.of(new Limits(limits, Clock.systemUTC()));
        }

        @Override
        public Person person(HttpServletRequest request) {
            String said = Optional.ofNullable(request.getHeader("X-Said")).orElse("");
            if (said.equals("broken")) {
                throw new IllegalStateException("a test breaks the doorkeeper");
            }
            return said.equals("user") ? new Person("Kim Sample (invented)", STAFF, Optional.empty()) : Person.STRANGER;
        }

        @Override
        public Optional<String> signIn(HttpServletRequest request) {
            return Optional.of("/open");
        }

        @Override
        public Optional<Limits> limits() {
            return limits;
        }
    }

    private void open(Map<Limit, Long> limits, FreeDisk disk, Route... routes) throws IOException {
        server = DeskServer.start(new DeskServer.Setup.Maker(List.of(routes), new Keeper(limits), folder)
                .publicAddress(Optional.of(URI.create("http://Desk.Example")))
                .disk(disk)
                .make());
    }

    private HttpResponse<byte[]> send(HttpClient who, String path, String said) throws Exception {
        return who.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path))
                        .header("X-Said", said)
                        .build(),
                HttpResponse.BodyHandlers.ofByteArray());
    }

    private static Reply seconds(Ask ask) {
        int seconds = Optional.ofNullable(ask.request().getSession(false))
                .map(session -> session.getMaxInactiveInterval())
                .orElse(0);
        return new Reply.Attachment(
                "text/plain", out -> out.write(("" + seconds).getBytes(StandardCharsets.US_ASCII)), Optional.empty());
    }

    private static boolean setsCookie(HttpResponse<byte[]> answer) {
        return answer.headers().firstValue("Set-Cookie").isPresent();
    }

    @Test
    void a_stranger_gets_a_short_session_where_one_is_needed_and_none_elsewhere() throws Exception {
        open(
                Map.of(),
                new FreeDisk(() -> Long.MAX_VALUE, 0),
                Route.get("/open", Set.of(), DoorsTest::seconds),
                Route.get("/closed", STAFF, DoorsTest::seconds));
        HttpResponse<byte[]> nowhere = send(client, "/nowhere", "");
        assertThat(nowhere.statusCode()).isEqualTo(404);
        assertThat(setsCookie(nowhere)).as("for what is not there").isFalse();
        HttpResponse<byte[]> closed = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + "/closed"))
                                .build(),
                        HttpResponse.BodyHandlers.ofByteArray());
        assertThat(closed.statusCode()).isEqualTo(303);
        assertThat(setsCookie(closed)).as("for what is closed").isFalse();
        HttpResponse<byte[]> open = send(client, "/open", "");
        assertThat(setsCookie(open)).isTrue();
        send(client, "/open", "");
        assertThat(new String(send(client, "/open", "").body(), StandardCharsets.US_ASCII))
                .isEqualTo("600");
        assertThat(new String(send(client, "/closed", "user").body(), StandardCharsets.US_ASCII))
                .isEqualTo("28800");
    }

    @Test
    void an_address_begins_only_so_many_sessions() throws Exception {
        open(
                Map.of(Limit.SESSIONS_PER_HOUR_PER_ADDRESS, 60L),
                new FreeDisk(() -> Long.MAX_VALUE, 0),
                Route.get("/open", Set.of(), DoorsTest::seconds),
                Route.get("/closed", STAFF, DoorsTest::seconds));
        HttpClient forgetful = HttpClient.newHttpClient();
        for (int i = 0; i < 60; i++) {
            assertThat(send(forgetful, "/open", "").statusCode()).isEqualTo(200);
        }
        HttpResponse<byte[]> refused = send(forgetful, "/open", "");
        assertThat(refused.statusCode()).isEqualTo(429);
        assertThat(refused.headers().firstValue("Retry-After")).isPresent();
        assertThat(setsCookie(refused)).isFalse();
        assertThat(send(forgetful, "/closed", "user").statusCode())
                .as("who is known goes on")
                .isEqualTo(200);
    }

    @Test
    void an_upload_that_would_leave_too_little_of_the_disk_is_refused_and_a_small_change_is_not() throws Exception {
        long[] free = {2_000};
        open(
                Map.of(),
                new FreeDisk(() -> free[0], 1_000),
                Route.get(
                        "/token",
                        STAFF,
                        ask -> new Reply.Attachment(
                                "text/plain",
                                out -> out.write(ask.frame().token().getBytes(StandardCharsets.US_ASCII)),
                                Optional.empty())),
                Route.post("/files", STAFF, ask -> new Reply.Next("/token")));
        String token = new String(send(client, "/token", "user").body(), StandardCharsets.US_ASCII);
        assertThat(upload(token, 200).statusCode()).isEqualTo(303);
        free[0] = 1_100;
        HttpResponse<String> refused = upload(token, 200);
        assertThat(refused.statusCode()).isEqualTo(507);
        assertThat(refused.body()).contains("Too little of the disk is free", "Nothing was kept of this upload");
        assertThat(change(token).statusCode()).as("what is typed is still kept").isEqualTo(303);
        assertThat(FreeDisk.of(List.of(folder, folder.resolve("not there")), Long.MAX_VALUE / 2)
                        .takes(1))
                .as("the disk is really asked")
                .isFalse();
        assertThat(FreeDisk.of(List.of(folder), 0).takes(1)).isTrue();
    }

    private HttpResponse<String> upload(String token, int size) throws Exception {
        String body = "--b\r\nContent-Disposition: form-data; name=\"f\"; filename=\"f.csv\"\r\n\r\n" + "x".repeat(size)
                + "\r\n--b--\r\n";
        return changed(token, "multipart/form-data; boundary=b", body);
    }

    private HttpResponse<String> change(String token) throws Exception {
        return changed(token, "application/x-www-form-urlencoded", "what=typed");
    }

    private HttpResponse<String> changed(String token, String type, String body) throws Exception {
        return client.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + "/files"))
                        .header("X-Said", "user")
                        .header("X-Token", token)
                        .header("Content-Type", type)
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void what_breaks_outside_a_room_is_told_and_half_a_document_is_never_a_whole_answer() throws Exception {
        byte[] half = new byte[200_000];
        open(
                Map.of(),
                new FreeDisk(() -> Long.MAX_VALUE, 0),
                Route.get("/document", STAFF, ask -> broken("application/pdf", half)),
                Route.get("/table", STAFF, ask -> broken("text/csv", half)),
                Route.get("/small", STAFF, ask -> broken("text/csv", new byte[10])));
        Logger.getLogger("").setLevel(Level.OFF);
        try {
            HttpResponse<byte[]> keeper = send(client, "/document", "broken");
            assertThat(keeper.statusCode()).isEqualTo(500);
            assertThat(new String(keeper.body(), StandardCharsets.UTF_8))
                    .contains("The desk could not answer.")
                    .doesNotContain("a test breaks");
            assertThat(keeper.headers().firstValue("Content-Security-Policy")).isPresent();
            assertThat(send(client, "/document", "user").statusCode()).isEqualTo(500);
            assertThat(send(client, "/small", "user").statusCode()).isEqualTo(500);
            assertThatThrownBy(() -> send(client, "/table", "user"))
                    .as("an answer that has begun breaks off where it is seen")
                    .isInstanceOf(IOException.class);
        } finally {
            Logger.getLogger("").setLevel(Level.WARNING);
        }
    }

    private static Reply broken(String type, byte[] half) {
        return new Reply.Attachment(
                type,
                out -> {
                    out.write(half);
                    throw new IllegalStateException("a test breaks the document");
                },
                Optional.empty());
    }

    @Test
    void a_public_name_with_capitals_is_the_same_name() throws Exception {
        open(Map.of(), new FreeDisk(() -> Long.MAX_VALUE, 0), Route.get("/open", Set.of(), DoorsTest::seconds));
        try (java.net.Socket socket = new java.net.Socket("127.0.0.1", server.port())) {
            socket.getOutputStream()
                    .write("GET /open HTTP/1.1\r\nHost: desk.example\r\nConnection: close\r\n\r\n"
                            .getBytes(StandardCharsets.US_ASCII));
            assertThat(new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                    .startsWith("HTTP/1.1 200");
        }
    }
}
