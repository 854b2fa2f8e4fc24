package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

class CsvRecordingsTest {

    static final ReadingChoices SITE =
            ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();

    @TempDir
    Path folder;

    @Test
    void reads_the_real_recording() throws IOException, UnreadableFileException {
        Path file = real("autoclave/ciclo_completo_F0_20_1Hz.csv");
        Recording read = CsvRecordings.read(file, SITE);

        assertThat(read.axis().size())
                .as("3360 samples by the provenance note of the data")
                .isEqualTo(3360);
        assertThat(read.axis().interval()).isEqualTo(1);
        assertThat(read.axis().last()).isEqualTo(3359);
        assertThat(read.start()).isEmpty();
        assertThat(read.columns()).singleElement().satisfies(column -> {
            assertThat(column.name()).isEqualTo("T_C");
            assertThat(column.quantity()).isEqualTo(Quantity.TEMPERATURE);
            assertThat(column.unitInFile()).isEqualTo("°C");
            assertThat(column.resolution()).isEqualTo(0.01);
            assertThat(column.at(0)).isEqualTo(89.58);
            assertThat(column.at(3359)).isEqualTo(118.86);
        });
        assertThat(read.bytes()).isEqualTo(38143);
        assertThat(read.remarks()).isEmpty();
        assertThat(read.isSimulated()).isFalse();
    }

