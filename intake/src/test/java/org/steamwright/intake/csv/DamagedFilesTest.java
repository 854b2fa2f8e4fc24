package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Files of the corpus with bytes changed, lost, doubled or cut off: read or refused, and never anything else. */
class DamagedFilesTest {

    private static final byte[] LIKELY =
            "0123456789.,;:-/ \t\n\r\"#|TCKFabs()[]+eE%".getBytes(StandardCharsets.US_ASCII);

    @TempDir
    Path folder;

    @Test
    void are_read_or_refused_with_a_message() throws IOException {
        Random random = new Random(20261125);
        ReadingChoices open =
                ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();
        ReadingChoices told = ReadingChoices.inZone(ZoneId.of("Australia/Hobart"))
                .answer("date-order", "DMY")
                .answer("decimal-mark", "comma")
                .answer("time-unit", "s")
                .build();
        List<byte[]> corpus = corpus();
        Path file = folder.resolve("damaged.csv");
        int read = 0;
        int refused = 0;
        for (int i = 0; i < 4000; i++) {
            byte[] bytes = damage(corpus.get(random.nextInt(corpus.size())), random);
            Files.write(file, bytes);
            try {
                Recording recording = CsvRecordings.read(file, random.nextBoolean() ? open : told);
                assertThat(recording.axis().size()).isGreaterThanOrEqualTo(2);
                assertThat(recording.columns()).isNotEmpty();
                read++;
            } catch (UnreadableFileException refusal) {
                assertThat(refusal.text()).isNotBlank();
                refused++;
            }
        }
        assertThat(read).as("some are still read").isGreaterThan(100);
        assertThat(refused).as("some are refused").isGreaterThan(100);
    }

    private static List<byte[]> corpus() throws IOException {
        List<byte[]> corpus = new ArrayList<>();
        try (Stream<Path> cases = CasesTest.cases()) {
            for (Path folder : cases.toList()) {
                corpus.add(Files.readAllBytes(folder.resolve("recording.csv")));
            }
        }
        return corpus;
    }

    private static byte[] damage(byte[] whole, Random random) {
        byte[] bytes = whole.clone();
        for (int k = 1 + random.nextInt(3); k > 0 && bytes.length > 0; k--) {
            int at = random.nextInt(bytes.length);
            switch (random.nextInt(5)) {
                case 0 -> bytes[at] = LIKELY[random.nextInt(LIKELY.length)];
                case 1 -> bytes[at] = (byte) random.nextInt(256);
                case 2 -> bytes = Arrays.copyOf(bytes, at);
                case 3 -> bytes = joined(bytes, at, at + 1);
                default -> bytes = joined(bytes, Math.min(bytes.length, at + random.nextInt(30)), at);
            }
        }
        return bytes;
    }

    /** The bytes up to one place and from another on. */
    private static byte[] joined(byte[] bytes, int upTo, int from) {
        byte[] joined = Arrays.copyOf(bytes, upTo + bytes.length - from);
        System.arraycopy(bytes, from, joined, upTo, bytes.length - from);
        return joined;
    }
}
