package org.steamwright.desk.training;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.Desk;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.TrainingRecord;
import org.steamwright.simulator.LoggerFile;

/** Training beside a record of real visits: begun, read out, answered, and deleted in one act. */
class TrainingTest {

    private static final Pattern TOKEN = Pattern.compile("<meta name=\"token\" content=\"([^\"]+)\"");

    @TempDir
    private Path folder;

    private TrainingGround ground;
    private URI home;
    private final HttpClient browser = HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();

    @BeforeEach
    void open() throws IOException {
        Files.createDirectories(folder.resolve("record"));
        Files.writeString(folder.resolve("record/kept.txt"), "real");
        ground = new TrainingGround(
                TrainingGround.beside(folder.resolve("record")),
                0,
                Clock.fixed(OpenDesk.NOW, ZoneOffset.UTC),
                new Random(20261126),
                Desk::routes);
        ground.open("Alex Sample (invented)");
        home = URI.create(ground.address());
    }

    @AfterEach
    void close() throws IOException {
        ground.close();
    }

    private HttpResponse<String> get(String path) throws Exception {
        return browser.send(HttpRequest.newBuilder(home.resolve(path)).build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpResponse<String> post(String path, Map<String, String> typed) throws Exception {
        Matcher token = TOKEN.matcher(get("/training").body());
        assertThat(token.find()).isTrue();
        String body = typed.entrySet().stream()
                .map(field -> field.getKey() + "=" + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        return browser.send(
                HttpRequest.newBuilder(home.resolve(path))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .header("X-Token", token.group(1))
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    private String begun(String fault) throws Exception {
        HttpResponse<String> begun = post("/training", Map.of("fault", fault));
        assertThat(begun.statusCode()).as(begun.body()).isEqualTo(303);
        return begun.headers().firstValue("Location").orElseThrow();
    }

    @Test
    void a_short_holding_time_is_planted_found_and_told() throws Exception {
        String visit = begun("short-hold");
        assertThat(get(visit).body()).contains("TRAINING on a simulated machine", "The holding time is too short");
        assertThat(get(visit + "/answer").statusCode())
                .as("nothing read out yet")
                .isEqualTo(409);
        assertThat(post(visit + "/recordings", Map.of()).statusCode()).isEqualTo(303);
        assertThat(get(visit + "/answer").body())
                .contains(
                        "The holding time is too short",
                        "Findings that named it",
                        "<b>Holding time.</b>",
                        "missing seconds 41.1");
        String run = visit.replace("/training/", "/visits/") + "/runs/1";
        assertThat(get(run).body()).contains("TRAINING on a simulated machine", "class=\"verdict fail\"");
    }

    @Test
    void a_hidden_fault_is_not_told_before_the_answer() throws Exception {
        String visit = begun("");
        assertThat(get(visit).body()).contains("The fault is hidden.");
        for (TrainingFault fault : TrainingFault.all()) {
            assertThat(get(visit).body()).doesNotContain("Planted: ");
            assertThat(fault.key()).startsWith("training.fault.");
        }
        post(visit + "/recordings", Map.of());
        assertThat(get(visit + "/answer").statusCode()).isEqualTo(200);
    }

    @Test
    void the_files_can_be_kept_and_say_that_they_are_simulated() throws Exception {
        String visit = begun("dip");
        Matcher file = Pattern.compile("href=\"(" + visit + "/files\\?name=[^\"]+)\"")
                .matcher(get(visit).body());
        assertThat(file.find()).isTrue();
        assertThat(get(file.group(1)).body())
                .startsWith("# Steamwright simulated recording - invented data, not a real cycle");
    }

    @Test
    void a_training_visit_can_not_be_signed() throws Exception {
        String visit = begun("dip").replace("/training/", "/visits/");
        HttpResponse<String> refused =
                post(visit + "/signatures", Map.of("name", "Alex Sample (invented)", "secret", "long enough secret"));
        assertThat(refused.statusCode()).isEqualTo(403);
        assertThat(refused.body()).contains("A training visit can not be signed");
        assertThat(post(visit + "/keys", Map.of()).statusCode()).isEqualTo(403);
    }

    @Test
    void one_act_deletes_every_file_of_the_training_and_nothing_else() throws Exception {
        String visit = begun("dip");
        post(visit + "/recordings", Map.of());
        Path training = TrainingGround.beside(folder.resolve("record"));
        assertThat(training).isDirectory();
        HttpResponse<String> deleted = post("/training/delete", Map.of());
        assertThat(deleted.statusCode()).isEqualTo(200);
        assertThat(deleted.body()).contains("No file of the training is left.");
        assertThat(training).doesNotExist();
        assertThat(folder.resolve("record/kept.txt")).hasContent("real");
        assertThat(ground.address()).isEmpty();
    }

    @Test
    void only_training_is_deleted_and_only_an_empty_folder_becomes_one() throws IOException {
        assertThatThrownBy(() -> TrainingRecord.delete(folder.resolve("record")))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("is no training record; nothing was deleted");
        assertThatThrownBy(() -> TrainingRecord.prepare(folder.resolve("record")))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("holds something that is no training");
        assertThat(folder.resolve("record/kept.txt")).hasContent("real");
    }

    @Test
    void the_files_of_the_loggers_do_not_name_the_fault() {
        for (TrainingFault fault : TrainingFault.all()) {
            for (LoggerFile file : fault.run(4711).files()) {
                String head = file.name()
                        + new String(file.bytes(), StandardCharsets.UTF_8)
                                .lines()
                                .limit(20)
                                .collect(Collectors.joining("\n"))
                                .toLowerCase(Locale.ROOT);
                assertThat(head)
                        .as(fault.word())
                        .doesNotContain("faulty")
                        .doesNotContain(fault.word())
                        .doesNotContain(fault.word().replace("-", ""));
            }
        }
    }
}
