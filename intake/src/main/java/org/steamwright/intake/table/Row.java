package org.steamwright.intake.table;

import java.util.Arrays;

/**
 * One row of a table. Its cells lie side by side in one array, without outer blanks; the same object is filled again for
 * the next row.
 */
public final class Row {

    char[] chars = new char[256];
    int[] from = new int[16];
    int[] to = new int[16];
    int count;
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
            from = Arrays.copyOf(from, count * 2);
            to = Arrays.copyOf(to, count * 2);
        }
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
