package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.intake.table.Sentence;

/**
 * How the day numbers of each column are written as text. Decided by the whole column, so that midnight in a column of
 * moments does not become a bare date, and so that all times have the digits that the finest of them needs.
 */
final class DayColumns {

    private final boolean is1904;
    private final Column[] columns;

    private static final class Column {
        int cells;
        boolean hasMoments;
        boolean isMomentByFormat;
        int decimals;
        int step;
        double offMost;
        int offRow;
    }

    private DayColumns(boolean is1904, Column[] columns) {
        this.is1904 = is1904;
        this.columns = columns;
    }

    static DayColumns of(SheetCells cells, boolean is1904) {
        Column[] columns = new Column[cells.width()];
        for (int c = 0; c < columns.length; c++) {
            columns[c] = new Column();
        }
        for (int cell = 0; cell < cells.cells(); cell++) {
            SheetCells.Kind kind = cells.kind(cell);
            if (kind.isDay()) {
                look(columns[cells.column(cell)], kind, cells.text(cell), is1904);
            }
        }
        for (int row = 0; row < cells.rows(); row++) {
            for (int cell = cells.from(row); cell < cells.to(row); cell++) {
                if (cells.kind(cell).isDay()) {
                    refine(columns[cells.column(cell)], Double.parseDouble(cells.text(cell)), cells.rowNumber(row));
                }
            }
        }
        return new DayColumns(is1904, columns);
    }

    private static void look(Column column, SheetCells.Kind kind, String written, boolean is1904) {
        double number = Double.parseDouble(written);
        column.cells++;
        column.decimals = Math.max(column.decimals, decimals(written));
        boolean hasTime = number != Math.rint(number);
        column.isMomentByFormat |= kind == SheetCells.Kind.DATE_AND_TIME && number >= 1;
        column.hasMoments |= hasTime && number >= DayNumbers.firstLikelyDate(is1904);
    }

    private static int decimals(String written) {
        int point = written.indexOf('.');
        boolean hasExponent = written.indexOf('E') >= 0 || written.indexOf('e') >= 0;
        return hasExponent ? 17 : point < 0 ? 0 : written.length() - point - 1;
    }

    /** Goes to a finer step as long as this time does not lie on it. */
    private static void refine(Column column, double number, int row) {
        while (column.step < DayNumbers.STEPS.length - 1
                && DayNumbers.off(number, DayNumbers.STEPS[column.step]) > allowed(column)) {
            column.step++;
            column.offMost = 0;
        }
        double off = DayNumbers.off(number, DayNumbers.STEPS[column.step]);
        if (off > column.offMost) {
            column.offMost = off;
            column.offRow = row;
        }
    }

    private static double allowed(Column column) {
        return Math.max(DayNumbers.LOST_IN_SUMS_SECONDS, 1.01 * DayNumbers.lostInDecimals(column.decimals));
    }

    /** A day number as text. */
    String text(SheetCells cells, int cell) {
        Column column = columns[cells.column(cell)];
        double number = Double.parseDouble(cells.text(cell));
        long step = DayNumbers.STEPS[column.step];
        boolean isMoment = column.isMomentByFormat || column.hasMoments;
        if (cells.kind(cell) == SheetCells.Kind.DATE) {
            return isMoment ? DayNumbers.stamp(number, is1904, step) : DayNumbers.date(number, is1904);
        }
        boolean isDated = cells.kind(cell) == SheetCells.Kind.DATE_AND_TIME
                ? number >= 1
                : number >= DayNumbers.firstLikelyDate(is1904) && isMoment;
        return isDated ? DayNumbers.stamp(number, is1904, step) : DayNumbers.time(number, step);
    }

    /** One line for each column with day numbers. */
    List<String> explanation() {
        List<String> lines = new ArrayList<>();
        for (int c = 0; c < columns.length; c++) {
            Column column = columns[c];
            if (column.cells > 1) {
                lines.add(Sentence.of(
                        "column %s: day numbers counted from %s, written as %s; seconds rounded to %s, the largest change is %s s",
                        c + 1,
                        is1904 ? 1904 : 1900,
                        column.isMomentByFormat || column.hasMoments ? "date and time" : "date or time",
                        stepText(column),
                        millionths(column.offMost)));
            }
        }
        return lines;
    }

    private static String stepText(Column column) {
        return column.step == 0 ? "1" : "0." + "0".repeat(column.step - 1) + "1";
    }

    private static String millionths(double seconds) {
        return String.format(Locale.ROOT, "%.6f", seconds);
    }

    /** A sentence for each column whose numbers have too few decimals to tell the time to a step. */
    List<Rounded> rounded() {
        List<Rounded> found = new ArrayList<>();
        for (int c = 0; c < columns.length; c++) {
            Column column = columns[c];
            double worst = column.step == DayNumbers.STEPS.length - 1
                    ? 2 * DayNumbers.LOST_IN_SUMS_SECONDS
                    : DayNumbers.LOST_IN_SUMS_SECONDS;
            if (column.offMost > worst) {
                found.add(new Rounded(
                        c,
                        column.offRow,
                        Sentence.of(
                                "The day numbers of this column have %s decimals, one step of which is %s s. Times were taken to the nearest %s s; the one in row %s was moved by %s s. Export with more decimals if the interval is shorter than a few seconds.",
                                column.decimals,
                                millionths(2 * DayNumbers.lostInDecimals(column.decimals)),
                                stepText(column),
                                column.offRow,
                                millionths(column.offMost))));
            }
        }
        return found;
    }

    /** Times of a column that were moved by more than sums of fractions lose. */
    record Rounded(int column, int row, String text) {}
}
