package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds the rows above the readings that name the columns and their units. */
final class HeaderFinder {

    private static final int PREAMBLE_SHOWN = 3;

    /** A line of two cells above the readings as likely is a name with its value. */
    private static final int FEWEST_CELLS_OF_A_BLOCK = 3;

    private final TableHead head;
    private final char delimiter;
    private final ReadingNotes notes;
    /** Cells of a row of readings; once the header is found, columns. */
    private int width;

    HeaderFinder(TableHead head, char delimiter, ReadingNotes notes) {
        this.head = head;
        this.delimiter = delimiter;
        this.notes = notes;
        this.width = head.width();
    }

    TableHeader find() throws UnreadableFileException {
        int last = head.firstData() - 1;
        while (last >= 0 && head.isComment(last)) {
            last--;
        }
        int names = last;
        int units = -1;
        if (last >= 1 && isUnitRow(last) && head.cells(last - 1).size() >= 2 && !head.isComment(last - 1)) {
            units = last;
            names = last - 1;
        }
        List<Integer> block = headerBlock(last);
        if (block.size() > 1) {
            units = unitRowOf(block);
            names = nameRowOf(block, units);
        }
        boolean isCommented = false;
        if (names < 0 || head.written(names) < 2) {
            names = -1;
            if (head.firstData() > 0
                    && head.isComment(head.firstData() - 1)
                    && head.written(head.firstData() - 1) >= Math.min(2, width)
                    && head.cells(head.firstData() - 1).size() == width) {
                names = head.firstData() - 1;
                isCommented = true;
            }
        }
        int used = head.usedWidth();
        if (names >= 0) {
            checkFit(names, used);
        }
        width = Math.max(used, names >= 0 ? head.written(names) : 0);
        List<Heading> found = new ArrayList<>();
        List<Integer> more = rowsBesides(block, names, units);
        for (int c = 0; c < width; c++) {
            String cell = names < 0 ? "" : more.isEmpty() ? head.cell(names, c) : joined(more, names, c);
            if (isCommented && c == 0) {
                cell = cell.substring(1).strip();
            }
            found.add(Heading.of(cell, units < 0 ? "" : head.cell(units, c)));
        }
        List<Heading> headings = withoutProbeLetters(found);
        explainHeader(names, units);
        List<String> cells = names < 0 ? List.of() : head.cells(names);
        return new TableHeader(cells, headings, uniqueNames(headings, names >= 0), names, units);
    }

    private void checkFit(int names, int used) throws UnreadableFileException {
        int named = head.written(names);
        if (named != used && named != width && head.cells(names).size() != used) {
            throw notes.refusal(
                    IntakeMessage.HEADER_DOES_NOT_FIT,
                    "row " + head.line(names),
                    Sentence.of(
                            "the header has %d names, but row %d has %d cells (\"%s\"). Each column needs one"
                                    + " name.%s",
                            named,
                            head.line(head.firstData()),
                            width,
                            Sentence.cut(String.join(" | ", head.cells(head.firstData()))),
                            delimiter == ',' && used > named
                                    ? " Does the file use the comma both between cells and as decimal mark? Then"
                                            + " export it with semicolons, or with a decimal point."
                                    : " Export the file again, or mend the header in a copy."));
        }
    }

    /** Rows of full width right above the readings, the lowest first: together they are the header. */
    private List<Integer> headerBlock(int last) {
        List<Integer> block = new ArrayList<>();
        for (int i = last;
                width >= FEWEST_CELLS_OF_A_BLOCK && i >= 0 && !head.isComment(i) && head.written(i) >= width - 1;
                i--) {
            if (i < last && head.line(i) != head.line(i + 1) - 1) {
                break;
            }
            block.add(i);
        }
        return block;
    }

    private int unitRowOf(List<Integer> block) {
        for (int row : block) {
            if (isUnitRow(row)) {
                return row;
            }
        }
        return -1;
    }

    /** The row that speaks of time or of channels in its first cells; else the lowest that is not that of the units. */
    private int nameRowOf(List<Integer> block, int units) {
        int lowest = -1;
        for (int row : block) {
            if (row == units) {
                continue;
            }
            lowest = lowest < 0 ? row : lowest;
            for (int c = 0; c < 2; c++) {
                Heading heading = Heading.of(head.cell(row, c), "");
                if (heading.namesTime() || heading.namesDate() || heading.namesChannel()) {
                    return row;
                }
            }
        }
        return lowest;
    }

    /** The other rows of the header, from the top, if they are needed to tell the columns apart. */
    private List<Integer> rowsBesides(List<Integer> block, int names, int units) {
        List<Integer> more = new ArrayList<>();
        for (int row : block) {
            if (row != names && row != units) {
                more.add(0, row);
            }
        }
        if (names < 0 || !block.contains(names) || more.isEmpty()) {
            return List.of();
        }
        Set<String> taken = new HashSet<>();
        boolean isRepeated = false;
        for (int c = 0; c < width; c++) {
            String cell = head.cell(names, c);
            isRepeated |= !cell.isEmpty() && !taken.add(ReadingChoices.key(cell));
        }
        if (block.size() == 2 && !isRepeated) {
            return List.of();
        }
        List<String> shown = new ArrayList<>();
        for (int row : more) {
            shown.add(Sentence.of(
                    "row %d \"%s\"",
                    head.line(row), Sentence.cut(String.join(String.valueOf(delimiter), head.cells(row)))));
        }
        notes.remark(
                IntakeMessage.HEADER_IN_LINES,
                Rank.NOTE,
                "row " + head.line(names),
                Sentence.of(
                        "The header has %d rows. The names are taken from row %d%s; also there: %s%s.",
                        block.size(),
                        head.line(names),
                        units < 0 ? "" : ", the units from row " + head.line(units),
                        String.join(", ", shown),
                        isRepeated ? ", put before names that stand more than once" : ""));
        return isRepeated ? more : List.of();
    }

