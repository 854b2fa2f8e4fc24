package org.steamwright.report.result;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.qualification.Qualification;

/**
 * Writes an assessed visit as {@code result.json}.
 *
 * <p>UTF-8, two blanks of indentation, a line feed at every line's end on every system, numbers in the shortest form
 * that reads back to the same {@code double}.
 */
public final class ResultJson {
    /** Name of the format, the first field of every result. */
    public static final String FORMAT = "steamwright-result";

    /** Version of the format. A reader of 1 can read every 1.x: fields are only added. */
    public static final String FORMAT_VERSION = "1.0";

    /** Version of the program. */
    public static final String PROGRAM_VERSION = "0.1.0";

    /** Name of the JSON Schema, a resource beside this class. */
    public static final String SCHEMA = "result.schema.json";

    private ResultJson() {}

    /**
     * Writes the result. The stream stays open and is flushed.
     *
     * @throws IOException if the stream can't take it
     */
    public static void write(AssessedVisit assessed, OutputStream out) throws IOException {
        JsonFactory factory = JsonFactory.builder()
                // the JDK before 19 does not always give the shortest form
                .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
                .disable(StreamWriteFeature.AUTO_CLOSE_TARGET)
                .build();
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        try (JsonGenerator json = factory.createGenerator(out)) {
            Separators separators = Separators.createDefaultInstance()
                    .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                    .withObjectEmptySeparator("")
                    .withArrayEmptySeparator("");
            json.setPrettyPrinter(new DefaultPrettyPrinter(separators)
                    .withObjectIndenter(indenter)
                    .withArrayIndenter(indenter));
            document(assessed, new Fields(json));
            json.writeRaw('\n');
        }
        out.flush();
    }

    /**
     * The SHA-256 of the recordings that a result was made from, in its order; empty if the stream holds no result.
     *
     * @throws IOException if the stream can't be read
     */
    public static Optional<List<String>> findInputs(InputStream result) throws IOException {
        List<String> hashes = new ArrayList<>();
        boolean isResult = false;
        try (JsonParser json = new JsonFactory().createParser(result)) {
            if (json.nextToken() != JsonToken.START_OBJECT) {
                return Optional.empty();
            }
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String name = json.currentName();
                JsonToken value = json.nextToken();
                if (name.equals("format")) {
                    isResult = json.getText().equals(FORMAT);
                } else if (name.equals("inputs") && value == JsonToken.START_ARRAY) {
                    while (json.nextToken() == JsonToken.START_OBJECT) {
                        while (json.nextToken() == JsonToken.FIELD_NAME) {
                            String field = json.currentName();
                            json.nextToken();
                            if (field.equals("sha256")) {
                                hashes.add(json.getText());
                            }
                            json.skipChildren();
                        }
                    }
                } else {
                    json.skipChildren();
                }
            }
        } catch (JsonProcessingException somethingElse) {
            return Optional.empty();
        }
        return isResult ? Optional.of(List.copyOf(hashes)) : Optional.empty();
    }

    private static void document(AssessedVisit assessed, Fields fields) throws IOException {
        fields.element();
        fields.text("format", FORMAT);
        fields.text("formatVersion", FORMAT_VERSION);
        fields.object("program");
        fields.text("name", "Steamwright");
        fields.text("version", PROGRAM_VERSION);
        fields.text("algorithmVersion", Assessment.ALGORITHM_VERSION);
        fields.endObject();
        fields.flag("isSimulated", assessed.visit().isSimulated());
        answer(assessed, fields);
        qualifications(assessed.qualifications(), fields);
        // a single recording is no visit: nothing follows from it beside its runs
        if (assessed.visit().clinic().isPresent()) {
            fields.object("job");
            JobFields.write(assessed, fields);
            fields.endObject();
        }
        inputs(assessed, fields);
        VisitFields.write(assessed.visit(), fields);
        SetFields.write(assessed.visit().criteriaSet(), fields);
        fields.list("instruments");
        for (ReferenceInstrument instrument : instruments(assessed).values()) {
            InstrumentFields.write(instrument, fields);
        }
        fields.endList();
        fields.list("runs");
        for (AssessedRun run : assessed.runs()) {
            RunFields.write(run, fields);
        }
        fields.endList();
        fields.endObject();
    }

    private static void answer(AssessedVisit assessed, Fields fields) throws IOException {
        fields.object("answer");
        fields.word("standing", assessed.standing());
        fields.texts("summary", assessed.summary());
        fields.texts("qualifiedCycles", assessed.qualifiedCycles());
        if (assessed.validUntil().isPresent()) {
            fields.text("validUntil", assessed.validUntil().get().toString());
        }
        fields.texts("openPoints", assessed.openPoints());
        fields.endObject();
    }

    private static void qualifications(List<Qualification> qualifications, Fields fields) throws IOException {
        fields.list("qualifications");
        for (Qualification qualification : qualifications) {
            fields.element();
            fields.word("kind", qualification.kind());
            fields.text("sterilizer", qualification.sterilizer());
            fields.text("cycle", qualification.cycle());
            fields.word("standing", qualification.standing());
            fields.counts("runNumbers", qualification.runNumbers());
            fields.count("consecutivePasses", qualification.consecutivePasses());
            fields.count("needed", qualification.needed());
            fields.text("sentence", qualification.sentence());
            fields.endObject();
        }
        fields.endList();
    }

    /** Every recording once, with the runs that used it, in the order of first use. */
    private static void inputs(AssessedVisit assessed, Fields fields) throws IOException {
        // by text and not by the file itself: the hash code of a record is linked at run time, at 12 ms a start
        Map<String, TreeSet<Integer>> runsByFile = new LinkedHashMap<>();
        Map<String, Trace.SourceFile> files = new LinkedHashMap<>();
        for (AssessedRun run : assessed.runs()) {
            for (Trace.SourceFile file : run.run().test().trace().files()) {
                String key = file.sha256() + " " + file.name();
                files.putIfAbsent(key, file);
                runsByFile
                        .computeIfAbsent(key, unseen -> new TreeSet<>())
                        .add(run.run().number());
            }
        }
        fields.list("inputs");
        for (Map.Entry<String, Trace.SourceFile> entry : files.entrySet()) {
            Trace.SourceFile file = entry.getValue();
            fields.element();
            fields.text("file", file.name());
            fields.count("bytes", file.bytes());
            fields.text("sha256", file.sha256());
            fields.flag("isSimulated", file.isSimulated());
            fields.counts("runNumbers", runsByFile.getOrDefault(entry.getKey(), new TreeSet<>()));
            fields.endObject();
        }
        fields.endList();
    }

    private static Map<String, ReferenceInstrument> instruments(AssessedVisit assessed) {
        TreeMap<String, ReferenceInstrument> instruments =
                new TreeMap<>(assessed.visit().instruments());
        for (AssessedRun run : assessed.runs()) {
            run.run().test().instruments().forEach(instruments::putIfAbsent);
        }
        return instruments;
    }
}
