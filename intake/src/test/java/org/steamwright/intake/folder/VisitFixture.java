package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.visit.Visit;

/** A visit folder under construction, with invented recordings and criteria sets. */
final class VisitFixture {

    static final String SIMULATED = "# Steamwright simulated recording - invented data, not a real cycle\n";

    static final String TEN_LINES = """
            steamwright-visit: 1
            zone: Australia/Adelaide
            criteria-set: au-as5369
            sterilizers:
              - serial: SN-0417
                cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]
            runs:
              - kind: empty-chamber
                recording: run-1.csv
                channels: {T1: reference-point, T2: free-chamber, P: pressure}
            """;

    final Path folder;

    VisitFixture(Path folder) {
        this.folder = folder;
    }

    /** The folder of the ten-line example, with its recording. */
    static VisitFixture tenLines(Path folder) {
        return new VisitFixture(folder)
                .yaml(TEN_LINES)
                .file("run-1.csv", stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310.0));
    }

    VisitFixture yaml(String text) {
        return file(VisitFolder.FILE_NAME, text);
    }

    VisitFixture file(String name, String text) {
        return file(name, text.getBytes(StandardCharsets.UTF_8));
    }

    VisitFixture file(String name, byte[] bytes) {
        try {
            Path file = folder.resolve(name);
            Files.createDirectories(file.getParent());
            Files.write(file, bytes);
            return this;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The ten lines with something replaced; refuses a replacement that changes nothing. */
    VisitFixture replace(String old, String by) {
        try {
            String before = Files.readString(folder.resolve(VisitFolder.FILE_NAME));
            if (!before.contains(old)) {
                throw new IllegalArgumentException("no '" + old + "' in " + before);
            }
            return yaml(before.replace(old, by));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Visit read() throws IOException, VisitFolderException {
        return VisitFolder.read(folder, SETS);
    }

    /** The problems of the folder, one line each. */
    List<String> problems() {
        VisitFolderException refused = catchThrowableOfType(VisitFolderException.class, this::read);
        if (refused == null) {
            throw new AssertionError("the folder was read without a problem");
        }
        return refused.problems().stream().map(Problem::toString).toList();
    }

    /** Twenty samples at one second with time stamps on a clock without offset. */
    static String stamped(String day, int hour, String columns, double... values) {
        StringBuilder text = new StringBuilder("time,").append(columns).append('\n');
        for (int second = 0; second < 20; second++) {
            text.append(String.format(Locale.ROOT, "%s %02d:00:%02d", day, hour, second));
            row(text, second, values);
        }
        return text.toString();
    }

    /** Twenty samples at one second with elapsed time. */
    static String elapsed(String columns, double... values) {
        StringBuilder text = new StringBuilder("time [s],").append(columns).append('\n');
        for (int second = 0; second < 20; second++) {
            text.append(second);
            row(text, second, values);
        }
        return text.toString();
    }

    private static void row(StringBuilder text, int second, double... values) {
        for (double value : values) {
            text.append(',').append(String.format(Locale.ROOT, "%.2f", value + 0.01 * (second % 3)));
        }
        text.append('\n');
    }

    private static CriteriaSet set(String name, String sha256) {
        Source source = new Source(
                "invented limits", "1", "", Source.Provenance.USER, Source.Confidence.LOW, "for tests of reading only");
        Limit holding = new Limit(Comparison.AT_LEAST, 180, Unit.SECONDS, source);
        return new CriteriaSet(
                name,
                "1",
                sha256,
                "Invented set",
                IapwsR797.INSTANCE,
                source,
                false,
                List.of(new CriteriaSet.CycleLimits(134, holding, Optional.empty())),
                Map.of(),
                Optional.empty(),
                3);
    }

    /** Two invented presets, and a reader that takes any file beginning with 'limits'. */
    static final CriteriaSets SETS = new CriteriaSets() {
        @Override
        public List<String> names() {
            return List.of("au-as5369", "eu-en13060");
        }

        @Override
        public CriteriaSet get(String name) {
            if (!names().contains(name)) {
                throw new IllegalArgumentException("no criteria set '" + name + "'");
            }
            return set(name, "a".repeat(64));
        }

        @Override
        public CriteriaSet read(byte[] bytes, String fileName) {
            if (!new String(bytes, StandardCharsets.UTF_8).startsWith("limits")) {
                throw new IllegalArgumentException(fileName + ", line 1: found no limits. Write some.");
            }
            return set(fileName, "b".repeat(64));
        }
    };
}
