package org.steamwright.report.result;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Pulse;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.propagation.PropagatedFigure;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.assessment.quantity.LeakRate;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Gap;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Hint;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Weighing;

/** One run: its verdicts first, then what they rest on. */
final class RunFields {
    private RunFields() {}

    static void write(AssessedRun assessed, Fields fields) throws IOException {
        VisitRun run = assessed.run();
        RunEvaluation evaluation = assessed.evaluation();
        TestRun test = run.test();
        fields.element();
        fields.count("number", run.number());
        fields.text("id", test.id());
        fields.text("kind", test.kind().words().replace(' ', '-'));
        fields.text("qualification", test.kind().qualification());
        fields.text("sterilizer", run.sterilizer());
        fields.flag("isPass", assessed.isPass());
        fields.flag("isAwaited", assessed.isAwaited());
        verdicts(evaluation, fields);
        findings("findings", evaluation.findings(), fields);
        findings("loadFindings", assessed.loadFindings(), fields);
        hints(evaluation.hints(), fields);
        oddities(evaluation.oddities(), fields);
        fields.object("cycle");
        VisitFields.cycle(test.cycle(), fields);
        fields.endObject();
        facts(run, fields);
        ambient(test.ambient(), fields);
        trace(test, fields);
        clocks(test.clocks(), fields);
        channels(evaluation, fields);
        VisitFields.remarks(test.trace().remarks(), fields);
        if (evaluation.phases().isPresent()) {
            phases(evaluation.phases().get(), fields);
        }
        plateau("plateau", evaluation.plateau(), fields);
        plateau("plateauLowered", evaluation.plateauLowered(), fields);
        plateau("plateauRaised", evaluation.plateauRaised(), fields);
        statistics(evaluation, fields);
        if (evaluation.steam().isPresent()) {
            steam(evaluation.steam().get(), fields);
        }
        lethality(evaluation, fields);
        IndicatorFields.comparisons(assessed, fields);
        propagated(assessed, fields);
        if (evaluation.leakTest().isPresent()) {
            leakTest(evaluation.leakTest().get(), fields);
        }
        absences(evaluation, fields);
        fields.endObject();
    }

    private static void verdicts(RunEvaluation evaluation, Fields fields) throws IOException {
        fields.object("verdict");
        verdict("inForce", evaluation.verdict(), fields);
        verdict("simple", evaluation.simpleVerdict(), fields);
        verdict("guarded", evaluation.guardedVerdict(), fields);
        fields.endObject();
    }

    private static void verdict(String name, RunVerdict verdict, Fields fields) throws IOException {
        fields.object(name);
        fields.word("outcome", verdict.outcome());
        fields.text("cause", verdict.cause());
        fields.texts(
                "deciding",
                verdict.deciding().stream().map(finding -> finding.id().word()).toList());
        fields.endObject();
    }

    private static void findings(String name, List<Finding> findings, Fields fields) throws IOException {
        fields.list(name);
        for (Finding finding : findings) {
            finding(finding, fields);
        }
        fields.endList();
    }

    private static void finding(Finding finding, Fields fields) throws IOException {
        CriterionId id = finding.id();
        fields.element();
        fields.text("criterion", id.word());
        fields.text("title", id.title());
        fields.text("use", finding.use().word());
        fields.word("outcome", finding.outcome());
        fields.text("rule", finding.rule().word());
        if (finding.judgement().isPresent()) {
            Judgement judgement = finding.judgement().get();
            fields.object("judgement");
            fields.word("simple", judgement.simple());
            fields.word("guarded", judgement.guarded());
            fields.word("fourWords", judgement.words());
            fields.word("decided", judgement.decided());
            fields.endObject();
        }
        if (finding.measured().isPresent()) {
            Figure figure = finding.measured().get();
            String unit = UnitNames.of(id, figure.unit());
            fields.object("measured");
            fields.number("value" + unit, figure.value());
            fields.number("low" + unit, figure.low());
            fields.number("high" + unit, figure.high());
            fields.text("basis", figure.basis());
            if (figure.budget().isPresent()) {
                InstrumentFields.budget(figure.budget().get(), fields);
            }
            fields.endObject();
        }
        if (finding.limit().isPresent()) {
            SetFields.limit("limit", id, finding.limit().get(), fields);
        }
        if (finding.margin().isPresent() && finding.limit().isPresent()) {
            fields.number(
                    "margin" + UnitNames.of(id, finding.limit().get().unit()),
                    finding.margin().getAsDouble());
        }
        SetFields.source("source", finding.source(), fields);
        fields.object("evidence");
        fields.texts("channels", finding.evidence().channels());
        moment("fromSeconds", finding.evidence().fromSeconds(), fields);
        moment("toSeconds", finding.evidence().toSeconds(), fields);
        moment("atSeconds", finding.evidence().atSeconds(), fields);
        fields.endObject();
        fields.text("sentence", finding.sentence());
        fields.endObject();
    }

