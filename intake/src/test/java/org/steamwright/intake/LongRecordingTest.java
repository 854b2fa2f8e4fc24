package org.steamwright.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.BufferedWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recording of days that is given for a run: it is asked for the stretch that is wanted. */
class LongRecordingTest {

    @TempDir
    Path folder;

    @Test
    void a_recording_far_longer_than_a_run_is_asked_for_the_stretch_and_read_with_it() throws Exception {
        Path file = folder.resolve("days.csv");
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write("Time [s],T1 [°C]\n");
            for (int i = 0; i <= Recordings.MOST_SAMPLES; i++) {
                out.write(i + ",21.5\n");
            }
        }
        ReadingChoices.Builder choices = ReadingChoices.supposingZone(ZoneOffset.UTC);
        UnreadableFileException asked =
                catchThrowableOfType(UnreadableFileException.class, () -> Recordings.readRun(file, choices.build()));
        assertThat(asked.questions()).extracting(Question::key).containsExactly("from", "to");
        assertThat(asked.getMessage()).contains("400001 samples").contains("from what time");
        assertThat(Recordings.read(file, choices.build()).axis().size()).isEqualTo(400_001);
        choices.answer("from", "00:01:40");
        choices.answer("to", "01:01:40");
        assertThat(Recordings.readRun(file, choices.build()).axis().size()).isEqualTo(3_601);
    }
}
