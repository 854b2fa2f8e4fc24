package org.steamwright.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.CookieManager;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.tablet.TabletBrowser;
import org.steamwright.desk.training.TrainingGround;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Method;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import picocli.CommandLine;

/** The laptop as its options set it up, with tablets and with the training: who gets in where. */
class DeskSetUpTest {

    private static final Pattern TOKEN = Pattern.compile("name=\"token\" content=\"([^\"]+)\"");
    private static final String STAFF = "office reviewer technician";

    /** All that a device may use that was not let in; everything else sends it to the door or refuses it. */
    private static final Map<String, Integer> FOR_STRANGERS = Map.of(
            "GET /", 303,
            "GET /tablet/enter", 200,
            "POST /tablet/enter", 422,
            "POST /language", 303);

    /** What the laptop has besides the rooms that an office has too. */
    private static final Map<String, String> OF_THE_LAPTOP = Map.of(
            "GET /owner", "",
            "POST /owner", "",
            "GET /account", STAFF,
            "GET /training", "technician",
            "POST /training/open", "technician",
            "GET /tablet", STAFF,
            "POST /tablet/code", STAFF,
            "POST /tablet/out", STAFF,
            "GET /tablet/enter", "",
            "POST /tablet/enter", "");

    static {
        Logger.getLogger("").setLevel(Level.WARNING);
    }

    @TempDir
    private Path folder;

    private Records records;
    private TrainingGround ground;
    private DeskServer.Setup setup;
    private DeskServer server;
    private Office office;

    @BeforeEach
    void open() throws Exception {
        records = Records.open(Place.folder(folder.resolve("record")), Clock.fixed(OpenDesk.NOW, ZoneOffset.UTC));
        office = Office.with(records);
        Desk desk = new Desk();
        new CommandLine(desk).parseArgs("--tablet", "--tablet-port", "0", "--port", "0", "--no-browser");
        ground = Desk.ground(folder.resolve("record"), 0);
        setup = desk.setup(office, folder.resolve("record"), ground, List.of("127.0.0.1"));
        server = DeskServer.start(setup);
    }

    @AfterEach
    void close() throws Exception {
        server.close();
        ground.close();
        records.close();
    }

    /** A browser, at the laptop itself or somewhere in its network. */
    private record Device(HttpClient client, String address) {

        HttpResponse<String> get(String path) throws Exception {
            return client.send(
                    HttpRequest.newBuilder(URI.create(address + path)).build(), HttpResponse.BodyHandlers.ofString());
        }

        String token(String page) throws Exception {
            Matcher token = TOKEN.matcher(get(page).body());
            assertThat(token.find()).as("the page %s has a token", page).isTrue();
            return token.group(1);
        }

        HttpRequest.Builder form(String path, Map<String, String> typed) {
            String body = typed.entrySet().stream()
                    .map(field -> field.getKey() + "=" + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
                    .collect(Collectors.joining("&"));
            return HttpRequest.newBuilder(URI.create(address + path))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(body));
        }

        HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
            try {
                return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
            } catch (java.io.IOException closed) {
                // the server hangs up on a refused change whose body it did not read
                return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
            }
        }

