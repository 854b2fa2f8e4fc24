package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds out from the head of a file how its rows are to be read, and asks for what the head leaves open. */
final class LayoutFinder {

    private final Table table;
    private final ReadingChoices choices;
    private final ReadingNotes notes;
    private final TableHead head;
    private final TableHeader header;
    private final Columns columns;
    private final TimeFinder time;

    private LayoutFinder(Table table, ReadingChoices choices, ReadingNotes notes)
            throws IOException, UnreadableFileException {
        this.table = table;
        this.choices = choices;
        this.notes = notes;
        head = TableHead.of(table);
        header = new HeaderFinder(head, table.delimiter(), notes).find();
        columns = new Columns(head, header, choices, notes);
        time = new TimeFinder(head, header, columns, choices, notes);
    }

    private static LayoutFinder of(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        return new LayoutFinder(table, choices, new ReadingNotes(table.fileName(), choices));
    }

    /**
     * The layout of a table.
     *
     * @param table the rows as the layout is to be used on, with channels side by side
     * @param layout how they are read
     */
    record Found(Table table, Layout layout) {}

    static Found find(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        LayoutFinder finder = of(table, choices);
        Optional<LongShape> shape = new LongShapeFinder(finder.head, finder.header, finder.columns, finder.time).find();
        Optional<LongTable> beside = shape.isPresent() ? LongTable.of(table, shape.get()) : Optional.empty();
        if (beside.isEmpty()) {
            return new Found(table, finder.find());
        }
        ReadingNotes notes = new ReadingNotes(beside.get().fileName(), choices);
        notes.explain(beside.get().explanation());
        notes.add(beside.get().remarks());
        return new Found(beside.get(), new LayoutFinder(beside.get(), choices, notes).find());
    }

    /** By what files like this one are known again; nothing is asked for it. */
    static FileKind kind(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        return of(table, choices).kind();
    }

    private FileKind kind() {
        List<String> names = new ArrayList<>();
        List<String> units = new ArrayList<>();
        for (int c = 0; c < columns.width(); c++) {
            names.add(columns.heading(c).full());
            if (header.unitRow() >= 0) {
                units.add(head.cell(header.unitRow(), c));
            }
        }
        List<String> preamble = new ArrayList<>();
        for (int i = 0; i < (header.nameRow() < 0 ? head.firstData() : header.nameRow()); i++) {
            preambleKey(i).ifPresent(preamble::add);
        }
        return new FileKind(FileKind.delimiterWord(table.delimiter()), names, units, preamble);
    }

    /** What names the value on a line before the header, if it has a letter and no digit. */
    private Optional<String> preambleKey(int row) {
        String first = head.cell(row, 0);
        int end = first.length();
        for (int i = 0; i < first.length(); i++) {
            if (first.charAt(i) == ':' || first.charAt(i) == '=') {
                end = i;
                break;
            }
        }
        if (end == first.length() && head.cells(row).size() < 2) {
            return Optional.empty();
        }
        String key = first.substring(0, end).replace("#", "").strip();
        boolean hasLetter = false;
        for (int i = 0; i < key.length(); i++) {
            hasLetter |= Character.isLetter(key.charAt(i));
            if (Character.isDigit(key.charAt(i))) {
                return Optional.empty();
            }
        }
        return hasLetter ? Optional.of(key) : Optional.empty();
    }

    private Layout find() throws IOException, UnreadableFileException {
        columns.checkChoices();
        Layout.Time found = time.find();
        ReadingsFinder finder = new ReadingsFinder(table, head, columns, choices, notes);
        List<Layout.Reading> readings = finder.find(found);
        DecimalFinder.Decimal decimal = new DecimalFinder(table, head, choices, notes).find(readings);
        if (notes.hasQuestions()) {
            throw notes.open();
        }
        return new Layout(
                table.delimiter(),
                decimal.mark(),
                decimal.isGroupingProven(),
                head.line(head.firstData()),
                columns.width(),
                header.cells(),
                found,
                readings,
                finder.words(),
                notes.explanation(),
                notes.remarks());
    }
}
