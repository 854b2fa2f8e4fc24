package org.steamwright.report.plot;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.language.Speaker;

/** The pictures of a run. Temperature above, pressure below on the same axis of time, never a second scale of values. */
public final class CyclePlot {

    private static final double WIDTH = 493;
    private static final double LEFT = 30;
    private static final double RIGHT = 92;
    private static final double TITLE_HEIGHT = 22;
    private static final double GAP = 10;
    private static final double SMALL = 7;
    private static final double LABEL_SPACING = 8.4;
    private static final List<Double> FOUND_DASH = List.of(2.5, 2.0);
    private static final double HAIR = 0.3;
    private static final double LIGHT = 0.6;
    private static final double HEAVY = 1.3;

    /** Shortest stretch of time around a plateau that its zoom shows, as a share of its length, and in seconds. */
    private static final double ZOOM_SHARE = 0.12;

    private static final double ZOOM_LEAST = 20;

    /** Dashes that stay apart on a bad printer: the first is solid. */
    private static final List<List<Double>> DASHES = List.of(
            List.of(),
            List.of(5.0, 1.6),
            List.of(1.1, 1.3),
            List.of(7.0, 1.5, 1.1, 1.5),
            List.of(3.0, 3.0),
            List.of(9.0, 2.2),
            List.of(5.0, 1.4, 1.1, 1.4, 1.1, 1.4));

    /** A title of more letters than that is set smaller. */
    private static final int TITLE_LETTERS = 100;

    private static final double TITLE_SIZE = 9.5;

    private final RunEvaluation evaluation;
    private final Speaker speaker;
    private final Trace trace;
    private final Optional<CorrectedChannel> coldest;

    private CyclePlot(RunEvaluation evaluation, Speaker speaker) {
        this.evaluation = evaluation;
        this.speaker = speaker;
        this.trace = evaluation.run().trace();
        this.coldest = Message.coldest(evaluation);
    }

    /** The channel drawn heavy: the coldest of the holding time, or the one that came last or never; empty if none is in the chamber. */
    public static Optional<CorrectedChannel> coldest(RunEvaluation evaluation) {
        return Message.coldest(evaluation);
    }

    /** The whole recording of a thermometric run, in English. */
    public static Drawing whole(RunEvaluation evaluation) {
        return whole(evaluation, Speaker.ENGLISH);
    }

    /** The whole recording of a thermometric run. */
    public static Drawing whole(RunEvaluation evaluation, Speaker speaker) {
        return new CyclePlot(evaluation, speaker).whole();
    }

    /** The plateau with its limits, in English; empty if there was none. */
    public static Optional<Drawing> plateau(RunEvaluation evaluation) {
        return plateau(evaluation, Speaker.ENGLISH);
    }

    /** The plateau with its limits; empty if there was none. */
    public static Optional<Drawing> plateau(RunEvaluation evaluation, Speaker speaker) {
        return evaluation.plateau().map(found -> new CyclePlot(evaluation, speaker).plateau(found));
    }

    /** The pressure of a leak test, in English; empty if none was recorded. */
    public static Optional<Drawing> leak(RunEvaluation evaluation) {
        return leak(evaluation, Speaker.ENGLISH);
    }

    /** The pressure of a leak test; empty if none was recorded. */
    public static Optional<Drawing> leak(RunEvaluation evaluation, Speaker speaker) {
        return evaluation.corrected().pressure().map(pressure -> new CyclePlot(evaluation, speaker).leak(pressure));
    }

