package org.steamwright.report.plot;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The names of curves beside their ends, moved apart where they would cover each other. */
final class EndLabels {

    private final double top;
    private final double bottom;
    private final double spacing;
    private final List<Label> labels = new ArrayList<>();

    /**
     * A name to be placed.
     *
     * @param text what it says
     * @param x where the curve ends
     * @param y where the curve ends
     * @param face cut
     */
    record Label(String text, double x, double y, Mark.Face face) {}

    /** A label with the height at which it came to stand. */
    record Placed(Label label, double y) {}

    EndLabels(double top, double bottom, double spacing) {
        this.top = top;
        this.bottom = bottom;
        this.spacing = spacing;
    }

    void add(String text, double x, double y, Mark.Face face) {
        labels.add(new Label(text, x, y, face));
    }

    /** From top to bottom, at least the spacing apart; inside the column as long as they fit into it at all. */
    List<Placed> place() {
        List<Label> sorted = new ArrayList<>(labels);
        sorted.sort(Comparator.comparingDouble(Label::y));
        double[] y = new double[sorted.size()];
        double free = top;
        for (int i = 0; i < y.length; i++) {
            y[i] = Math.max(free, sorted.get(i).y());
            free = y[i] + spacing;
        }
        double limit = bottom;
        for (int i = y.length - 1; i >= 0; i--) {
            y[i] = Math.min(y[i], limit);
            limit = y[i] - spacing;
        }
        List<Placed> placed = new ArrayList<>();
        for (int i = 0; i < y.length; i++) {
            placed.add(new Placed(sorted.get(i), y[i]));
        }
        return placed;
    }
}
