package org.steamwright.intake.table;

import java.util.Arrays;

/**
 * One row of a table. Its cells lie in one array, without outer blanks; the same object is filled again for the next row,
 * either cell by cell ({@link #begin} and {@link #add}) or with the next line of a text, where its cells stay ({@link
 * #takeLine}); one object for one of the two.
 */
public final class Row {

    /** The line goes on behind the characters that are there. */
    public static final int MORE = -1;

    /** The line can't be taken as it stands: it has marks that a grammar has to read. */
    public static final int NOT_PLAIN = -2;

    private static final int MOST_CELLS = 4096;

    private static final int NOT_READ = -1;

    char[] chars = new char[256];
    int[] from = new int[16];
    int[] to = new int[16];
    int count;

    private double[] values = new double[16];
    /** Digits behind the mark of a cell that was read as a number on the way. */
    private int[] decimals = new int[16];
    /** Row or line of the file, counted from 1, as its usual program shows it. */
    int line;

    private int used;

    /** Empties the row for the next one, which stands there in the file, counted from 1. */
    public void begin(long number) {
        count = 0;
        used = 0;
        line = (int) number;
    }

    /** Adds the next cell; outer blanks are taken off. */
    public void add(String cell) {
        add(cell.toCharArray(), 0, cell.length());
    }

    /** Adds the next cell; outer blanks are taken off. */
    public void add(char[] source, int offset, int length) {
        int start = offset;
        int end = offset + length;
        if (length > 0 && (isEdge(source[start]) || isEdge(source[end - 1]))) {
            while (start < end && isBlank(source[start])) {
                start++;
            }
            while (end > start && isBlank(source[end - 1])) {
                end--;
            }
        }
        int size = end - start;
        if (used + size > chars.length) {
            chars = Arrays.copyOf(chars, Math.max(chars.length * 2, used + size));
        }
        if (count == from.length) {
            widen();
        }
        decimals[count] = NOT_READ;
        from[count] = used;
        if (size < 16) {
            // a call costs more than the few characters of a usual cell
            for (int i = start; i < end; i++) {
                chars[used++] = source[i];
            }
        } else {
            System.arraycopy(source, start, chars, used, size);
            used += size;
        }
        to[count] = used;
        count++;
    }

    private void widen() {
        from = Arrays.copyOf(from, count * 2);
        to = Arrays.copyOf(to, count * 2);
        values = Arrays.copyOf(values, count * 2);
        decimals = Arrays.copyOf(decimals, count * 2);
    }

    /**
     * Takes the next line of a text as this row, without copying it, and reads plain numbers on the way: the cells of a
     * recording are looked at once. A cell within quotation marks is taken if the marks stand at its ends only.
     *
     * @param text stays as it is until the row is done with
     * @param start where the line starts
     * @param end of the characters that are there
     * @param delimiter between cells, of which {@link #isPlainDelimiter}
     * @param mark decimal mark of the numbers that will be asked for
     * @param isLast whether the text ends there
     * @param number of the line, counted from 1
     * @return where the next line starts, {@link #MORE} or {@link #NOT_PLAIN}
     */
    public int takeLine(char[] text, int start, int end, char delimiter, char mark, boolean isLast, long number) {
        begin(number);
        chars = text;
        char top = delimiter > '"' ? delimiter : '"';
        int i = start;
        while (true) {
            if (count == from.length) {
                if (count == MOST_CELLS) {
                    return NOT_PLAIN;
                }
                widen();
            }
            int cell = i;
            i = takeNumber(i, end, delimiter, mark);
            if (decimals[count] >= 0 && i < end && text[i] == delimiter) {
                from[count] = cell;
                to[count] = i;
                used += i - cell;
                count++;
                i++;
                continue;
            }
            boolean isQuoted = false;
            if (i < end && i == cell && text[i] == '"') {
                isQuoted = true;
                i++;
                while (i < end && text[i] != '"') {
                    if (text[i] == '\n' || text[i] == '\r') {
                        return NOT_PLAIN;
                    }
                    i++;
                }
                i++;
            }
            int content = i;
            while (i < end) {
                char c = text[i];
                if (c <= top) {
                    if (c == delimiter || c == '\n' || c == '\r') {
                        break;
                    }
                    if (c == '"') {
                        return NOT_PLAIN;
                    }
                }
                i++;
            }
            if (i >= end && !(isLast && i == end)) {
                return isLast ? NOT_PLAIN : MORE;
            }
            if (isQuoted) {
                if (content != i) {
                    return NOT_PLAIN;
                }
                trim(text, cell + 1, i - 1);
            } else if (decimals[count] >= 0 && content == i) {
                from[count] = cell;
                to[count] = i;
            } else {
                decimals[count] = NOT_READ;
                trim(text, cell, i);
            }
            used += to[count] - from[count];
            count++;
            if (i == end) {
                return i;
            }
            if (text[i] != delimiter) {
                if (text[i] == '\n') {
                    return i + 1;
                }
                if (i + 1 == end) {
                    return isLast ? end : MORE;
                }
                return text[i + 1] == '\n' ? i + 2 : i + 1;
            }
            i++;
        }
    }

