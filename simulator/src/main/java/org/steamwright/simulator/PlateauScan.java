package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Stretch;

/** Reads a {@link PlateauTruth} off signals that are straight lines between common, evenly spaced nodes. */
final class PlateauScan {
    private final double first;
    private final double step;
    private final int nodes;
    private final List<double[]> signals;

    /**
     * @param first moment of the first node
     * @param step between nodes
     * @param nodes number of nodes
     * @param signals one row of values a channel, each with at least that many; NaN belongs to no band
     */
    PlateauScan(double first, double step, int nodes, List<double[]> signals) {
        this.nodes = nodes;
        this.first = first;
        this.step = step;
        this.signals = signals;
    }

    /**
     * @param names of the judged rows
     * @param reference row of the reference measurement point
     * @param low lower limit, itself inside
     * @param high upper limit, itself inside; infinite for none
     */
    PlateauTruth find(List<String> names, int reference, double low, double high) {
        Optional<Stretch> holding = longest(allRows(), low, high, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Optional<Stretch> stay = holding.isPresent()
                ? containing(reference, low, holding.get().fromSeconds())
                : longest(
                        new int[] {reference},
                        low,
                        Double.POSITIVE_INFINITY,
                        Double.NEGATIVE_INFINITY,
                        Double.POSITIVE_INFINITY);
        if (stay.isEmpty()) {
            return new PlateauTruth(Optional.empty(), Optional.empty(), holding, List.of());
        }
        Stretch reached = stay.get();
        Optional<Double> equilibrated = stretches(allRows(), low, Double.POSITIVE_INFINITY).stream()
                .filter(s -> s.toSeconds() >= reached.fromSeconds())
                .findFirst()
                .map(s -> Math.max(s.fromSeconds(), reached.fromSeconds()));
        List<Crossing> crossings = new ArrayList<>();
        for (int row = 0; row < signals.size(); row++) {
            Optional<Stretch> own =
                    longest(new int[] {row}, low, Double.POSITIVE_INFINITY, reached.fromSeconds(), reached.toSeconds());
            if (own.isPresent()) {
                double from = own.get().fromSeconds();
                crossings.add(new Crossing(names.get(row), from, from));
            }
        }
        return new PlateauTruth(Optional.of(reached.fromSeconds()), equilibrated, holding, crossings);
    }

    private int[] allRows() {
        int[] rows = new int[signals.size()];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = i;
        }
        return rows;
    }

    private Optional<Stretch> containing(int row, double low, double moment) {
        return stretches(new int[] {row}, low, Double.POSITIVE_INFINITY).stream()
                .filter(s -> s.contains(moment))
                .findFirst();
    }

    /** The longest stretch that touches the window; of equal ones the first. */
    private Optional<Stretch> longest(int[] rows, double low, double high, double windowFrom, double windowTo) {
        Optional<Stretch> best = Optional.empty();
        for (Stretch stretch : stretches(rows, low, high)) {
            if (stretch.toSeconds() >= windowFrom
                    && stretch.fromSeconds() <= windowTo
                    && (best.isEmpty() || stretch.seconds() > best.get().seconds())) {
                best = Optional.of(stretch);
            }
        }
        return best;
    }

    private List<Stretch> stretches(int[] rows, double low, double high) {
        List<Stretch> found = new ArrayList<>();
        double open = Double.NaN;
        int last = nodes - 1;
        for (int i = 0; i < last; i++) {
            double from = 0;
            double to = 1;
            for (int row : rows) {
                double a = signals.get(row)[i];
                double b = signals.get(row)[i + 1];
                if (a >= low && a <= high && b >= low && b <= high) {
                    continue;
                }
                if (Double.isNaN(a) || Double.isNaN(b) || (a < low && b < low) || (a > high && b > high)) {
                    from = 2;
                    break;
                }
                double atLow = (low - a) / (b - a);
                double atHigh = (high - a) / (b - a);
                from = Math.max(from, b > a ? atLow : atHigh);
                to = Math.min(to, b > a ? atHigh : atLow);
            }
            double start = first + i * step;
            if (!(from <= to)) {
                if (!Double.isNaN(open)) {
                    found.add(new Stretch(open, start));
                    open = Double.NaN;
                }
                continue;
            }
            if (from > 0 && !Double.isNaN(open)) {
                found.add(new Stretch(open, start));
                open = Double.NaN;
            }
            if (Double.isNaN(open)) {
                open = start + from * step;
            }
            if (to < 1) {
                found.add(new Stretch(open, start + to * step));
                open = Double.NaN;
            }
        }
        if (!Double.isNaN(open)) {
            found.add(new Stretch(open, first + last * step));
        }
        return found;
    }
}
