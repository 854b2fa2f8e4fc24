package org.steamwright.intake.csv;

import com.sun.management.OperatingSystemMXBean;
import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/**
 * Measures how fast a large recording is read with all checks on, against the CSV library alone in the same run, by the
 * processor time of the whole process (compiler and garbage collector included), which a busy machine distorts least.
 * {@code tools/measure/reading.sh} runs it; the figures stand in docs/reference/speed.md.
 */
final class ReadingSpeed {

    private static final int WARM_UP = 5;
    private static final OperatingSystemMXBean SYSTEM =
            ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);

    private ReadingSpeed() {}

    public static void main(String[] arguments) throws IOException, UnreadableFileException {
        int megabytes = Integer.parseInt(arguments[0]);
        int rounds = Integer.parseInt(arguments[1]);
        Path file = Files.createTempFile("reading-speed", ".csv");
        try {
            write(file, megabytes * 1_000_000L);
            System.out.println(Files.size(file) / 1_000_000 + " MB, Java " + System.getProperty("java.version") + " ("
                    + System.getProperty("java.vendor") + "), "
                    + libraryVersion() + ", "
                    + Runtime.getRuntime().availableProcessors() + " processors, heap of at most "
                    + Runtime.getRuntime().maxMemory() / 1_000_000 + " MB, processor time, median of " + rounds);
            double[] records = new double[rounds];
            double[] bare = new double[rounds];
            double[] ours = new double[rounds];
            for (int i = -WARM_UP; i < rounds; i++) {
                double asRecords = seconds(() -> countRecords(file));
                double asFields = seconds(() -> countFields(file));
                double asRecording = seconds(() -> readRecording(file));
                if (i >= 0) {
                    records[i] = asRecords;
                    bare[i] = asFields;
                    ours[i] = asRecording;
                }
            }
            double size = Files.size(file) / 1e6;
            say("the library, a record of strings per row", size, records);
            say("the library, its fields looked at and left", size, bare);
            say("steamwright, a recording with all checks", size, ours);
            System.out.printf(
                    Locale.ROOT,
                    "of the library's throughput: %.0f %% (strings), %.0f %% (fields)%n",
                    100 * median(records) / median(ours),
                    100 * median(bare) / median(ours));
        } finally {
            Files.delete(file);
        }
    }

    /** Name of the library's archive, which carries its version. */
    private static String libraryVersion() {
        String archive = CsvReader.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .getPath();
        return archive.substring(archive.lastIndexOf('/') + 1);
    }

    private interface Work {
        long run() throws IOException, UnreadableFileException;
    }

    private static double seconds(Work work) throws IOException, UnreadableFileException {
        long before = SYSTEM.getProcessCpuTime();
        if (work.run() < 1000) {
            throw new IllegalStateException("that was not the whole file");
        }
        return (SYSTEM.getProcessCpuTime() - before) / 1e9;
    }

    private static long countRecords(Path file) throws IOException {
        long fields = 0;
        try (CsvReader<CsvRecord> reader = CsvReader.builder().ofCsvRecord(file)) {
            for (CsvRecord row : reader) {
                fields += row.getFieldCount();
            }
        }
        return fields;
    }

    private static long countFields(Path file) throws IOException {
        Counter counter = new Counter();
        try (CsvReader<Counter> reader = CsvReader.builder().build(counter, file)) {
            for (Counter row : reader) {
                row.rows++;
            }
        }
        return counter.rows + counter.characters;
    }

    private static final class Counter extends AbstractBaseCsvCallbackHandler<Counter> {
        private long rows;
        private long characters;

        @Override
        protected void handleField(int index, char[] buffer, int offset, int length, boolean isQuoted) {
            characters += length;
        }

        @Override
        protected Counter buildRecord() {
            return this;
        }
    }

    private static long readRecording(Path file) throws IOException, UnreadableFileException {
        Recording recording =
                CsvRecordings.read(file, ReadingChoices.inZone(ZoneOffset.UTC).build());
        return recording.axis().size();
    }

    private static void say(String what, double megabytes, double[] seconds) {
        System.out.printf(
                Locale.ROOT,
                "%-44s %6.3f s  %5.0f MB/s  (%.3f to %.3f s)%n",
                what,
                median(seconds),
                megabytes / median(seconds),
                Arrays.stream(seconds).min().orElseThrow(),
                Arrays.stream(seconds).max().orElseThrow());
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    /** Invented rows, one a second: a time stamp, five temperatures and a pressure. */
    private static void write(Path file, long bytes) throws IOException {
        Random random = new Random(20261125);
        LocalDateTime start = LocalDateTime.of(2026, 3, 2, 0, 0);
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            out.write(
                    "Date/Time,T1 (°C),T2 (°C),T3 (°C),T4 (°C),T5 (°C),P (kPa abs)\n".getBytes(StandardCharsets.UTF_8));
            StringBuilder row = new StringBuilder();
            long written = 0;
            for (long i = 0; written < bytes; i++) {
                row.setLength(0);
                LocalDateTime time = start.plusSeconds(i);
                row.append(time.toLocalDate()).append('T').append(two(time.getHour()));
                row.append(':').append(two(time.getMinute())).append(':').append(two(time.getSecond()));
                for (int c = 0; c < 5; c++) {
                    row.append(',').append(20 + random.nextInt(115)).append('.').append(two(random.nextInt(100)));
                }
                row.append(',')
                        .append(5 + random.nextInt(300))
                        .append('.')
                        .append(random.nextInt(10))
                        .append('\n');
                byte[] line = row.toString().getBytes(StandardCharsets.US_ASCII);
                out.write(line);
                written += line.length;
            }
        }
    }

    private static String two(int number) {
        return number < 10 ? "0" + number : Integer.toString(number);
    }
}
