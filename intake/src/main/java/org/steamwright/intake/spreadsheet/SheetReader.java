package org.steamwright.intake.spreadsheet;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLStreamConstants;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;

/** Takes the cells out of the XML of a sheet in one pass; formulas are skipped, their stored values taken. */
final class SheetReader {

    /** The most columns of a sheet that is read. */
    static final int MOST_COLUMNS = 1_024;

    /** The most rows of a sheet by its format. */
    static final int MOST_ROWS = 1_048_576;

    private static final int MOST_CHARS_IN_CELL = 100_000;
    private static final int MOST_MERGED = 10_000;
    private static final int DIGITS_KEPT = 15;
    private static final int LONGEST_NUMBER = 40;
    private static final MathContext AS_SHOWN = new MathContext(DIGITS_KEPT);

    private final String file;
    private final Workbook.Sheet sheet;
    private final PartXml xml;
    private final List<String> texts;
    private final NumberFormats formats;
    private final SheetCells cells = new SheetCells();
    private final StringBuilder text = new StringBuilder();
    private final List<Range> merged = new ArrayList<>();

    private int rowNumber;
    private int column;
    private int nextColumn;
    private String type = "";
    private int style;
    private boolean isRowOpen;
    private boolean isRowHidden;
    private boolean isInCell;
    private boolean isFormula;
    private boolean isValueSeen;
    private boolean isTaking;
    private int aids;
    private int formulas;
    private int firstFormulaRow;
    private int formulasEmpty;
    private int firstFormulaEmptyRow;
    private int hiddenRows;
    private int firstHiddenRow;
    private final List<Range> hiddenColumns = new ArrayList<>();

    /**
     * Cells from one corner to the other, rows counted from 1, columns from 0, both ends in.
     */
    record Range(int firstRow, int firstColumn, int lastRow, int lastColumn) {}

    /**
     * What a sheet holds.
     *
     * @param cells those that hold something
     * @param merged cells shown as one
     * @param formulas cells whose value was computed when the file was saved, and the row of the first
     * @param formulasEmpty cells with a formula and no stored value, and the row of the first
     * @param hiddenRows rows with cells that are not shown, and the first
     * @param hiddenColumns columns that are not shown
     */
    record Found(
            SheetCells cells,
            List<Range> merged,
            Count formulas,
            Count formulasEmpty,
            Count hiddenRows,
            List<Range> hiddenColumns) {

        Found {
            merged = List.copyOf(merged);
            hiddenColumns = List.copyOf(hiddenColumns);
        }
    }

    /** How many, and the row of the first. */
    record Count(int number, int firstRow) {}

    private SheetReader(String file, Workbook.Sheet sheet, PartXml xml, List<String> texts, NumberFormats formats) {
        this.file = file;
        this.sheet = sheet;
        this.xml = xml;
        this.texts = texts;
        this.formats = formats;
    }

    static Found read(String file, Workbook workbook, Workbook.Sheet sheet) throws UnreadableFileException {
        List<String> texts = workbook.texts();
        NumberFormats formats = workbook.formats();
        try (PartXml xml = workbook.open(sheet)) {
            return new SheetReader(file, sheet, xml, texts, formats).read();
        }
    }

