package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

class TrainingRecordTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-08-03T07:30:00Z"), ZoneOffset.UTC);

    @TempDir
    private Path folder;

    private Records record(boolean isTraining) throws IOException {
        Path place = folder.resolve(isTraining ? "training" : "record");
        if (isTraining) {
            TrainingRecord.prepare(place);
        }
        return Records.open(Place.folder(place), CLOCK);
    }

    @Test
    void a_record_of_visits_takes_no_training_visit() throws Exception {
        try (Records records = record(false)) {
            assertThat(TrainingRecord.isIn(records)).isFalse();
            Drafts drafts = new Drafts(records);
            assertThatThrownBy(() -> drafts.open(KIM, "TRAINING-1", Map.of()))
                    .isInstanceOf(DraftRefusal.class)
                    .hasMessage("'TRAINING-1' is a training visit, and this is no record of training");
            Draft real = drafts.open(KIM, "R-2026-0001", Map.of());
            assertThatThrownBy(() -> real.change()
                            .set(FactPath.of("report-number"), "training-7")
                            .keep(KIM, ""))
                    .isInstanceOf(DraftRefusal.class)
                    .hasMessageContaining("is a training visit");
        }
    }

    @Test
    void a_training_record_takes_nothing_else_and_signs_nothing() throws Exception {
        try (Records records = record(true)) {
            Drafts drafts = new Drafts(records);
            assertThatThrownBy(() -> drafts.open(KIM, "R-2026-0001", Map.of()))
                    .isInstanceOf(DraftRefusal.class)
                    .hasMessage("'R-2026-0001' is no training visit, and this record is for training only");
            Draft training = drafts.open(KIM, "TRAINING-1", Map.of());
            assertThatThrownBy(() -> new Filing(records)
                            .sign(training.subject(), KIM.name(), "approved", "secret".toCharArray(), KIM))
                    .isInstanceOf(FilingException.class)
                    .hasMessage("a training visit can't be signed: its machine is simulated");
        }
    }

    @Test
    void links_out_of_the_training_are_removed_and_never_followed() throws IOException {
        Path elsewhere = Files.createDirectories(folder.resolve("elsewhere"));
        Files.writeString(elsewhere.resolve("kept.txt"), "real");
        Path training = folder.resolve("training");
        TrainingRecord.prepare(training);
        Files.createSymbolicLink(training.resolve("link"), elsewhere);
        assertThat(TrainingRecord.delete(training)).isEqualTo(2);
        assertThat(training).doesNotExist();
        assertThat(elsewhere.resolve("kept.txt")).hasContent("real");
    }
}
