package org.steamwright.report.plot;

import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.language.Speaker;

/**
 * The margin of a finding as a short rule: the limit is a post, the measured figure a dot, its doubt a whisker. The good
 * side is always the right one and the post always stands at the same place, so that the eye runs down one line.
 */
public final class MarginRuler {

    private static final double WIDTH = 92;
    private static final double HEIGHT = 11;
    private static final double POST = 32;
    private static final double MIDDLE = HEIGHT / 2;
    private static final double EDGE = 3;

    private MarginRuler() {}

    /** The ruler of a finding, in English; empty without a figure or a limit. */
    public static Optional<Drawing> of(Finding finding) {
        return of(finding, Speaker.ENGLISH);
    }

    /** The ruler of a finding; empty without a figure or a limit. */
    public static Optional<Drawing> of(Finding finding, Speaker speaker) {
        if (finding.measured().isEmpty() || finding.limit().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                draw(finding, finding.measured().get(), finding.limit().get(), speaker));
    }

    /** Distance from the post to the right end, in the unit of the finding; as printed beside the rulers. */
    public static double reach(Unit unit) {
        return switch (unit) {
            case CELSIUS, KELVIN -> 1.5;
            case SECONDS -> 30;
            case KILOPASCAL -> 5;
            case KILOPASCAL_PER_MINUTE -> 0.13;
            case PERCENT -> 1;
            case COUNT -> 3;
        };
    }

    private static Drawing draw(Finding finding, Figure figure, Limit limit, Speaker speaker) {
        Canvas canvas = new Canvas(WIDTH, HEIGHT, speaker);
        double perUnit = (WIDTH - EDGE - POST) / reach(limit.unit());
        double dot = POST + perUnit * limit.margin(figure.value());
        double worse = POST + perUnit * limit.margin(figure.worse(limit.comparison()));
        double better = POST + perUnit * limit.margin(figure.better(limit.comparison()));
        canvas.line(0, MIDDLE, WIDTH, MIDDLE, 0.3, Ink.GREY);
        canvas.line(POST, 0.5, POST, HEIGHT - 0.5, 1.4, Ink.BLACK);
        double left = Math.max(EDGE, Math.min(WIDTH - EDGE, worse));
        double right = Math.max(EDGE, Math.min(WIDTH - EDGE, better));
        if (right - left > 0.2) {
            canvas.line(left, MIDDLE, right, MIDDLE, 1.6, Ink.GREY);
            cap(canvas, worse, left);
            cap(canvas, better, right);
        }
        if (dot > WIDTH - EDGE) {
            arrow(canvas, WIDTH, -1);
        } else if (dot < EDGE) {
            arrow(canvas, 0, 1);
        } else {
            canvas.dot(dot, MIDDLE, 2.3, Ink.BLACK);
        }
        return canvas.toDrawing("Margin", describe(finding, limit));
    }

    private static void cap(Canvas canvas, double wanted, double x) {
        if (wanted == x) {
            canvas.line(x, MIDDLE - 2.4, x, MIDDLE + 2.4, 0.8, Ink.GREY);
        }
    }

    /** The dot lies beyond the end of the rule. */
    private static void arrow(Canvas canvas, double tip, int inwards) {
        double base = tip + inwards * 5.5;
        canvas.area(
                new Outline(new double[] {tip, base, base}, new double[] {MIDDLE, MIDDLE - 2.8, MIDDLE + 2.8}),
                Ink.BLACK);
    }

    private static String describe(Finding finding, Limit limit) {
        return Sentence.of(
                "Measured %s, required %s; %s",
                finding.printedMeasured(),
                Sentence.of(
                        limit.comparison() == Comparison.AT_LEAST ? "at least %s" : "at most %s",
                        limit.toString().substring(2)),
                limit.isMetBy(finding.measured().orElseThrow().value()) ? "inside the limit" : "outside the limit");
    }
}
