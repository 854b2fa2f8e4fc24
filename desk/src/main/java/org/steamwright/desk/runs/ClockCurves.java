package org.steamwright.desk.runs;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.AssessedRun;

/**
 * One curve of each recording of a run, each on its own clock, to be laid over one another while an offset is chosen. A
 * pressure if all of them have one, else a temperature. For drawing only.
 */
final class ClockCurves {

    private static final double TIME_STEPS = 1_000;
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
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            json.writeStartObject();
            json.writeStringField("unit", quantity.unit());
            json.writeArrayFieldStart("curves");
            for (One one : all) {
                Optional<ReadSummary.Sketch> sketch = find(one, quantity);
                if (sketch.isPresent()) {
                    double begin = one.summary()
                            .begin()
                            .flatMap(at -> zero.map(first -> Duration.between(first, at)))
                            .map(span -> span.getSeconds() + span.getNano() / NANOS)
                            .orElse(0.0);
                    write(one.file(), begin, sketch.get(), found(run, one.file()), json);
                }
            }
            json.writeEndArray();
            json.writeEndObject();
        }
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

    private static void write(
            String file, double begin, ReadSummary.Sketch sketch, Optional<Double> found, JsonGenerator json)
            throws IOException {
        json.writeStartObject();
        json.writeStringField("file", file);
        if (found.isPresent()) {
            json.writeNumberField("found", found.get());
        }
        List<Double> seconds = sketch.seconds();
        List<Double> values = sketch.values();
        json.writeArrayFieldStart("t");
        for (double moment : seconds) {
            if (!Double.isNaN(moment)) {
                json.writeNumber(Math.round((begin + moment) * TIME_STEPS) / TIME_STEPS);
            }
        }
        json.writeEndArray();
        json.writeArrayFieldStart("v");
        for (int i = 0; i < values.size(); i++) {
            if (!Double.isNaN(seconds.get(i)) && Double.isNaN(values.get(i))) {
                json.writeNull();
            } else if (!Double.isNaN(seconds.get(i))) {
                json.writeNumber(Math.round(values.get(i) * TIME_STEPS) / TIME_STEPS);
            }
        }
        json.writeEndArray();
        json.writeEndObject();
    }
}
