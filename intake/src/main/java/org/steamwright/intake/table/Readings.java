package org.steamwright.intake.table;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.MeasuringUnit;
import org.steamwright.intake.UnreadableFileException;

/** Reads the rows of a file by its layout into columns of numbers; words, holes and cut rows become remarks. */
final class Readings implements RowTaker {

    /** Cells with words that a column may have before it is refused, whatever its length. */
    static final int WORDS_ALLOWED = 3;

    /** Beyond that, the share of its rows. */
    static final double WORDS_SHARE_ALLOWED = 0.02;

    /** Of the memory that a row needs, the share of its time, in readings. */
    private static final int VALUES_OF_A_TIME = 2;

    private static final double[] NOTHING = {};

    private static final int FIRST_ROWS = 1024;
    private static final int SHOWN = 5;
    private static final int PENDING_ALLOWED = 20;

    private final String file;
    private final Layout layout;
    private final TimeCells time;
    private final NumberText number = new NumberText();
    private final double[][] values;
    private final Tally[] tallies;
    private final Layout.Reading[] readings;
    private final List<Status> statuses = new ArrayList<>();
    private boolean isLastLineOpen;
    private final List<Remark> remarks = new ArrayList<>();
    private final List<String> unusedLines = new ArrayList<>();
    private final List<Pending> pending = new ArrayList<>();
    private int unusedCount;
    private int rows;
    private int shortRow = -1;
    private int shortCells;
    private int shortCount;
    private int firstShortLine;
    private int lastCells;
    private final Optional<ChosenTime> chosen;
    private final int mostRows;
    private final Left before = new Left();
    private final Left behind = new Left();
    private final long charactersExpected;
    private long charactersSeen;
    private boolean isFull;
    private final double[] lowest;
    private final double[] highest;
    private long rowsInAll;
    private String firstTime = "";
    private final StringBuilder lastTime = new StringBuilder();

    /** A column of words, which may say that something is wrong with the readings beside it. */
    private static final class Status {
        final Layout.Words words;
        char[] last = {};
        boolean isBad;
        int bad;
        int firstLine;
        String first = "";

        Status(Layout.Words words) {
            this.words = words;
        }

        void look(Row row) {
            int cell = words.cell();
            int length = cell < row.count ? row.to[cell] - row.from[cell] : 0;
            if (length != last.length
                    || !Arrays.equals(
                            last,
                            0,
                            length,
                            row.chars,
                            length == 0 ? 0 : row.from[cell],
                            length == 0 ? 0 : row.to[cell])) {
                String text = row.text(cell);
                last = text.toCharArray();
                isBad = saysError(text);
            }
            if (isBad) {
                bad++;
                if (bad == 1) {
                    firstLine = row.line;
                    first = row.text(cell);
                }
            }
        }

        private static boolean saysError(String text) {
            String plain = text.toLowerCase(Locale.ROOT);
            if (plain.startsWith("no ") || plain.startsWith("0 ") || plain.equals("0")) {
                return false;
            }
            for (String word : ERROR_WORDS) {
                if (plain.contains(word)) {
                    return true;
                }
            }
            return !NumberText.meaningOf(text).isEmpty()
                    && !NumberText.meaningOf(text).startsWith("no ");
        }
    }

    /** Parts of words in status columns that speak of trouble with the readings. */
    private static final List<String> ERROR_WORDS = List.of(
            "error",
            "err:",
            "fault",
            "fail",
            "alarm",
            "overrange",
            "over range",
            "underrange",
            "under range",
            "open circuit",
            "short circuit",
            "sensor lost",
            "lost sensor",
            "disconnected",
            "low batt",
            "battery low",
            "invalid",
            "fehler",
            "defekt",
            "erreur",
            "defaut",
            "défaut",
            "errore",
            "guasto",
            "fallo");

    /** Rows that lie outside the wanted time. */
    private static final class Left {
        int count;
        int firstLine;
        int lastLine;

        void add(int line) {
            count++;
            firstLine = firstLine == 0 ? line : firstLine;
            lastLine = line;
        }

