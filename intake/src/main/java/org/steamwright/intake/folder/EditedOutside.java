package org.steamwright.intake.folder;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Signs in the bytes of a text recording that a spreadsheet or an editor saved part of it: kinds of line ends, of quotation
 * marks, of time stamps or of numbers that change within the file. A logger writes each the same way throughout.
 *
 * <p>A sign is no proof. Nothing is changed and nothing is refused.
 */
final class EditedOutside {

    /** Beyond this size only the beginning is looked at. */
    static final int MOST_BYTES = 8_000_000;

    /** Lines that may be written by another part of the logger's program: preamble and header. */
    private static final int PREAMBLE_LINES = 40;

    /** Fewest rows that have to be written in each of two ways. Own choice: a single odd row is the reader's business. */
    private static final int FEWEST = 3;

    private EditedOutside() {}

    /** What was seen, each with its first row; none for a file of one hand. */
    static List<String> signs(byte[] bytes) {
        String text = new String(bytes, 0, Math.min(bytes.length, MOST_BYTES), StandardCharsets.ISO_8859_1);
        List<String> signs = new ArrayList<>();
        if (text.indexOf('\0') >= 0) {
            return signs;
        }
        String[] lines = text.split("\n", -1);
        lineEnds(lines, signs);
        char delimiter = delimiter(lines);
        stamps(lines, delimiter, signs);
        quotes(lines, delimiter, signs);
        zeros(lines, delimiter, signs);
        return signs;
    }

    private static void lineEnds(String[] lines, List<String> signs) {
        int returns = 0;
        int plain = 0;
        int firstReturn = 0;
        int firstPlain = 0;
        for (int i = PREAMBLE_LINES; i < lines.length - 1; i++) {
            if (lines[i].endsWith("\r")) {
                firstReturn = returns++ == 0 ? i + 1 : firstReturn;
            } else {
                firstPlain = plain++ == 0 ? i + 1 : firstPlain;
            }
        }
        if (returns >= FEWEST && plain >= FEWEST) {
            signs.add("line ends change in row " + Math.max(firstReturn, firstPlain));
        }
    }

    /** The sign that most of the later lines have most of. */
    private static char delimiter(String[] lines) {
        int[] counts = new int[3];
        char[] signs = {';', '\t', ','};
        for (int i = Math.min(PREAMBLE_LINES, lines.length / 2); i < Math.min(lines.length, 200); i++) {
            for (int k = 0; k < signs.length; k++) {
                char sign = signs[k];
                counts[k] += (int) lines[i].chars().filter(c -> c == sign).count();
            }
        }
        // a comma may be a decimal mark beside another delimiter
        return counts[0] > 0 ? ';' : counts[1] > 0 ? '\t' : ',';
    }

    private static void stamps(String[] lines, char delimiter, List<String> signs) {
        Map<String, Integer> counts = new HashMap<>();
        Map<String, Integer> first = new HashMap<>();
        for (int i = PREAMBLE_LINES; i < lines.length; i++) {
            String cell = cells(lines[i], delimiter).get(0).replace("\"", "").strip();
            String shape = shape(cell);
            if (shape.contains("9")
                    && (shape.contains("-") || shape.contains("/") || shape.contains(".9.9") || shape.contains(":"))) {
                counts.merge(shape, 1, Integer::sum);
                first.putIfAbsent(shape, i + 1);
            }
        }
        List<String> kinds = counts.keySet().stream()
                .filter(shape -> counts.getOrDefault(shape, 0) >= FEWEST)
                .sorted((a, b) -> Integer.compare(first.getOrDefault(a, 0), first.getOrDefault(b, 0)))
                .toList();
        if (kinds.size() > 1) {
            signs.add("the form of the time stamps changes in row " + first.getOrDefault(kinds.get(1), 0) + " from "
                    + kinds.get(0) + " to " + kinds.get(1));
        }
    }

    /** Digits as one 9 for each number, fractions of a second left out: 02.03.2026 9:05:00,5 is 9.9.9 9:9:9. */
    private static String shape(String cell) {
        String shape = cell.replaceAll("[0-9]+", "9");
        return shape.replaceAll("(:9)[.,]9", "$1").replaceAll("[A-Za-z]+", "a");
    }

    private static void quotes(String[] lines, char delimiter, List<String> signs) {
        Map<Integer, int[]> perColumn = new HashMap<>();
        Map<Integer, Integer> changed = new HashMap<>();
        for (int i = PREAMBLE_LINES; i < lines.length; i++) {
            List<String> cells = cells(lines[i], delimiter);
            for (int k = 0; k < cells.size(); k++) {
                String cell = cells.get(k).strip();
                boolean isQuoted = cell.length() > 1 && cell.startsWith("\"") && cell.endsWith("\"");
                boolean isNeeded = cell.indexOf(delimiter) >= 0;
                if (!cell.isEmpty() && !isNeeded) {
                    int[] counts = perColumn.computeIfAbsent(k, key -> new int[2]);
                    counts[isQuoted ? 1 : 0]++;
                    if (counts[0] > 0 && counts[1] > 0) {
                        changed.putIfAbsent(k, i + 1);
                    }
                }
            }
        }
        perColumn.forEach((column, counts) -> {
            if (counts[0] >= FEWEST && counts[1] >= FEWEST) {
                signs.add("quotation marks come and go in column " + (column + 1) + ", first in row "
                        + changed.getOrDefault(column, 0));
            }
        });
    }

    /** Part of a column keeps the zeros at the end of its decimals, another part lost them. */
    private static void zeros(String[] lines, char delimiter, List<String> signs) {
        Map<Integer, List<String>> columns = new HashMap<>();
        for (int i = PREAMBLE_LINES; i < lines.length; i++) {
            List<String> cells = cells(lines[i], delimiter);
            for (int k = 1; k < cells.size(); k++) {
                columns.computeIfAbsent(k, key -> new ArrayList<>())
                        .add(cells.get(k).replace("\"", "").strip());
            }
        }
        columns.forEach((column, values) -> {
            int most = values.stream().mapToInt(EditedOutside::decimals).max().orElse(0);
            int kept = 0;
            int lost = 0;
            int firstLost = 0;
            int firstKept = 0;
            for (int i = 0; i < values.size(); i++) {
                int decimals = decimals(values.get(i));
                if (decimals < 0 || most == 0) {
                    continue;
                }
                if (decimals < most) {
                    firstLost = lost++ == 0 ? i : firstLost;
                } else if (values.get(i).endsWith("0")) {
                    firstKept = kept++ == 0 ? i : firstKept;
                }
            }
            if (kept >= FEWEST && lost >= FEWEST) {
                signs.add("zeros at the end of decimals are kept in one part of column " + (column + 1)
                        + " and lost in another, which begins in row "
                        + (Math.max(firstLost, firstKept) + PREAMBLE_LINES + 1));
            }
        });
    }

    /** Digits behind the decimal mark; -1 if it is no number. */
    private static int decimals(String cell) {
        if (!cell.matches("[+-]?[0-9]+([.,][0-9]+)?")) {
            return -1;
        }
        int mark = Math.max(cell.indexOf('.'), cell.indexOf(','));
        return mark < 0 ? 0 : cell.length() - mark - 1;
    }

    private static List<String> cells(String line, char delimiter) {
        List<String> cells = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean isQuoted = false;
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            isQuoted ^= c == '"';
            if (c == delimiter && !isQuoted) {
                cells.add(cell.toString());
                cell.setLength(0);
            } else if (c != '\r') {
                cell.append(c);
            }
        }
        cells.add(cell.toString());
        return cells;
    }
}
