package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Files damaged at random (fixed seeds): each is read or refused with a message, and nothing else happens. */
class DamagedFilesTest {

    private static final int FILES = 400;

    private final Presets presets = new Presets();
    private final Set<CriteriaMessage> seen = EnumSet.noneOf(CriteriaMessage.class);
    private int read;

    @Test
    void a_line_lost_or_doubled_or_moved_is_read_or_refused() {
        Random random = new Random(2511);
        for (int i = 0; i < FILES; i++) {
            List<String> lines = new ArrayList<>(Examples.WHOLE.lines().toList());
            String line = lines.remove(random.nextInt(lines.size()));
            switch (random.nextInt(3)) {
                case 0 -> lines.add(random.nextInt(lines.size()), line);
                case 1 -> lines.add(random.nextInt(lines.size()), "  " + line);
                default -> {}
            }
            check(String.join("\n", lines).getBytes(StandardCharsets.UTF_8));
        }
        assertThat(seen).as("kinds of refusal").hasSizeGreaterThan(5);
        assertThat(read).as("files read in spite of it").isBetween(1, FILES - 1);
    }

    @Test
    void a_byte_changed_is_read_or_refused() {
        Random random = new Random(2512);
        for (int i = 0; i < FILES; i++) {
            byte[] bytes = Examples.bytes(Examples.WHOLE);
            bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            check(bytes);
        }
        assertThat(seen).as("kinds of refusal").hasSizeGreaterThan(5);
        assertThat(read).as("files read in spite of it").isBetween(1, FILES - 1);
    }

    @Test
    void a_file_cut_short_is_refused() {
        byte[] whole = Examples.bytes(Examples.WHOLE);
        int lastEntry = Examples.WHOLE.indexOf("pressure-kind");
        for (int length = 0; length < lastEntry; length += 7) {
            check(Arrays.copyOf(whole, length));
        }
        assertThat(read).isZero();
    }

    private void check(byte[] bytes) {
        try {
            presets.read(bytes, "clinic.yaml");
            read++;
        } catch (CriteriaFileException refused) {
            assertThat(refused).hasMessageStartingWith(refused.kind().id() + " clinic.yaml");
            seen.add(refused.kind());
        }
    }
}
