package org.steamwright.report.plot;

import java.util.Arrays;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * A rectangle of the canvas with a scale of time and a scale of values.
 *
 * @param left in points
 * @param top in points
 * @param width in points
 * @param height in points
 * @param fromSeconds at the left edge
 * @param toSeconds at the right edge
 * @param low at the lower edge
 * @param high at the upper edge
 */
record Panel(
        double left,
        double top,
        double width,
        double height,
        double fromSeconds,
        double toSeconds,
        double low,
        double high) {

    /** Slices of time per point of width: finer than any printer shows, coarse enough for a small file. */
    private static final double SLICES_PER_POINT = 2.0;

    double right() {
        return left + width;
    }

    double bottom() {
        return top + height;
    }

    double x(double seconds) {
        return left + width * (seconds - fromSeconds) / (toSeconds - fromSeconds);
    }

    double y(double value) {
        return top + height * (high - value) / (high - low);
    }

    boolean shows(double value) {
        return value >= low && value <= high;
    }

    /** A curve, thinned and cut at the edges of the panel. */
    Outline curve(TimeAxis axis, double[] values) {
        double longest = axis.size() < 2 ? Double.POSITIVE_INFINITY : TimeAxis.GAP_FACTOR * axis.interval();
        int first = Math.max(0, axis.indexAtOrBefore(fromSeconds));
        int end = Math.min(axis.size(), axis.indexAtOrAfter(toSeconds) + 1);
        double[] moments = Arrays.copyOfRange(axis.toSeconds(), first, Math.max(first, end));
        double[] shown = Arrays.copyOfRange(values, first, Math.max(first, end));
        double slice = (toSeconds - fromSeconds) / (width * SLICES_PER_POINT);
        Decimation thin = Decimation.of(moments, shown, longest, slice);
        return clip(thin.seconds(), thin.values());
    }

    /** The strip between two curves of one axis, cut at the edges of the panel. */
    Outline strip(TimeAxis axis, double[] lower, double[] upper) {
        Outline below = curve(axis, clamped(lower));
        Outline above = curve(axis, clamped(upper));
        int n = below.size() + above.size();
        double[] xs = new double[n];
        double[] ys = new double[n];
        int size = 0;
        for (int i = 0; i < above.size(); i++) {
            if (!above.isLifted(i)) {
                xs[size] = above.x(i);
                ys[size++] = above.y(i);
            }
        }
        for (int i = below.size() - 1; i >= 0; i--) {
            if (!below.isLifted(i)) {
                xs[size] = below.x(i);
                ys[size++] = below.y(i);
            }
        }
        return new Outline(Arrays.copyOf(xs, size), Arrays.copyOf(ys, size));
    }

    private double[] clamped(double[] values) {
        double[] inside = values.clone();
        for (int i = 0; i < inside.length; i++) {
            inside[i] = Double.isNaN(inside[i]) ? inside[i] : Math.min(high, Math.max(low, inside[i]));
        }
        return inside;
    }

    /** Cuts every step at the four edges, after Liang and Barsky. */
    private Outline clip(double[] seconds, double[] values) {
        double[] xs = new double[3 * seconds.length + 3];
        double[] ys = new double[3 * seconds.length + 3];
        int size = 0;
        for (int i = 1; i < seconds.length; i++) {
            if (Double.isNaN(values[i]) || Double.isNaN(values[i - 1])) {
                continue;
            }
            double x1 = x(seconds[i - 1]);
            double y1 = y(values[i - 1]);
            double dx = x(seconds[i]) - x1;
            double dy = y(values[i]) - y1;
            double[] part = {0, 1};
            boolean visible = cut(-dx, x1 - left, part)
                    && cut(dx, right() - x1, part)
                    && cut(-dy, y1 - top, part)
                    && cut(dy, bottom() - y1, part);
            if (!visible) {
                continue;
            }
            double startX = x1 + part[0] * dx;
            double startY = y1 + part[0] * dy;
            boolean continues = size > 0 && xs[size - 1] == startX && ys[size - 1] == startY;
            if (!continues) {
                if (size > 0) {
                    xs[size] = Double.NaN;
                    ys[size++] = Double.NaN;
                }
                xs[size] = startX;
                ys[size++] = startY;
            }
            boolean whole = part[1] == 1;
            xs[size] = whole ? x(seconds[i]) : x1 + part[1] * dx;
            ys[size++] = whole ? y(values[i]) : y1 + part[1] * dy;
        }
        return new Outline(Arrays.copyOf(xs, size), Arrays.copyOf(ys, size));
    }

    private static boolean cut(double direction, double distance, double[] part) {
        if (direction == 0) {
            return distance >= 0;
        }
        double share = distance / direction;
        if (direction < 0) {
            part[0] = Math.max(part[0], share);
        } else {
            part[1] = Math.min(part[1], share);
        }
        return part[0] <= part[1];
    }
}
