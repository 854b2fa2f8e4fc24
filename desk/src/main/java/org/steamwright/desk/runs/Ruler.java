package org.steamwright.desk.runs;

import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.report.plot.MarginRuler;

/**
 * The margin of a finding as a short rule, drawn like the report's: the limit is a post at 32 of 92, the good side is the
 * right one.
 *
 * @param dot place of the measured figure, between 3 and 89
 * @param from left end of its doubt
 * @param to right end of its doubt
 * @param isBeyondLeft whether the figure lies beyond the left end
 * @param isBeyondRight whether it lies beyond the right end
 */
public record Ruler(String dot, String from, String to, boolean isBeyondLeft, boolean isBeyondRight) {

    private static final double POST = 32;
    private static final double LEFT = 3;
    private static final double RIGHT = 89;

    /** The ruler of a finding; empty without a figure or a limit. */
    static Optional<Ruler> of(Finding finding) {
        return finding.measured().flatMap(figure -> finding.limit().map(limit -> of(figure, limit)));
    }

    private static Ruler of(Figure figure, Limit limit) {
        double perUnit = (RIGHT - POST) / MarginRuler.reach(limit.unit());
        double dot = POST + perUnit * limit.margin(figure.value());
        double worse = POST + perUnit * limit.margin(figure.worse(limit.comparison()));
        double better = POST + perUnit * limit.margin(figure.better(limit.comparison()));
        return new Ruler(place(dot), place(worse), place(better), dot < LEFT, dot > RIGHT);
    }

    private static String place(double x) {
        return String.format(Locale.ROOT, "%.1f", Math.max(LEFT, Math.min(RIGHT, x)));
    }
}
