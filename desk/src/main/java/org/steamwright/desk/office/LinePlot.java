package org.steamwright.desk.office;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;

/**
 * A small drawing of figures over the years as SVG: dots with their doubt joined by a line, a limit as a heavier line with its
 * figure, a grey strip for what is usual. Told apart without colour; the picture says its message as its title.
 */
final class LinePlot {

    /** As wide as a telephone, so that its words stay large enough there. */
    private static final double WIDTH = 360;

    private static final double HEIGHT = 216;
    private static final double TICK = 4;
    /** Base lines of the days of both ends, and below them of the last figure when a forecast goes on from it. */
    private static final double ENDS = 18;

    private static final double LATEST = 4;
    private static final double LEFT = 44;
    private static final double RIGHT = 10;
    private static final double TOP = 16;
    private static final double BOTTOM = 36;
    private static final double ROOM = 0.12;
    private static final double ABOVE = 5;
    private static final double BELOW = 13;
    private static final int STEPS = 5;
    private static final double[] ROUND = {1, 2, 5, 10};

    /** Room that a day takes below the axis. */
    private static final double ROOM_FOR_DAYS = 75;

    /**
     * How the reader's language writes.
     *
     * @param figure a number that has its decimals
     * @param day a day
     */
    record Writing(UnaryOperator<String> figure, Function<LocalDate, String> day) {}

    /**
     * One dot.
     *
     * @param day of it
     * @param value of it
     * @param doubt half-width of its interval; 0 for none
     */
    record Dot(LocalDate day, double value, double doubt) {}

    /**
     * A figure that holds for all days.
     *
     * @param value of it
     * @param words at its end
     */
    record Level(double value, String words) {}

    /**
     * A strip between two figures.
     *
     * @param low lower end
     * @param high upper end
     */
    record Strip(double low, double high) {}

    private final String message;
    private final List<Dot> dots;
    private final List<Level> levels;
    private final Optional<Strip> strip;
    private final Optional<Dot> forecast;
    private final Writing writing;
    private double low;
    private double high;
    private final LocalDate first;
    private final LocalDate last;

    /**
     * @param message what the picture says, in words
     * @param dots by day, at least one
     * @param levels limits and the like
     * @param strip what is usual; empty if not known
     * @param forecast where the line is expected to go; empty if nowhere
     * @param writing how figures and days are written
     */
    LinePlot(
            String message,
            List<Dot> dots,
            List<Level> levels,
            Optional<Strip> strip,
            Optional<Dot> forecast,
            Writing writing) {
        this.message = message;
        this.dots = List.copyOf(dots);
        this.levels = List.copyOf(levels);
        this.strip = strip;
        this.forecast = forecast;
        this.writing = writing;
        low = Double.POSITIVE_INFINITY;
        high = Double.NEGATIVE_INFINITY;
        dots.forEach(dot -> {
            take(dot.value - dot.doubt);
            take(dot.value + dot.doubt);
        });
        levels.forEach(level -> take(level.value));
        strip.ifPresent(band -> {
            take(band.low);
            take(band.high);
        });
        forecast.ifPresent(dot -> take(dot.value));
        double room = high > low ? (high - low) * ROOM : Math.max(1e-9, Math.abs(high) * ROOM);
        low -= room;
        high += room;
        first = dots.get(0).day;
        LocalDate end = forecast.map(Dot::day).orElse(dots.get(dots.size() - 1).day);
        last = end.isAfter(first) ? end : first.plusDays(1);
    }

    private void take(double value) {
        low = Math.min(low, value);
        high = Math.max(high, value);
    }

    private double x(LocalDate day) {
        return LEFT
                + (WIDTH - LEFT - RIGHT) * ChronoUnit.DAYS.between(first, day) / ChronoUnit.DAYS.between(first, last);
    }

    private double y(double value) {
        return TOP + (HEIGHT - TOP - BOTTOM) * (high - value) / (high - low);
    }

