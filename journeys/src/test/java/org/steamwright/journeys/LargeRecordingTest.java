package org.steamwright.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Recordings that are larger than what is usual, sent to a desk with a quarter of its usual memory. Sent without a browser, which
 * would need more than the desk.
 */
class LargeRecordingTest {

    private static final Pattern TOKEN = Pattern.compile("<meta name=\"token\" content=\"([^\"]+)\"");
    private static final String BORDER = "border-of-the-test";
    private static final int MEGABYTE = 1_000_000;

    @TempDir
    Path folder;

    private final HttpClient client = HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .version(HttpClient.Version.HTTP_1_1)
            .build();

    @Test
    void a_large_recording_is_kept_and_one_beyond_the_limit_is_refused_in_words() throws Exception {
        String visit = FiftyRuns.into(folder, 1);
        String page = "/visits/" + visit + "/runs/1/recordings";
        try (RunningDesk desk = RunningDesk.recordInHeap(folder, "256m")) {
            HttpResponse<String> kept = send(desk, page, "large.csv", rows(20 * MEGABYTE));
            assertThat(kept.statusCode()).as(kept.body()).isEqualTo(303);
            HttpResponse<String> shown = get(desk, page);
            assertThat(shown.statusCode()).isEqualTo(200);
            assertThat(shown.body()).contains("large.csv");
            // longer than any run: the page asks which stretch of it is wanted
            assertThat(shown.body()).contains("<legend class=\"act\">");

            HttpResponse<String> refused =
                    send(desk, page, "too-large.csv", Collections.nCopies(301, new byte[MEGABYTE]));
            assertThat(refused.statusCode()).isEqualTo(413);
            assertThat(refused.body()).contains("300 MB go in at once").contains("Nothing was kept.");
            assertThat(get(desk, page).body()).doesNotContain("too-large.csv").contains("large.csv");
            assertThat(get(desk, "/today").statusCode()).isEqualTo(200);
            assertThat(desk.said()).doesNotContain("no memory was left");
        }
    }

    private HttpResponse<String> get(RunningDesk desk, String path) throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(URI.create(desk.origin() + path)).build(), HttpResponse.BodyHandlers.ofString());
    }

    /** Sends a file as the form of the page does, a megabyte at a time. */
    private HttpResponse<String> send(RunningDesk desk, String page, String name, List<byte[]> content)
            throws IOException, InterruptedException {
        Matcher token = TOKEN.matcher(get(desk, page).body());
        assertThat(token.find()).as("the page has a token").isTrue();
        byte[] before = ("--%s\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n%s\r\n"
                        + "--%s\r\nContent-Disposition: form-data; name=\"recording\"; filename=\"%s\"\r\n"
                        + "Content-Type: text/csv\r\n\r\n")
                .formatted(BORDER, token.group(1), BORDER, name)
                .getBytes(StandardCharsets.UTF_8);
        byte[] after = "\r\n--%s--\r\n".formatted(BORDER).getBytes(StandardCharsets.UTF_8);
        List<byte[]> all = new ArrayList<>(List.of(before));
        all.addAll(content);
        all.add(after);
        long length = all.stream().mapToLong(part -> part.length).sum();
        HttpRequest.BodyPublisher body = HttpRequest.BodyPublishers.fromPublisher(
                HttpRequest.BodyPublishers.ofInputStream(() -> joined(all)), length);
        return client.send(
                HttpRequest.newBuilder(URI.create(desk.origin() + page))
                        .header("Content-Type", "multipart/form-data; boundary=" + BORDER)
                        .header("Origin", desk.origin())
                        .header("X-Token", token.group(1))
                        .POST(body)
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    private static InputStream joined(List<byte[]> parts) {
        return new SequenceInputStream(Collections.enumeration(
                parts.stream().map(java.io.ByteArrayInputStream::new).toList()));
    }

    /** One cycle after another, until there are so many bytes. */
    private static List<byte[]> rows(int bytes) {
        List<byte[]> parts = new ArrayList<>();
        StringBuilder text = new StringBuilder(UsualRows.HEAD);
        int written = 0;
        for (int row = 0; written < bytes; row++) {
            text.append(UsualRows.line(row));
            if (text.length() > MEGABYTE) {
                parts.add(text.toString().getBytes(StandardCharsets.UTF_8));
                written += text.length();
                text.setLength(0);
            }
        }
        return parts;
    }
}
