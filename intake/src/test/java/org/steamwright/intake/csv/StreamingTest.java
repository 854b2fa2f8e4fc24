package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.ByteSource;
import org.steamwright.intake.table.FileBytes;

/** Files that somebody still writes, files that change, and files larger than the memory. */
class StreamingTest {

    static final ReadingChoices SITE =
            ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();

    static final String RUN =
            "time,T1 (°C)\n2026-03-02T09:00:00,121.1\n2026-03-02T09:00:01,121.2\n2026-03-02T09:00:02,121.3\n";

    @Test
    void a_file_that_grows_while_it_is_read_is_read_up_to_where_it_ended_at_first()
            throws IOException, UnreadableFileException {
        String atFirst = RUN + "2026-03-02T09:00:03,1";
        Recording read = CsvRecordings.read(
                FakeFile.ofTexts(atFirst, atFirst + "21.4\n", atFirst + "21.4\n2026-03-02T09:00:04,121.5\n"), SITE);
        assertThat(read.axis().size()).isEqualTo(3);
        assertThat(read.bytes()).isEqualTo(atFirst.getBytes(StandardCharsets.UTF_8).length);
        assertThat(read.sha256())
                .as("of the bytes that were read, not of those that came later")
                .isEqualTo(HexFormat.of()
                        .formatHex(FileBytes.sha256Digest().digest(atFirst.getBytes(StandardCharsets.UTF_8))));
        assertThat(read.remarks())
                .extracting(remark -> remark.id())
                .containsExactly(IntakeMessage.LAST_LINE_CUT.id(), IntakeMessage.FILE_GREW.id());
        assertThat(read.remarks().get(1).text())
                .isEqualTo("The file grew while it was being read, from 113 to 144 bytes: something still writes to it."
                        + " The recording is read up to byte 113, and its fingerprint is that of these bytes. Read"
                        + " the file again once the logger has finished.");
    }

    @Test
    void a_file_that_is_replaced_while_it_is_read_is_refused() {
        assertRefused(
                FakeFile.ofTexts(RUN, RUN.replace("T1", "T2")),
                "INTAKE-060 fake.csv: the file was changed while it was being read: bytes that had been looked at are"
                        + " others now, or gone. Wait until nothing writes to it any more, or make a copy and read that.");
    }

    @Test
    void a_file_that_is_cut_while_it_is_read_is_refused() {
        assertRefused(FakeFile.ofTexts(RUN, RUN, RUN, RUN.substring(0, 40)), "INTAKE-060 fake.csv: ");
    }

    @Test
    void a_letter_of_another_encoding_far_behind_the_head_is_still_read() throws IOException, UnreadableFileException {
        StringBuilder text = new StringBuilder("t_s,T_C,Note\n");
        for (int i = 0; i < 20_000; i++) {
            text.append(i)
                    .append(",121.0,")
                    .append(i == 19_000 ? "geöffnet" : "")
                    .append('\n');
        }
        FakeFile file = new FakeFile("late.csv", text.toString().getBytes(StandardCharsets.ISO_8859_1));
        Recording read = CsvRecordings.read(file, SITE);
        assertThat(read.axis().size()).isEqualTo(20_000);
        assertThat(read.explanation().get(0)).isEqualTo("encoding windows-1252, because the bytes are not UTF-8");
        assertThat(read.remarks()).extracting(remark -> remark.id()).contains(IntakeMessage.OLD_ENCODING.id());
    }

    @Test
    void a_row_without_end_is_refused_before_it_fills_the_memory() {
        String row = "1,".repeat(40_000) + "1\n";
        assertRefused(
                FakeFile.ofTexts("t_s,T_C\n0,121.1\n1,121.2\n2,121.2\n3,121.3\n" + row),
                "INTAKE-061 fake.csv, row 6: this row has more than 16384 cells or 4194304 characters");
    }

    @Test
    void a_cell_without_end_is_refused_before_it_fills_the_memory() {
        assertRefused(
                FakeFile.ofTexts("t_s,T_C\n0,121.1\n1,121.2\n2,\"" + "1".repeat(1_200_000) + "\"\n"),
                "INTAKE-010 fake.csv");
    }

