package org.steamwright.report.result;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.OutputStream;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.Forecast;
import org.steamwright.visit.plan.GoCheck;
import org.steamwright.visit.plan.VisitPlan;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Writes what the office asks for, a due list, the plan of a visit or whether a load is covered, as JSON: UTF-8, two blanks of indentation, a line feed at
 * every line's end.
 */
public final class OfficeJson {
    /** First field of every due list. */
    public static final String DUE_FORMAT = "steamwright-due";

    /** First field of every plan. */
    public static final String PLAN_FORMAT = "steamwright-plan";

    /** First field of every answer to whether a load is covered. */
    public static final String COVERED_FORMAT = "steamwright-covered";

    /** JSON Schema of a due list, a resource beside this class. */
    public static final String DUE_SCHEMA = "due.schema.json";

    /** JSON Schema of a plan, a resource beside this class. */
    public static final String PLAN_SCHEMA = "plan.schema.json";

    /** JSON Schema of an answer to whether a load is covered, a resource beside this class. */
    public static final String COVERED_SCHEMA = "covered.schema.json";

    private static final String FORMAT_VERSION = "1.0";

    private OfficeJson() {}

    /**
     * Writes a due list in its order. The stream stays open and is flushed.
     *
     * @throws IOException if the stream can't take it
     */
    public static void due(List<Due> list, OutputStream out) throws IOException {
        try (JsonGenerator json = generator(out)) {
            Fields fields = begin(DUE_FORMAT, json);
            fields.list("due");
            for (Due due : list) {
                due(due, fields);
            }
            fields.endList();
            end(fields, json);
        }
        out.flush();
    }

