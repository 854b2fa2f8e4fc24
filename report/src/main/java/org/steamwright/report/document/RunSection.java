package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.Figures;
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
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.propagation.Measurand;
import org.steamwright.assessment.propagation.PropagatedFigure;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.assessment.verdict.Hint;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SetAside;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.register.Sterilizer;

/** One run: its verdict and cause, the pictures, the figures, the findings. */
final class RunSection {

    private final Sheet sheet;
    private final AssessedRun assessed;
    private final VisitRun run;
    private final RunEvaluation evaluation;
    private final Sterilizer sterilizer;
    private final Optional<Integer> sameLoadAs;
    private final Optional<LocalDate> lastDay;

    /**
     * @param lastDay on which indicators that are awaited may still be read; empty if none is stated
     * @param sameLoadAs number of an earlier run with the very same load, which is then not described again
     */
    RunSection(
            Sheet sheet,
            AssessedRun assessed,
            Sterilizer sterilizer,
            Optional<LocalDate> lastDay,
            Optional<Integer> sameLoadAs) {
        this.lastDay = lastDay;
        this.sheet = sheet;
        this.assessed = assessed;
        this.run = assessed.run();
        this.evaluation = assessed.evaluation();
        this.sterilizer = sterilizer;
        this.sameLoadAs = sameLoadAs;
    }

    void write() {
        boolean leak = run.test().kind() == TestKind.LEAK;
        Html html = sheet.html();
        sheet.openChapter(true);
        html.text(Sentence.of(
                "Run %s – %s, %s ",
                run.number(), run.test().kind().words(), run.test().cycle().name()));
        sheet.verdict(assessed);
        html.close();
        html.element("p", "lead", assessed.cause());
        rules();
        facts();
        if (leak) {
            CyclePlot.leak(evaluation, sheet.speaker()).ifPresent(sheet::figure);
        } else {
            sheet.figure(CyclePlot.whole(evaluation, sheet.speaker()));
            CyclePlot.plateau(evaluation, sheet.speaker()).ifPresent(sheet::figure);
        }
        boolean hasHints = !evaluation.verdict().isPass() && !evaluation.hints().isEmpty();
        if (hasHints) {
            hints();
        }
        if (leak || hasHints) {
            sheet.heading("Findings");
        } else {
            sheet.headingOnNewPage("Findings");
        }
        new FindingTable(sheet).write(evaluation.findings());
        if (!leak) {
            evaluation.phases().ifPresent(phases -> sheet.keep(() -> phases(phases)));
            sheet.keep(this::steam);
            sheet.keep(this::channels);
            sheet.keep(this::plateaus);
            if (!evaluation.lethality().isEmpty()) {
                sheet.keep(this::lethality);
            }
        }
        if (!evaluation.oddities().isEmpty()) {
            sheet.keep(this::oddities);
        }
        if (!run.test().clocks().recordings().isEmpty()) {
            sheet.keep(this::clocks);
        }
        List<PropagatedFigure> propagated = assessed.propagated().stream()
                .filter(figure -> !leak && figure.measurand() != Measurand.LETHALITY)
                .toList();
        if (!propagated.isEmpty()) {
            sheet.keep(() -> propagated(propagated));
        }
        load();
    }

    private void oddities() {
        sheet.heading("What looked wrong about a channel");
        sheet.table(words("Seen", 32), words("Channels, from", 34), words("What", 72), words("Effect", 36));
        for (Oddity oddity : evaluation.oddities()) {
            sheet.cells(
                    oddity.kind().words(),
                    Wording.join(", ", Sentence.list(", ", oddity.channels()), Figures.moment(oddity.fromSeconds())),
                    oddity.sentence(),
                    oddity.kind().effect().words());
        }
        sheet.endTable();
    }