    /**
     * Reads megabytes of rows that never lie on a disk in a program with little memory. {@code -Dstreaming.megabytes} takes
     * more of them: docs/how-to/run-the-campaigns.md.
     */
    @Test
    void a_file_many_times_larger_than_the_memory_is_read_for_one_run() throws IOException, InterruptedException {
        int megabytes = Integer.getInteger("streaming.megabytes", 48);
        Process fork = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx24m",
                        "-XX:+UseSerialGC",
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        SmallMemory.class.getName(),
                        Integer.toString(megabytes)))
                .redirectErrorStream(true)
                .start();
        String said = new String(fork.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(fork.waitFor()).as(said).isZero();
        assertThat(said).contains("3601 samples");
        System.out.print(said);
    }

    /** The other program: reads an hour out of generated weeks and says how it went. */
    static final class SmallMemory {
        public static void main(String[] arguments) throws IOException, UnreadableFileException {
            Weeks weeks = new Weeks(Integer.parseInt(arguments[0]) * 1_000_000L);
            long before = System.nanoTime();
            Recording read = CsvRecordings.read(
                    weeks,
                    ReadingChoices.inZone(ZoneOffset.UTC)
                            .answer("from", "2026-03-02 05:00")
                            .answer("to", "2026-03-02 06:00")
                            .build());
            System.out.println(read.axis().size() + " samples of " + read.bytes() / 1_000_000 + " MB read in "
                    + (System.nanoTime() - before) / 1_000_000 + " ms with a heap of at most "
                    + Runtime.getRuntime().maxMemory() / 1_000_000 + " MB");
            read.remarks().forEach(System.out::println);
        }
    }

    /** Invented rows, one a second, made while they are read. */
    static final class Weeks implements ByteSource {
        private static final byte[] HEADER =
                "Date/Time,T1 (°C),T2 (°C),T3 (°C),P (kPa abs)\n".getBytes(StandardCharsets.UTF_8);
        private static final int ROW = 46;

        private final long rows;

        Weeks(long bytes) {
            this.rows = bytes / ROW;
        }

        @Override
        public String name() {
            return "weeks.csv";
        }

        @Override
        public long size() {
            return HEADER.length + rows * ROW;
        }

        @Override
        public long sizeNow() {
            return size();
        }

        @Override
        public InputStream open() {
            return new InputStream() {
                private byte[] now = HEADER;
                private int at;
                private long next;

                @Override
                public int read() {
                    throw new UnsupportedOperationException("one byte at a time is never asked for");
                }

                @Override
                public int read(byte[] bytes, int offset, int length) {
                    if (at == now.length) {
                        if (next == rows) {
                            return -1;
                        }
                        now = row(next++);
                        at = 0;
                    }
                    int given = Math.min(length, now.length - at);
                    System.arraycopy(now, at, bytes, offset, given);
                    at += given;
                    return given;
                }
            };
        }

        static byte[] row(long number) {
            java.time.LocalDateTime time =
                    java.time.LocalDateTime.of(2026, 3, 2, 0, 0).plusSeconds(number);
            String row = time.toLocalDate() + " " + (time.getHour() < 10 ? "0" : "") + time.getHour() + ":"
                    + (time.getMinute() < 10 ? "0" : "") + time.getMinute() + ":"
                    + (time.getSecond() < 10 ? "0" : "") + time.getSecond() + ",1" + (21 + number % 7) + ".1,1"
                    + (21 + number % 5) + ".22,121.35,2" + (number % 90 + 10) + ".4\n";
            byte[] bytes = row.getBytes(StandardCharsets.US_ASCII);
            return bytes.length == ROW ? bytes : Arrays.copyOf(bytes, ROW);
        }
    }

    private static void assertRefused(ByteSource file, String message) {
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> CsvRecordings.read(file, SITE))
                .satisfies(refused -> assertThat(refused.getMessage()).startsWith(message));
    }
}
