package org.steamwright.fuzz;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The short form of the campaigns: every door with all that is kept for it, and with random changes of that, as many as
 * {@code campaign.runs}. The changes are the same on every machine.
 */
class KeptCorpusTest {

    private static final Path ROOT = Path.of(System.getProperty("steamwright.root"));
    private static final Path CORPUS = ROOT.resolve("fuzz/src/test/resources/corpus");
    private static final Path CASES = ROOT.resolve("intake/src/test/resources");
    private static final int LONGEST = 20_000;

    @ParameterizedTest
    @EnumSource
    void whatever_is_kept_gets_an_answer(Doors door) throws IOException {
        List<byte[]> kept = kept(door);
        assertThat(kept).hasSizeGreaterThanOrEqualTo(5);
        for (byte[] input : kept) {
            knock(door, input);
        }
    }

    @ParameterizedTest
    @EnumSource
    void whatever_is_changed_gets_an_answer(Doors door) throws IOException {
        List<byte[]> kept = new ArrayList<>();
        for (byte[] input : kept(door)) {
            if (input.length <= LONGEST && input.length > 0) {
                kept.add(input);
            }
        }
        Random random = new Random(20261125);
        int runs = Integer.getInteger("campaign.runs", 1000);
        for (int run = 0; run < runs; run++) {
            byte[] changed = kept.get(random.nextInt(kept.size())).clone();
            for (int i = 1 + random.nextInt(4); i > 0; i--) {
                changed = change(changed, kept, random);
            }
            knock(door, changed);
        }
    }

    private static void knock(Doors door, byte[] input) {
        assertThatCode(() -> door.enter(input))
                .as(() -> "through " + door + ", in Base64: "
                        + Base64.getEncoder().encodeToString(input))
                .doesNotThrowAnyException();
    }

    private static List<byte[]> kept(Doors door) throws IOException {
        List<byte[]> kept = new ArrayList<>();
        switch (door) {
            case CSV -> addAll(CASES.resolve("cases"), ".csv", kept);
            case XLSX -> addAll(CASES.resolve("workbooks"), ".xlsx", kept);
            case DCC -> addAll(CASES.resolve("certificates"), ".xml", kept);
            case YAML -> addAll(ROOT.resolve("docs/reference"), "visit-folder.md", kept);
        }
        addAll(CORPUS.resolve(door.name().toLowerCase(Locale.ROOT)), "", kept);
        return kept;
    }

    private static void addAll(Path folder, String ending, List<byte[]> kept) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
                if (file.toString().endsWith(ending)) {
                    kept.add(Files.readAllBytes(file));
                }
            }
        }
    }

    private static final byte[][] BITS = {
        "\n".getBytes(StandardCharsets.UTF_8),
        "\"".getBytes(StandardCharsets.UTF_8),
        ",,,;;;\t|".getBytes(StandardCharsets.UTF_8),
        "2026-02-30T25:61:61".getBytes(StandardCharsets.UTF_8),
        "1e999".getBytes(StandardCharsets.UTF_8),
        "-0.00000000000000000001".getBytes(StandardCharsets.UTF_8),
        "99999999999999999999".getBytes(StandardCharsets.UTF_8),
        "<a b='c'>&lt;</a>".getBytes(StandardCharsets.UTF_8),
        "<!DOCTYPE a>".getBytes(StandardCharsets.UTF_8),
        "\uD83D\uDE00".getBytes(StandardCharsets.UTF_8),
        {0, 0, 0, 0},
        {(byte) 0xFF, (byte) 0xFE},
        {(byte) 0xED, (byte) 0xA0, (byte) 0x80},
        "{[*a, &a b: !!c d]}".getBytes(StandardCharsets.UTF_8)
    };

    /** One change: a bit, a byte, a piece taken out, doubled, put in or joined from another input. */
    private static byte[] change(byte[] input, List<byte[]> others, Random random) {
        if (input.length == 0) {
            return BITS[random.nextInt(BITS.length)];
        }
        int at = random.nextInt(input.length);
        int end = Math.min(input.length, at + 1 + random.nextInt(40));
        byte[] piece = Arrays.copyOfRange(input, at, end);
        switch (random.nextInt(7)) {
            case 0 -> {
                byte[] changed = input.clone();
                changed[at] ^= (byte) (1 << random.nextInt(8));
                return changed;
            }
            case 1 -> {
                byte[] changed = input.clone();
                changed[at] = (byte) random.nextInt(256);
                return changed;
            }
            case 2 -> {
                return join(Arrays.copyOf(input, at), new byte[0], Arrays.copyOfRange(input, end, input.length));
            }
            case 3 -> {
                byte[] twice = join(piece, piece, piece);
                return join(Arrays.copyOf(input, at), twice, Arrays.copyOfRange(input, at, input.length));
            }
            case 4 -> {
                byte[] bit = BITS[random.nextInt(BITS.length)];
                return join(Arrays.copyOf(input, at), bit, Arrays.copyOfRange(input, at, input.length));
            }
            case 5 -> {
                byte[] other = others.get(random.nextInt(others.size()));
                return join(Arrays.copyOf(input, at), other, new byte[0]);
            }
            default -> {
                return Arrays.copyOf(input, at);
            }
        }
    }

    private static byte[] join(byte[] one, byte[] two, byte[] three) {
        byte[] joined = Arrays.copyOf(one, one.length + two.length + three.length);
        System.arraycopy(two, 0, joined, one.length, two.length);
        System.arraycopy(three, 0, joined, one.length + two.length, three.length);
        return joined;
    }
}