    private static void moment(String name, OptionalDouble seconds, Fields fields) throws IOException {
        if (seconds.isPresent()) {
            fields.number(name, seconds.getAsDouble());
        }
    }

    private static void oddities(List<Oddity> oddities, Fields fields) throws IOException {
        fields.list("oddities");
        for (Oddity oddity : oddities) {
            fields.element();
            fields.word("kind", oddity.kind());
            fields.word("effect", oddity.kind().effect());
            fields.texts("channels", oddity.channels());
            fields.number("fromSeconds", oddity.fromSeconds());
            fields.number("toSeconds", oddity.toSeconds());
            fields.text("sentence", oddity.sentence());
            fields.endObject();
        }
        fields.endList();
    }

    private static void hints(List<Hint> hints, Fields fields) throws IOException {
        fields.list("hints");
        for (Hint hint : hints) {
            fields.element();
            fields.text("pattern", hint.pattern());
            fields.text("likelyCauses", hint.likelyCauses());
            fields.text("nextCheck", hint.nextCheck());
            fields.endObject();
        }
        fields.endList();
    }

    private static void takenAway(List<TakenAway> recordings, Fields fields) throws IOException {
        if (recordings.isEmpty()) {
            return;
        }
        fields.list("takenAway");
        for (TakenAway one : recordings) {
            fields.element();
            fields.text("recording", one.recording());
            fields.text("sha256", one.sha256());
            fields.text("because", one.because());
            fields.text("by", one.by());
            fields.endObject();
        }
        fields.endList();
    }

    private static void facts(VisitRun run, Fields fields) throws IOException {
        fields.object("facts");
        fields.count("machineCycle", run.machineCycle());
        fields.text("machineVerdict", run.machineVerdict());
        fields.text("stage", run.stage());
        fields.text("startCondition", run.startCondition());
        if (run.setAside().isPresent()) {
            fields.object("setAside");
            fields.text("because", run.setAside().get().because());
            fields.text("by", run.setAside().get().by());
            fields.endObject();
        }
        takenAway(run.takenAway(), fields);
        if (run.load().isPresent()) {
            load(run.load().get(), fields);
        }
        fields.list("biologicalIndicators");
        for (IndicatorUse indicator : run.indicators()) {
            fields.element();
            fields.text("id", indicator.id());
            fields.flag("isControl", indicator.isControl());
            fields.text("product", indicator.product());
            fields.text("lot", indicator.lot());
            if (indicator.expires().isPresent()) {
                fields.text("expires", indicator.expires().get().toString());
            }
            fields.number("populationSpores", indicator.population());
            fields.text("position", indicator.position());
            fields.text(
                    "growth",
                    indicator.grown().map(grown -> grown ? "grown" : "none").orElse("awaited"));
            fields.text("incubation", indicator.incubation());
            IndicatorFields.readOut(indicator, fields);
            fields.text("channel", indicator.channel());
            IndicatorFields.resistance(indicator, fields);
            fields.endObject();
        }
        fields.endList();
        fields.list("weighings");
        for (Weighing weighing : run.weighings()) {
            fields.element();
            fields.text("item", weighing.item());
            fields.word("kind", weighing.kind());
            fields.number("beforeGram", weighing.beforeGram());
            fields.number("afterGram", weighing.afterGram());
            fields.endObject();
        }
        fields.endList();
        if (run.after().isPresent()) {
            AfterRun after = run.after().get();
            fields.object("afterRun");
            if (after.isDry().isPresent()) {
                fields.flag("isDryToTheEye", after.isDry().get());
            }
            if (after.isSealed().isPresent()) {
                fields.flag("areSealsIntact", after.isSealed().get());
            }
            fields.text("closedFor", after.closedFor());
            fields.text("lookedBy", after.by());
            fields.endObject();
        }
        fields.text("chemicalIndicators", run.chemicalIndicators());
        IndicatorFields.chemicalEntries(run, fields);
        fields.text("note", run.note());
        fields.endObject();
    }