        String said() {
            return count == 0
                    ? "none"
                    : count
                            + (count == 1
                                    ? " row (row " + firstLine
                                    : " rows (row " + firstLine + " to row " + lastLine)
                            + ")";
        }
    }

    /** What was seen in one column. */
    private static final class Tally {
        int empty;
        int firstEmptyLine;
        int lastEmptyLine;
        int lastEmptyLineBefore;
        int noReading;
        int words;
        final List<String> shown = new ArrayList<>();
        int firstWordLine;
        String firstWord = "";
        int numbers;
        int mostDecimals = Integer.MIN_VALUE;
        int fewestDecimalsBefore = Integer.MAX_VALUE;
        int lastDecimals = Integer.MAX_VALUE;
    }

    private record Pending(int line, String quoted) {}

    /**
     * @param chosen the time that is wanted, if not all of it
     * @param mostValues readings that may be kept; time counts too
     */
    Readings(Table table, Layout layout, Optional<ChosenTime> chosen, int mostValues) {
        this.file = table.fileName();
        this.charactersExpected = table.charactersExpected();
        this.layout = layout;
        this.chosen = chosen;
        this.mostRows = mostValues / (layout.readings().size() + VALUES_OF_A_TIME);
        this.time = new TimeCells(file, layout);
        this.values = new double[layout.readings().size()][FIRST_ROWS];
        this.readings = layout.readings().toArray(new Layout.Reading[0]);
        this.tallies = new Tally[readings.length];
        this.lowest = new double[readings.length];
        this.highest = new double[readings.length];
        Arrays.fill(lowest, Double.POSITIVE_INFINITY);
        Arrays.fill(highest, Double.NEGATIVE_INFINITY);
        for (Layout.Words words : layout.words()) {
            statuses.add(new Status(words));
        }
        for (int i = 0; i < tallies.length; i++) {
            tallies[i] = new Tally();
        }
    }

    @Override
    public char decimalMark() {
        return layout.decimal().mark();
    }

    @Override
    public boolean take(Row row) throws UnreadableFileException {
        if (row.line < layout.firstDataLine()) {
            return true;
        }
        if (isComment(row) || isHeaderAgain(row)) {
            notUsed(row.line, row.quoted());
            return true;
        }
        if (row.count > layout.width()) {
            for (int c = layout.width(); c < row.count; c++) {
                if (!row.isEmpty(c)) {
                    throw new UnreadableFileException(
                            IntakeMessage.TOO_MANY_CELLS,
                            file,
                            "row " + row.line,
                            Sentence.of(
                                    "this row has %s cells (%s), expected %s. Is there a delimiter inside a cell, or a"
                                            + " comma as decimal mark in a file with commas between cells? Mend the row in"
                                            + " a copy, or export again with another delimiter.",
                                    row.count, row.quoted(), layout.width()));
                }
            }
        }
        lastCells = row.count;
        if (!time.add(row)) {
            pending.add(new Pending(row.line, row.quoted()));
            if (pending.size() > PENDING_ALLOWED) {
                throw unreadableTime();
            }
            return true;
        }
        if (!pending.isEmpty()) {
            throw unreadableTime();
        }
        if (chosen.isPresent() && isOutside(row)) {
            return true;
        }
        if (firstTime.isEmpty()) {
            firstTime = layout.time().text(row);
        }
        if (rows == mostRows) {
            count(row);
            return true;
        }
        charactersSeen += row.length();
        if (rows == values[0].length) {
            int room = room();
            for (int i = 0; i < values.length; i++) {
                values[i] = Arrays.copyOf(values[i], room);
            }
        }
        if (row.count < layout.width() && row.count < neededCells()) {
            shortCount++;
            firstShortLine = firstShortLine == 0 ? row.line : firstShortLine;
            shortRow = rows;
            shortCells = row.count;
        }
        for (int i = 0; i < readings.length; i++) {
            values[i][rows] = read(row, readings[i], tallies[i]);
        }
        for (Status status : statuses) {
            status.look(row);
        }
        rows++;
        return true;
    }