    private void clocks() {
        sheet.heading("Clocks");
        sheet.table(
                words("Recording, channels", 50),
                figures("begins as stamped", 21),
                figures("added", 17),
                figures("within", 15),
                figures("begins on the run's clock", 21),
                words("How and by whom", 50));
        for (RecordingClock recording : run.test().clocks().recordings()) {
            Optional<ClockOffset> offset = recording.offset();
            sheet.cells(
                    Wording.join(": ", recording.file(), Sentence.list(", ", recording.channels())),
                    moment(recording.stamped()),
                    offset.map(RunSection::added).orElse("nothing"),
                    offset.map(o -> "±" + Figures.highSide(o.halfWidth(), 1) + " s")
                            .orElse("not known"),
                    moment(recording.aligned()),
                    Wording.join(
                            " ",
                            offset.map(o -> Sentence.of("%s.", o.method().words()))
                                    .orElse("Not compared."),
                            offset.map(ClockOffset::words).orElse(""),
                            recording.note(),
                            offset.filter(o -> !o.author().isBlank())
                                    .map(o -> Sentence.of("By %s.", o.author()))
                                    .orElse("")));
        }
        sheet.endTable();
        sheet.aside("The files keep their own stamps. Times between channels of different recordings carry the doubt of"
                + " both clocks; where clocks were not compared such times say nothing. A common event counts from"
                + " the recording with the reference point.");
    }

    private String moment(Optional<Instant> moment) {
        return moment.map(at -> Moments.clock(at, run.test().trace().zone())).orElse("no clock");
    }

    private static String added(ClockOffset offset) {
        String start = signed(offset.secondsAtStart());
        String end = signed(offset.secondsAtEnd());
        return start.equals(end) ? start + " s" : Sentence.of("%s to %s", start, end + " s");
    }

    private static String signed(double seconds) {
        return (seconds > 0 ? "+" : "") + Figures.nearest(seconds, 1);
    }

    private void rules() {
        Html html = sheet.html();
        html.open("p", "class", "wide").text("The recording by the simple rule: ");
        sheet.verdict(evaluation.simpleVerdict().outcome());
        html.text(" \u2003 by the guarded rule: ");
        sheet.verdict(evaluation.guardedVerdict().outcome());
        html.close();
    }

    private void facts() {
        Trace trace = run.test().trace();
        Sheet.Facts facts = sheet.facts();
        facts.add("Steriliser", Wording.join(", ", sterilizer.key(), FirstPage.describe(sterilizer)));
        facts.add("Cycle", VisitSections.cycle(run.test().cycle()));
        facts.add(
                "Its own record",
                Wording.join(
                        ", ",
                        run.machineCycle().isPresent()
                                ? Sentence.of(
                                        "cycle number %s", run.machineCycle().getAsInt())
                                : "",
                        run.machineVerdict().isBlank() ? "" : Sentence.of("said '%s'", run.machineVerdict())));
        facts.add(
                "Recorded",
                trace.start()
                        .map(start -> Wording.fromTo(start, trace.firstSeconds(), trace.lastSeconds(), trace.zone()))
                        .orElse(Sentence.of(
                                "elapsed time only, %s; the files state no clock",
                                Moments.length(trace.lastSeconds() - trace.firstSeconds()))));
        facts.add(
                "Sampled, started",
                Wording.join(", ", Sentence.of("every %s", interval(trace)), run.stage(), run.startCondition()));
        if (run.test().kind() == TestKind.LEAK) {
            for (PropagatedFigure figure : assessed.propagated()) {
                facts.add(
                        Sentence.of("True %s", figure.measurand().words()),
                        Sentence.of(
                                "%s with a probability of 95 %, by the %s",
                                interval(figure), assessed.propagation().title()));
            }
        }
        facts.add("Set aside", run.setAside().map(SetAside::sentence).orElse(""));
        facts.add(
                "Taken away",
                Sentence.list(
                        " ", run.takenAway().stream().map(TakenAway::sentence).toList()));
        facts.add("Note", run.note());
        facts.end();
    }

    private static String interval(Trace trace) {
        return Sentence.list(
                ", ",
                trace.channels().stream()
                        .map(channel -> channel.axis().interval())
                        .filter(Double::isFinite)
                        .distinct()
                        .map(seconds -> Wording.plain(seconds) + " s")
                        .toList());
    }