    private static String levels(ReferenceLoad load) {
        return load.trayLevels().stream().map(String::valueOf).collect(Collectors.joining(", "));
    }

    private static void load(ReferenceLoad load, Fields fields) throws IOException {
        fields.object("load");
        fields.text("description", load.description());
        fields.list("items");
        for (ReferenceLoad.Item item : load.items()) {
            fields.element();
            fields.text("name", item.name());
            fields.count("count", item.count());
            fields.text("family", item.family());
            fields.text("packaging", item.packaging());
            fields.endObject();
        }
        fields.endList();
        fields.text("challengePack", load.challengePack());
        fields.text("challengePlace", load.challengePlace());
        fields.text("packaging", load.packaging());
        fields.number("massKilogram", load.massKilogram());
        fields.count("trays", load.trays());
        fields.text("trayLevels", levels(load));
        fields.text("agreedBy", load.agreedBy());
        fields.texts("photos", load.photos());
        fields.endObject();
    }

    private static void ambient(Ambient ambient, Fields fields) throws IOException {
        fields.object("ambient");
        fields.number("kilopascalAbsolute", ambient.pressure().kilopascal());
        fields.number("halfWidthKilopascal", ambient.halfWidthKilopascal());
        fields.word("basis", ambient.basis());
        fields.text("note", ambient.note());
        fields.endObject();
    }

    private static void trace(TestRun test, Fields fields) throws IOException {
        Trace trace = test.trace();
        if (trace.start().isPresent()) {
            fields.text("start", trace.start().get().toString());
        }
        fields.text("zone", trace.zone().getId());
        fields.number("firstSeconds", trace.firstSeconds());
        fields.number("lastSeconds", trace.lastSeconds());
        fields.texts("files", trace.files().stream().map(Trace.SourceFile::name).toList());
        if (test.leakPeriods().isPresent()) {
            LeakPeriods periods = test.leakPeriods().get();
            fields.object("declaredLeakPeriods");
            fields.number("isolationSeconds", periods.isolationSeconds());
            fields.number("settledSeconds", periods.settledSeconds());
            fields.number("endSeconds", periods.endSeconds());
            fields.endObject();
        }
    }

    /** The clocks of the recordings, before and after they were brought together; none if one clock stamped them all. */
    private static void clocks(Clocks clocks, Fields fields) throws IOException {
        fields.list("clocks");
        for (RecordingClock recording : clocks.recordings()) {
            fields.element();
            fields.text("file", recording.file());
            fields.text("clockOf", recording.clock());
            fields.texts("channels", recording.channels());
            if (recording.stamped().isPresent()) {
                fields.text("stamped", recording.stamped().get().toString());
            }
            if (recording.aligned().isPresent()) {
                fields.text("aligned", recording.aligned().get().toString());
            }
            if (recording.offset().isPresent()) {
                ClockOffset offset = recording.offset().get();
                fields.object("offset");
                fields.word("method", offset.method());
                fields.number("atStartSeconds", offset.secondsAtStart());
                fields.number("atEndSeconds", offset.secondsAtEnd());
                fields.number("halfWidthSeconds", offset.halfWidth());
                fields.text("author", offset.author());
                if (offset.when().isPresent()) {
                    fields.text("compared", offset.when().get().toString());
                }
                fields.text("words", offset.words());
                fields.endObject();
            }
            fields.text("note", recording.note());
            fields.endObject();
        }
        fields.endList();
    }

