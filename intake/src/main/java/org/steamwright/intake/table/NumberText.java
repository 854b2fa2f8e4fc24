package org.steamwright.intake.table;

import java.util.Locale;
import org.steamwright.intake.DecimalMark;

/**
 * Reads one number as a logger writes it: sign, digits, decimal mark, exponent, a blank or apostrophe between thousands,
 * and a unit behind. Reused from cell to cell; the fields tell about the last one.
 *
 * <p>The nearest double is found for up to 15 digits by one exact division or multiplication, otherwise by {@link
 * Double#parseDouble}.
 */
final class NumberText {

    static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
        1e20, 1e21, 1e22
    };
    static final int EXACT_DIGITS = 15;

    /** The value of the last number. */
    double value;
    /** Digits behind the decimal mark, less the exponent. */
    int decimals;
    /** First character behind the number; equal to the end of the cell if nothing follows. */
    int end;

    /** Reads a cell of a row, which may have read it on the way. */
    boolean read(Row row, int cell, DecimalMark decimal, boolean isGroupingProven) {
        if (row.isNumber(cell)) {
            value = row.value(cell);
            decimals = row.decimals(cell);
            end = row.to[cell];
            return true;
        }
        return read(row.chars, row.from[cell], row.to[cell], decimal, isGroupingProven);
    }

    /**
     * Reads from one end of a cell without outer blanks.
     *
     * @param decimal the decimal mark
     * @param isGroupingProven whether the other mark is known to stand between thousands in this file; otherwise it is
     *     taken for that only in a number that has both marks or several groups
     * @return whether the cell starts with a number
     */
    boolean read(char[] c, int from, int to, DecimalMark decimal, boolean isGroupingProven) {
        char mark = decimal.mark();
        return readPlain(c, from, to, mark) || readAny(c, from, to, mark, isGroupingProven);
    }

    /** Nothing but a sign, at most 15 digits and one decimal mark: the form of nearly all cells. */
    private boolean readPlain(char[] c, int from, int to, char mark) {
        int start = from < to && c[from] == '-' ? from + 1 : from;
        if (to - start > EXACT_DIGITS || to == start) {
            return false;
        }
        long digits = 0;
        int behind = -1;
        for (int i = start; i < to; i++) {
            int digit = c[i] - '0';
            if (digit >= 0 && digit <= 9) {
                digits = digits * 10 + digit;
            } else if (c[i] == mark && behind < 0) {
                behind = to - i - 1;
            } else {
                return false;
            }
        }
        if (behind >= 0 && to - start == 1) {
            return false;
        }
        decimals = Math.max(behind, 0);
        double exact = behind > 0 ? digits / POWERS[behind] : digits;
        value = start > from ? -exact : exact;
        end = to;
        return true;
    }

    private boolean readAny(char[] c, int from, int to, char mark, boolean isGroupingProven) {
        int i = from;
        boolean isNegative = false;
        if (i < to && (c[i] == '-' || c[i] == '+' || c[i] == '\u2212')) {
            isNegative = c[i] != '+';
            i++;
        }
        int start = i;
        long digits = 0;
        int count = 0;
        while (i < to && c[i] >= '0' && c[i] <= '9') {
            if (count < 18) {
                digits = digits * 10 + (c[i] - '0');
            }
            if (digits != 0) {
                count++;
            }
            i++;
        }
        if (i < to && i > start && i - start <= 3 && c[i] != mark && isGroup(c, i, to)) {
            return readGrouped(c, start, to, mark, isNegative, isGroupingProven);
        }
        int whole = i - start;
        int behind = 0;
        if (i < to && c[i] == mark) {
            int first = ++i;
            while (i < to && c[i] >= '0' && c[i] <= '9') {
                if (count < 18) {
                    digits = digits * 10 + (c[i] - '0');
                }
                if (digits != 0) {
                    count++;
                }
                i++;
            }
            behind = i - first;
        }
        if (whole + behind == 0) {
            return false;
        }
        int mantissaEnd = i;
        int exponent = 0;
        if (i < to && (c[i] == 'e' || c[i] == 'E')) {
            int j = i + 1;
            boolean isSmall = false;
            if (j < to && (c[j] == '-' || c[j] == '+')) {
                isSmall = c[j] == '-';
                j++;
            }
            int first = j;
            while (j < to && j - first < 3 && c[j] >= '0' && c[j] <= '9') {
                exponent = exponent * 10 + (c[j] - '0');
                j++;
            }
            if (j > first) {
                i = j;
                exponent = isSmall ? -exponent : exponent;
            } else {
                exponent = 0;
            }
        }
        end = i;
        decimals = behind - exponent;
        if (count <= EXACT_DIGITS && decimals >= -POWERS.length + 1 && decimals < POWERS.length) {
            double exact = decimals >= 0 ? digits / POWERS[decimals] : digits * POWERS[-decimals];
            value = isNegative ? -exact : exact;
            return true;
        }
        value = slow(c, start, mantissaEnd, mark, isNegative, exponent);
        return true;
    }

    private static double slow(char[] c, int start, int end, char mark, boolean isNegative, int exponent) {
        String mantissa = new String(c, start, end - start).replace(mark, '.');
        double read = Double.parseDouble(mantissa + (exponent == 0 ? "" : "e" + exponent));
        return isNegative ? -read : read;
    }

    /** A separator and exactly three digits. */
    private static boolean isGroup(char[] c, int at, int to) {
        return isGroupMark(c[at])
                && at + 3 < to
                && isDigit(c[at + 1])
                && isDigit(c[at + 2])
                && isDigit(c[at + 3])
                && (at + 4 == to || !isDigit(c[at + 4]));
    }

    private static boolean isGroupMark(char c) {
        return switch (c) {
            case '.', ',', ' ', '\'', '\u2019', '\u00a0', '\u202f' -> true;
            default -> false;
        };
    }

    private boolean readGrouped(char[] c, int start, int to, char mark, boolean isNegative, boolean isGroupingProven) {
        int i = start;
        while (isDigit(c[i])) {
            i++;
        }
        char group = c[i];
        StringBuilder plain = new StringBuilder().append(c, start, i - start);
        int groups = 0;
        while (i < to && c[i] == group && isGroup(c, i, to)) {
            plain.append(c, i + 1, 3);
            i += 4;
            groups++;
        }
        boolean hasMark = i < to && c[i] == mark;
        boolean isDoubtful = (group == '.' || group == ',') && groups == 1 && !hasMark && !isGroupingProven;
        if (isDoubtful) {
            return false;
        }
        int behind = 0;
        if (hasMark) {
            plain.append('.');
            i++;
            while (i < to && isDigit(c[i])) {
                plain.append(c[i]);
                i++;
                behind++;
            }
        }
        double read = Double.parseDouble(plain.toString());
        value = isNegative ? -read : read;
        decimals = behind;
        end = i;
        return true;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    /**
     * Words with which loggers say that there is no reading: they leave a hole, they don't make a column unreadable.
     *
     * @return what the word means, empty if it is not one of them
     */
    static String meaningOf(String word) {
        return switch (word.strip().toLowerCase(Locale.ROOT)) {
            case "ol", "o.l", "o.l.", "ovl", "overload", "over", "overrange", "+ol", "-ol" ->
                "above or below the range";
            case "open", "open circuit", "burnout", "break", "broken" -> "open circuit";
            case "---", "--", "-", "----", "-----", "--.-", "---.-", "*", "**", "***", "****" -> "no reading";
            case "nan", "n/a", "na", "#n/a", "null", "none", "inf", "-inf", "infinity", "-infinity" -> "no number";
            case "err", "error", "fault", "fail", "err." -> "fault";
            default -> "";
        };
    }
}