    private void hints() {
        sheet.headingOnNewPage("Where to look first");
        sheet.aside("Hints from the pattern of the findings. They are no findings; the technician decides.");
        sheet.table(words("Seen", 58), words("Often comes from", 58), words("What would tell", 58));
        for (Hint hint : evaluation.hints()) {
            sheet.cells(hint.pattern(), hint.likelyCauses(), hint.nextCheck());
        }
        sheet.endTable();
    }

    private void channels() {
        sheet.heading("Channels in the holding time");
        sheet.table(
                words("Channel", 40),
                figures("reached, as sampled", 18),
                figures("reached, interpolated", 18),
                figures("lowest, at", 22),
                figures("highest, at", 22),
                figures("mean", 17),
                figures("fluctuation, at", 20),
                figures("U", 17));
        for (CorrectedChannel channel : evaluation.corrected().channels()) {
            channelRow(channel);
        }
        sheet.endTable();
        sheet.aside(
                "'Reached' is the lower limit of the band. The first sample at or above it decides; the straight line"
                        + " between two samples stands beside it for information. U is the expanded uncertainty of one"
                        + " corrected reading with its coverage factor.");
    }

    private void channelRow(CorrectedChannel channel) {
        Html html = sheet.html();
        boolean pressure = channel.channel().column().quantity() == Quantity.PRESSURE;
        String unit = pressure ? " kPa" : " °C";
        String difference = pressure ? " kPa" : " K";
        html.open("tr").open("td").text(channel.name());
        html.element(
                "span",
                "under",
                Wording.join(
                        " · ",
                        Wording.role(channel.role()),
                        channel.channel().position().toString(),
                        channel.channel().instrument().orElse("")));
        html.close();
        Optional<Crossing> crossing = evaluation.plateau().flatMap(plateau -> plateau.findCrossing(channel.name()));
        html.element(
                "td", "n", crossing.map(c -> Moments.minutes(c.sampleSeconds())).orElse("–"));
        html.element(
                "td",
                "n",
                crossing.map(c -> Moments.minutes(Math.round(c.interpolatedSeconds() * 10) / 10.0))
                        .orElse("–"));
        Optional<ChannelStatistics> found = evaluation.statistics().stream()
                .filter(statistics -> statistics.channel().equals(channel.name()))
                .findFirst();
        if (found.isPresent()) {
            ChannelStatistics figures = found.get();
            moment(Figures.lowSide(figures.minimum(), 2) + unit, figures.minimumSeconds());
            moment(Figures.highSide(figures.maximum(), 2) + unit, figures.maximumSeconds());
            html.element("td", "n", Figures.nearest(figures.mean(), 2) + unit);
            moment(Figures.highSide(figures.fluctuation(), 2) + difference, figures.fluctuationSeconds());
        } else {
            for (int i = 0; i < 4; i++) {
                html.element("td", "n", "–");
            }
        }
        html.open("td", "class", "n last");
        if (channel.budget().isPresent()) {
            ExpandedUncertainty doubt = channel.expanded();
            html.text(Figures.highSide(doubt.value(), 3) + difference);
            html.element("span", "under", Sentence.of("k = %s", Wording.plain(doubt.coverageFactor())));
        } else {
            html.text("not known");
        }
        html.close().close();
    }

    private void moment(String figure, double seconds) {
        sheet.html()
                .open("td", "class", "n")
                .text(figure)
                .element("span", "under", Moments.minutes(seconds))
                .close();
    }

    private void plateaus() {
        sheet.heading("Plateau, found three times");
        if (evaluation.plateau().isEmpty()) {
            sheet.paragraph("The reference measurement point never reached the sterilising temperature, so there is no "
                    + "plateau and no holding time.");
            return;
        }
        sheet.table(
                words("Readings", 50),
                figures("reference point reached", 24),
                figures("every point there", 24),
                figures("equilibration", 22),
                figures("hold", 30),
                figures("holding time", 24));
        plateau("as read and corrected", evaluation.plateau());
        plateau("every channel lowered by its U", evaluation.plateauLowered());
        plateau("every channel raised by its U", evaluation.plateauRaised());
        sheet.endTable();
        evaluation.plateau().ifPresent(this::dips);
    }

