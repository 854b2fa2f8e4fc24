package org.steamwright.records.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** The database file may not grow by one more page, at every page in turn. */
class FullDiskTest {

    private static final int PAGES = Integer.getInteger("records.full", 25);

    @TempDir
    Path folder;

    @Test
    void a_full_disk_is_told_keeps_what_was_kept_and_harms_nothing() {
        try (Records records = Records.open(Place.folder(folder), Clock.systemUTC())) {
            int number = 1;
            int refused = 0;
            for (int more = 0; more < PAGES; more++) {
                long pages = records.database()
                        .read(session -> session.find(row -> row.getLong(1), "pragma page_count")
                                .orElseThrow());
                limit(records, pages);
                TreeHead before = records.head().tree();
                boolean isFull = false;
                while (!isFull) {
                    try {
                        records.append(KilledWriter.submission(records, number));
                        number++;
                        before = records.head().tree();
                    } catch (RecordsException e) {
                        assertThat(e.id()).isEqualTo(RecordsMessage.NOT_KEPT);
                        assertThat(e).hasMessageContaining("Nothing of this submission was kept. Is the disk full");
                        isFull = true;
                        refused++;
                    }
                }
                assertThat(records.head().tree()).isEqualTo(before);
                limit(records, pages + 1);
                assertThat(Verifier.verify(records, List.of(before), Reassessment.NONE)
                                .differences())
                        .isEmpty();
            }
            limit(records, 1_000_000);
            records.append(KilledWriter.submission(records, number));
            assertThat(records.head().tree().size()).isEqualTo((long) number * KilledWriter.ENTRIES);
            System.out.println("full disk: " + refused + " refusals, none silent, nothing lost");
        }
    }

    private static void limit(Records records, long pages) {
        records.database().write(session -> session.find(row -> row.getLong(1), "pragma max_page_count = " + pages));
    }

    @Test
    void after_an_error_while_flushing_nothing_more_is_written() {
        Records records = Records.open(Place.folder(folder), Clock.systemUTC());
        records.append(KilledWriter.submission(records, 1));
        records.close();
        assertThatThrownBy(() -> records.append(KilledWriter.submission(records, 2)))
                .isInstanceOf(RecordsException.class)
                .hasMessageContaining("RECORD-008");
    }
}
