package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.Row;
import org.steamwright.intake.table.RowTaker;
import org.steamwright.intake.table.Table;

/** The cells of a sheet as rows of text, as a spreadsheet would export them. */
final class SheetTable implements Table {

    private static final int MOST_FILLED = 100_000;

    private final FileBytes file;
    private final SheetCells cells;
    private final DayColumns days;
    private final Map<Integer, List<Fill>> fills = new HashMap<>();
    private final boolean isCommaInText;
    private final Optional<DecimalMark> decimalMark;
    private final int[] numbersAsText;
    private int filled;

    /** A place of merged cells that shows what stands in their first. */
    private record Fill(int column, int cell) {}

    SheetTable(FileBytes file, SheetReader.Found found, DayColumns days) {
        this.file = file;
        this.cells = found.cells();
        this.days = days;
        this.numbersAsText = new int[cells.width()];
        boolean isComma = false;
        boolean isPoint = false;
        boolean isNumber = false;
        for (int cell = 0; cell < cells.cells(); cell++) {
            SheetCells.Kind kind = cells.kind(cell);
            isNumber |= kind == SheetCells.Kind.NUMBER;
            if (kind == SheetCells.Kind.TEXT) {
                String text = cells.text(cell);
                if (isNumberText(text)) {
                    numbersAsText[cells.column(cell)]++;
                    isComma |= text.indexOf(',') >= 0;
                    isPoint |= text.indexOf('.') >= 0;
                }
            }
        }
        this.isCommaInText = isComma && !isPoint;
        this.decimalMark = isNumber && !isComma ? Optional.of(DecimalMark.POINT) : Optional.empty();
        for (SheetReader.Range range : found.merged()) {
            fill(range);
        }
    }

    /** Whether a text could be a number, with either mark. */
    private static boolean isNumberText(String text) {
        String plain = text.strip();
        boolean isDigitSeen = false;
        for (int i = 0; i < plain.length(); i++) {
            char c = plain.charAt(i);
            if (c >= '0' && c <= '9') {
                isDigitSeen = true;
            } else if (c != '.' && c != ',' && !(i == 0 && (c == '-' || c == '+'))) {
                return false;
            }
        }
        return isDigitSeen && plain.length() <= 20;
    }

    /**
     * Shows a text or a day that stands in merged cells in each of them. A number is not repeated, that would be a reading
     * that nobody took; nor is a title over the whole width.
     */
    private void fill(SheetReader.Range range) {
        int first = findCell(range.firstRow(), range.firstColumn());
        boolean isTitle = range.firstRow() == range.lastRow()
                && range.lastColumn() - range.firstColumn() + 1 >= Math.max(2, cells.width());
        if (first < 0 || isTitle || cells.kind(first) == SheetCells.Kind.NUMBER) {
            return;
        }
        for (int row = range.firstRow(); row <= range.lastRow(); row++) {
            for (int column = range.firstColumn(); column <= range.lastColumn(); column++) {
                if (filled == MOST_FILLED) {
                    return;
                }
                if (column < cells.width() && (row != range.firstRow() || column != range.firstColumn())) {
                    fills.computeIfAbsent(row, r -> new ArrayList<>()).add(new Fill(column, first));
                    filled++;
                }
            }
        }
    }

    private int findCell(int rowNumber, int column) {
        int low = 0;
        int high = cells.rows() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int number = cells.rowNumber(middle);
            if (number == rowNumber) {
                for (int cell = cells.from(middle); cell < cells.to(middle); cell++) {
                    if (cells.column(cell) == column) {
                        return cell;
                    }
                }
                return -1;
            }
            if (number < rowNumber) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return -1;
    }

    /** Places of merged cells that were filled. */
    int filled() {
        return filled;
    }

    /** Columns, counted from 0, in which at least two numbers are kept as text. */
    List<Integer> columnsWithNumbersAsText() {
        List<Integer> columns = new ArrayList<>();
        for (int c = 0; c < numbersAsText.length; c++) {
            if (numbersAsText[c] > 1) {
                columns.add(c);
            }
        }
        return columns;
    }

    @Override
    public String fileName() {
        return file.name();
    }

    @Override
    public char delimiter() {
        return '\t';
    }

    @Override
    public Optional<DecimalMark> decimalMark() {
        return decimalMark;
    }

    @Override
    public Fingerprint fingerprint() {
        return new Fingerprint(file.size(), file.sha256());
    }

    @Override
    public Ending each(RowTaker taker) throws UnreadableFileException {
        Row row = new Row();
        int[] shown = new int[cells.width()];
        for (int r = 0; r < cells.rows(); r++) {
            Arrays.fill(shown, -1);
            for (int cell = cells.from(r); cell < cells.to(r); cell++) {
                shown[cells.column(cell)] = cell;
            }
            for (Fill fill : fills.getOrDefault(cells.rowNumber(r), List.of())) {
                if (shown[fill.column()] < 0) {
                    shown[fill.column()] = fill.cell();
                }
            }
            row.begin(cells.rowNumber(r));
            for (int cell : shown) {
                row.add(cell < 0 ? "" : text(cell));
            }
            if (!row.isBlank() && !taker.take(row)) {
                return Ending.STOPPED;
            }
        }
        return Ending.COMPLETE;
    }

    private String text(int cell) {
        SheetCells.Kind kind = cells.kind(cell);
        if (kind.isDay()) {
            return days.text(cells, cell);
        }
        String text = cells.text(cell);
        return isCommaInText && kind == SheetCells.Kind.NUMBER ? text.replace('.', ',') : text;
    }
}
