package org.steamwright.report.plot;

/** A sequence of points, in points from the upper left corner; NaN lifts the pen. */
public final class Outline {

    private final double[] x;
    private final double[] y;

    /**
     * @param x as many as {@code y}
     * @param y NaN lifts the pen
     */
    public Outline(double[] x, double[] y) {
        if (x.length != y.length) {
            throw new IllegalArgumentException("an outline of " + x.length + " and " + y.length + " values");
        }
        this.x = x.clone();
        this.y = y.clone();
    }

    /** A straight line. */
    public static Outline line(double x1, double y1, double x2, double y2) {
        return new Outline(new double[] {x1, x2}, new double[] {y1, y2});
    }

    /** The corners of a rectangle. */
    public static Outline box(double left, double top, double width, double height) {
        return new Outline(
                new double[] {left, left + width, left + width, left},
                new double[] {top, top, top + height, top + height});
    }

    public int size() {
        return x.length;
    }

    public double x(int index) {
        return x[index];
    }

    public double y(int index) {
        return y[index];
    }

    /** Whether the pen is lifted here. */
    public boolean isLifted(int index) {
        return Double.isNaN(x[index]) || Double.isNaN(y[index]);
    }
}