    private static void due(Due due, Fields fields) throws IOException {
        fields.element();
        fields.text("kind", due.subject().kind().word());
        fields.text("id", due.subject().id());
        fields.text("subject", due.subject().title());
        fields.text("place", due.subject().place());
        fields.text("title", due.title());
        fields.text("today", due.today().toString());
        fields.text("urgency", due.urgency().word());
        day("day", due.day(), fields);
        fields.text("words", due.when());
        fields.text("cause", due.first().cause().word());
        fields.list("reasons");
        for (Candidate reason : due.reasons()) {
            fields.element();
            fields.text("cause", reason.cause().word());
            day("day", reason.day(), fields);
            day("toleratedUntil", reason.toleratedUntil(), fields);
            if (reason.forecast().isPresent()) {
                forecast(reason.forecast().get(), fields);
            }
            fields.text("reason", reason.reason());
            source(reason.source(), fields);
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void forecast(Forecast.Expected forecast, Fields fields) throws IOException {
        fields.object("forecast");
        fields.text("earliest", forecast.earliest().toString());
        fields.text("expected", forecast.day().toString());
        day("latest", forecast.latest(), fields);
        fields.number("cyclesPerWorkingDay", forecast.cyclesPerWorkingDay());
        fields.count("readings", forecast.readings());
        fields.text("lastReading", forecast.lastReading().toString());
        fields.endObject();
    }

    /**
     * Writes a plan with its go check, if one was made. The stream stays open and is flushed.
     *
     * @throws IOException if the stream can't take it
     */
    public static void plan(VisitPlan plan, Optional<GoCheck> check, OutputStream out) throws IOException {
        try (JsonGenerator json = generator(out)) {
            Fields fields = begin(PLAN_FORMAT, json);
            fields.text("sterilizer", plan.machine().id());
            fields.text("serial", plan.machine().identity().serial());
            fields.text("criteriaSet", plan.criteria());
            fields.count("minutes", plan.minutes());
            fields.list("reasons");
            for (var row : plan.reasons()) {
                fields.element();
                fields.text("reason", row.word());
                fields.text("title", row.title());
                source(row.source(), fields);
                fields.endObject();
            }
            fields.endList();
            fields.list("additions");
            for (VisitPlan.Addition added : plan.additions()) {
                fields.element();
                fields.text("step", added.kind().word());
                fields.text("cycle", added.cycle());
                source(added.source(), fields);
                fields.endObject();
            }
            fields.endList();
            steps(plan, fields);
            fields.list("needs");
            for (VisitPlan.Need need : plan.needs()) {
                fields.element();
                fields.text("kind", need.kind().word());
                if (need.count() > 0) {
                    fields.count("count", need.count());
                }
                fields.text("words", need.words());
                fields.endObject();
            }
            fields.endList();
            fields.texts("notes", plan.notes());
            if (check.isPresent()) {
                check(check.get(), fields);
            }
            end(fields, json);
        }
        out.flush();
    }

    private static void steps(VisitPlan plan, Fields fields) throws IOException {
        fields.list("steps");
        for (VisitPlan.Step step : plan.steps()) {
            fields.element();
            fields.text("step", step.kind().word());
            fields.text("cycle", step.cycle());
            if (step.run() > 0) {
                fields.count("run", step.run());
                fields.count("of", step.of());
            }
            fields.count("beginsMinute", step.begins());
            fields.count("minutes", step.minutes());
            fields.flag("meanwhile", step.isMeanwhile());
            fields.endObject();
        }
        fields.endList();
    }

    private static void check(GoCheck check, Fields fields) throws IOException {
        fields.object("goCheck");
        fields.flag("go", check.isGo());
        fields.text("begins", check.begins().toString());
        fields.text("ends", check.ends().toString());
        fields.list("points");
        for (GoCheck.Point point : check.points()) {
            fields.element();
            fields.text("answer", point.answer().word());
            fields.text("subject", point.subject());
            fields.text("sentence", point.sentence());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    /**
     * Writes whether a load is covered. The stream stays open and is flushed.
     *
     * @param load that was asked about
     * @param state on which the answer rests; empty if nothing stands
     * @param standing of the visit behind it in one word; blank if it is in no record
     * @param coverage the answer
     * @throws IOException if the stream can't take it
     */
    public static void covered(
            TodaysLoad load, Optional<ValidatedState> state, String standing, Coverage coverage, OutputStream out)
            throws IOException {
        try (JsonGenerator json = generator(out)) {
            Fields fields = begin(COVERED_FORMAT, json);
            fields.flag("covered", coverage.isCovered());
            fields.text("serial", load.serial());
            fields.text("cycle", load.cycle());
            fields.text("day", load.day().toString());
            fields.count("cycleNumber", load.count());
            fields.list("things");
            for (TodaysLoad.Thing thing : load.things()) {
                fields.element();
                fields.text("name", thing.name());
                fields.count("count", thing.count());
                fields.text("family", thing.family());
                fields.text("packaging", thing.packaging());
                fields.endObject();
            }
            fields.endList();
            fields.number("kilogram", load.kilogram());
            fields.count("trays", load.trays());
            fields.number("dryingSeconds", load.dryingSeconds());
            if (state.isPresent()) {
                fields.object("evidence");
                fields.text("reportNumber", state.get().reportNumber());
                fields.text("standing", standing);
                day("from", state.get().from(), fields);
                day("until", state.get().until(), fields);
                fields.count("untilCycle", state.get().untilCount());
                fields.endObject();
            }
            if (coverage.by().isPresent()) {
                fields.text("coveredBy", coverage.by().get());
            }
            fields.texts("reasons", coverage.reasons());
            fields.texts("notes", coverage.notes());
            end(fields, json);
        }
        out.flush();
    }

    private static void source(Source source, Fields fields) throws IOException {
        fields.object("source");
        fields.text("citation", source.citation());
        fields.text("provenance", source.provenance().words());
        fields.text("confidence", source.confidence().name().toLowerCase(Locale.ROOT));
        fields.text("note", source.note());
        fields.endObject();
    }

    private static void day(String name, Optional<LocalDate> day, Fields fields) throws IOException {
        if (day.isPresent()) {
            fields.text(name, day.get().toString());
        }
    }

    private static Fields begin(String format, JsonGenerator json) throws IOException {
        Fields fields = new Fields(json);
        fields.element();
        fields.text("format", format);
        fields.text("formatVersion", FORMAT_VERSION);
        return fields;
    }

    private static void end(Fields fields, JsonGenerator json) throws IOException {
        fields.endObject();
        json.writeRaw('\n');
    }

    private static JsonGenerator generator(OutputStream out) throws IOException {
        JsonFactory factory = JsonFactory.builder()
                .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
                .disable(StreamWriteFeature.AUTO_CLOSE_TARGET)
                .build();
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        Separators separators = Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                .withObjectEmptySeparator("")
                .withArrayEmptySeparator("");
        JsonGenerator json = factory.createGenerator(out);
        json.setPrettyPrinter(new DefaultPrettyPrinter(separators)
                .withObjectIndenter(indenter)
                .withArrayIndenter(indenter));
        return json;
    }
}