    /** As much as the rest of the file will need if its rows are like those so far; else step by step. */
    private int room() {
        if (rows == FIRST_ROWS && chosen.isEmpty() && charactersExpected > 0) {
            long expected = charactersExpected / (charactersSeen / rows) + charactersExpected / charactersSeen + 16;
            int room = (int) Math.max(FIRST_ROWS + 16, Math.min(mostRows, expected + expected / 50));
            time.reserve(room);
            return room;
        }
        return larger(rows);
    }

    /** Twice as many, or half as many more once that is a lot. */
    static int larger(int size) {
        return size < 500_000 ? size * 2 : size + size / 2;
    }

    private boolean isOutside(Row row) throws UnreadableFileException {
        int side = chosen.orElseThrow().sideOfLast(time);
        if (rowsInAll++ == 0) {
            firstTime = layout.time().text(row);
        }
        if (side == 0) {
            return false;
        }
        (side < 0 ? before : behind).add(row.line);
        noteTime(row);
        time.dropLast();
        return true;
    }

    /** A row for which there is no room: it is counted, so that somebody can be told how much there is. */
    private void count(Row row) {
        if (!isFull) {
            isFull = true;
            rowsInAll = Math.max(rowsInAll, rows);
            for (int i = 0; i < readings.length; i++) {
                for (int kept = 0; kept < rows; kept++) {
                    widen(i, values[i][kept]);
                }
                values[i] = NOTHING;
            }
        }
        for (int i = 0; i < readings.length; i++) {
            widen(i, read(row, readings[i], tallies[i]));
        }
        if (chosen.isEmpty()) {
            rowsInAll++;
        }
        noteTime(row);
        time.dropLast();
    }

    private void widen(int column, double value) {
        lowest[column] = value < lowest[column] ? value : lowest[column];
        highest[column] = value > highest[column] ? value : highest[column];
    }

    /** From where to where each column goes, once nothing is kept. */
    private String spans() {
        List<String> spans = new ArrayList<>();
        for (int i = 0; i < readings.length; i++) {
            spans.add(readings[i].name()
                    + (lowest[i] > highest[i]
                            ? " without a reading"
                            : " " + shown(lowest[i]) + " to " + shown(highest[i]) + " "
                                    + readings[i].unit().quantity().unit()));
        }
        return String.join(", ", spans);
    }

