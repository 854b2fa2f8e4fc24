package org.steamwright.desk.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.Desk;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Route;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

class TabletTest {

    private static final List<String> HERE = List.of("127.0.0.1");

    @TempDir
    private Path folder;

    @Test
    void a_tablet_is_a_stranger_until_it_shows_the_code() throws Exception {
        OwnCertificate certificate = OwnCertificate.in(folder.resolve("desk"), HERE);
        Clock clock = Clock.fixed(OpenDesk.NOW, ZoneOffset.UTC);
        Pairing pairing = new Pairing(clock, new SecureRandom());
        try (Records records = Records.open(Place.folder(folder.resolve("record")), clock)) {
            List<Route> routes = new ArrayList<>(Desk.routes(Office.with(records)));
            routes.addAll(TabletRoutes.all(pairing, List.of(), certificate.fingerprint()));
            try (DeskServer server = DeskServer.start(new DeskServer.Setup.Maker(
                            routes, new TabletDoorkeeper(Doorkeeper.single("Alex Sample (invented)"), pairing), folder)
                    .network(Optional.of(new DeskServer.Network(HERE, 0, certificate.store(), certificate.secret())))
                    .make())) {
                String address = "https://127.0.0.1:" + server.networkPort().orElseThrow();
                HttpClient tablet = TabletBrowser.trusting(certificate.store(), certificate.secret());
                HttpResponse<String> first = get(tablet, address + "/today");
                assertThat(first.statusCode()).isEqualTo(303);
                assertThat(first.headers().firstValue("Location")).contains("/tablet/enter");
                HttpResponse<String> entry = get(tablet, address + "/tablet/enter");
                assertThat(entry.headers().firstValue("Set-Cookie").orElse("")).contains("Secure");

                assertThat(enter(tablet, address, entry.body(), "00000000").body())
                        .contains("That code does not open");
                assertThat(get(tablet, address + "/today").statusCode()).isEqualTo(303);

                String digits = pairing.newCode().digits();
                assertThat(enter(tablet, address, entry.body(), digits).statusCode())
                        .isEqualTo(303);
                assertThat(get(tablet, address + "/today").body()).contains("Alex Sample (invented)");

                pairing.showOut();
                assertThat(get(tablet, address + "/today").statusCode()).isEqualTo(303);
            }
        }
    }

    private static HttpResponse<String> get(HttpClient tablet, String address)
            throws IOException, InterruptedException {
        return tablet.send(HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
    }

    private static HttpResponse<String> enter(HttpClient tablet, String address, String page, String code)
            throws IOException, InterruptedException {
        Matcher token = Pattern.compile("name=\"token\" content=\"([^\"]+)\"").matcher(page);
        assertThat(token.find()).isTrue();
        return tablet.send(
                HttpRequest.newBuilder(URI.create(address + "/tablet/enter"))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(
                                "token=" + token.group(1) + "&code=" + code + "&name=tablet"))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void the_certificate_stays_the_same_until_the_addresses_change() throws IOException {
        String first = OwnCertificate.in(folder, HERE).fingerprint();
        assertThat(first).matches("([0-9A-F]{2} ){31}[0-9A-F]{2}");
        assertThat(OwnCertificate.in(folder, HERE).fingerprint()).isEqualTo(first);
        assertThat(OwnCertificate.in(folder, List.of("127.0.0.1", "192.0.2.7")).fingerprint())
                .isNotEqualTo(first);
    }

    @Test
    void nobody_else_on_the_laptop_reads_the_secret() throws IOException {
        OwnCertificate certificate = OwnCertificate.in(folder, HERE);
        assertThat(Files.getPosixFilePermissions(certificate.store())).hasSize(2);
        assertThat(certificate.toString()).doesNotContain(certificate.secret());
    }
}