    private static void channels(RunEvaluation evaluation, Fields fields) throws IOException {
        fields.list("channels");
        for (CorrectedChannel corrected : evaluation.corrected().channels()) {
            Channel channel = corrected.channel();
            Quantity quantity = channel.column().quantity();
            fields.element();
            fields.text("name", channel.name());
            fields.word("role", channel.role());
            fields.word("quantity", quantity);
            if (channel.reference().isPresent()) {
                fields.word("pressureReference", channel.reference().get());
            }
            fields.text("positionLetter", channel.position().letter());
            fields.text("positionDescription", channel.position().description());
            if (channel.role() != ChannelRole.THEORETICAL) {
                fields.text("column", channel.column().name());
                fields.text("unitInFile", channel.column().unitInFile());
                fields.number(
                        "resolution" + UnitNames.difference(quantity),
                        channel.column().resolution());
            }
            fields.count("samples", channel.axis().size());
            fields.count("samplesWithoutValue", withoutValue(corrected));
            fields.number("firstSeconds", channel.axis().first());
            fields.number("lastSeconds", channel.axis().last());
            fields.number("intervalSeconds", channel.axis().interval());
            fields.list("gaps");
            for (Gap gap : channel.axis().gaps()) {
                fields.element();
                fields.number("fromSeconds", gap.fromSeconds());
                fields.number("toSeconds", gap.toSeconds());
                fields.endObject();
            }
            fields.endList();
            fields.text(
                    "instrument",
                    corrected.instrument().map(instrument -> instrument.id()).orElse(""));
            if (corrected.budget().isPresent()) {
                InstrumentFields.budget(corrected.budget().get(), fields);
            }
            fields.endObject();
        }
        fields.endList();
    }

    private static int withoutValue(CorrectedChannel channel) {
        int missing = 0;
        for (int i = 0; i < channel.size(); i++) {
            if (Double.isNaN(channel.at(i))) {
                missing++;
            }
        }
        return missing;
    }

    private static void phases(Phases phases, Fields fields) throws IOException {
        fields.object("phases");
        fields.word("foundFrom", phases.foundFrom());
        phaseList(phases.phases(), fields);
        fields.list("pulses");
        for (Pulse pulse : phases.pulses()) {
            String unit = UnitNames.corrected(pulse.quantity());
            fields.element();
            fields.number("depth" + unit, pulse.depth());
            fields.number("depthSeconds", pulse.depthSeconds());
            fields.number("height" + unit, pulse.height());
            fields.number("heightSeconds", pulse.heightSeconds());
            fields.endObject();
        }
        fields.endList();
        if (phases.stated().isPresent()) {
            stated(phases, phases.stated().get(), fields);
        }
        fields.endObject();
    }

    private static void phaseList(List<Phase> phases, Fields fields) throws IOException {
        fields.list("phases");
        for (Phase phase : phases) {
            fields.element();
            fields.word("phase", phase.kind());
            fields.number("fromSeconds", phase.fromSeconds());
            fields.number("toSeconds", phase.toSeconds());
            fields.endObject();
        }
        fields.endList();
    }

    private static void stated(Phases phases, StatedPhases stated, Fields fields) throws IOException {
        fields.object("stated");
        fields.list("borders");
        for (StatedBorder border : stated.borders()) {
            fields.element();
            fields.word("phase", border.phase());
            fields.word("end", border.end());
            fields.number("atSeconds", border.atSeconds());
            fields.number("foundSeconds", phases.foundBorder(border.phase(), border.end()));
            fields.text("by", border.by());
            fields.text("because", border.because());
            fields.endObject();
        }
        fields.endList();
        phaseList(stated.phases(), fields);
        fields.text("leftAsideBecause", stated.refusal().orElse(""));
        fields.endObject();
    }