    /** Whether lines can be taken by a delimiter: it is nothing that a number or a quotation is made of. */
    public static boolean isPlainDelimiter(char delimiter) {
        return !(delimiter >= '0' && delimiter <= '9')
                && delimiter != '-'
                && delimiter != '"'
                && delimiter != '\n'
                && delimiter != '\r';
    }

    /** Reads sign, digits and one mark; the cell is a number if nothing else stands in it. */
    private int takeNumber(int start, int end, char delimiter, char mark) {
        char[] text = chars;
        int i = start < end && text[start] == '-' ? start + 1 : start;
        int first = i;
        long digits = 0;
        int digit;
        while (i < end && (digit = text[i] - '0') >= 0 && digit <= 9) {
            digits = digits * 10 + digit;
            i++;
        }
        int behind = 0;
        boolean hasMark = i < end && text[i] == mark && mark != delimiter;
        if (hasMark) {
            int before = ++i;
            while (i < end && (digit = text[i] - '0') >= 0 && digit <= 9) {
                digits = digits * 10 + digit;
                i++;
            }
            behind = i - before;
        }
        int length = i - first;
        if (length == 0 || length > NumberText.EXACT_DIGITS || (length == 1 && hasMark)) {
            decimals[count] = NOT_READ;
            return i;
        }
        double exact = behind > 0 ? digits / NumberText.POWERS[behind] : digits;
        values[count] = first > start ? -exact : exact;
        decimals[count] = behind;
        return i;
    }

    private void trim(char[] text, int start, int end) {
        int first = start;
        int last = end;
        while (first < last && isBlank(text[first])) {
            first++;
        }
        while (last > first && isBlank(text[last - 1])) {
            last--;
        }
        from[count] = first;
        to[count] = last;
    }

    /** Whether a cell was read as a number when the line was taken. */
    boolean isNumber(int cell) {
        return decimals[cell] >= 0;
    }

    /** Of a cell that {@link #isNumber}. */
    double value(int cell) {
        return values[cell];
    }

    /** Digits behind the mark of a cell that {@link #isNumber}. */
    int decimals(int cell) {
        return decimals[cell];
    }

    private static boolean isEdge(char c) {
        return c <= ' ' || c == '\u00a0';
    }

    private static boolean isBlank(char c) {
        return c == ' ' || c == '\t' || c == '\u00a0' || c == '\r';
    }

    /** Characters of the row with one delimiter or line end behind each cell. */
    int length() {
        return used + count;
    }

    /** Row or line of the file, counted from 1. */
    public int number() {
        return line;
    }

    /** Cells of this row. */
    public int size() {
        return count;
    }

    /** Whether a cell is blank or not there. */
    public boolean isEmpty(int cell) {
        return cell >= count || from[cell] == to[cell];
    }

    /** Text of a cell without outer blanks; empty if it is not there. */
    public String text(int cell) {
        return cell >= count ? "" : new String(chars, from[cell], to[cell] - from[cell]);
    }

    /** Whether no cell holds anything. */
    public boolean isBlank() {
        return used == 0;
    }

    /** All cells. */
    public String[] texts() {
        String[] texts = new String[count];
        for (int i = 0; i < count; i++) {
            texts[i] = text(i);
        }
        return texts;
    }

    /** The row as somebody would quote it in a message, cut after 60 characters. */
    String quoted() {
        String joined = String.join(" | ", texts());
        return "\"" + (joined.length() > 60 ? joined.substring(0, 60) + "…" : joined) + "\"";
    }
}