    /** A name with what stands in the other rows of the header; a blank there goes on from the column before. */
    private String joined(List<Integer> more, int names, int column) {
        String own = head.cell(names, column);
        int uses = 0;
        for (String cell : head.cells(names)) {
            uses += !own.isEmpty() && ReadingChoices.key(cell).equals(ReadingChoices.key(own)) ? 1 : 0;
        }
        if (uses < 2) {
            return own;
        }
        StringBuilder joined = new StringBuilder();
        for (int row : more) {
            int c = column;
            while (c > 0 && head.cell(row, c).isEmpty()) {
                c--;
            }
            String part = head.cell(row, c);
            joined.append(part).append(part.isEmpty() ? "" : " ");
        }
        return joined.append(own).toString();
    }

    private void explainHeader(int names, int units) {
        int before = names < 0 ? head.firstData() : names;
        if (before > 0) {
            List<String> shown = new ArrayList<>();
            for (int i = 0; i < Math.min(before, PREAMBLE_SHOWN); i++) {
                shown.add("\"" + Sentence.cut(String.join(String.valueOf(delimiter), head.cells(i))) + "\"");
            }
            notes.explain(Sentence.of(
                    "%d line%s before the header: %s%s",
                    before, before == 1 ? "" : "s", String.join(", ", shown), before > PREAMBLE_SHOWN ? ", …" : ""));
        }
        if (names < 0) {
            notes.explain("no header; columns are called by their number");
            notes.remark(
                    IntakeMessage.HEADER_MISSING,
                    Rank.NOTE,
                    "row " + head.line(head.firstData()),
                    Sentence.of(
                            "The file starts with readings and has no header. The columns are called column 1 to"
                                    + " column %d; units have to be told.",
                            width));
        } else if (head.line(names) == 0) {
            notes.explain("no header; the channels give the names");
        } else {
            notes.explain(
                    "header in row " + head.line(names) + (units < 0 ? "" : ", units in row " + head.line(units)));
        }
        notes.explain("first readings in row " + head.line(head.firstData()));
    }

    private boolean isUnitRow(int row) {
        int said = 0;
        for (String cell : head.cells(row)) {
            if (cell.isEmpty() || cell.equals("-") || (said == 0 && Heading.isLabelOfUnits(cell))) {
                continue;
            }
            if (!Heading.isUnit(cell) && !Heading.isTimeFormat(cell)) {
                return false;
            }
            said++;
        }
        return said > 0;
    }

    /** Takes probe_C for a name, not for Celsius, where a probe_A or probe_B stands beside it. */
    private static List<Heading> withoutProbeLetters(List<Heading> found) {
        List<Heading> checked = new ArrayList<>();
        for (Heading heading : found) {
            String full = heading.full();
            boolean isLetter = full.length() > 2
                    && (full.endsWith("_C") || full.endsWith("_F") || full.endsWith("_K"))
                    && heading.unit().isPresent();
            boolean isProbe = false;
            for (Heading other : isLetter ? found : List.<Heading>of()) {
                String beside = other.full();
                isProbe |= beside.length() == full.length()
                        && beside.regionMatches(false, 0, full, 0, full.length() - 1)
                        && other.isSilent()
                        && Character.isLetter(beside.charAt(beside.length() - 1))
                        && beside.charAt(beside.length() - 1) != full.charAt(full.length() - 1);
            }
            checked.add(
                    isProbe
                            ? new Heading(full, full, Optional.empty(), Optional.empty(), Optional.empty(), "")
                            : heading);
        }
        return checked;
    }

    private List<String> uniqueNames(List<Heading> headings, boolean hasHeader) {
        Map<String, Integer> uses = new HashMap<>();
        for (Heading heading : headings) {
            String key = ReadingChoices.key(heading.name());
            uses.put(key, uses.getOrDefault(key, 0) + 1);
        }
        Set<String> taken = new HashSet<>();
        List<String> unique = new ArrayList<>();
        for (int c = 0; c < headings.size(); c++) {
            Heading heading = headings.get(c);
            String name =
                    uses.getOrDefault(ReadingChoices.key(heading.name()), 1) > 1 ? heading.full() : heading.name();
            if (name.isEmpty()) {
                name = "column " + (c + 1);
                if (hasHeader && head.type(c) != CellKind.EMPTY) {
                    notes.remark(
                            IntakeMessage.NAME_MISSING,
                            Rank.NOTE,
                            "column " + (c + 1),
                            Sentence.of("The header has no name for this column; it is called \"%s\".", name));
                }
            }
            String wanted = name;
            for (int n = 2; !taken.add(ReadingChoices.key(name)); n++) {
                name = wanted + " #" + n;
            }
            if (!name.equals(wanted)) {
                notes.remark(
                        IntakeMessage.NAME_REPEATED,
                        Rank.DOUBT,
                        "column " + (c + 1),
                        Sentence.of(
                                "The name \"%s\" stands more than once in the header; this column is called \"%s\"."
                                        + " Make sure which sensor it is.",
                                wanted, name));
            }
            unique.add(name);
        }
        return unique;
    }
}
