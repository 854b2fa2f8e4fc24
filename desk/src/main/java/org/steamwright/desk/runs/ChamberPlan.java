package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.visit.AssessedRun;

/**
 * Where the sensors sit in the chamber, seen from above and from the side. Places are found in the words: front, middle, back;
 * left, centre, right; top, half way, bottom. A sensor whose words name none of them is listed beside the plan.
 *
 * @param points that can be drawn
 * @param elsewhere names of those that can't
 */
public record ChamberPlan(List<Point> points, List<String> elsewhere) {

    private static final double LEFT = 18;
    private static final double DEPTH = 62;
    private static final double TOP = 16;
    private static final double ACROSS = 29;
    private static final double APART = 9;
    private static final double LETTER = 6;

    public ChamberPlan {
        points = List.copyOf(points);
        elsewhere = List.copyOf(elsewhere);
    }

    /**
     * A sensor on the plan.
     *
     * @param sign letter, or the column's name where there is none
     * @param x of both views, the door at the left
     * @param above y in the view from above
     * @param beside y in the view from the side
     * @param isColdest whether it was the coldest of the holding time
     */
    public record Point(String sign, String x, String above, String beside, boolean isColdest) {}

    static ChamberPlan of(List<ReadFile> files, Optional<AssessedRun> run) {
        Optional<String> coldest = run.filter(one -> one.evaluation().plateau().isPresent())
                .flatMap(one -> CyclePlot.coldest(one.evaluation()))
                .map(channel -> channel.channel().column().name());
        List<Point> points = new ArrayList<>();
        List<String> elsewhere = new ArrayList<>();
        for (ReadFile file : files) {
            for (ReadFile.ColumnRow column : file.columns()) {
                if (column.isPressure() || column.role().isEmpty()) {
                    continue;
                }
                String sign = column.position().isEmpty() ? column.name() : column.position();
                String words = column.place().toLowerCase(Locale.ROOT);
                int depth = step(words, "front", "middle", "back");
                int side = step(words, "left", "centre", "right");
                int level = step(words, "top", "half way", "bottom");
                if (depth < 0 && side < 0 && level < 0) {
                    elsewhere.add(sign);
                    continue;
                }
                double x = LEFT + DEPTH * (depth < 0 ? 1 : depth);
                double above = TOP + ACROSS * (side < 0 ? 1 : side);
                double beside = TOP + ACROSS * (level < 0 ? 1 : level);
                long before = points.stream()
                        .filter(point -> point.above.equals(number(above)) && point.beside.equals(number(beside)))
                        .filter(point -> Math.abs(Double.parseDouble(point.x) - x) < DEPTH / 2)
                        .count();
                points.add(new Point(
                        sign,
                        number(x + before * (APART + LETTER)),
                        number(above),
                        number(beside),
                        coldest.filter(column.name()::equals).isPresent()));
            }
        }
        return new ChamberPlan(points, elsewhere);
    }

    private static int step(String words, String... steps) {
        for (int i = 0; i < steps.length; i++) {
            if (words.contains(steps[i])) {
                return i;
            }
        }
        return -1;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.0f", value);
    }
}
