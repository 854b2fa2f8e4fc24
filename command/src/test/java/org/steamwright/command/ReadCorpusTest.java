package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** {@code steamwright read} on every file of the corpus of recordings, with the answers that its case gives. */
class ReadCorpusTest {

    private static final Path CASES =
            Path.of(System.getProperty("steamwright.root"), "intake", "src", "test", "resources", "cases");

    private static final Map<String, String> OPTIONS = new LinkedHashMap<>();

    static {
        OPTIONS.put("charset", "--encoding");
        OPTIONS.put("unit", "--unit");
        OPTIONS.put("reference", "--pressure");
    }

    @TempDir
    Path folder;

    static Stream<Path> cases() throws IOException {
        try (Stream<Path> folders = Files.list(CASES)) {
            return folders.filter(Files::isDirectory).sorted().toList().stream();
        }
    }

    @ParameterizedTest
    @MethodSource("cases")
    void says_how_it_is_understood_or_why_not(Path recording) throws IOException {
        List<String> expected = Files.readAllLines(recording.resolve("expected.txt"));
        Session.Said said = new Session(folder).run(words(recording, expected));
        String refused = expected.stream()
                .filter(line -> line.startsWith("refused "))
                .findFirst()
                .orElse("");
        boolean isAsked = expected.stream().anyMatch(line -> line.startsWith("question "));
        ExitStatus status = refused.isEmpty() ? ExitStatus.PASS : isAsked ? ExitStatus.USAGE : ExitStatus.UNREADABLE;
        assertThat(said.status()).as(said.err()).isEqualTo(status);
        if (refused.isEmpty()) {
            assertThat(said.out())
                    .contains("recording.csv, ")
                    .contains("SHA-256")
                    .contains("Samples");
            assertThat(said.err()).isEmpty();
        } else if (isAsked) {
            assertThat(said.err())
                    .contains("leaves something open that only a person can tell")
                    .contains("--");
        } else {
            assertThat(said.err()).contains(refused.substring(8, 18));
        }
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).as("reading writes nothing").isEmpty();
        }
    }

    private static String[] words(Path recording, List<String> expected) {
        List<String> words = new ArrayList<>(
                List.of("read", recording.resolve("recording.csv").toString(), "--no-input"));
        String zone = "Australia/Hobart";
        for (String line : expected) {
            if (line.startsWith("zone ")) {
                zone = line.substring(5).strip();
            }
            if (line.startsWith("choose ")) {
                int equals = line.indexOf(" = ");
                String key = line.substring(7, equals).strip();
                String value = line.substring(equals + 3);
                int colon = key.indexOf(':');
                String kind = colon < 0 ? key : key.substring(0, colon);
                words.add(OPTIONS.getOrDefault(kind, "--" + kind));
                words.add(colon < 0 ? value : key.substring(colon + 1) + "=" + value);
            }
        }
        words.add("--zone");
        words.add(zone);
        return words.toArray(String[]::new);
    }
}
