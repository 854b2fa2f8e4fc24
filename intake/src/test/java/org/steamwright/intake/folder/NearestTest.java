package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import java.util.Set;
import org.junit.jupiter.api.Test;

class NearestTest {

    private static final Set<String> ZONES = ZoneId.getAvailableZoneIds();

    @Test
    void a_mistyped_word_is_found() {
        assertThat(Nearest.to("Australia/Adelade", ZONES)).contains("Australia/Adelaide");
    }

    @Test
    void a_word_of_many_characters_is_not_compared_with_every_candidate() {
        assertThat(Nearest.to("Australia/Adelaide" + "e".repeat(20_000), ZONES)).isEmpty();
    }
}