    private Found read() throws UnreadableFileException {
        int event = xml.next();
        while (event != XMLStreamConstants.END_DOCUMENT) {
            switch (event) {
                case XMLStreamConstants.START_ELEMENT -> start(xml.name());
                case XMLStreamConstants.END_ELEMENT -> end(xml.name());
                case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
                    if (isTaking && aids == 0) {
                        xml.appendTo(text);
                        if (text.length() > MOST_CHARS_IN_CELL) {
                            throw tooLarge(Sentence.of("a cell with more than %s characters", MOST_CHARS_IN_CELL));
                        }
                    }
                }
                default -> {
                    // comments say nothing
                }
            }
            event = xml.next();
        }
        return new Found(
                cells,
                merged,
                new Count(formulas, firstFormulaRow),
                new Count(formulasEmpty, firstFormulaEmptyRow),
                new Count(hiddenRows, firstHiddenRow),
                hiddenColumns);
    }

    private void start(String name) throws UnreadableFileException {
        switch (name) {
            case "c" -> startCell();
            case "v" -> {
                if (isInCell) {
                    isTaking = true;
                    isValueSeen = true;
                }
            }
            case "t" -> {
                if (isInCell) {
                    isTaking = true;
                    isValueSeen = true;
                }
            }
            case "f" -> isFormula |= isInCell;
            case "rPh" -> aids++;
            case "row" -> startRow();
            case "mergeCell" -> {
                if (merged.size() < MOST_MERGED) {
                    addMerged(xml.attribute("ref"));
                }
            }
            case "col" -> {
                if (xml.isSet("hidden") && hiddenColumns.size() < MOST_COLUMNS) {
                    int first = number(xml.attribute("min"));
                    int last = number(xml.attribute("max"));
                    if (first >= 1 && last >= first) {
                        hiddenColumns.add(new Range(0, first - 1, 0, last - 1));
                    }
                }
            }
            default -> {
                // looks, widths, pictures
            }
        }
    }

    private void end(String name) throws UnreadableFileException {
        switch (name) {
            case "v", "t" -> isTaking = false;
            case "rPh" -> aids--;
            case "c" -> {
                if (isInCell) {
                    endCell();
                    isInCell = false;
                }
            }
            case "row" -> endRow();
            default -> {
                // see start
            }
        }
    }

    private void startRow() throws UnreadableFileException {
        String written = xml.attribute("r");
        int number = written.isEmpty() ? rowNumber + 1 : number(written);
        if (number > MOST_ROWS) {
            throw tooLarge(Sentence.of("row %s; a sheet has up to %s", number, MOST_ROWS));
        }
        if (number <= rowNumber) {
            throw xml.damaged(
                    "sheet \"" + sheet.name() + "\"",
                    Sentence.of("row \"%s\" stands behind row %s", ZipParts.shown(written), rowNumber));
        }
        endRow();
        isRowOpen = true;
        rowNumber = number;
        nextColumn = 0;
        isRowHidden = xml.isSet("hidden");
        cells.beginRow(number);
    }

    private void endRow() {
        if (isRowOpen) {
            int before = cells.rows();
            cells.endRow();
            if (isRowHidden && cells.rows() == before) {
                hiddenRows++;
                firstHiddenRow = firstHiddenRow == 0 ? rowNumber : firstHiddenRow;
            }
            isRowOpen = false;
        }
    }

    private void startCell() throws UnreadableFileException {
        if (!isRowOpen) {
            throw xml.damaged("sheet \"" + sheet.name() + "\"", "a cell stands outside of any row");
        }
        String place = xml.attribute("r");
        int named = place.isEmpty() ? nextColumn : columnOf(place);
        if (named >= MOST_COLUMNS) {
            throw tooLarge(Sentence.of("a cell in column %s; up to %s are read", named + 1, MOST_COLUMNS));
        }
        if (named < nextColumn) {
            throw xml.damaged(
                    "sheet \"" + sheet.name() + "\", row " + rowNumber,
                    Sentence.of("the place \"%s\" of a cell does not follow the one before", ZipParts.shown(place)));
        }
        column = named;
        nextColumn = named + 1;
        type = xml.attribute("t");
        style = number(xml.attribute("s"));
        isInCell = true;
        isFormula = false;
        isValueSeen = false;
        text.setLength(0);
    }

    private void endCell() throws UnreadableFileException {
        if (isFormula) {
            boolean isEmptyText = type.equals("str") && isValueSeen;
            if (text.isEmpty() && !isEmptyText) {
                formulasEmpty++;
                firstFormulaEmptyRow = firstFormulaEmptyRow == 0 ? rowNumber : firstFormulaEmptyRow;
                return;
            }
            formulas++;
            firstFormulaRow = firstFormulaRow == 0 ? rowNumber : firstFormulaRow;
        }
        if (text.isEmpty()) {
            return;
        }
        switch (type) {
            case "s" -> addText(shared());
            case "", "n" -> addNumber();
            case "b" -> addText(text.charAt(0) == '1' ? "TRUE" : "FALSE");
            default -> addText(SharedStrings.plain(text));
        }
    }

    private void addText(String value) {
        if (!value.isBlank()) {
            cells.addText(column, value);
        }
    }

    private String shared() throws UnreadableFileException {
        int index = number(text.toString().strip());
        if (index < 0 || index >= texts.size()) {
            throw xml.damaged(
                    Sentence.of("sheet \"%s\", row %s, column %s", sheet.name(), rowNumber, column + 1),
                    Sentence.of(
                            "the cell names text \"%s\" of the %s that the workbook has",
                            ZipParts.shown(text.toString()), texts.size()));
        }
        return texts.get(index);
    }

    private void addNumber() {
        int digits = significantDigits(text);
        if (digits < 0) {
            addText(SharedStrings.plain(text));
            return;
        }
        NumberFormats.Format format = formats.of(style);
        CharSequence kept = digits > DIGITS_KEPT ? asShown(text.toString()) : text;
        SheetCells.Kind kind = switch (format.kind()) {
            case NUMBER, TEXT -> SheetCells.Kind.NUMBER;
            case DATE -> SheetCells.Kind.DATE;
            case DATE_AND_TIME -> SheetCells.Kind.DATE_AND_TIME;
            case TIME -> SheetCells.Kind.TIME;
        };
        if (kind.isDay()) {
            if (DayNumbers.isDay(Double.parseDouble(text.toString()))) {
                cells.addNumber(column, kind, text);
                return;
            }
            kind = SheetCells.Kind.NUMBER;
        }
        if (format.unit().isEmpty()) {
            cells.addNumber(column, kind, kept);
        } else {
            cells.addText(column, kept + " " + format.unit());
        }
    }

    /**
     * How many digits a plain number has from the first that is not 0; more than are kept if it has an exponent, and -1 if
     * it is no number.
     */
    private static int significantDigits(CharSequence number) {
        int length = number.length();
        if (length > LONGEST_NUMBER) {
            return -1;
        }
        int at = length > 0 && (number.charAt(0) == '-' || number.charAt(0) == '+') ? 1 : 0;
        int digits = 0;
        int all = 0;
        boolean isPointSeen = false;
        while (at < length) {
            char c = number.charAt(at);
            if (c >= '0' && c <= '9') {
                all++;
                digits += digits > 0 || c != '0' ? 1 : 0;
            } else if (c == '.' && !isPointSeen) {
                isPointSeen = true;
            } else {
                break;
            }
            at++;
        }
        if (all == 0) {
            return -1;
        }
        if (at == length) {
            return digits;
        }
        char e = number.charAt(at++);
        if (e != 'e' && e != 'E') {
            return -1;
        }
        if (at < length && (number.charAt(at) == '-' || number.charAt(at) == '+')) {
            at++;
        }
        int exponent = at;
        while (at < length && number.charAt(at) >= '0' && number.charAt(at) <= '9') {
            at++;
        }
        return at == length && at > exponent && at - exponent <= 3 ? LONGEST_NUMBER : -1;
    }

    /** A number as a spreadsheet shows it at its finest: fifteen digits, so that 121.30000000000001 is 121.3 again. */
    private static String asShown(String number) {
        double value = Math.abs(Double.parseDouble(number));
        if (value != 0 && (value < 1e-15 || value >= 1e15)) {
            return number;
        }
        BigDecimal shown = new BigDecimal(number).round(AS_SHOWN);
        return shown.signum() == 0 ? "0" : shown.stripTrailingZeros().toPlainString();
    }

    // ---- places

    /** Column of a place such as B12, counted from 0; the row must be the one it stands in. */
    private int columnOf(String place) throws UnreadableFileException {
        int at = 0;
        int column = 0;
        while (at < place.length() && at < 4 && isLetter(place.charAt(at))) {
            column = column * 26 + (place.charAt(at) & 0x1F);
            at++;
        }
        if (at == 0 || number(place.substring(at)) != rowNumber) {
            throw xml.damaged(
                    "sheet \"" + sheet.name() + "\", row " + rowNumber,
                    Sentence.of("the place \"%s\" of a cell is not in this row", ZipParts.shown(place)));
        }
        return column - 1;
    }

    private static boolean isLetter(char c) {
        return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    }

    private void addMerged(String reference) {
        int colon = reference.indexOf(':');
        if (colon > 0) {
            int[] first = corner(reference.substring(0, colon));
            int[] last = corner(reference.substring(colon + 1));
            if (first[0] >= 1 && last[0] >= first[0] && last[1] >= first[1]) {
                merged.add(new Range(first[0], first[1], last[0], last[1]));
            }
        }
    }

    private static int[] corner(String place) {
        int at = 0;
        int column = 0;
        while (at < place.length() && at < 4 && isLetter(place.charAt(at))) {
            column = column * 26 + (place.charAt(at) & 0x1F);
            at++;
        }
        return new int[] {number(place.substring(at)), column - 1};
    }

    /** A whole number of up to eight digits; -1 if it is none. */
    private static int number(String digits) {
        int length = digits.length();
        if (length == 0 || length > 8) {
            return -1;
        }
        int value = 0;
        for (int i = 0; i < length; i++) {
            int digit = digits.charAt(i) - '0';
            if (digit < 0 || digit > 9) {
                return -1;
            }
            value = value * 10 + digit;
        }
        return value;
    }

    private UnreadableFileException tooLarge(String what) {
        return new UnreadableFileException(
                IntakeMessage.SPREADSHEET_TOO_LARGE,
                file,
                "sheet \"" + sheet.name() + "\"",
                "found " + what + ". Export only the time of the run, or export CSV.");
    }
}
