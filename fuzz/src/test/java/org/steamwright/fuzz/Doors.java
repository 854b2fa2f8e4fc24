package org.steamwright.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.ZoneId;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.certificate.DigitalCertificates;
import org.steamwright.intake.certificate.TrustAnchors;
import org.steamwright.intake.certificate.UnreadableCertificateException;
import org.steamwright.intake.csv.CsvRecordings;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.spreadsheet.SpreadsheetRecordings;
import org.steamwright.intake.table.FileBytes;

/**
 * The doors by which bytes come in, each as one call. A refusal in the reader's own words is an answer like any other;
 * whatever else is thrown is a bug.
 */
public enum Doors {
    /** A recording as delimited text. */
    CSV {
        @Override
        void knock(byte[] bytes) throws IOException {
            try {
                consider(CsvRecordings.read(Scratch.write("recording.csv", bytes), CHOICES));
            } catch (UnreadableFileException refused) {
                consider(refused);
            }
        }
    },
    /** A workbook, byte by byte, or the text of its parts with {@link Parts#MARK} between them. */
    XLSX {
        @Override
        void knock(byte[] bytes) throws IOException {
            boolean isArchive = bytes.length > 1 && bytes[0] == 'P' && bytes[1] == 'K';
            try {
                consider(SpreadsheetRecordings.read(
                        FileBytes.of("recording.xlsx", isArchive ? bytes : Parts.workbook(bytes)), CHOICES));
            } catch (UnreadableFileException refused) {
                consider(refused);
            }
        }
    },
    /** The file of a visit, beside recordings that are there. */
    YAML {
        @Override
        void knock(byte[] bytes) throws IOException {
            try {
                VisitFolder.read(Scratch.visit(bytes), PRESETS);
            } catch (VisitFolderException refused) {
                if (refused.problems().isEmpty()) {
                    throw new IllegalStateException("refused without a reason", refused);
                }
            }
        }
    },
    /** A digital calibration certificate. */
    DCC {
        @Override
        void knock(byte[] bytes) throws IOException {
            try {
                DigitalCertificates.read(bytes, "certificate.xml", TrustAnchors.NONE);
            } catch (UnreadableCertificateException refused) {
                if (refused.text().isBlank()) {
                    throw new IllegalStateException("refused without a reason", refused);
                }
            }
        }
    };

    private static final ReadingChoices CHOICES =
            ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();
    private static final Presets PRESETS = new Presets();

    /** What one input may take of the processor, in nanoseconds. */
    static final long LONGEST_NANOS = 1_000_000_000L;

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    abstract void knock(byte[] bytes) throws IOException;

    /**
     * Brings bytes through the door.
     *
     * @throws IllegalStateException if it took more than a second of the processor twice, or gave something that is no
     *     answer; the first time can be that of a program that has just started
     */
    void enter(byte[] bytes) throws IOException {
        if (nanos(bytes) > LONGEST_NANOS) {
            long took = nanos(bytes);
            if (took > LONGEST_NANOS) {
                throw new IllegalStateException("it took " + took / 1_000_000 + " ms of the processor");
            }
        }
    }

    private long nanos(byte[] bytes) throws IOException {
        long before = THREADS.getCurrentThreadCpuTime();
        knock(bytes);
        return THREADS.getCurrentThreadCpuTime() - before;
    }

    private static void consider(Recording read) {
        for (Column column : read.columns()) {
            if (column.size() != read.axis().size()) {
                throw new IllegalStateException("a column and the time differ in length");
            }
        }
    }

    private static void consider(UnreadableFileException refused) {
        if (refused.text().isBlank() || refused.text().length() > 100_000) {
            throw new IllegalStateException("a refusal nobody can read", refused);
        }
    }

    /** A folder that every input overwrites. */
    private static final class Scratch {
        private static final Path FOLDER = folder();

        private static Path folder() {
            try {
                Path shm = Path.of("/dev/shm");
                Path folder = Files.isWritable(shm)
                        ? Files.createTempDirectory(shm, "steamwright-fuzz")
                        : Files.createTempDirectory("steamwright-fuzz");
                Files.createDirectory(folder.resolve("visit"));
                StringBuilder csv = new StringBuilder("time,T1 (°C),T2 (°C),P (kPa abs)\n");
                for (int second = 10; second < 40; second++) {
                    csv.append("2026-03-02T09:00:%d,134.%d,134.1,310.%d\n".formatted(second, second % 5, second % 3));
                }
                Files.write(folder.resolve("visit/run-1.csv"), csv.toString().getBytes(StandardCharsets.UTF_8));
                Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(folder)));
                return folder;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        private static void delete(Path folder) {
            try (var all = Files.walk(folder)) {
                for (Path path : all.sorted(java.util.Comparator.reverseOrder()).toList()) {
                    Files.deleteIfExists(path);
                }
            } catch (IOException left) {
                throw new UncheckedIOException(left);
            }
        }

        static Path write(String name, byte[] bytes) throws IOException {
            Path file = FOLDER.resolve(name);
            Files.write(file, bytes);
            return file;
        }

        static Path visit(byte[] bytes) throws IOException {
            Path file = write("visit.yaml", bytes);
            Path folder = FOLDER.resolve("visit");
            Files.move(file, folder.resolve("visit.yaml"), StandardCopyOption.REPLACE_EXISTING);
            return folder;
        }
    }
}