        HttpResponse<String> post(String path, Map<String, String> typed, String token) throws Exception {
            return send(form(path, typed).header("X-Token", token));
        }
    }

    private Device laptop() {
        return new Device(
                HttpClient.newBuilder().cookieHandler(new CookieManager()).build(),
                "http://127.0.0.1:" + server.port());
    }

    private Device tablet() throws Exception {
        DeskServer.Network network = setup.network().orElseThrow();
        return new Device(
                TabletBrowser.trusting(network.store(), network.secret()),
                "https://127.0.0.1:" + server.networkPort().orElseThrow());
    }

    private static String name(Route route) {
        return route.method() + " " + route.pattern();
    }

    private static String path(Route route) {
        return route.pattern().replaceAll("\\{[a-z]+}", "nothing");
    }

    private void say(Device device, String name) throws Exception {
        assertThat(device.post("/owner", Map.of("name", name, "role", "technician"), device.token("/owner"))
                        .statusCode())
                .isEqualTo(303);
    }

    @Test
    void what_the_laptop_has_besides_an_office_stands_in_a_table() {
        Set<String> ofAnOffice =
                Desk.routes(office).stream().map(DeskSetUpTest::name).collect(Collectors.toSet());
        Map<String, String> found = new HashMap<>();
        setup.routes().stream()
                .filter(route -> !ofAnOffice.contains(name(route)))
                .forEach(route -> found.put(
                        name(route),
                        String.join(
                                " ",
                                route.roles().stream()
                                        .map(Role::word)
                                        .collect(Collectors.toCollection(TreeSet::new)))));
        assertThat(found).isEqualTo(OF_THE_LAPTOP);
    }

    @Test
    void a_device_that_was_not_let_in_gets_to_the_door_and_nowhere_else() throws Exception {
        say(laptop(), "Kim Sample (invented)");
        long before = records.head().tree().size();
        Device stranger = tablet();
        String token = stranger.token("/tablet/enter");
        List<String> through = new ArrayList<>();
        int asked = 0;
        for (Route route : setup.routes()) {
            HttpResponse<String> answer = route.method() == Method.GET
                    ? stranger.get(path(route))
                    : stranger.post(
                            path(route),
                            Map.of("name", "Somebody Else (invented)", "role", "office", "code", "00000000"),
                            token);
            asked++;
            boolean isAtTheDoor = route.method() == Method.GET
                    ? answer.statusCode() == 303
                            && answer.headers()
                                    .firstValue("Location")
                                    .orElse("")
                                    .equals("/tablet/enter")
                    : answer.statusCode() == 403;
            Integer wanted = FOR_STRANGERS.get(name(route));
            if (wanted == null ? !isAtTheDoor : answer.statusCode() != wanted) {
                through.add(name(route) + ": " + answer.statusCode());
            }
        }
        assertThat(through).isEmpty();
        assertThat(asked).isGreaterThan(80);
        assertThat(records.head().tree().size()).as("nothing was written").isEqualTo(before);
        assertThat(laptop().get("/today").body()).contains("Kim Sample (invented)");
    }

    @Test
    void at_the_laptop_itself_the_owner_is_asked_first_and_entries_bear_the_name_said_last() throws Exception {
        Device laptop = laptop();
        assertThat(laptop.get("/today").headers().firstValue("Location"))
                .as("not the door of a tablet")
                .contains("/owner");
        say(laptop, "Kim Sample (invented)");
        assertThat(laptop.get("/today").body()).contains("Kim Sample (invented)");
        say(laptop, "Lee Placeholder (invented)");
        laptop.post(
                "/visits",
                Map.of(
                        "number", "X-1",
                        "date", "2026-08-03",
                        "clinic", "Example Dental (invented)",
                        "serial", "EX-9",
                        "purpose", "yearly"),
                laptop.token("/visits"));
        assertThat(records.subjects(Kind.VISIT, 5)).hasSize(1);
        List<JournalEntry> entries =
                records.history(records.subjects(Kind.VISIT, 5).get(0).id());
        assertThat(entries)
                .isNotEmpty()
                .allSatisfy(entry -> assertThat(entry.author().name()).isEqualTo("Lee Placeholder (invented)"));
    }

    /** A way to forge: what is done to a good request. */
    private record Forgery(String name, boolean hasToken, UnaryOperator<HttpRequest.Builder> worse) {}

    private static final List<Forgery> FORGERIES = List.of(
            new Forgery("no token", false, request -> request),
            new Forgery("a made-up token", false, request -> request.header("X-Token", "0123456789abcdef")),
            new Forgery("another origin", true, request -> request.header("Origin", "https://elsewhere.example")),
            new Forgery("an origin that hides", true, request -> request.header("Origin", "null")),
            new Forgery("another site", true, request -> request.header("Sec-Fetch-Site", "cross-site")));

    private static List<String> forged(Device device, String page, Set<String> paths) throws Exception {
        String token = device.token(page);
        List<String> through = new ArrayList<>();
        for (String path : paths) {
            for (Forgery forgery : FORGERIES) {
                HttpRequest.Builder request = device.form(path, Map.of("name", "forged", "role", "office"));
                if (forgery.hasToken) {
                    request.header("X-Token", token);
                }
                if (device.send(forgery.worse.apply(request)).statusCode() != 403) {
                    through.add(path + " with " + forgery.name);
                }
            }
        }
        return through;
    }

    @Test
    void no_forged_change_is_made_at_the_laptop_on_a_tablet_or_in_the_training() throws Exception {
        Device laptop = laptop();
        say(laptop, "Kim Sample (invented)");
        Matcher code = Pattern.compile("([0-9]{4}) ([0-9]{4})</p>")
                .matcher(laptop.post("/tablet/code", Map.of(), laptop.token("/tablet"))
                        .body());
        assertThat(code.find()).isTrue();
        Device tablet = tablet();
        tablet.post(
                "/tablet/enter",
                Map.of("code", code.group(1) + code.group(2), "name", "tablet"),
                tablet.token("/tablet/enter"));
        assertThat(tablet.get("/today").statusCode()).isEqualTo(200);
        long before = records.head().tree().size();
        Set<String> paths = setup.routes().stream()
                .filter(route -> route.method() == Method.POST)
                .map(DeskSetUpTest::path)
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(paths).hasSizeGreaterThan(20);
        assertThat(forged(laptop, "/today", paths)).isEmpty();
        assertThat(forged(tablet, "/today", paths)).isEmpty();
        assertThat(records.head().tree().size()).as("nothing was written").isEqualTo(before);
        assertThat(ground.address()).as("and no training was opened").isEmpty();

        ground.open("Kim Sample (invented)");
        Set<String> training = new TreeSet<>(Set.of("/training", "/training/delete", "/training/nothing/recordings"));
        Desk.routes(office).stream()
                .filter(route -> route.method() == Method.POST)
                .forEach(route -> training.add(path(route)));
        Device trainee = new Device(
                HttpClient.newBuilder().cookieHandler(new CookieManager()).build(),
                ground.address().replace("/training", ""));
        assertThat(forged(trainee, "/training", training)).isEmpty();
        assertThat(trainee.get("/training").statusCode())
                .as("it was not deleted either")
                .isEqualTo(200);
    }

    @Test
    void any_free_port_for_tablets_is_told_as_the_one_it_is() throws Exception {
        Device laptop = laptop();
        say(laptop, "Kim Sample (invented)");
        Matcher address = Pattern.compile("https://127\\.0\\.0\\.1:(\\d+)")
                .matcher(laptop.get("/tablet").body());
        assertThat(address.find()).isTrue();
        int told = Integer.parseInt(address.group(1));
        assertThat(told).as("':0' leads nowhere").isPositive();
        try (Socket tablet = new Socket(InetAddress.getLoopbackAddress(), told)) {
            assertThat(tablet.isConnected()).isTrue();
        }
    }
}