    private Drawing whole() {
        List<CorrectedChannel> temperatures = temperatures(true);
        Optional<CorrectedChannel> pressure = evaluation.corrected().pressure();
        double upperHeight = pressure.isPresent() ? 118 : 166;
        double lowerHeight = pressure.isPresent() ? 46 : 0;
        Canvas canvas = new Canvas(
                WIDTH,
                TITLE_HEIGHT + upperHeight + (pressure.isPresent() ? GAP + lowerHeight : 0) + axisHeight(),
                speaker);
        double from = trace.firstSeconds();
        double to = Math.max(trace.lastSeconds(), from + 1);
        double[] range = range(temperatures, from, to);
        Panel panel = panel(
                TITLE_HEIGHT,
                upperHeight,
                from,
                to,
                Math.floor(range[0] / 10) * 10,
                Math.max(140, Math.ceil(range[1] / 10) * 10));
        String title = Message.wholeCycle(evaluation);
        title(canvas, title);
        band(canvas, panel);
        frame(canvas, panel, "°C", 7);
        curves(canvas, panel, temperatures);
        Panel lowest = panel;
        if (pressure.isPresent()) {
            lowest = pressurePanel(canvas, pressure.get(), panel, lowerHeight);
        }
        borders(canvas, panel.top(), lowest);
        timeAxis(canvas, lowest, true);
        return canvas.toDrawing(
                title,
                Sentence.of(
                        pressure.isPresent()
                                ? "Whole cycle of run %s: %s temperatures and the pressure from %s to %s. %s. The figures"
                                        + " stand in the tables of this run."
                                : "Whole cycle of run %s: %s temperatures from %s to %s. %s. The figures stand in the"
                                        + " tables of this run.",
                        evaluation.run().id(),
                        temperatures.size(),
                        Moments.minutes(from),
                        Moments.minutes(to),
                        title));
    }

    private Drawing plateau(Plateau plateau) {
        List<CorrectedChannel> temperatures = temperatures(false);
        double length = plateau.endSeconds() - plateau.reachedSeconds();
        double around = Math.max(ZOOM_LEAST, ZOOM_SHARE * length);
        double from = Math.max(trace.firstSeconds(), plateau.reachedSeconds() - around);
        double to = Math.max(from + 1, Math.min(trace.lastSeconds(), plateau.endSeconds() + around));
        double lower = evaluation.run().cycle().sterilizingTemperature().celsius();
        Optional<Double> upper = upper();
        double low = lower - 1;
        double high = upper.orElse(lower + 3) + 0.6;
        double settled = plateau.equilibratedSeconds().orElse(plateau.reachedSeconds());
        double[] range = range(temperatures, settled, plateau.endSeconds());
        low = Math.max(Math.min(low, range[0] - 0.4), lower - 12);
        high = Math.min(Math.max(high, range[1] + 0.4), lower + 15);
        double height = 158;
        Canvas canvas = new Canvas(WIDTH, TITLE_HEIGHT + height + axisHeight(), speaker);
        Panel panel = panel(TITLE_HEIGHT, height, from, to, low, high);
        String title = Message.plateau(evaluation, plateau, upper);
        title(canvas, title);
        band(canvas, panel);
        halo(canvas, panel);
        frame(canvas, panel, "°C", 7);
        holding(canvas, panel, plateau);
        curves(canvas, panel, temperatures);
        borders(canvas, panel.top(), panel);
        timeAxis(canvas, panel, true);
        return canvas.toDrawing(
                title,
                Sentence.of(
                        "Plateau of run %s with the limits of the band. %s. The figures stand in the tables of this run.",
                        evaluation.run().id(), title));
    }

    private Drawing leak(CorrectedChannel pressure) {
        double from = pressure.axis().first();
        double to = Math.max(pressure.axis().last(), from + 1);
        Optional<LeakTest> found = evaluation.leakTest();
        double low = 0;
        double high = 10;
        if (found.isPresent()) {
            LeakTest leak = found.get();
            from = Math.max(from, leak.isolationSeconds() - 60);
            to = Math.min(to, leak.endSeconds() + 30);
            double span = Math.max(1, leak.endKilopascal() - leak.isolationKilopascal());
            low = Math.max(0, leak.isolationKilopascal() - span);
            high = leak.endKilopascal() + span;
        } else {
            double[] range = range(List.of(pressure), from, to);
            low = Math.max(0, range[0] - 1);
            high = range[1] + 1;
        }
        double height = 104;
        Canvas canvas = new Canvas(WIDTH, TITLE_HEIGHT + height + 34, speaker);
        Panel panel = panel(TITLE_HEIGHT, height, from, to, low, high);
        String title = found.map(Message::leak).orElse("No leak test could be read from this recording");
        title(canvas, title);
        frame(canvas, panel, "kPa abs", 6);
        canvas.line(panel.curve(pressure.axis(), pressure.toArray()), HEAVY, Ink.BLACK, List.of());
        found.ifPresent(leak -> {
            leakPoint(canvas, panel, "p1", leak.isolationSeconds(), leak.isolationKilopascal());
            leakPoint(canvas, panel, "p2", leak.settledSeconds(), leak.settledKilopascal());
            leakPoint(canvas, panel, "p3", leak.endSeconds(), leak.endKilopascal());
        });
        endLabels(canvas, panel, List.of(pressure));
        timeAxis(canvas, panel, false);
        return canvas.toDrawing(
                title,
                Sentence.of(
                        "Pressure of leak test %s. %s. The figures stand in the table of leak tests.",
                        evaluation.run().id(), title));
    }