    private static String shown(double value) {
        return BigDecimal.valueOf(value)
                .setScale(3, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    private void noteTime(Row row) {
        lastTime.setLength(0);
        Layout.Time place = layout.time();
        if (place.dateColumn() != place.column() && place.dateColumn() < row.count) {
            lastTime.append(
                            row.chars,
                            row.from[place.dateColumn()],
                            row.to[place.dateColumn()] - row.from[place.dateColumn()])
                    .append(' ');
        }
        lastTime.append(row.chars, row.from[place.column()], row.to[place.column()] - row.from[place.column()]);
    }

    private int neededCells() {
        int needed = 0;
        for (Layout.Reading reading : layout.readings()) {
            needed = Math.max(needed, reading.cell() + 1);
        }
        return needed;
    }

    private double read(Row row, Layout.Reading reading, Tally tally) {
        int cell = reading.cell();
        tally.fewestDecimalsBefore = Math.min(tally.fewestDecimalsBefore, tally.lastDecimals);
        tally.lastDecimals = Integer.MAX_VALUE;
        if (row.isEmpty(cell)) {
            tally.empty++;
            tally.firstEmptyLine = tally.firstEmptyLine == 0 ? row.line : tally.firstEmptyLine;
            tally.lastEmptyLineBefore = tally.lastEmptyLine;
            tally.lastEmptyLine = row.line;
            return Double.NaN;
        }
        int to = row.to[cell];
        if (number.read(row, cell, layout.decimal(), layout.isGroupingProven())
                && (number.end == to || isUnitBehind(row, cell, reading.unit()))) {
            double value = reading.isInside() ? number.value : reading.unit().toInside(number.value);
            if (Double.isFinite(value)) {
                tally.numbers++;
                tally.lastDecimals = number.decimals;
                tally.mostDecimals = Math.max(tally.mostDecimals, number.decimals);
                return value;
            }
        }
        String word = row.text(cell);
        String meaning = NumberText.meaningOf(word);
        if (meaning.isEmpty()) {
            tally.words++;
            tally.firstWordLine = tally.firstWordLine == 0 ? row.line : tally.firstWordLine;
            tally.firstWord = tally.firstWord.isEmpty() ? word : tally.firstWord;
        } else {
            tally.noReading++;
        }
        if (tally.shown.size() < SHOWN) {
            tally.shown.add("\"" + word + "\" in row " + row.line + (meaning.isEmpty() ? "" : " (" + meaning + ")"));
        }
        return Double.NaN;
    }

    private boolean isUnitBehind(Row row, int cell, MeasuringUnit unit) {
        return MeasuringUnit.find(new String(row.chars, number.end, row.to[cell] - number.end))
                .map(unit::isSameUnitAs)
                .orElse(false);
    }

    private static boolean isComment(Row row) {
        return row.count > 0 && row.to[0] - row.from[0] > 1 && row.chars[row.from[0]] == '#';
    }

    private boolean isHeaderAgain(Row row) {
        List<String> header = layout.header();
        if (header.isEmpty() || row.isEmpty(0) || row.count != header.size()) {
            return false;
        }
        for (int c = 0; c < row.count; c++) {
            String name = header.get(c);
            int length = row.to[c] - row.from[c];
            if (length != name.length()) {
                return false;
            }
            for (int i = 0; i < length; i++) {
                if (row.chars[row.from[c] + i] != name.charAt(i)) {
                    return false;
                }
            }
        }
        return true;
    }

    private void notUsed(int line, String quoted) {
        unusedCount++;
        if (unusedLines.size() < SHOWN) {
            unusedLines.add("row " + line + " " + quoted);
        }
    }

    private UnreadableFileException unreadableTime() {
        Pending first = pending.get(0);
        return new UnreadableFileException(
                IntakeMessage.TIME_UNREADABLE,
                file,
                "row " + first.line() + ", column " + (layout.time().column() + 1),
                Sentence.of(
                        "no time can be read in %s, expected %s as in the rows before. Mend the cell in a copy of the"
                                + " file, or export it again.",
                        first.quoted(), time.expected()));
    }

    /**
     * Everything read, once the last row was taken.
     *
     * @param isOpen whether the last row may be cut
     */
    Finished finish(boolean isOpen) throws UnreadableFileException {
        isLastLineOpen = isOpen;
        if (isFull) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_TOO_LARGE,
                    file,
                    "",
                    Sentence.of(
                            "the file has %s rows with %s columns to read, from %s up to the time %s; at most %s rows of"
                                    + " that width are kept at once. Choose the time of the run (from and to), or leave"
                                    + " columns out (unit:… = skip). So that the run can be found: %s.",
                            rowsInAll, layout.readings().size(), firstTime, lastTime, mostRows, spans()));
        }
        settleEnd();
        settleShortRows();
        if (chosen.isPresent()) {
            settleChosen();
        }
        if (rows < 2) {
            throw new UnreadableFileException(
                    IntakeMessage.TOO_FEW_ROWS,
                    file,
                    "",
                    Sentence.of(
                            "found %s with readings, expected at least two: one reading has no interval and proves no"
                                    + " time. Was the export cut, or the logger stopped at once?",
                            rows == 1 ? "one row" : "no row"));
        }
        if (unusedCount > 0) {
            remark(
                    IntakeMessage.LINE_NOT_USED,
                    Rank.NOTE,
                    "",
                    Sentence.of(
                            "%s line%s without readings between or behind the rows: %s%s.",
                            unusedCount,
                            unusedCount == 1 ? "" : "s",
                            String.join("; ", unusedLines),
                            unusedCount > unusedLines.size() ? "; …" : ""));
        }
        for (int i = 0; i < tallies.length; i++) {
            settle(layout.readings().get(i), tallies[i]);
        }
        settleStatus();
        double[] resolution = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            int decimals = tallies[i].mostDecimals;
            remarks.addAll(Plausibility.look(file, readings[i], values[i], rows, time, decimals));
            resolution[i] = tallies[i].numbers == 0
                    ? 0
                    : layout.readings().get(i).unit().differenceToInside(stepOf(decimals));
        }
        return new Finished(rows, time, values, resolution, remarks);
    }

    private void settleStatus() {
        for (Status status : statuses) {
            if (status.bad > 0) {
                remark(
                        IntakeMessage.STATUS_SAYS_ERROR,
                        Rank.DOUBT,
                        status.words.where(),
                        Sentence.of(
                                "This column says \"%s\" in row %s%s. The readings of these rows are read as they"
                                        + " stand. Which sensor is meant, and can they be used?",
                                status.first,
                                status.firstLine,
                                status.bad == 1 ? "" : " and the like in " + (status.bad - 1) + " more"));
            }
        }
    }

    private void settleChosen() throws UnreadableFileException {
        if (rows < 2 && before.count + behind.count > 0) {
            throw new UnreadableFileException(
                    IntakeMessage.CHOICE_DOES_NOT_FIT,
                    file,
                    "",
                    Sentence.of(
                            "%s lies in the chosen time; its rows go from %s to %s. Choose another time (from and to).",
                            rows == 0 ? "no row" : "only one row", firstTime, lastTime));
        }
        if (before.count + behind.count > 0) {
            remark(
                    IntakeMessage.ROWS_OUTSIDE_TIME,
                    Rank.NOTE,
                    "",
                    Sentence.of(
                            "Only part of the file's time was chosen, and %s rows of %s were read. Not read: before it"
                                    + " %s, behind it %s.",
                            rows, rows + before.count + behind.count, before.said(), behind.said()));
        }
    }

    private static double stepOf(int decimals) {
        return decimals <= 0 ? StrictMath.pow(10, -decimals) : 1 / StrictMath.pow(10, decimals);
    }

    private void settleEnd() {
        if (!pending.isEmpty()) {
            for (int i = 0; i < pending.size(); i++) {
                Pending line = pending.get(i);
                if (i == pending.size() - 1 && isLastLineOpen) {
                    cut(line.line(), Sentence.of("has no readable time (%s) and no end of line", line.quoted()));
                } else {
                    notUsed(line.line(), line.quoted());
                }
            }
            return;
        }
        if (rows > 2 && isLastLineOpen && shortRow != rows - 1) {
            for (int i = tallies.length - 1; i >= 0; i--) {
                Tally tally = tallies[i];
                boolean isLastCell = layout.readings().get(i).cell() == lastCells - 1;
                if (isLastCell
                        && tally.lastDecimals < tally.fewestDecimalsBefore
                        && tally.fewestDecimalsBefore != Integer.MAX_VALUE
                        && tally.fewestDecimalsBefore == tally.mostDecimals) {
                    int line = time.line(rows - 1);
                    dropLast();
                    cut(
                            line,
                            Sentence.of(
                                    "has no end of line, and its last number has fewer digits than all others of %s",
                                    layout.readings().get(i).where()));
                    return;
                }
            }
        }
    }

    private void settleShortRows() {
        if (shortCount > 0 && shortRow == rows - 1 && pending.isEmpty()) {
            int line = time.line(rows - 1);
            dropLast();
            shortCount--;
            cut(line, Sentence.of("has %s cells, expected %s", shortCells, layout.width()));
        }
        if (shortCount > 0) {
            remark(
                    IntakeMessage.ROW_SHORT,
                    Rank.DOUBT,
                    "row " + firstShortLine,
                    Sentence.of(
                            "%s row%s (the first is row %s) %s fewer cells than the header; the missing readings are"
                                    + " taken as not recorded. Compare with the logger.",
                            shortCount, shortCount == 1 ? "" : "s", firstShortLine, shortCount == 1 ? "has" : "have"));
        }
    }

    private void dropLast() {
        rows--;
        time.dropLast();
        for (int i = 0; i < tallies.length; i++) {
            Tally tally = tallies[i];
            if (!Double.isNaN(values[i][rows])) {
                tally.numbers--;
            } else if (tally.empty > 0 && tally.lastEmptyLine == time.droppedLine()) {
                tally.empty--;
                tally.lastEmptyLine = tally.lastEmptyLineBefore;
            }
        }
    }

    private void cut(int line, String what) {
        remark(
                IntakeMessage.LAST_LINE_CUT,
                Rank.DOUBT,
                "row " + line,
                Sentence.of(
                        "The last line %s: it was cut, as in a file that is still being written or was not copied to"
                                + " the end. The recording is read up to the row before. Copy the file again if the logger"
                                + " has more.",
                        what));
    }

    private void settle(Layout.Reading reading, Tally tally) throws UnreadableFileException {
        if (tally.words > Math.max(WORDS_ALLOWED, rows * WORDS_SHARE_ALLOWED)) {
            throw new UnreadableFileException(
                    IntakeMessage.TEXT_IN_NUMBERS,
                    file,
                    "row " + tally.firstWordLine + ", " + reading.where(),
                    Sentence.of(
                            "found \"%s\" where a number in %s was expected, and %s cells of %s in this column are no"
                                    + " numbers. Does the column hold something else, or is the decimal mark another?"
                                    + " Choose the decimal mark or leave the column out (unit:… = skip).",
                            tally.firstWord, reading.unit().symbol(), tally.words, rows));
        }
        if (tally.numbers <= 0) {
            remark(
                    IntakeMessage.COLUMN_WITHOUT_VALUE,
                    Rank.DOUBT,
                    reading.where(),
                    Sentence.of(
                            "This column has no reading at all%s. Was the sensor connected?",
                            tally.shown.isEmpty() ? "" : ", only " + tally.shown.get(0)));
            return;
        }
        if (tally.words + tally.noReading > 0) {
            remark(
                    IntakeMessage.CELL_IS_TEXT,
                    Rank.DOUBT,
                    reading.where(),
                    Sentence.of(
                            "%s cell%s no number: %s%s. There is no reading at %s moment%s; nothing was filled in.",
                            tally.words + tally.noReading,
                            tally.words + tally.noReading == 1 ? " holds" : "s hold",
                            String.join(", ", tally.shown),
                            tally.words + tally.noReading > tally.shown.size() ? ", …" : "",
                            tally.words + tally.noReading == 1 ? "that" : "these",
                            tally.words + tally.noReading == 1 ? "" : "s"));
        }
        if (tally.empty > 0) {
            remark(
                    IntakeMessage.CELLS_EMPTY,
                    Rank.DOUBT,
                    reading.where(),
                    Sentence.of(
                            "%s of %s cells are empty, the first in row %s, the last in row %s. There is no reading at"
                                    + " these moments; nothing was filled in.",
                            tally.empty, rows, tally.firstEmptyLine, tally.lastEmptyLine));
        }
    }

    private void remark(IntakeMessage id, Rank rank, String where, String words) {
        remarks.add(new Remark(id.id(), rank, where.isEmpty() ? file : file + ", " + where, words));
    }

    /**
     * What was read: the time cells, the values by column in the program's units (with room behind the last row), and the
     * smallest step written.
     */
    static final class Finished {
        final int rows;
        final TimeCells time;
        final double[][] values;
        final double[] resolution;
        final List<Remark> remarks;

        private Finished(int rows, TimeCells time, double[][] values, double[] resolution, List<Remark> remarks) {
            this.rows = rows;
            this.time = time;
            this.values = values;
            this.resolution = resolution;
            this.remarks = remarks;
        }
    }
}
