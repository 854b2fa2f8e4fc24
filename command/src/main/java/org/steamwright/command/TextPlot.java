package org.steamwright.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;

/**
 * A small picture of a recording made of letters: for each stretch of time the highest and lowest value of all columns
 * of one quantity, so that no extreme is lost.
 */
final class TextPlot {
    private static final int COLUMNS = 72;
    private static final int ROWS = 12;
    private static final int LABEL = 8;

    private TextPlot() {}

    /** Lines of the picture; empty if no column of that quantity has a value. */
    static List<String> of(Recording recording, Quantity quantity) {
        List<Column> shown = recording.columns().stream()
                .filter(column -> column.quantity() == quantity)
                .toList();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Column column : shown) {
            for (int i = 0; i < column.size(); i++) {
                double value = column.at(i);
                if (!Double.isNaN(value)) {
                    low = Math.min(low, value);
                    high = Math.max(high, value);
                }
            }
        }
        if (!(low <= high)) {
            return List.of();
        }
        char[][] picture = new char[ROWS][COLUMNS];
        for (char[] row : picture) {
            Arrays.fill(row, ' ');
        }
        double first = recording.axis().first();
        double span = recording.axis().last() - first;
        for (int c = 0; c < shown.size(); c++) {
            draw(recording, shown.get(c), (char) (c < 26 ? 'a' + c : '*'), first, span, low, high, picture);
        }
        List<String> lines = new ArrayList<>();
        for (int row = 0; row < ROWS; row++) {
            double edge = high - (high - low) * row / (ROWS - 1);
            String label = row % 4 == 0 || row == ROWS - 1 ? Figures.nearest(edge, 1) : "";
            lines.add(VerdictText.leftPadded(label, LABEL) + " |" + new String(picture[row]).stripTrailing());
        }
        lines.add(" ".repeat(LABEL) + " +" + "-".repeat(COLUMNS));
        String end = Figures.nearest(span / 60, 1) + " min";
        lines.add(" ".repeat(LABEL + 2) + "0" + VerdictText.leftPadded(end, COLUMNS - 1));
        for (int c = 0; c < shown.size(); c++) {
            lines.add(" ".repeat(LABEL + 2) + (char) (c < 26 ? 'a' + c : '*') + " "
                    + shown.get(c).name());
        }
        return lines;
    }

    private static void draw(
            Recording recording,
            Column column,
            char sign,
            double first,
            double span,
            double low,
            double high,
            char[][] picture) {
        for (int i = 0; i < column.size(); i++) {
            double value = column.at(i);
            if (Double.isNaN(value)) {
                continue;
            }
            double share = span > 0 ? (recording.axis().at(i) - first) / span : 0;
            int x = (int) Math.min(COLUMNS - 1, Math.floor(share * COLUMNS));
            double depth = high > low ? (high - value) / (high - low) : 0.5;
            int y = (int) Math.min(ROWS - 1, Math.round(depth * (ROWS - 1)));
            if (picture[y][x] == ' ') {
                picture[y][x] = sign;
            }
        }
    }
}