    private static void leakPoint(Canvas canvas, Panel panel, String name, double seconds, double value) {
        double x = panel.x(seconds);
        double y = panel.y(value);
        canvas.line(x, panel.top(), x, panel.bottom(), HAIR, Ink.GREY);
        canvas.dot(x, y, 2.2, Ink.BLACK);
        boolean atLeft = x < panel.left() + 70;
        canvas.words(
                atLeft ? x + 4 : x - 4,
                atLeft ? y + 10 : y - 6,
                Sentence.of("%s %s", name, Figures.nearest(value, 2) + " kPa"),
                SMALL,
                atLeft ? Mark.Anchor.START : Mark.Anchor.END,
                Mark.Face.REGULAR,
                Ink.BLACK);
    }

    private Panel panel(double top, double height, double from, double to, double low, double high) {
        return new Panel(LEFT, top, WIDTH - LEFT - RIGHT, height, from, to, low, high);
    }

    private static double axisHeight() {
        return 46;
    }

    /** All temperatures to be drawn, the theoretical one last. */
    private List<CorrectedChannel> temperatures(boolean withAmbient) {
        List<CorrectedChannel> found = new ArrayList<>();
        for (CorrectedChannel channel : evaluation.corrected().channels()) {
            boolean temperature = channel.channel().column().quantity() == Quantity.TEMPERATURE;
            if (temperature && (withAmbient || channel.role() != ChannelRole.AMBIENT)) {
                found.add(channel);
            }
        }
        return found;
    }

    private Optional<Double> upper() {
        return upperLimit(evaluation);
    }

    /** Upper limit of the band in °C, if the criteria set states one. */
    static Optional<Double> upperLimit(RunEvaluation evaluation) {
        Temperature lower = evaluation.run().cycle().sterilizingTemperature();
        return evaluation
                .criteriaSet()
                .findCycle(lower.celsius())
                .flatMap(CycleLimits::bandWidth)
                .map(width -> lower.celsius() + width.value());
    }

