package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An office's desk as a web server before it speaks to it. */
class BehindAWebServerTest {

    @TempDir
    private Path folder;

    private String answer(DeskServer desk, String... headers) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.port())) {
            String request = "GET / HTTP/1.1\r\n" + String.join("\r\n", headers) + "\r\nConnection: close\r\n\r\n";
            socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
            try (InputStream in = socket.getInputStream()) {
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            }
        }
    }

    private DeskServer desk(Optional<URI> publicAddress) throws IOException {
        return DeskServer.start(
                new DeskServer.Setup.Maker(WebRoutes.all(), Doorkeeper.single("Alex Sample (invented)"), folder)
                        .publicAddress(publicAddress)
                        .make());
    }

    @Test
    void the_desk_answers_to_its_public_name_and_keeps_its_cookie_to_encrypted_connections() throws IOException {
        try (DeskServer desk = desk(Optional.of(URI.create("https://desk.example")))) {
            assertThat(answer(desk, "Host: desk.example", "X-Forwarded-Proto: https"))
                    .contains("303")
                    .contains("Strict-Transport-Security: max-age=31536000")
                    .contains("; Secure")
                    .contains("Set-Cookie: __Host-steamwright-session=")
                    .contains("Path=/")
                    .doesNotContain("Domain=");
        }
    }

    @Test
    void no_other_name_is_answered() throws IOException {
        try (DeskServer desk = desk(Optional.of(URI.create("https://desk.example")))) {
            for (String host :
                    List.of("elsewhere.example", "desk.example.elsewhere.example", "desk.example:8417", "")) {
                assertThat(answer(desk, "Host: " + host, "X-Forwarded-Proto: https"))
                        .doesNotContain("303")
                        .containsAnyOf(" 403 ", " 400 ");
            }
        }
    }

    @Test
    void only_what_the_web_server_overwrites_is_believed() throws IOException {
        try (DeskServer desk = desk(Optional.of(URI.create("https://desk.example")))) {
            assertThat(answer(desk, "Host: desk.example", "Forwarded: proto=https", "X-Proxied-Https: on"))
                    .doesNotContain("Strict-Transport-Security");
        }
    }

    @Test
    void without_a_web_server_before_it_nobody_claims_to_come_encrypted_or_under_another_name() throws IOException {
        try (DeskServer desk = desk(Optional.empty())) {
            String host = "Host: 127.0.0.1:" + desk.port();
            assertThat(answer(desk, host, "X-Forwarded-Proto: https")).doesNotContain("Strict-Transport-Security");
            assertThat(answer(desk, "Host: desk.example", "X-Forwarded-Host: 127.0.0.1:" + desk.port()))
                    .contains(" 403 ");
        }
    }
}
