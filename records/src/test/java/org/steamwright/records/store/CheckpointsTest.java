package org.steamwright.records.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

class CheckpointsTest {

    private static final int HEADER_BYTES = 32;

    @Test
    void commits_close_to_each_other_share_one_checkpoint() throws InterruptedException {
        AtomicInteger made = new AtomicInteger();
        CountDownLatch first = new CountDownLatch(1);
        try (Checkpoints checkpoints = new Checkpoints(() -> {
            made.incrementAndGet();
            first.countDown();
        })) {
            checkpoints.committed();
            checkpoints.committed();
            checkpoints.committed();

            assertThat(first.await(30, TimeUnit.SECONDS)).isTrue();
        }
        assertThat(made).hasValue(1);
    }

    @Test
    void one_that_fails_does_not_end_them() throws InterruptedException {
        AtomicInteger made = new AtomicInteger();
        CountDownLatch first = new CountDownLatch(1);
        CountDownLatch second = new CountDownLatch(2);
        try (Checkpoints checkpoints = new Checkpoints(() -> {
            first.countDown();
            second.countDown();
            if (made.incrementAndGet() == 1) {
                throw new IllegalStateException("no room");
            }
        })) {
            checkpoints.committed();
            assertThat(first.await(30, TimeUnit.SECONDS)).isTrue();
            // asked again until the first one has ended
            while (!second.await(50, TimeUnit.MILLISECONDS)) {
                checkpoints.committed();
            }
        }
        assertThat(made).hasValueGreaterThanOrEqualTo(2);
    }

    @Test
    void none_is_made_once_closed() {
        AtomicInteger made = new AtomicInteger();
        Checkpoints checkpoints = new Checkpoints(made::incrementAndGet);
        checkpoints.committed();
        checkpoints.close();
        checkpoints.committed();

        assertThat(made).hasValueLessThanOrEqualTo(1);
    }

    @Test
    @Timeout(60)
    void what_was_saved_reaches_the_database_file_without_another_commit(@TempDir Path folder) throws Exception {
        Place place = Place.folder(folder);
        try (Records records = Records.open(place, Clock.systemUTC())) {
            long before = Files.getLastModifiedTime(place.database()).toMillis();
            long size = Files.size(place.database());
            records.append(
                    new Author("Alex Example", "office"),
                    Records.changes(
                            Kind.CLINIC,
                            records.newSubject(),
                            Map.of("name", "Harbour", "list", List.of("x".repeat(90_000)))));

            assertThat(Files.size(Path.of(place.database() + "-wal"))).isGreaterThan(HEADER_BYTES);
            while (Files.size(place.database()) == size
                    && Files.getLastModifiedTime(place.database()).toMillis() == before) {
                Thread.onSpinWait();
            }
            assertThat(Files.size(place.database())).isGreaterThan(size);
        }
    }
}