    private static double[] range(List<CorrectedChannel> channels, double from, double to) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (CorrectedChannel channel : channels) {
            for (int i = 0; i < channel.size(); i++) {
                double moment = channel.axis().at(i);
                double value = channel.at(i);
                if (moment >= from && moment <= to && Double.isFinite(value)) {
                    low = Math.min(low, value);
                    high = Math.max(high, value);
                }
            }
        }
        return low <= high ? new double[] {low, high} : new double[] {0, 1};
    }

    private static void title(Canvas canvas, String title) {
        int letters = canvas.said(title).length();
        double size = letters <= TITLE_LETTERS ? TITLE_SIZE : TITLE_SIZE * TITLE_LETTERS / letters;
        canvas.words(0, TITLE_SIZE, title, size, Mark.Anchor.START, Mark.Face.BOLD, Ink.BLACK);
    }

    /** The band as a strip with its two numbers at the right. */
    private void band(Canvas canvas, Panel panel) {
        double lower = evaluation.run().cycle().sterilizingTemperature().celsius();
        Optional<Double> upper = upper();
        double top = panel.y(Math.min(panel.high(), upper.orElse(panel.high())));
        if (!panel.shows(lower)) {
            return;
        }
        canvas.area(Outline.box(panel.left(), top, panel.width(), panel.y(lower) - top), Ink.STRIP);
        limit(canvas, panel, lower);
        upper.filter(panel::shows).ifPresent(value -> limit(canvas, panel, value));
    }

    private static void limit(Canvas canvas, Panel panel, double celsius) {
        double y = panel.y(celsius);
        canvas.line(panel.left(), y, panel.right() + 4, y, LIGHT, Ink.GREY);
    }

    /** Doubt of the coldest curve: one expanded uncertainty either side. */
    private void halo(Canvas canvas, Panel panel) {
        coldest.ifPresent(channel -> {
            double doubt = channel.expanded().value();
            if (doubt > 0) {
                canvas.area(
                        panel.strip(
                                channel.axis(),
                                channel.shifted(-doubt).toArray(),
                                channel.shifted(doubt).toArray()),
                        Ink.HALO);
            }
        });
    }

    /** The longest unbroken hold as a bracket at the top of the panel. */
    private static void holding(Canvas canvas, Panel panel, Plateau plateau) {
        plateau.holding().map(Stretch::seconds).filter(length -> length > 0).ifPresent(length -> {
            Stretch stretch = plateau.holding().orElseThrow();
            double x1 = panel.x(stretch.fromSeconds());
            double x2 = panel.x(stretch.toSeconds());
            double y = panel.top() + 9;
            canvas.line(x1, y, x2, y, LIGHT, Ink.BLACK);
            for (double x : new double[] {x1, x2}) {
                canvas.line(x, y - 3, x, panel.bottom(), HAIR, Ink.BLACK);
                canvas.line(x, y - 3, x, y + 3, LIGHT, Ink.BLACK);
            }
            canvas.words(
                    (x1 + x2) / 2,
                    y - 2.5,
                    Sentence.of("holding time %s", Moments.length(length)),
                    SMALL,
                    Mark.Anchor.MIDDLE,
                    Mark.Face.ITALIC,
                    Ink.BLACK);
        });
    }

    private static void frame(Canvas canvas, Panel panel, String unit, int marks) {
        canvas.line(panel.left(), panel.bottom(), panel.right(), panel.bottom(), HAIR, Ink.BLACK);
        for (double value : Scale.round(panel.low(), panel.high(), marks)) {
            double y = panel.y(value);
            canvas.line(panel.left() - 3, y, panel.left(), y, HAIR, Ink.BLACK);
            canvas.words(
                    panel.left() - 5,
                    y + 2.4,
                    Figures.plain(Figures.cleaned(value), Unit.COUNT),
                    SMALL,
                    Mark.Anchor.END,
                    Mark.Face.REGULAR,
                    Ink.BLACK);
        }
        canvas.words(0, panel.top() - 3, unit, SMALL, Mark.Anchor.START, Mark.Face.ITALIC, Ink.GREY);
    }

    private void curves(Canvas canvas, Panel panel, List<CorrectedChannel> channels) {
        int light = 0;
        List<Runnable> heavy = new ArrayList<>();
        for (CorrectedChannel channel : channels) {
            Outline outline = panel.curve(channel.axis(), channel.toArray());
            if (isColdest(channel)) {
                heavy.add(() -> canvas.line(outline, HEAVY, Ink.BLACK, List.of()));
            } else if (channel.role() == ChannelRole.THEORETICAL) {
                canvas.line(outline, HAIR, Ink.BLACK, List.of());
            } else {
                canvas.line(outline, LIGHT, Ink.BLACK, DASHES.get(light % DASHES.size()));
                light++;
            }
        }
        heavy.forEach(Runnable::run);
        endLabels(canvas, panel, channels);
    }

    private boolean isColdest(CorrectedChannel channel) {
        return coldest.filter(c -> c.name().equals(channel.name())).isPresent();
    }

    /** Names where the curves end, and the two numbers of the band among them so that neither covers the other. */
    private void endLabels(Canvas canvas, Panel panel, List<CorrectedChannel> channels) {
        EndLabels labels = new EndLabels(panel.top() + 3, panel.bottom() - 1, LABEL_SPACING);
        for (CorrectedChannel channel : channels) {
            Outline outline = panel.curve(channel.axis(), channel.toArray());
            int last = outline.size() - 1;
            if (last < 0) {
                continue;
            }
            String name = channel.role() == ChannelRole.THEORETICAL ? "theoretical" : channel.name();
            Mark.Face face = isColdest(channel)
                    ? Mark.Face.BOLD
                    : channel.role() == ChannelRole.THEORETICAL ? Mark.Face.ITALIC : Mark.Face.REGULAR;
            labels.add(Message.shortName(name), outline.x(last), outline.y(last), face);
        }
        boolean temperature = channels.stream().noneMatch(c -> c.role() == ChannelRole.PRESSURE);
        if (temperature) {
            double lower = evaluation.run().cycle().sterilizingTemperature().celsius();
            bandNumber(labels, panel, lower);
            upper().ifPresent(value -> bandNumber(labels, panel, value));
        }
        double x = panel.right() + 12;
        for (EndLabels.Placed placed : labels.place()) {
            EndLabels.Label label = placed.label();
            canvas.line(label.x() + 1, label.y(), x - 2, placed.y(), HAIR, Ink.GREY);
            canvas.words(x, placed.y() + 2.4, label.text(), SMALL, Mark.Anchor.START, label.face(), Ink.BLACK);
        }
    }

    private static void bandNumber(EndLabels labels, Panel panel, double celsius) {
        if (panel.shows(celsius)) {
            labels.add(
                    Figures.plain(celsius, Unit.CELSIUS) + " °C",
                    panel.right() + 3,
                    panel.y(celsius),
                    Mark.Face.REGULAR);
        }
    }

    private Panel pressurePanel(Canvas canvas, CorrectedChannel pressure, Panel above, double height) {
        double[] range = range(List.of(pressure), above.fromSeconds(), above.toSeconds());
        Panel panel = panel(
                above.bottom() + GAP,
                height,
                above.fromSeconds(),
                above.toSeconds(),
                0,
                Math.max(50, Math.ceil(range[1] / 50) * 50));
        frame(canvas, panel, "kPa abs", 3);
        canvas.line(panel.curve(pressure.axis(), pressure.toArray()), LIGHT, Ink.BLACK, List.of());
        endLabels(canvas, panel, List.of(pressure));
        return panel;
    }

    /** Minutes and seconds, the wall clock at both ends, and the phases as a ruler with words. */
    private void timeAxis(Canvas canvas, Panel panel, boolean withPhases) {
        double y = panel.bottom();
        for (double moment : Scale.times(panel.fromSeconds(), panel.toSeconds(), 10)) {
            double x = panel.x(moment);
            canvas.line(x, y, x, y + 3, HAIR, Ink.BLACK);
            canvas.words(x, y + 10.5, Moments.minutes(moment), SMALL, Mark.Anchor.MIDDLE, Mark.Face.REGULAR, Ink.BLACK);
        }
        canvas.words(panel.right() + 12, y + 10.5, "min:s", SMALL, Mark.Anchor.START, Mark.Face.ITALIC, Ink.GREY);
        double ruler = y + 17;
        if (withPhases) {
            evaluation.phases().ifPresent(phases -> phaseRuler(canvas, panel, phases, ruler));
        }
        double clock = withPhases ? ruler + 24 : y + 21;
        clockNote()
                .ifPresent(note -> canvas.words(
                        (panel.left() + panel.right()) / 2,
                        clock,
                        note,
                        SMALL,
                        Mark.Anchor.MIDDLE,
                        Mark.Face.ITALIC,
                        Ink.GREY));
        trace.start().ifPresent(start -> {
            ZoneId zone = trace.zone();
            canvas.words(
                    panel.left(),
                    clock,
                    Moments.clock(at(start, panel.fromSeconds()), zone),
                    SMALL,
                    Mark.Anchor.START,
                    Mark.Face.ITALIC,
                    Ink.GREY);
            canvas.words(
                    panel.right(),
                    clock,
                    Sentence.list(" ", Moments.clock(at(start, panel.toSeconds()), zone), zone.getId()),
                    SMALL,
                    Mark.Anchor.END,
                    Mark.Face.ITALIC,
                    Ink.GREY);
        });
    }

    /** Stated borders as full lines and, dashed, where each was found; the panel is the lowest of the picture. */
    private void borders(Canvas canvas, double top, Panel panel) {
        List<StatedBorder> stated = evaluation
                .phases()
                .flatMap(Phases::stated)
                .filter(all -> all.refusal().isEmpty())
                .map(StatedPhases::borders)
                .orElse(List.of());
        for (StatedBorder border : stated) {
            evaluation
                    .phases()
                    .flatMap(phases -> phases.foundBorder(border.phase(), border.end()))
                    .filter(found -> found >= panel.fromSeconds() && found <= panel.toSeconds())
                    .ifPresent(found -> canvas.line(
                            Outline.line(panel.x(found), top, panel.x(found), panel.bottom()),
                            LIGHT,
                            Ink.BLACK,
                            FOUND_DASH));
            if (border.atSeconds() >= panel.fromSeconds() && border.atSeconds() <= panel.toSeconds()) {
                double x = panel.x(border.atSeconds());
                boolean isRight = x > (panel.left() + panel.right()) / 2;
                canvas.line(x, top, x, panel.bottom(), LIGHT, Ink.BLACK);
                canvas.words(
                        isRight ? x - 2 : x + 2,
                        top + 6,
                        Sentence.of("%s, stated", border.words()),
                        SMALL,
                        isRight ? Mark.Anchor.END : Mark.Anchor.START,
                        Mark.Face.ITALIC,
                        Ink.BLACK);
            }
        }
    }

    /** What was done to the clocks, if several stamped the curves. */
    private Optional<String> clockNote() {
        Clocks clocks = evaluation.run().clocks();
        if (!clocks.areSeveral()) {
            return Optional.empty();
        }
        List<String> moved = new ArrayList<>();
        for (RecordingClock recording : clocks.recordings()) {
            double seconds = recording.offset().map(ClockOffset::secondsAtStart).orElse(0.0);
            if (seconds != 0 && !recording.channels().isEmpty()) {
                moved.add(Sentence.of(
                        "%s moved by %s s", Sentence.list(", ", recording.channels()), Figures.nearest(seconds, 1)));
            }
        }
        boolean isLoose = clocks.recordings().stream()
                .anyMatch(recording ->
                        recording.offset().isEmpty() && !recording.file().equals(clocks.base()));
        String loose = isLoose ? "clocks not all compared" : "";
        moved.add(loose);
        return Optional.of(Sentence.list("; ", moved)).filter(note -> !note.isBlank());
    }

    private static Instant at(Instant start, double seconds) {
        return start.plusMillis(Math.round(seconds * 1000));
    }

    private static void phaseRuler(Canvas canvas, Panel panel, Phases phases, double y) {
        double taken = panel.left();
        for (Phase phase : phases.phases()) {
            double from = Math.max(phase.fromSeconds(), panel.fromSeconds());
            double to = Math.min(phase.toSeconds(), panel.toSeconds());
            if (to <= from) {
                continue;
            }
            double x1 = panel.x(from);
            double x2 = panel.x(to);
            canvas.line(x1, y, x2, y, LIGHT, Ink.GREY);
            canvas.line(x1, y - 2.5, x1, y + 2.5, LIGHT, Ink.GREY);
            canvas.line(x2, y - 2.5, x2, y + 2.5, LIGHT, Ink.GREY);
            double width = 0.56 * SMALL * canvas.said(phase.kind().words()).length();
            double middle = Math.max(taken + width / 2, Math.min((x1 + x2) / 2, panel.right() + 60 - width / 2));
            canvas.words(middle, y + 10, phase.kind().words(), SMALL, Mark.Anchor.MIDDLE, Mark.Face.ITALIC, Ink.BLACK);
            taken = middle + width / 2 + 4;
        }
    }
}
