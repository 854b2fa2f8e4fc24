package org.steamwright.desk.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

class WholeCountsTest {

    @TempDir
    Path folder;

    private final AtomicReference<Instant> now = new AtomicReference<>(Instant.parse("2026-08-03T07:30:00Z"));
    private final AtomicInteger counted = new AtomicInteger();
    private Records records;

    @BeforeEach
    void three_entries() {
        InstantSource source = now::get;
        Clock clock = source.withZone(ZoneOffset.UTC);
        records = Records.open(Place.folder(folder), clock);
        records.append(
                new Author("Alex Example", "office"),
                Records.changes(
                        Kind.CLINIC,
                        records.newSubject(),
                        Map.of("name", "Harbour", "number", "C1", "address", "1 Example Street")));
    }

    @Test
    void a_usual_record_is_counted_whenever_it_is_asked() {
        WholeCounts counts = new WholeCounts(records, 4);

        assertThat(counts.<Integer>of("visits", counted::incrementAndGet)).isEqualTo(1);
        assertThat(counts.<Integer>of("visits", counted::incrementAndGet)).isEqualTo(2);
        records.close();
    }

    @Test
    void a_large_one_keeps_its_count_for_half_a_minute() {
        WholeCounts counts = new WholeCounts(records, 3);

        assertThat(counts.<Integer>of("visits", counted::incrementAndGet)).isEqualTo(1);
        now.set(now.get().plus(Duration.ofSeconds(29)));
        assertThat(counts.<Integer>of("visits", counted::incrementAndGet)).isEqualTo(1);
        assertThat(counts.<Integer>of("clinics", counted::incrementAndGet))
                .as("another question")
                .isEqualTo(2);
        now.set(now.get().plus(Duration.ofSeconds(1)));
        assertThat(counts.<Integer>of("visits", counted::incrementAndGet)).isEqualTo(3);
        records.close();
    }
}
