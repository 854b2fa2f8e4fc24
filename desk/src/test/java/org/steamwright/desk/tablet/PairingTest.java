package org.steamwright.desk.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class PairingTest {

    /** A clock that is set by hand. */
    private static final class SetClock extends Clock {

        private Instant now = Instant.parse("2026-08-03T07:30:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    private final SetClock clock = new SetClock();
    private final Pairing pairing = new Pairing(clock, new SecureRandom());

    @Test
    void a_code_lets_one_tablet_in() {
        String digits = pairing.newCode().digits();
        assertThat(digits).matches("[0-9]{8}");
        String key = pairing.pair(digits.substring(0, 4) + " " + digits.substring(4), "kitchen tablet")
                .orElseThrow();
        assertThat(pairing.nameOf(key)).contains("kitchen tablet");
        assertThat(pairing.pair(digits, "another")).isEmpty();
        assertThat(pairing.devices()).hasSize(1);
    }

    @Test
    void a_code_ends_after_five_minutes() {
        String digits = pairing.newCode().digits();
        clock.now = clock.now.plus(Duration.ofMinutes(5));
        assertThat(pairing.pair(digits, "late")).isEmpty();
    }

    @Test
    void a_code_dies_after_five_wrong_tries() {
        String digits = pairing.newCode().digits();
        for (int i = 0; i < 5; i++) {
            assertThat(pairing.pair("x", "guesser")).isEmpty();
        }
        assertThat(pairing.pair(digits, "late")).isEmpty();
    }

    @Test
    void four_wrong_tries_are_forgiven() {
        String digits = pairing.newCode().digits();
        for (int i = 0; i < 4; i++) {
            assertThat(pairing.pair("x", "wet gloves")).isEmpty();
        }
        assertThat(pairing.pair(digits, "wet gloves")).isPresent();
    }

    @Test
    void a_new_code_ends_the_one_before() {
        String first = pairing.newCode().digits();
        String second = pairing.newCode().digits();
        if (!first.equals(second)) {
            assertThat(pairing.pair(first, "late")).isEmpty();
        }
        assertThat(pairing.pair(second, "in time")).isPresent();
    }

    @Test
    void nobody_gets_in_without_a_code_or_with_a_made_up_key() {
        assertThat(pairing.pair("", "nobody")).isEmpty();
        assertThat(pairing.nameOf("")).isEmpty();
        assertThat(pairing.nameOf("00")).isEmpty();
    }

    @Test
    void the_owner_shows_everybody_out() {
        String key = pairing.pair(pairing.newCode().digits(), "tablet").orElseThrow();
        pairing.showOut();
        assertThat(pairing.nameOf(key)).isEmpty();
        assertThat(pairing.devices()).isEmpty();
    }
}