    private static void plateau(String name, Optional<Plateau> found, Fields fields) throws IOException {
        if (found.isEmpty()) {
            return;
        }
        Plateau plateau = found.get();
        fields.object(name);
        fields.number("reachedSeconds", plateau.reachedSeconds());
        fields.number("endSeconds", plateau.endSeconds());
        fields.number("equilibratedSeconds", plateau.equilibratedSeconds());
        fields.number("equilibrationTimeSeconds", plateau.equilibrationSeconds());
        fields.number("togetherFromSeconds", plateau.together().map(Stretch::fromSeconds));
        fields.number("togetherToSeconds", plateau.together().map(Stretch::toSeconds));
        fields.number("holdingFromSeconds", plateau.holding().map(Stretch::fromSeconds));
        fields.number("holdingToSeconds", plateau.holding().map(Stretch::toSeconds));
        fields.number("holdingTimeSeconds", plateau.holdingSeconds());
        fields.object("holdingEnd");
        fields.word("reason", plateau.holdingEnd().reason());
        fields.text("channel", plateau.holdingEnd().channel());
        fields.number("atSeconds", plateau.holdingEnd().atSeconds());
        fields.endObject();
        fields.list("crossings");
        for (Crossing crossing : plateau.crossings()) {
            fields.element();
            fields.text("channel", crossing.channel());
            fields.number("sampledSeconds", crossing.sampleSeconds());
            fields.number("interpolatedSeconds", crossing.interpolatedSeconds());
            fields.endObject();
        }
        fields.endList();
        fields.texts("latecomers", plateau.latecomers());
        fields.list("dips");
        for (Plateau.Excursion dip : plateau.dips()) {
            fields.element();
            fields.text("channel", dip.channel());
            fields.number("fromSeconds", dip.fromSeconds());
            fields.number("toSeconds", dip.toSeconds());
            fields.number("worstCelsius", dip.worstCelsius());
            fields.number("worstSeconds", dip.worstSeconds());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void statistics(RunEvaluation evaluation, Fields fields) throws IOException {
        fields.list("statistics");
        for (ChannelStatistics figures : evaluation.statistics()) {
            Quantity quantity = evaluation.corrected().channels().stream()
                    .filter(channel -> channel.name().equals(figures.channel()))
                    .findFirst()
                    .map(channel -> channel.channel().column().quantity())
                    .orElse(Quantity.TEMPERATURE);
            String unit = UnitNames.corrected(quantity);
            fields.element();
            fields.text("channel", figures.channel());
            fields.count("samples", figures.samples());
            fields.number("minimum" + unit, figures.minimum());
            fields.number("minimumSeconds", figures.minimumSeconds());
            fields.number("maximum" + unit, figures.maximum());
            fields.number("maximumSeconds", figures.maximumSeconds());
            fields.number("mean" + unit, figures.mean());
            fields.number("fluctuation" + UnitNames.difference(quantity), figures.fluctuation());
            fields.number("fluctuationSeconds", figures.fluctuationSeconds());
            fields.endObject();
        }
        fields.endList();
    }

    private static void steam(SteamCondition steam, Fields fields) throws IOException {
        fields.object("steam");
        fields.number("coldestDifferenceKelvin", steam.coldestDifference());
        fields.text("coldestChannel", steam.coldestChannel());
        fields.number("coldestSeconds", steam.coldestSeconds());
        fields.number("residualAirPercent", steam.residualAirPercent());
        fields.number("hottestDifferenceKelvin", steam.hottestDifference());
        fields.text("hottestChannel", steam.hottestChannel());
        fields.number("hottestSeconds", steam.hottestSeconds());
        fields.endObject();
    }

    private static void propagated(AssessedRun assessed, Fields fields) throws IOException {
        fields.object("propagated");
        fields.text("method", assessed.propagation().title());
        fields.number("coverageProbability", Propagation.PROBABILITY);
        fields.list("figures");
        for (PropagatedFigure figure : assessed.propagated()) {
            fields.element();
            fields.word("measurand", figure.measurand());
            fields.text("channel", figure.channel());
            fields.text("unit", figure.measurand().unit());
            fields.number("value", figure.value());
            fields.number("low", figure.low());
            fields.number("high", figure.high());
            fields.number("numericalTolerance", figure.tolerance());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void lethality(RunEvaluation evaluation, Fields fields) throws IOException {
        fields.list("lethality");
        for (int i = 0; i < evaluation.lethality().size(); i++) {
            Lethality lethality = evaluation.lethality().get(i);
            fields.element();
            fields.text("channel", evaluation.lethalityChannels().get(i));
            fields.number("referenceCelsius", lethality.referenceCelsius());
            fields.number("zKelvin", lethality.z());
            fields.number("minutes", lethality.minutes());
            fields.number("lowMinutes", lethality.lowMinutes());
            fields.number("highMinutes", lethality.highMinutes());
            fields.number("fromSeconds", lethality.fromSeconds());
            fields.number("toSeconds", lethality.toSeconds());
            fields.number("skippedSeconds", lethality.skippedSeconds());
            fields.endObject();
        }
        fields.endList();
    }

    private static void leakTest(LeakTest leak, Fields fields) throws IOException {
        fields.object("leakTest");
        fields.flag("isDeclared", leak.isDeclared());
        fields.number("isolationSeconds", leak.isolationSeconds());
        fields.number("isolationKilopascalAbsolute", leak.isolationKilopascal());
        fields.number("settledSeconds", leak.settledSeconds());
        fields.number("settledKilopascalAbsolute", leak.settledKilopascal());
        fields.number("settledCelsius", leak.settledCelsius());
        fields.number("endSeconds", leak.endSeconds());
        fields.number("endKilopascalAbsolute", leak.endKilopascal());
        fields.number("endCelsius", leak.endCelsius());
        fields.number("settlingPeriodSeconds", leak.settlingPeriodSeconds());
        fields.number("settlingRiseKilopascal", leak.settlingRiseKilopascal());
        fields.number("measuringPeriodSeconds", leak.measuringPeriodSeconds());
        rate("rate", leak.rate(), fields);
        if (leak.temperatureCorrectedRate().isPresent()) {
            rate("temperatureCorrectedRate", leak.temperatureCorrectedRate().get(), fields);
        }
        fields.endObject();
    }

    private static void rate(String name, LeakRate rate, Fields fields) throws IOException {
        fields.object(name);
        fields.number("kilopascalPerMinute", rate.kilopascalPerMinute());
        fields.number("millibarPerMinute", rate.millibarPerMinute());
        fields.number("millimetreOfMercuryPerMinute", rate.millimetreOfMercuryPerMinute());
        fields.endObject();
    }

    /** Names what is left out and why, so that an absent figure is not taken for an oversight. */
    private static void absences(RunEvaluation evaluation, Fields fields) throws IOException {
        boolean isLeak = evaluation.run().kind() == TestKind.LEAK;
        boolean hasPressure = evaluation.corrected().pressure().isPresent();
        fields.list("absent");
        if (isLeak) {
            for (String field : List.of("phases", "plateau", "plateauLowered", "plateauRaised", "steam")) {
                absent(field, "an air leakage test has none", fields);
            }
            if (evaluation.leakTest().isEmpty()) {
                absent("leakTest", "its periods could not be read from the recording", fields);
            }
        } else {
            if (evaluation.phases().isEmpty()) {
                absent("phases", "no phases could be told apart in the recording", fields);
            }
            String never = "the reference measurement point never reached the sterilizing temperature";
            if (evaluation.plateau().isEmpty()) {
                absent("plateau", never, fields);
            }
            if (evaluation.plateauLowered().isEmpty()) {
                absent("plateauLowered", never + ", lowered by its expanded uncertainty", fields);
            }
            if (evaluation.plateauRaised().isEmpty()) {
                absent("plateauRaised", never + ", raised by its expanded uncertainty", fields);
            }
            if (evaluation.steam().isEmpty()) {
                absent("steam", hasPressure ? "there was no holding time" : "no pressure was recorded", fields);
            }
            absent("leakTest", "this run is no air leakage test", fields);
        }
        fields.endList();
    }

    private static void absent(String field, String because, Fields fields) throws IOException {
        fields.element();
        fields.text("field", field);
        fields.text("because", because);
        fields.endObject();
    }
}
