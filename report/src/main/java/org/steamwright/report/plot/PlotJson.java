package org.steamwright.report.plot;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.report.language.Phrasebook;

/**
 * Everything that a moving picture of a run is drawn from, as JSON: corrected curves, limits, phases, plateau, and the place
 * of each finding. A long recording is thinned so that every extreme stays; the full detail of a stretch is had by asking for
 * that stretch. Values are rounded to a tenth of a millikelvin or pascal, moments to a millisecond, for drawing only.
 *
 * @source the JSON is this program's own, described in docs/reference/plot-data.md
 */
public final class PlotJson {

    /** Samples of one channel up to which nothing is left out. */
    public static final int MOST_SAMPLES = 12_000;

    private static final int SLICES = 2_500;
    private static final double VALUE_STEPS = 10_000;
    private static final double TIME_STEPS = 1_000;
    private static final double MILLIS = 1_000;

    private final RunEvaluation evaluation;
    private final double from;
    private final double to;
    private final Phrasebook book;
    private final JsonGenerator json;

    private PlotJson(RunEvaluation evaluation, double from, double to, Phrasebook book, JsonGenerator json) {
        this.evaluation = evaluation;
        this.book = book;
        this.from = from;
        this.to = to;
        this.json = json;
    }

    /**
     * Writes a run and leaves the stream open.
     *
     * @param evaluation of the run
     * @param loadFindings that follow those of the recording; they have no place on the curve
     * @param from first moment that is wanted, in seconds from the start of the run; empty for the first of all
     * @param to last moment that is wanted; empty for the last of all
     * @param book language of the words that stand on the picture
     * @param out taker
     * @throws IOException if the stream refuses
     */
    public static void write(
            RunEvaluation evaluation,
            List<Finding> loadFindings,
            OptionalDouble from,
            OptionalDouble to,
            Phrasebook book,
            OutputStream out)
            throws IOException {
        Trace trace = evaluation.run().trace();
        double first = trace.firstSeconds();
        double last = trace.lastSeconds();
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            PlotJson plot = new PlotJson(
                    evaluation, Math.max(first, from.orElse(first)), Math.min(last, to.orElse(last)), book, json);
            json.writeStartObject();
            plot.frame(first, last);
            plot.phases();
            plot.places(loadFindings);
            plot.curves();
            json.writeEndObject();
        }
    }

    private void frame(double first, double last) throws IOException {
        Trace trace = evaluation.run().trace();
        json.writeStringField("run", evaluation.run().id());
        number("first", first);
        number("last", last);
        number("from", from);
        number("to", to);
        if (trace.start().isPresent()) {
            json.writeStringField("clockAtFirst", clock(first));
            json.writeStringField("clockAtLast", clock(last));
            json.writeStringField("zone", trace.zone().getId());
            json.writeNumberField(
                    "secondOfDay",
                    trace.start().get().atZone(trace.zone()).toLocalTime().toSecondOfDay());
            clockChanges(trace.start().get(), trace.zone(), last);
        }
        Optional<LeakTest> leak = evaluation.leakTest();
        if (evaluation.run().kind() == TestKind.LEAK) {
            json.writeBooleanField("leak", true);
            if (leak.isPresent()) {
                json.writeArrayFieldStart("points");
                for (double moment : new double[] {
                    leak.get().isolationSeconds(),
                    leak.get().settledSeconds(),
                    leak.get().endSeconds()
                }) {
                    json.writeNumber(rounded(moment, TIME_STEPS));
                }
                json.writeEndArray();
            }
        } else {
            number("low", evaluation.run().cycle().sterilizingTemperature().celsius());
            if (CyclePlot.upperLimit(evaluation).isPresent()) {
                number("high", CyclePlot.upperLimit(evaluation).get());
            }
        }
    }

    /** Where the clocks of the site went on or back during the run; nothing is written for the usual day. */
    private void clockChanges(Instant start, ZoneId zone, double last) throws IOException {
        ZoneRules rules = zone.getRules();
        Instant end = start.plusMillis(Math.round(last * MILLIS));
        Optional<ZoneOffsetTransition> next = Optional.ofNullable(rules.nextTransition(start));
        if (next.isEmpty() || next.get().getInstant().isAfter(end)) {
            return;
        }
        json.writeArrayFieldStart("clockChanges");
        while (next.isPresent() && !next.get().getInstant().isAfter(end)) {
            ZoneOffsetTransition change = next.get();
            json.writeStartObject();
            number("at", Duration.between(start, change.getInstant()).toMillis() / MILLIS);
            json.writeNumberField("by", change.getDuration().toSeconds());
            json.writeEndObject();
            next = Optional.ofNullable(rules.nextTransition(change.getInstant()));
        }
        json.writeEndArray();
    }

    private String clock(double seconds) {
        Trace trace = evaluation.run().trace();
        return Moments.clock(trace.start().orElseThrow().plusMillis(Math.round(seconds * TIME_STEPS)), trace.zone());
    }

    private void phases() throws IOException {
        json.writeArrayFieldStart("phases");
        for (Phase phase : evaluation.phases().map(found -> found.phases()).orElse(List.of())) {
            json.writeStartObject();
            json.writeStringField("word", book.say(phase.kind().words()));
            number("from", phase.fromSeconds());
            number("to", phase.toSeconds());
            json.writeEndObject();
        }
        json.writeEndArray();
        borders();
        if (evaluation.plateau().isPresent()) {
            Plateau plateau = evaluation.plateau().get();
            json.writeObjectFieldStart("plateau");
            number("from", plateau.reachedSeconds());
            number("to", plateau.endSeconds());
            json.writeEndObject();
            if (plateau.holding().isPresent()) {
                json.writeObjectFieldStart("holding");
                number("from", plateau.holding().get().fromSeconds());
                number("to", plateau.holding().get().toSeconds());
                json.writeStringField(
                        "length", Moments.length(plateau.holding().get().seconds()));
                json.writeEndObject();
            }
        }
    }

    /** Stated borders, and where each of them was found; phases as stated, where they differ. */
    private void borders() throws IOException {
        Optional<StatedPhases> stated = evaluation.phases().flatMap(Phases::stated);
        if (stated.isEmpty()) {
            return;
        }
        json.writeArrayFieldStart("stated");
        for (StatedBorder border : stated.get().borders()) {
            json.writeStartObject();
            json.writeStringField("word", book.say(border.words()));
            json.writeStringField(
                    "phase", border.phase().name().toLowerCase(Locale.ROOT).replace('_', '-'));
            json.writeStringField("end", border.end().name().toLowerCase(Locale.ROOT));
            number("at", border.atSeconds());
            Optional<Double> found =
                    evaluation.phases().flatMap(phases -> phases.foundBorder(border.phase(), border.end()));
            if (found.isPresent()) {
                number("found", found.get());
            }
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void places(List<Finding> loadFindings) throws IOException {
        json.writeArrayFieldStart("findings");
        List<Finding> all = new ArrayList<>(evaluation.findings());
        all.addAll(loadFindings);
        for (Finding finding : all) {
            Evidence evidence = finding.evidence();
            json.writeStartObject();
            if (evidence.fromSeconds().isPresent()) {
                number("from", evidence.fromSeconds().getAsDouble());
            }
            if (evidence.toSeconds().isPresent()) {
                number("to", evidence.toSeconds().getAsDouble());
            }
            if (evidence.atSeconds().isPresent()) {
                number("at", evidence.atSeconds().getAsDouble());
            }
            json.writeArrayFieldStart("channels");
            for (String channel : evidence.channels()) {
                json.writeString(channel);
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void curves() throws IOException {
        List<CorrectedChannel> channels = evaluation.corrected().channels();
        boolean isThinned = channels.stream().anyMatch(channel -> size(channel.axis()) > MOST_SAMPLES);
        json.writeBooleanField("thinned", isThinned);
        Optional<String> coldest = evaluation.run().kind() == TestKind.LEAK
                ? Optional.empty()
                : Message.coldest(evaluation).map(CorrectedChannel::name);
        // channels of one logger share their moments
        IdentityHashMap<TimeAxis, Integer> known = new IdentityHashMap<>();
        json.writeArrayFieldStart("curves");
        for (CorrectedChannel channel : channels) {
            json.writeStartObject();
            json.writeStringField("name", channel.name());
            json.writeStringField(
                    "role", channel.role().name().toLowerCase(Locale.ROOT).replace('_', '-'));
            json.writeStringField("place", channel.channel().position().toString());
            json.writeStringField("unit", channel.role() == ChannelRole.PRESSURE ? "kPa" : "°C");
            if (coldest.filter(channel.name()::equals).isPresent()) {
                json.writeBooleanField("coldest", true);
            }
            double doubt = channel.expanded().value();
            if (doubt > 0) {
                json.writeNumberField("doubt", rounded(doubt, VALUE_STEPS));
            }
            if (isThinned) {
                thinned(channel);
            } else {
                Integer owner = known.putIfAbsent(channel.axis(), known.size());
                whole(channel, Optional.ofNullable(owner));
            }
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private int size(TimeAxis axis) {
        return Math.max(0, axis.indexAtOrBefore(to) - axis.indexAtOrAfter(from) + 1);
    }

    /** Every sample; a hole in the recording is a moment without value. */
    private void whole(CorrectedChannel channel, Optional<Integer> owner) throws IOException {
        TimeAxis axis = channel.axis();
        int first = axis.indexAtOrAfter(from);
        int last = axis.indexAtOrBefore(to);
        if (owner.isPresent()) {
            json.writeNumberField("sharedTime", owner.get());
        } else {
            json.writeArrayFieldStart("t");
            for (int i = first; i <= last; i++) {
                if (i > first && axis.isGapBefore(i)) {
                    json.writeNumber(rounded((axis.at(i - 1) + axis.at(i)) / 2, TIME_STEPS));
                }
                json.writeNumber(rounded(axis.at(i), TIME_STEPS));
            }
            json.writeEndArray();
        }
        json.writeArrayFieldStart("v");
        for (int i = first; i <= last; i++) {
            if (i > first && axis.isGapBefore(i)) {
                json.writeNull();
            }
            value(channel.at(i));
        }
        json.writeEndArray();
    }

    private void thinned(CorrectedChannel channel) throws IOException {
        TimeAxis axis = channel.axis();
        int first = axis.indexAtOrAfter(from);
        int size = size(axis);
        double[] moments = new double[size];
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            moments[i] = axis.at(first + i);
            values[i] = channel.at(first + i);
        }
        Decimation kept =
                Decimation.of(moments, values, TimeAxis.GAP_FACTOR * axis.interval(), Math.max(to - from, 1) / SLICES);
        double[] keptMoments = kept.seconds();
        double[] keptValues = kept.values();
        json.writeArrayFieldStart("t");
        for (int i = 0; i < keptMoments.length; i++) {
            boolean isLift = Double.isNaN(keptMoments[i]);
            json.writeNumber(rounded(isLift ? keptMoments[i - 1] : keptMoments[i], TIME_STEPS));
        }
        json.writeEndArray();
        json.writeArrayFieldStart("v");
        for (double value : keptValues) {
            value(value);
        }
        json.writeEndArray();
    }

    private void value(double value) throws IOException {
        if (Double.isFinite(value)) {
            json.writeNumber(rounded(value, VALUE_STEPS));
        } else {
            json.writeNull();
        }
    }

    private void number(String name, double value) throws IOException {
        json.writeNumberField(name, rounded(value, TIME_STEPS));
    }

    private static double rounded(double value, double steps) {
        return Math.rint(value * steps) / steps;
    }
}