    @Test
    void refuses_the_real_calibration_table_for_want_of_a_time() throws IOException {
        Path file = real("calibration/dryblock_11reps_5points_raw.csv");
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> CsvRecordings.read(file, SITE))
                .satisfies(refused -> {
                    assertThat(refused.id()).isEqualTo(IntakeMessage.NO_TIME_COLUMN);
                    assertThat(refused.text())
                            .contains("Its columns are: JOFRA, Droite, Toit, Porte, Fenêtre, Gauche, Sol, Air haut");
                });
    }

    static Path real(String name) {
        Path file = Path.of(System.getProperty("steamwright.data")).resolve(name);
        assumeTrue(Files.exists(file), "the outside data " + name + " is not here");
        return file;
    }

    @Test
    void fingerprints_the_bytes_as_they_are() throws IOException, UnreadableFileException {
        Path file = write("abc.csv", "t_s,T_C\n0,121.1\n1,121.2\n");
        // printf 't_s,T_C\n0,121.1\n1,121.2\n' | sha256sum (GNU coreutils)
        assertThat(CsvRecordings.read(file, SITE).sha256())
                .isEqualTo("e3ab95370d183cc1c1fd674c6fbe5778b798bcc82afb9e9ccf53ed3676f4ee02");
    }

    @Test
    void leaves_the_file_and_its_folder_as_they_were() throws IOException, UnreadableFileException {
        Path file = write("kept.csv", "t_s,T_C\n0,121.1\n1,121.2\n");
        FileTime before = Files.getLastModifiedTime(file);
        CsvRecordings.read(file, SITE);
        assertThat(Files.getLastModifiedTime(file)).isEqualTo(before);
        assertThat(file).hasContent("t_s,T_C\n0,121.1\n1,121.2\n");
        try (Stream<Path> all = Files.list(folder)) {
            assertThat(all).containsExactly(file);
        }
    }

    @Test
    void names_a_file_that_is_not_there() {
        assertRefused(
                folder.resolve("none.csv"),
                IntakeMessage.FILE_MISSING,
                "INTAKE-001 none.csv: there is no such file. Check the name and the folder; is the memory card or the"
                        + " network drive still there?");
    }

    @Test
    void names_a_folder() {
        assertRefused(
                folder,
                IntakeMessage.NOT_A_FILE,
                "INTAKE-002 " + folder.getFileName()
                        + ": this is a folder, expected a recording. Name the file inside it.");
    }

    @Test
    void names_a_file_that_it_may_not_read() throws IOException {
        Path file = write("closed.csv", "t_s,T_C\n0,121.1\n1,121.2\n");
        assumeTrue(
                file.getFileSystem().supportedFileAttributeViews().contains("posix"),
                "the file system has no such permissions");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("---------"));
        assumeTrue(!Files.isReadable(file), "this user may read everything");
        assertRefused(
                file,
                IntakeMessage.FILE_CLOSED_TO_US,
                "INTAKE-003 closed.csv: the system does not let the program read this file. Is it open in another"
                        + " program, or does it belong to another user?");
    }

    @Test
    void refuses_two_gigabytes_of_nothing_before_it_reads_them() throws IOException {
        Path file = folder.resolve("huge.csv");
        try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
            sparse.writeBytes("t_s,T_C\n0,121.1\n1,121.2\n");
            sparse.setLength(2_000_000_000L);
        }
        long before = System.nanoTime();
        assertRefused(
                file,
                IntakeMessage.ZERO_BYTES,
                "INTAKE-007 huge.csv, row 4: byte 25 is zero, as where a disk or a memory card was not written to the"
                        + " end. The readings after it are lost. Export again; or cut the file before this row in a copy,"
                        + " and keep the original with it.");
        assertThat((System.nanoTime() - before) / 1e9)
                .as("seconds; reading 2 GB takes longer")
                .isLessThan(1);
    }

    @Test
    void takes_a_file_of_zeros_for_what_it_is() throws IOException {
        Path file = folder.resolve("zeros.csv");
        try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
            sparse.setLength(200_000_001);
        }
        assertThatThrownBy(() -> CsvRecordings.read(file, SITE))
                .hasMessageStartingWith("INTAKE-006 zeros.csv: the first 8192 bytes are all zero");
    }

    @Test
    void does_not_depend_on_the_locale_of_the_laptop() throws IOException, UnreadableFileException {
        Path file = write("locale.csv", "time;T1 (°C)\n2026-03-02 09:00:00;121,5\n2026-03-02 09:00:01;121,6\n");
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.ROOT);
            Recording here = CsvRecordings.read(file, SITE);
            for (String elsewhere : new String[] {"tr-TR", "de-DE", "ar-EG-u-nu-arab", "th-TH-u-ca-buddhist"}) {
                Locale.setDefault(Locale.forLanguageTag(elsewhere));
                Recording there = CsvRecordings.read(file, SITE);
                assertThat(there.explanation()).as(elsewhere).isEqualTo(here.explanation());
                assertThat(there.columns().get(0).toArray())
                        .as(elsewhere)
                        .isEqualTo(here.columns().get(0).toArray());
            }
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void finds_a_proof_of_the_decimal_mark_beyond_the_head() throws IOException, UnreadableFileException {
        StringBuilder text = new StringBuilder("t_s;p (mbar abs)\n");
        for (int i = 0; i < 400; i++) {
            text.append(i).append(";1,013\n");
        }
        text.append("400;0,998\n");
        Recording read = CsvRecordings.read(write("late.csv", text.toString()), SITE);
        assertThat(read.columns().get(0).at(400)).isEqualTo(0.0998);
        assertThat(read.explanation()).contains("decimal comma: as in \"0,998\" in row 402");
    }

    @Test
    void asks_for_the_unit_of_a_sensor_that_starts_late() throws IOException {
        StringBuilder text = new StringBuilder("t_s,T_C,Late\n");
        for (int i = 0; i < 300; i++) {
            text.append(i).append(",121.0,").append(i < 200 ? "" : "50.5").append('\n');
        }
        Path file = write("late.csv", text.toString());
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> CsvRecordings.read(file, SITE))
                .satisfies(refused -> assertThat(refused.questions())
                        .singleElement()
                        .satisfies(question -> assertThat(question.key()).isEqualTo("unit:Late")));
    }

    @Test
    void shows_some_of_many_gaps_and_counts_them_all() throws IOException, UnreadableFileException {
        StringBuilder text = new StringBuilder("t_s,T_C\n");
        int t = 0;
        for (int i = 0; i < 100; i++) {
            text.append(t).append(",121.0\n");
            t += i % 10 == 9 ? 5 : 1;
        }
        Recording read = CsvRecordings.read(write("gaps.csv", text.toString()), SITE);
        assertThat(read.remarks())
                .singleElement()
                .satisfies(remark -> assertThat(remark.text())
                        .startsWith("9 gaps in an interval of 1 s: 5 s from 9 s to 14 s,")
                        .contains(", … (counted"));
    }

    @Test
    void tells_the_start_of_elapsed_time_as_chosen() throws IOException, UnreadableFileException {
        Path file = write("elapsed.csv", "t_s,T_C\n-2,121.1\n-1,121.2\n");
        Recording read = CsvRecordings.read(
                file,
                ReadingChoices.inZone(ZoneId.of("UTC"))
                        .start(Instant.parse("2026-03-02T09:00:00Z"))
                        .build());
        assertThat(read.start()).contains(Instant.parse("2026-03-02T08:59:58Z"));
    }

    @Test
    void reads_three_thousand_rows_within_a_fraction_of_a_second_of_work() throws IOException, UnreadableFileException {
        Path file = write("usual.csv", usual(3000));
        var threads = ManagementFactory.getThreadMXBean();
        assumeTrue(threads.isCurrentThreadCpuTimeSupported(), "no clock for the work of one thread");
        CsvRecordings.read(file, SITE);
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 5; i++) {
            long before = threads.getCurrentThreadCpuTime();
            CsvRecordings.read(file, SITE);
            least = Math.min(least, threads.getCurrentThreadCpuTime() - before);
        }
        assertThat(least / 1e6)
                .as("milliseconds of work for 3000 rows of 7 columns, once loaded")
                .isLessThan(50);
    }

    /** Invented: an ordinary file of one cycle, one sample a second. */
    static String usual(int rows) {
        StringBuilder text = new StringBuilder("Date/Time,T1 (°C),T2 (°C),T3 (°C),T4 (°C),T5 (°C),P (kPa abs)\n");
        for (int i = 0; i < rows; i++) {
            text.append(String.format(Locale.ROOT, "2026-03-02T09:%02d:%02d", i / 60, i % 60));
            for (int c = 0; c < 5; c++) {
                text.append(String.format(Locale.ROOT, ",%.2f", 134 + (i * 7 + c * 13) % 50 / 100.0));
            }
            text.append(String.format(Locale.ROOT, ",%.1f\n", 304 + i % 7 / 10.0));
        }
        return text.toString();
    }

    private Path write(String name, String text) throws IOException {
        return Files.write(folder.resolve(name), text.getBytes(StandardCharsets.UTF_8));
    }

    private static void assertRefused(Path file, IntakeMessage id, String message) {
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> CsvRecordings.read(file, SITE))
                .satisfies(refused -> {
                    assertThat(refused.id()).isEqualTo(id);
                    assertThat(refused.getMessage()).isEqualTo(message);
                });
    }
}