    private void plateau(String name, Optional<Plateau> found) {
        if (found.isEmpty()) {
            sheet.cells(name, "never", "–", "–", "–", "0 s");
            return;
        }
        Plateau plateau = found.get();
        Optional<Stretch> hold = plateau.holding();
        sheet.cells(
                name,
                Moments.minutes(plateau.reachedSeconds()),
                plateau.equilibratedSeconds().map(Moments::minutes).orElse("never"),
                plateau.equilibrationSeconds()
                        .map(s -> Figures.highSide(s, 1) + " s")
                        .orElse("–"),
                hold.map(s -> Sentence.of("%s to %s", Moments.minutes(s.fromSeconds()), Moments.minutes(s.toSeconds())))
                        .orElse("none"),
                Figures.lowSide(plateau.holdingSeconds(), 1) + " s");
    }

    private static String interval(PropagatedFigure figure) {
        int decimals = figure.measurand().decimals();
        return Sentence.of(
                "%s to %s",
                Figures.lowSide(figure.low(), decimals),
                Figures.highSide(figure.high(), decimals) + " "
                        + figure.measurand().unit());
    }

    private void propagated(List<PropagatedFigure> propagated) {
        sheet.heading("Figures with their 95 % intervals");
        sheet.table(
                words("Figure", 80), words("Channel", 30), figures("as judged", 30), figures("truth held to lie", 34));
        for (PropagatedFigure figure : propagated) {
            int decimals = figure.measurand().decimals();
            String unit = " " + figure.measurand().unit();
            sheet.cells(
                    figure.measurand().words(),
                    figure.channel().isEmpty() ? "–" : figure.channel(),
                    Figures.nearest(figure.value(), decimals) + unit,
                    interval(figure));
        }
        sheet.endTable();
        sheet.aside(Sentence.of(
                "By the %s, from the budgets of the channels. Times are taken where the trace crosses the limit between two"
                        + " samples, while the judged value counts whole samples. The rule that decided stands at each"
                        + " finding, with the interval that it worked on.",
                assessed.propagation().title()));
    }

    private void dips(Plateau plateau) {
        List<String> lines = new ArrayList<>();
        for (String late : plateau.latecomers()) {
            lines.add(Sentence.of("%s never reached the lower limit during the plateau.", late));
        }
        for (Plateau.Excursion dip : plateau.dips()) {
            lines.add(Sentence.of(
                    "%s fell below the lower limit from %s to %s, down to %s °C at %s.",
                    dip.channel(),
                    Moments.minutes(dip.fromSeconds()),
                    Moments.minutes(dip.toSeconds()),
                    Figures.lowSide(dip.worstCelsius(), 2),
                    Moments.minutes(dip.worstSeconds())));
        }
        Plateau.StretchEnd end = plateau.holdingEnd();
        String why = switch (end.reason()) {
            case BELOW -> Sentence.of("%s fell below the lower limit", end.channel());
            case ABOVE -> Sentence.of("%s rose above the upper limit", end.channel());
            case GAP -> "the recording has a gap";
            case MISSING -> Sentence.of("%s has no value", end.channel());
            case END_OF_RECORDING -> "the recording ends there";
            case NONE -> "";
        };
        if (!why.isEmpty()) {
            lines.add(Sentence.of("The longest unbroken hold ended at %s: %s.", Moments.minutes(end.atSeconds()), why));
        }
        if (!lines.isEmpty()) {
            sheet.bullets(lines);
        }
    }

