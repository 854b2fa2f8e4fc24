package org.steamwright.desk.runs;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.AssessedRun;

/**
 * One curve of each recording of a run, each on its own clock, to be laid over one another while an offset is chosen. A
 * pressure if all of them have one, else a temperature. For drawing only.
 */
final class ClockCurves {

    private static final double STEPS = 1_000;
    private static final double NANOS = 1e9;

    private ClockCurves() {}

    private record One(String file, ReadSummary summary) {}

    static void write(RunFacts facts, FileReading reader, Optional<AssessedRun> run, OutputStream out)
            throws IOException {
        List<One> all = new ArrayList<>();
        for (String file : facts.files()) {
            reader.summary(facts, file).ifPresent(summary -> all.add(new One(file, summary)));
        }
        Quantity quantity =
                all.stream().allMatch(one -> find(one, Quantity.PRESSURE).isPresent())
                        ? Quantity.PRESSURE
                        : Quantity.TEMPERATURE;
        Optional<Instant> zero =
                all.stream().flatMap(one -> one.summary().begin().stream()).min(Comparator.naturalOrder());
        List<Map<String, Object>> curves = new ArrayList<>();
        for (One one : all) {
            double begin = one.summary()
                    .begin()
                    .flatMap(at -> zero.map(first -> Duration.between(first, at)))
                    .map(span -> span.getSeconds() + span.getNano() / NANOS)
                    .orElse(0.0);
            find(one, quantity)
                    .ifPresent(sketch -> curves.add(curve(one.file(), begin, sketch, found(run, one.file()))));
        }
        out.write(JsonText.of(Map.of("unit", quantity.unit(), "curves", curves))
                .text()
                .getBytes(StandardCharsets.UTF_8));
    }

    private static Optional<ReadSummary.Sketch> find(One one, Quantity quantity) {
        return one.summary().sketches().stream()
                .filter(sketch -> sketch.quantity() == quantity)
                .findFirst();
    }

    /** Seconds that the alignment added to a file, where there is one. */
    private static Optional<Double> found(Optional<AssessedRun> run, String file) {
        return run.flatMap(one -> one.evaluation().run().clocks().recordings().stream()
                .filter(recording -> recording.file().equals(file))
                .findFirst()
                .flatMap(recording -> recording.offset())
                .map(offset -> offset.secondsAtStart()));
    }

    private static Map<String, Object> curve(
            String file, double begin, ReadSummary.Sketch sketch, Optional<Double> found) {
        List<Double> moments = new ArrayList<>();
        List<@Nullable Double> values = new ArrayList<>();
        for (int i = 0; i < sketch.values().size(); i++) {
            double moment = sketch.seconds().get(i);
            if (!Double.isNaN(moment)) {
                double value = sketch.values().get(i);
                moments.add(rounded(begin + moment));
                values.add(Double.isNaN(value) ? null : rounded(value));
            }
        }
        Map<String, Object> curve = new LinkedHashMap<>();
        curve.put("file", file);
        found.ifPresent(offset -> curve.put("found", offset));
        curve.put("t", moments);
        curve.put("v", values);
        return curve;
    }

    private static double rounded(double figure) {
        return Math.round(figure * STEPS) / STEPS;
    }
}
