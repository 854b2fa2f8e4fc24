package org.steamwright.intake.csv;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.CellKind;
import org.steamwright.intake.table.FileKind;
import org.steamwright.intake.table.Sentence;

/**
 * Finds the mark between cells: the one that cuts most lines of the head into the same number of cells, each of which
 * looks like one cell.
 */
final class Delimiters {

    /** In order of preference where two cut equally well. */
    private static final char[] CANDIDATES = {'\t', ';', '|', ','};

    private static final int LINES = 40;
    private static final double ENOUGH = 0.5;
    private static final double TOO_CLOSE = 0.02;

    private Delimiters() {}

    /**
     * The delimiter with the reason.
     *
     * @param mark the character
     * @param explanation one line
     */
    record Found(char mark, String explanation) {}

    private record Score(char mark, int width, double share, double clean) {
        double total() {
            return share * clean;
        }
    }

    static Found find(String fileName, String head, ReadingChoices choices) throws UnreadableFileException {
        List<String> lines = lines(head);
        if (choices.delimiter().isPresent()) {
            char chosen = choices.delimiter().get();
            if (score(chosen, lines, new CellKind.Looker()).width() < 2) {
                throw new UnreadableFileException(
                        IntakeMessage.DELIMITER_NOT_FOUND,
                        fileName,
                        "",
                        Sentence.of(
                                "the chosen delimiter %s is not found; each line would be one cell, as \"%s\". Leave"
                                        + " the choice delimiter out, or name the mark that stands between the cells.",
                                name(chosen), cut(lines.get(lines.size() - 1))));
            }
            return new Found(chosen, "delimiter " + name(chosen) + ", as chosen");
        }
        Optional<Character> declared = declared(lines.get(0));
        if (declared.isPresent()) {
            return new Found(
                    declared.get(),
                    "delimiter " + name(declared.get()) + ", named by the first line ("
                            + lines.get(0).strip() + ")");
        }
        CellKind.Looker looker = new CellKind.Looker();
        Score best = new Score(',', 0, 0, 0);
        Score next = best;
        for (char candidate : CANDIDATES) {
            if (head.indexOf(candidate) < 0) {
                continue;
            }
            Score score = score(candidate, lines, looker);
            if (score.width() >= 2 && score.total() > best.total()) {
                next = best;
                best = score;
            } else if (score.width() >= 2 && score.total() > next.total()) {
                next = score;
            }
        }
        if (best.total() < ENOUGH) {
            throw new UnreadableFileException(
                    IntakeMessage.DELIMITER_NOT_FOUND,
                    fileName,
                    "row " + Math.max(1, lines.size()),
                    Sentence.of(
                            "the whole line \"%s\" looks like one cell: neither comma, semicolon, tab nor | cuts the"
                                    + " lines into equal rows. Expected a table with a time and at least one reading per"
                                    + " row. Export as CSV, or say which mark stands between the cells (delimiter).",
                            cut(lines.get(lines.size() - 1))));
        }
        if (best.total() - next.total() < TOO_CLOSE) {
            throw new UnreadableFileException(
                    IntakeMessage.QUESTIONS_OPEN,
                    fileName,
                    "",
                    "two marks cut the lines equally well. Say which one stands between the cells.",
                    List.of(new Question(
                            "delimiter",
                            "Which mark stands between the cells?",
                            Sentence.of(
                                    "With %s each row has %s cells, with %s it has %s; a row reads \"%s\".",
                                    name(best.mark()),
                                    best.width(),
                                    name(next.mark()),
                                    next.width(),
                                    cut(lines.get(lines.size() - 1))),
                            List.of(name(best.mark()), name(next.mark())))));
        }
        return new Found(
                best.mark(),
                Sentence.of(
                        "delimiter %s: cuts %s %% of the first %s lines into %s cells",
                        name(best.mark()), Math.round(best.share() * 100), lines.size(), best.width()));
    }

    private static String name(char mark) {
        return FileKind.delimiterWord(mark);
    }

    private static Optional<Character> declared(String line) {
        String first = line.strip();
        return first.length() == 5 && first.regionMatches(true, 0, "sep=", 0, 4)
                ? Optional.of(first.charAt(4))
                : first.equalsIgnoreCase("sep=") && line.endsWith("\t") ? Optional.of('\t') : Optional.empty();
    }

    private static List<String> lines(String head) {
        List<String> lines = new ArrayList<>();
        int start = 0;
        while (start < head.length() && lines.size() < LINES) {
            int end = start;
            while (end < head.length() && head.charAt(end) != '\n' && head.charAt(end) != '\r') {
                end++;
            }
            if (end > start) {
                lines.add(head.substring(start, end));
            }
            start = end + 1;
        }
        if (lines.isEmpty()) {
            lines.add("");
        }
        return lines;
    }

    private static Score score(char mark, List<String> lines, CellKind.Looker looker) {
        int from = lines.size() > 8 ? lines.size() / 4 : 0;
        int[] widths = new int[lines.size()];
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            List<String> cells = i < from ? List.of() : split(lines.get(i), mark);
            rows.add(cells);
            widths[i] = cells.size();
        }
        int width = mostCommon(widths, from);
        if (width < 2) {
            return new Score(mark, width, 0, 0);
        }
        int same = 0;
        int cells = 0;
        int clean = 0;
        for (int i = from; i < lines.size(); i++) {
            if (widths[i] == width) {
                same++;
                for (String cell : rows.get(i)) {
                    cells++;
                    if (isOneCell(cell, looker)) {
                        clean++;
                    }
                }
            }
        }
        return new Score(mark, width, (double) same / (lines.size() - from), (double) clean / cells);
    }

    /** Without another candidate inside, or a number or time that has one. */
    private static boolean isOneCell(String cell, CellKind.Looker looker) {
        for (char candidate : CANDIDATES) {
            if (cell.indexOf(candidate) >= 0) {
                return looker.look(cell) != CellKind.TEXT;
            }
        }
        return true;
    }

    private static int mostCommon(int[] widths, int from) {
        int[] sorted = Arrays.copyOfRange(widths, from, widths.length);
        Arrays.sort(sorted);
        int best = 0;
        int bestCount = 0;
        int i = 0;
        while (i < sorted.length) {
            int j = i;
            while (j < sorted.length && sorted[j] == sorted[i]) {
                j++;
            }
            if (j - i >= bestCount) {
                bestCount = j - i;
                best = sorted[i];
            }
            i = j;
        }
        return best;
    }

    /** Good enough to count: marks within quotes don't cut. */
    private static List<String> split(String line, char mark) {
        List<String> cells = new ArrayList<>();
        boolean isQuoted = false;
        StringBuilder cell = new StringBuilder();
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            if (c == '"') {
                isQuoted = !isQuoted;
            } else if (c == mark && !isQuoted) {
                cells.add(cell.toString());
                cell.setLength(0);
            } else {
                cell.append(c);
            }
        }
        cells.add(cell.toString());
        return cells;
    }

    private static String cut(String line) {
        return line.length() > 60 ? line.substring(0, 60) + "…" : line;
    }
}