    /** The drawing. */
    String svg() {
        StringBuilder svg = new StringBuilder();
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 360 216\" role=\"img\" aria-label=\"")
                .append(escaped(message))
                .append("\" font-size=\"11\" fill=\"currentColor\" stroke=\"none\"><title>")
                .append(escaped(message))
                .append("</title>");
        strip.ifPresent(band -> svg.append(format(
                "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" opacity=\"0.14\"/>",
                LEFT, y(band.high), WIDTH - LEFT - RIGHT, Math.max(1, y(band.low) - y(band.high)))));
        svg.append(format(
                "<path d=\"M%s %sV%sH%s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.7\"/>",
                LEFT, TOP, HEIGHT - BOTTOM, WIDTH - RIGHT));
        scale(svg);
        for (Level level : levels) {
            svg.append(format(
                    "<path d=\"M%s %sH%s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>",
                    LEFT, y(level.value), WIDTH - RIGHT));
            boolean isAtTop = y(level.value) - TOP < BELOW;
            text(svg, LEFT + ABOVE, y(level.value) + (isAtTop ? BELOW : -ABOVE), "start", level.words);
        }
        List<String> line = new ArrayList<>();
        for (Dot dot : dots) {
            line.add(format("%s,%s", x(dot.day), y(dot.value)));
            if (dot.doubt > 0) {
                svg.append(format(
                        "<path d=\"M%s %sV%s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1\"/>",
                        x(dot.day), y(dot.value - dot.doubt), y(dot.value + dot.doubt)));
            }
            svg.append(format("<circle cx=\"%s\" cy=\"%s\" r=\"3\"/>", x(dot.day), y(dot.value)));
        }
        svg.append("<polyline fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.2\" points=\"")
                .append(String.join(" ", line))
                .append("\"/>");
        Dot latest = dots.get(dots.size() - 1);
        forecast.ifPresent(dot -> svg.append(format(
                        "<path d=\"M%s %sL%s %s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.2\" stroke-dasharray=\"5 4\"/>",
                        x(latest.day), y(latest.value), x(dot.day), y(dot.value)))
                .append(format(
                        "<circle cx=\"%s\" cy=\"%s\" r=\"4\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>",
                        x(dot.day), y(dot.value))));
        for (Dot dot : dots) {
            svg.append(format(
                    "<path d=\"M%s %sv%s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.7\"/>",
                    x(dot.day), HEIGHT - BOTTOM, TICK));
        }
        text(svg, LEFT, HEIGHT - ENDS, "start", writing.day.apply(first));
        text(svg, WIDTH - RIGHT, HEIGHT - ENDS, "end", writing.day.apply(last));
        if (forecast.isPresent()) {
            double half = ROOM_FOR_DAYS / 2;
            double now = Math.min(WIDTH - RIGHT - half, Math.max(LEFT + half, x(latest.day)));
            text(svg, now, HEIGHT - LATEST, "middle", writing.day.apply(latest.day));
        }
        return svg.append("</svg>").toString();
    }

    /** Some round figures beside the upright axis. */
    private void scale(StringBuilder svg) {
        double rough = (high - low) / STEPS;
        double power = StrictMath.pow(10, StrictMath.floor(StrictMath.log10(rough)));
        double step = power * ROUND[ROUND.length - 1];
        for (double round : ROUND) {
            if (round * power >= rough) {
                step = round * power;
                break;
            }
        }
        int decimals = (int) Math.max(0, -StrictMath.floor(StrictMath.log10(step) + 1e-9));
        for (long i = (long) StrictMath.ceil(low / step); i * step <= high; i++) {
            svg.append(format(
                    "<path d=\"M%s %sH%s\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.7\"/>",
                    LEFT - 4, y(i * step), LEFT));
            text(
                    svg,
                    LEFT - 6,
                    y(i * step) + 4,
                    "end",
                    writing.figure.apply(RegisterPages.plain(i * step, decimals).replace('-', '−')));
        }
    }

    private static void text(StringBuilder svg, double x, double y, String anchor, String words) {
        svg.append(format("<text x=\"%s\" y=\"%s\" text-anchor=\"%s\">", x, y, anchor))
                .append(escaped(words))
                .append("</text>");
    }

    private static String format(String pattern, Object... values) {
        Object[] shown = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            shown[i] = values[i] instanceof Double number ? String.format(Locale.ROOT, "%.1f", number) : values[i];
        }
        return String.format(Locale.ROOT, pattern, shown);
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
