package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.steamwright.desk.accounts.HandClock;

class LimitsTest {

    private static final String HERE = "192.0.2.7";

    private final HandClock clock = new HandClock();

    private Limits with(Map<Limit, Long> set) {
        return new Limits(set, clock);
    }

    @Test
    void a_visit_with_every_field_saved_at_once_is_never_held_up() {
        Limits usual = with(Map.of());
        // about two hundred kinds of fields on ten sheets (decision 0057), each saved, mended and saved again
        for (int i = 0; i < 400; i++) {
            assertThat(usual.change("Alex Example", HERE)).isEmpty();
        }
        // and then a day of two fields a second without a rest
        for (int second = 0; second < 8 * 3600; second++) {
            clock.forward(Duration.ofSeconds(1));
            assertThat(usual.change("Alex Example", HERE)).isEmpty();
            assertThat(usual.change("Alex Example", HERE)).isEmpty();
        }
    }

    @Test
    void fifty_recordings_and_one_as_large_as_the_desk_takes_fit_into_an_hour() {
        Limits usual = with(Map.of());
        for (int i = 0; i < 50; i++) {
            assertThat(usual.upload("Alex Example", HERE, 2_000_000)).isEmpty();
        }
        assertThat(usual.upload("Alex Example", HERE, 300_000_000)).isEmpty();
    }

    @Test
    void too_many_changes_wait_until_the_bucket_has_filled() {
        Limits tight = with(Map.of(Limit.CHANGES_AT_ONCE_PER_USER, 10L, Limit.CHANGES_PER_MINUTE_PER_USER, 6L));
        for (int i = 0; i < 10; i++) {
            assertThat(tight.change("Alex Example", HERE)).isEmpty();
        }
        assertThat(tight.change("Alex Example", HERE)).contains(Duration.ofSeconds(10));
        assertThat(tight.change("Robin Example", HERE)).as("others need not").isEmpty();
        clock.forward(Duration.ofSeconds(9));
        assertThat(tight.change("Alex Example", HERE)).contains(Duration.ofSeconds(1));
        clock.forward(Duration.ofSeconds(1));
        assertThat(tight.change("Alex Example", HERE)).isEmpty();
    }

    @Test
    void an_address_is_counted_whoever_comes_from_it_and_strangers_by_their_address_alone() {
        Limits tight = with(Map.of(Limit.CHANGES_AT_ONCE_PER_ADDRESS, 10L, Limit.CHANGES_PER_MINUTE_PER_ADDRESS, 1L));
        for (int i = 0; i < 10; i++) {
            assertThat(tight.change(i % 2 == 0 ? "" : "user " + i, HERE)).isEmpty();
        }
        assertThat(tight.change("", HERE)).isPresent();
        assertThat(tight.change("somebody new", HERE)).isPresent();
        assertThat(tight.change("somebody new", "192.0.2.8")).isEmpty();
    }

    @Test
    void uploads_are_counted_by_number_and_by_size() {
        Limits tight = with(Map.of(
                Limit.UPLOADS_PER_HOUR_PER_USER, 3L,
                Limit.MEGABYTES_PER_HOUR_PER_USER, 300L));
        assertThat(tight.upload("Alex Example", HERE, 299_000_000)).isEmpty();
        assertThat(tight.upload("Alex Example", HERE, 2_000_000))
                .as("too large")
                .isPresent();
        assertThat(tight.upload("Alex Example", HERE, 1_000_000)).isEmpty();
        assertThat(tight.upload("Alex Example", HERE, 1)).as("too many").isPresent();
        clock.forward(Duration.ofHours(1));
        assertThat(tight.upload("Alex Example", HERE, 300_000_000)).isEmpty();
    }

    @Test
    void dear_work_is_done_by_some_while_others_wait_and_more_are_sent_away() throws Exception {
        Limits limits = with(
                Map.of(Limit.DOCUMENTS_AT_ONCE, 1L, Limit.DOCUMENTS_WAITING, 1L, Limit.DOCUMENTS_WAIT_SECONDS, 600L));
        Limits.Turn first = limits.turn().orElseThrow();
        ExecutorService crowd = Executors.newFixedThreadPool(2);
        try {
            Future<Optional<Limits.Turn>> one = crowd.submit(limits::turn);
            Future<Optional<Limits.Turn>> other = crowd.submit(limits::turn);
            // whichever came second finds the only place to wait taken
            Future<Optional<Limits.Turn>> sentAway = firstOf(one, other);
            assertThat(sentAway.get(1, TimeUnit.MINUTES)).isEmpty();
            first.giveBack();
            Future<Optional<Limits.Turn>> served = sentAway == one ? other : one;
            assertThat(served.get(1, TimeUnit.MINUTES)).isPresent();
        } finally {
            crowd.shutdownNow();
        }
    }

    private static Future<Optional<Limits.Turn>> firstOf(
            Future<Optional<Limits.Turn>> one, Future<Optional<Limits.Turn>> other) {
        while (!one.isDone() && !other.isDone()) {
            Thread.onSpinWait();
        }
        return one.isDone() ? one : other;
    }

    @Test
    void who_waits_in_vain_is_told_so() {
        Limits limits = with(Map.of(Limit.DOCUMENTS_AT_ONCE, 1L, Limit.DOCUMENTS_WAIT_SECONDS, 0L));
        Limits.Turn held = limits.turn().orElseThrow();
        assertThat(limits.turn()).isEmpty();
        held.giveBack();
        assertThat(limits.turn()).isPresent();
        assertThat(limits.untilTurn()).isPositive();
    }

    @Test
    void those_who_were_not_seen_for_longest_are_forgotten_first() {
        Buckets buckets = new Buckets(1, 1, Duration.ofHours(1), clock);
        assertThat(buckets.take("first", 1)).isEmpty();
        assertThat(buckets.take("second", 1)).isEmpty();
        for (int i = 0; i < 9_999; i++) {
            buckets.take("stranger " + i, 1);
        }
        assertThat(buckets.take("second", 1)).as("still known").isPresent();
        assertThat(buckets.take("first", 1)).as("forgotten").isEmpty();
    }
}
