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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.certificate.DigitalCertificate;
import org.steamwright.intake.certificate.DigitalCertificates;
import org.steamwright.intake.certificate.TrustAnchors;
import org.steamwright.intake.certificate.UnreadableCertificateException;
import org.steamwright.intake.csv.CsvRecordings;
import org.steamwright.intake.folder.Problem;
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
        String knock(byte[] bytes) throws IOException {
            try {
                return consider(CsvRecordings.read(Scratch.write("recording.csv", bytes), CHOICES));
            } catch (UnreadableFileException refused) {
                return consider(refused);
            }
        }
    },
    /** A workbook, byte by byte, or the text of its parts with {@link Parts#MARK} between them. */
    XLSX {
        @Override
        String knock(byte[] bytes) throws IOException {
            boolean isArchive = bytes.length > 1 && bytes[0] == 'P' && bytes[1] == 'K';
            try {
                return consider(SpreadsheetRecordings.read(
                        FileBytes.of("recording.xlsx", isArchive ? bytes : Parts.workbook(bytes)), CHOICES));
            } catch (UnreadableFileException refused) {
                return consider(refused);
            }
        }
    },
    /** The file of a visit, beside recordings that are there. */
    YAML {
        @Override
        String knock(byte[] bytes) throws IOException {
            try {
                return "visit of "
                        + VisitFolder.read(Scratch.visit(bytes), PRESETS).runs().size();
            } catch (VisitFolderException refused) {
                if (refused.problems().isEmpty()) {
                    throw new IllegalStateException("refused without a reason", refused);
                }
                TreeSet<String> ids = new TreeSet<>();
                for (Problem problem : refused.problems()) {
                    ids.add(problem.id());
                }
                return ids.toString();
            }
        }
    },
    /** A digital calibration certificate. */
    DCC {
        @Override
        String knock(byte[] bytes) throws IOException {
            try {
                return consider(DigitalCertificates.read(bytes, "certificate.xml", TrustAnchors.NONE));
            } catch (UnreadableCertificateException refused) {
                if (refused.text().isBlank()) {
                    throw new IllegalStateException("refused without a reason", refused);
                }
                return refused.id() + outline(refused.text());
            }
        }
    };

    private static final ReadingChoices CHOICES =
            ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();
    private static final CriteriaSets PRESETS = new Once();

    /** What one input may take of the processor, in nanoseconds. */
    static final long LONGEST_NANOS = 1_000_000_000L;

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    abstract String knock(byte[] bytes) throws IOException;

    /**
     * Brings bytes through the door.
     *
     * @return what came of it, in few words: alike for inputs that the reader takes alike
     * @throws IllegalStateException if it took more than a second of the processor twice, or gave something that is no
     *     answer; the first time can be that of a program that has just started
     */
    String enter(byte[] bytes) throws IOException {
        long before = THREADS.getCurrentThreadCpuTime();
        String came = knock(bytes);
        long took = THREADS.getCurrentThreadCpuTime() - before;
        if (took > LONGEST_NANOS) {
            before = THREADS.getCurrentThreadCpuTime();
            knock(bytes);
            took = THREADS.getCurrentThreadCpuTime() - before;
            if (took > LONGEST_NANOS) {
                throw new IllegalStateException("it took " + took / 1_000_000 + " ms of the processor");
            }
        }
        return came;
    }

    private static String consider(Recording read) {
        for (Column column : read.columns()) {
            if (column.size() != read.axis().size()) {
                throw new IllegalStateException("a column and the time differ in length");
            }
        }
        TreeSet<String> ids = new TreeSet<>();
        for (Remark remark : read.remarks()) {
            ids.add(remark.id());
        }
        return "recording of " + Math.min(read.columns().size(), 4) + " with " + ids;
    }

    private static String consider(DigitalCertificate read) {
        StringBuilder outcome =
                new StringBuilder("certificate of " + Math.min(read.items().size(), 4));
        outcome.append(read.recalibrateBy().isPresent() ? " with an end" : "");
        outcome.append(Math.min(read.conditions().size(), 2))
                .append(read.signature().answer());
        for (var table : read.tables().subList(0, Math.min(3, read.tables().size()))) {
            outcome.append(' ').append(Math.min(table.points().size(), 3));
        }
        TreeSet<String> remarks = new TreeSet<>();
        read.remarks().forEach(remark -> remarks.add(outline(remark.id() + remark.text())));
        return outcome.append(remarks).toString();
    }

    /** The beginning of a sentence without what it quotes: alike for refusals of one kind. */
    private static String outline(String text) {
        String plain = text.replaceAll("\"[^\"]*\"?|[0-9]+", "");
        return plain.substring(0, Math.min(60, plain.length()));
    }

    private static String consider(UnreadableFileException refused) {
        if (refused.text().isBlank() || refused.text().length() > 100_000) {
            throw new IllegalStateException("a refusal nobody can read", refused);
        }
        return refused.id().id() + " with " + refused.questions().size();
    }

    /** The presets, each read once: they are not what is tried here. */
    private static final class Once implements CriteriaSets {
        private final Presets presets = new Presets();
        private final Map<String, CriteriaSet> known = new HashMap<>();

        @Override
        public List<String> names() {
            return presets.names();
        }

        @Override
        public CriteriaSet get(String name) {
            return known.computeIfAbsent(name, presets::get);
        }

        @Override
        public CriteriaSet read(byte[] bytes, String fileName) {
            return presets.read(bytes, fileName);
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