    private void steam() {
        sheet.heading("Steam condition");
        if (evaluation.steam().isEmpty()) {
            boolean pressure = evaluation.corrected().pressure().isPresent();
            sheet.paragraph(
                    pressure
                            ? "There was no holding time in which measured and theoretical temperature could be"
                                    + " compared."
                            : "No pressure was recorded, so measured and theoretical temperature cannot be compared.");
            return;
        }
        SteamCondition steam = evaluation.steam().get();
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Farthest below",
                Sentence.of(
                        "%s K against the theoretical temperature: %s at %s",
                        Figures.lowSide(steam.coldestDifference(), 2),
                        steam.coldestChannel(),
                        Moments.minutes(steam.coldestSeconds())));
        facts.add(
                "Residual air",
                Sentence.of(
                        "%s % of the pressure there would explain the deficit by Dalton's law; an estimate, not a"
                                + " measurement",
                        Figures.highSide(steam.residualAirPercent(), 2)));
        facts.add(
                "Farthest above",
                Sentence.of(
                        "%s K: %s at %s",
                        VisitSections.signed(steam.hottestDifference(), 2),
                        steam.hottestChannel(),
                        Moments.minutes(steam.hottestSeconds())));
        facts.add("Formula", evaluation.criteriaSet().curve().title());
        facts.end();
    }

    private void phases(Phases phases) {
        sheet.heading("Phases");
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Found in",
                phases.foundFrom() == Quantity.PRESSURE ? "the pressure" : "the temperature of the reference point");
        boolean isStated = phases.stated().isPresent();
        for (Phase phase : phases.phases()) {
            facts.add(phase.kind().words(), isStated ? Sentence.of("found %s", stretch(phase)) : stretch(phase));
        }
        phases.stated().ifPresent(stated -> stated(phases, stated, facts));
        int number = 1;
        for (Pulse pulse : phases.pulses()) {
            String unit = pulse.quantity() == Quantity.PRESSURE ? "kPa abs" : "°C";
            facts.add(
                    Sentence.of("pulse %s", number++),
                    Sentence.of(
                            "down to %s at %s, then up to %s at %s",
                            Figures.nearest(pulse.depth(), 1) + " " + unit,
                            Moments.minutes(pulse.depthSeconds()),
                            Figures.nearest(pulse.height(), 1) + " " + unit,
                            Moments.minutes(pulse.heightSeconds())));
        }
        facts.end();
    }

    private static String stretch(Phase phase) {
        return Sentence.of(
                "%s to %s, %s",
                Moments.minutes(phase.fromSeconds()),
                Moments.minutes(phase.toSeconds()),
                Moments.length(phase.toSeconds() - phase.fromSeconds()));
    }

    /** What somebody stated beside the found phases: who, why, and what follows. */
    private static void stated(Phases phases, StatedPhases stated, Sheet.Facts facts) {
        for (StatedBorder border : stated.borders()) {
            facts.add(
                    "stated border",
                    Sentence.of(
                            "%s at %s (%s), stated by %s: %s",
                            border.words(),
                            Moments.minutes(border.atSeconds()),
                            phases.foundBorder(border.phase(), border.end())
                                    .map(found -> Sentence.of("found at %s", Moments.minutes(found)))
                                    .orElse("not found"),
                            border.by(),
                            border.because()));
        }
        if (stated.refusal().isPresent()) {
            facts.add(
                    "left aside",
                    Sentence.of(
                            "the stated borders can't stand: %s",
                            stated.refusal().get()));
            return;
        }
        for (Phase phase : stated.phases()) {
            if (!phases.phases().contains(phase)) {
                facts.add(phase.kind().words(), Sentence.of("stated %s", stretch(phase)));
            }
        }
        facts.add("plateau", "begin, end and holding time come from the samples; no stated border feeds them");
    }

    private void lethality() {
        sheet.heading("Lethality – a supporting figure, decides nothing");
        sheet.table(
                words("Channel", 26),
                figures("F", 22),
                figures("bounds from sampling", 36),
                figures("95 % interval", 36),
                figures("reference, z", 28),
                figures("from, to", 26));
        for (int i = 0; i < evaluation.lethality().size(); i++) {
            Lethality f = evaluation.lethality().get(i);
            sheet.cells(
                    evaluation.lethalityChannels().get(i),
                    Figures.lowSide(f.minutes(), 2) + " min",
                    Sentence.of(
                            "%s to %s",
                            Figures.lowSide(f.lowMinutes(), 2), Figures.highSide(f.highMinutes(), 2) + " min"),
                    lethalityInterval(evaluation.lethalityChannels().get(i)),
                    Wording.join(", ", Wording.plain(f.referenceCelsius()) + " °C", Wording.plain(f.z()) + " K"),
                    Wording.join(
                            ", ",
                            Sentence.of("%s to %s", Moments.minutes(f.fromSeconds()), Moments.minutes(f.toSeconds())),
                            f.skippedSeconds() > 0
                                    ? Sentence.of("%s without value", Moments.length(f.skippedSeconds()))
                                    : ""));
        }
        sheet.endTable();
        sheet.aside("F is the time at the reference temperature that would have the same effect on organisms whose "
                + "resistance changes tenfold in z. It can never turn a fail into a pass.");
    }

    private String lethalityInterval(String channel) {
        return assessed.propagated().stream()
                .filter(figure -> figure.measurand() == Measurand.LETHALITY
                        && figure.channel().equals(channel))
                .findFirst()
                .map(RunSection::interval)
                .orElse("not known");
    }

    private void load() {
        run.load().ifPresent(load -> sheet.keep(() -> referenceLoad(load)));
        new IndicatorSection(sheet, assessed, lastDay).write();
        run.after().ifPresent(after -> sheet.keep(() -> taken(after)));
        if (!run.weighings().isEmpty()) {
            sheet.keep(this::weighings);
        }
        if (!assessed.loadFindings().isEmpty()) {
            sheet.heading("Findings about load and indicators");
            new FindingTable(sheet).write(assessed.loadFindings());
        }
    }

    private void referenceLoad(ReferenceLoad load) {
        sheet.heading("Reference load and challenge pack");
        if (sameLoadAs.isPresent()) {
            sheet.paragraph(Sentence.of("The same load as in run %s.", sameLoadAs.get()));
            return;
        }
        Sheet.Facts facts = sheet.facts();
        facts.need("Load", load.description());
        facts.add(
                "Mass", load.massKilogram().map(kg -> Wording.plain(kg) + " kg").orElse(""));
        facts.add("Trays", trays(load));
        facts.add("On levels, from below", levels(load));
        facts.add("Packaging", load.packaging());
        facts.need("Challenge pack", load.challengePack());
        facts.add("Place and why", load.challengePlace());
        facts.add(
                "Agreed by",
                load.agreedBy().isBlank()
                        ? "nobody: the statement that nothing larger or harder will be run is missing"
                        : Sentence.of("%s: nothing larger or harder for steam will be run", load.agreedBy()));
        facts.add("Photos", Sentence.list(", ", load.photos()));
        facts.end();
        if (!load.items().isEmpty()) {
            sheet.table(words("Item", 74), figures("Number", 20), words("Family", 40), words("Packaging", 40));
            for (ReferenceLoad.Item item : load.items()) {
                sheet.cells(item.name(), String.valueOf(item.count()), item.family(), item.packaging());
            }
            sheet.endTable();
        }
    }

    /** How many trays it took; blank if not stated. */
    static String trays(ReferenceLoad load) {
        return load.trays().isPresent() ? String.valueOf(load.trays().getAsInt()) : "";
    }

    /** On which levels they lay; blank if not stated. */
    static String levels(ReferenceLoad load) {
        return load.trayLevels().stream().map(String::valueOf).collect(Collectors.joining(", "));
    }

    private void taken(AfterRun after) {
        sheet.heading("When the load was taken out");
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Packs, to the eye",
                after.isDry().map(dry -> dry ? "dry" : "wet").orElse(""));
        facts.add(
                "Seals of the packs",
                after.isSealed().map(intact -> intact ? "intact" : "not intact").orElse(""));
        facts.add("Door closed after the cycle for", after.closedFor());
        facts.add("Looked at by", after.by());
        facts.end();
    }

    private void weighings() {
        sheet.heading("Dryness");
        sheet.table(
                words("Pack", 62),
                words("Kind", 28),
                figures("before", 28),
                figures("after", 28),
                figures("moisture", 28));
        for (Weighing weighing : run.weighings()) {
            double percent = 100 * (weighing.afterGram() - weighing.beforeGram()) / weighing.beforeGram();
            sheet.cells(
                    weighing.item(),
                    weighing.kind() == Weighing.Kind.SOLID ? "solid" : "porous",
                    Wording.plain(weighing.beforeGram()) + " g",
                    Wording.plain(weighing.afterGram()) + " g",
                    Figures.highSide(percent, 2) + " %");
        }
        sheet.endTable();
    }
}
