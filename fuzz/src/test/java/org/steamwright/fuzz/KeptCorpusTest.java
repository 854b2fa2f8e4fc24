package org.steamwright.fuzz;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The short form of the campaigns: every door with all that is kept for it, and with random changes of that, as many as
 * {@code campaign.runs}. The changes are the same on every machine.
 */
class KeptCorpusTest {

    private static final Path ROOT = Path.of(System.getProperty("steamwright.root"));

    @ParameterizedTest
    @EnumSource
    void whatever_is_kept_gets_an_answer(Doors door) throws IOException {
        List<byte[]> kept = Kept.of(ROOT, door);
        assertThat(kept).hasSizeGreaterThanOrEqualTo(5);
        for (byte[] input : kept) {
            knock(door, input);
        }
    }

    @ParameterizedTest
    @EnumSource
    void whatever_is_changed_gets_an_answer(Doors door) throws IOException {
        List<byte[]> kept = new ArrayList<>();
        for (byte[] input : Kept.of(ROOT, door)) {
            if (input.length <= Changes.LONGEST && input.length > 0) {
                kept.add(input);
            }
        }
        Random random = new Random(20261125);
        int runs = Integer.getInteger("campaign.runs", 1000);
        for (int run = 0; run < runs; run++) {
            byte[] one = kept.get(random.nextInt(kept.size())).clone();
            knock(door, Changes.some(one, kept, random));
        }
    }

    private static void knock(Doors door, byte[] input) {
        assertThatCode(() -> door.enter(input))
                .as(() -> "through " + door + ", in Base64: "
                        + Base64.getEncoder().encodeToString(input))
                .doesNotThrowAnyException();
    }
}
