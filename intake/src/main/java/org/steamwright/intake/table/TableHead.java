package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/** The first rows of a table: what each of their cells looks like, what each column holds, and where the readings begin. */
final class TableHead {

    private static final int MOST_ROWS = 60;

    private final String file;
    private final List<Kept> rows;
    private final int width;
    private final int firstData;
    private CellKind[][] kinds = {};
    private CellKind[] types = {};

    private TableHead(String file, List<Kept> rows) throws UnreadableFileException {
        this.file = file;
        this.rows = rows;
        this.width = mostCommonWidth();
        lookAtCells();
        this.firstData = findFirstData();
    }

    /** A row of the head, kept. */
    private record Kept(int line, List<String> cells) {
        Kept {
            cells = List.copyOf(cells);
        }

        String cell(int index) {
            return index < cells.size() ? cells.get(index) : "";
        }
    }

    /** A class of its own: the first lambda of a program costs a short command more than reading the file. */
    private static final class HeadTaker implements RowTaker {
        private final List<Kept> kept = new ArrayList<>();

        @Override
        public boolean take(Row row) {
            kept.add(new Kept(row.line, Arrays.asList(row.texts())));
            return kept.size() < MOST_ROWS;
        }
    }

    /** @throws UnreadableFileException if no row holds readings */
    static TableHead of(Table table) throws IOException, UnreadableFileException {
        HeadTaker taker = new HeadTaker();
        table.each(taker);
        return new TableHead(table.fileName(), taker.kept);
    }

    int size() {
        return rows.size();
    }

    /** Whether the table may go on behind it. */
    boolean isCut() {
        return rows.size() == MOST_ROWS;
    }

    /** Line of the file in which a row stands. */
    int line(int row) {
        return rows.get(row).line();
    }

    /** Line of the last row. */
    int lastLine() {
        return line(rows.size() - 1);
    }

    List<String> cells(int row) {
        return rows.get(row).cells();
    }

    /** A cell; empty text if the row has none there. */
    String cell(int row, int column) {
        return rows.get(row).cell(column);
    }

    /** What a cell looks like; empty if the row has none there. */
    CellKind kind(int row, int column) {
        return column < kinds[row].length ? kinds[row][column] : CellKind.EMPTY;
    }

    /** What most cells of a column look like; empty for a column that no row of readings has. */
    CellKind type(int column) {
        return column < types.length ? types[column] : CellKind.EMPTY;
    }

    /** Cells in most rows. */
    int width() {
        return width;
    }

    /** The first row with readings. */
    int firstData() {
        return firstData;
    }

    private int mostCommonWidth() {
        Map<Integer, Integer> counts = new HashMap<>();
        int best = 0;
        int bestCount = 0;
        for (int i = rows.size() / 4; i < rows.size(); i++) {
            int cells = rows.get(i).cells().size();
            int count = counts.getOrDefault(cells, 0) + 1;
            counts.put(cells, count);
            if (count > bestCount || (count == bestCount && cells > best)) {
                best = cells;
                bestCount = count;
            }
        }
        return best;
    }

    /** The longest stretch of rows with figures shows what each column holds; a header interrupts it. */
    private void lookAtCells() {
        CellKind.Looker looker = new CellKind.Looker();
        kinds = new CellKind[rows.size()][];
        for (int i = 0; i < rows.size(); i++) {
            List<String> cells = rows.get(i).cells();
            kinds[i] = new CellKind[cells.size()];
            for (int c = 0; c < cells.size(); c++) {
                kinds[i][c] = looker.look(cells.get(c));
            }
        }
        int from = 0;
        int to = 0;
        int start = 0;
        for (int i = 0; i <= rows.size(); i++) {
            if (i == rows.size() || !(isComment(i) || hasFigures(i))) {
                if (i - start >= to - from) {
                    from = start;
                    to = i;
                }
                start = i + 1;
            }
        }
        types = new CellKind[width];
        for (int c = 0; c < width; c++) {
            Map<CellKind, Integer> counts = new EnumMap<>(CellKind.class);
            for (int i = from; i < to; i++) {
                if (c < kinds[i].length && !isComment(i)) {
                    counts.put(kinds[i][c], counts.getOrDefault(kinds[i][c], 0) + 1);
                }
            }
            types[c] = mostOf(counts);
        }
    }

    private boolean hasFigures(int row) {
        for (CellKind kind : kinds[row]) {
            if (kind.isNumeric() || kind.isTime()) {
                return true;
            }
        }
        return false;
    }

    private static CellKind mostOf(Map<CellKind, Integer> counts) {
        CellKind best = CellKind.EMPTY;
        int most = 0;
        for (Map.Entry<CellKind, Integer> entry : counts.entrySet()) {
            if (!entry.getKey().isNeutral() && entry.getValue() > most) {
                best = entry.getKey();
                most = entry.getValue();
            }
        }
        return best;
    }

    boolean isData(int row) {
        CellKind[] cells = kinds[row];
        if (isComment(row) || cells.length < Math.min(2, width)) {
            return false;
        }
        int matches = 0;
        int misses = 0;
        boolean isTimeSeen = false;
        for (int c = 0; c < Math.min(width, cells.length); c++) {
            if (types[c].isTime() && !isTimeSeen) {
                isTimeSeen = true;
                if (cells[c] != types[c]) {
                    return false;
                }
            }
            if ((types[c].isTime() || types[c].isNumeric()) && !cells[c].isNeutral()) {
                if (cells[c] == types[c]) {
                    matches++;
                } else {
                    misses++;
                }
            }
        }
        return matches > misses;
    }

    boolean isComment(int row) {
        String first = rows.get(row).cell(0);
        return first.length() > 1 && first.charAt(0) == '#';
    }

    private int findFirstData() throws UnreadableFileException {
        for (int i = 0; i < rows.size(); i++) {
            if (isData(i)
                    && (i + 1 >= rows.size()
                            || isComment(i + 1)
                            || isData(i + 1)
                            || i + 2 >= rows.size()
                            || isData(i + 2))) {
                return i;
            }
        }
        throw new UnreadableFileException(
                IntakeMessage.TOO_FEW_ROWS,
                file,
                rows.isEmpty() ? "" : "row " + rows.get(rows.size() - 1).line(),
                Sentence.of(
                        "found no row with readings, only \"%s\". Expected at least two rows, each with a time and"
                                + " numbers. Was the export cut, or the wrong sheet exported?",
                        rows.isEmpty()
                                ? ""
                                : Sentence.cut(String.join(
                                        " | ", rows.get(rows.size() - 1).cells()))));
    }

    int written(int row) {
        List<String> cells = rows.get(row).cells();
        int last = cells.size();
        while (last > 0 && cells.get(last - 1).isEmpty()) {
            last--;
        }
        return last;
    }

    /** Cells that data rows use; a delimiter at the end of each row makes an empty one that nobody uses. */
    int usedWidth() {
        int used = 0;
        for (int i = firstData; i < rows.size(); i++) {
            if (rows.get(i).cells().size() <= width) {
                used = Math.max(used, written(i));
            }
        }
        return used;
    }
}
