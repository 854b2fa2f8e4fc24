package org.steamwright.intake.spreadsheet;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The cells of a sheet that hold something, row by row, kept small: a few bytes a cell. A text is kept once however often
 * it stands there; a number is kept as it was written, up to fifteen digits.
 */
final class SheetCells {

    /** What a cell holds, with the byte it is kept as. */
    enum Kind {
        TEXT(0),
        NUMBER(1),
        DATE(2),
        DATE_AND_TIME(3),
        TIME(4);

        private final byte code;

        Kind(int code) {
            this.code = (byte) code;
        }

        private static Kind of(byte code) {
            return switch (code) {
                case 0 -> TEXT;
                case 1 -> NUMBER;
                case 2 -> DATE;
                case 3 -> DATE_AND_TIME;
                default -> TIME;
            };
        }

        boolean isDay() {
            return this == DATE || this == DATE_AND_TIME || this == TIME;
        }
    }

    private int rows;
    private int[] rowNumbers = new int[1024];
    private int[] rowStarts = new int[1024];

    private int cells;
    private short[] columns = new short[4096];
    private byte[] kinds = new byte[4096];
    /** Index of a text, or where the digits of a number begin. */
    private int[] places = new int[4096];

    private int used;
    private byte[] digits = new byte[16_384];
    private final List<String> texts = new ArrayList<>();
    private int width;

    void beginRow(int number) {
        if (rows == rowNumbers.length) {
            rowNumbers = Arrays.copyOf(rowNumbers, rows * 2);
            rowStarts = Arrays.copyOf(rowStarts, rows * 2);
        }
        rowNumbers[rows] = number;
        rowStarts[rows] = cells;
        rows++;
    }

    /** Forgets the row that was begun if nothing was added to it. */
    void endRow() {
        if (rowStarts[rows - 1] == cells) {
            rows--;
        }
    }

    /** Adds a text; the same object again costs nothing. */
    void addText(int column, String text) {
        int last = texts.size() - 1;
        if (last < 0 || !texts.get(last).equals(text)) {
            texts.add(text);
            last++;
        }
        add(column, Kind.TEXT, last);
    }

    /** Adds a number by its ASCII digits. */
    void addNumber(int column, Kind kind, CharSequence number) {
        int length = number.length();
        if (used + length > digits.length) {
            digits = Arrays.copyOf(digits, Math.max(digits.length * 2, used + length));
        }
        add(column, kind, used);
        for (int i = 0; i < length; i++) {
            digits[used++] = (byte) number.charAt(i);
        }
    }

    private void add(int column, Kind kind, int place) {
        if (cells == columns.length) {
            int larger = cells * 2;
            columns = Arrays.copyOf(columns, larger);
            kinds = Arrays.copyOf(kinds, larger);
            places = Arrays.copyOf(places, larger);
        }
        columns[cells] = (short) column;
        kinds[cells] = kind.code;
        places[cells] = place;
        cells++;
        width = Math.max(width, column + 1);
    }

    int rows() {
        return rows;
    }

    int cells() {
        return cells;
    }

    /** One more than the last column that holds anything, counted from 0. */
    int width() {
        return width;
    }

    /** Row of the sheet, counted from 1. */
    int rowNumber(int row) {
        return rowNumbers[row];
    }

    /** First cell of a row. */
    int from(int row) {
        return rowStarts[row];
    }

    /** Behind the last cell of a row. */
    int to(int row) {
        return row + 1 < rows ? rowStarts[row + 1] : cells;
    }

    /** Column, counted from 0. */
    int column(int cell) {
        return columns[cell];
    }

    Kind kind(int cell) {
        return Kind.of(kinds[cell]);
    }

    /** Text of a cell, or its number as written. */
    String text(int cell) {
        if (kind(cell) == Kind.TEXT) {
            return texts.get(places[cell]);
        }
        int end = used;
        for (int next = cell + 1; next < cells; next++) {
            if (kinds[next] != Kind.TEXT.code) {
                end = places[next];
                break;
            }
        }
        return new String(digits, places[cell], end - places[cell], StandardCharsets.ISO_8859_1);
    }
}
