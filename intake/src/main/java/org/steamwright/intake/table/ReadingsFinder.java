package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.MeasuringUnit;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds the columns that hold temperatures and pressures, with their units; asks for the unit that nothing tells. */
final class ReadingsFinder {

    private static final List<String> TEMPERATURE_ANSWERS = List.of("°C", "°F", "K", "skip");
    private static final List<String> PRESSURE_ANSWERS = List.of(
            "kPa abs",
            "kPa gauge",
            "bar abs",
            "bar gauge",
            "mbar abs",
            "mbar gauge",
            "psi abs",
            "psi gauge",
            "mmHg abs",
            "inHg gauge",
            "skip");
    private static final List<String> ALL_ANSWERS =
            List.of("°C", "°F", "K", "kPa abs", "kPa gauge", "bar abs", "bar gauge", "mbar abs", "psi gauge", "skip");

    private final Table table;
    private final TableHead head;
    private final Columns columns;
    private final ReadingChoices choices;
    private final ReadingNotes notes;
    private final CellKind.Looker looker = new CellKind.Looker();
    private final List<Layout.Words> words = new ArrayList<>();

    ReadingsFinder(Table table, TableHead head, Columns columns, ReadingChoices choices, ReadingNotes notes) {
        this.table = table;
        this.head = head;
        this.columns = columns;
        this.choices = choices;
        this.notes = notes;
    }

    /** Columns that hold words, once the readings are found. */
    List<Layout.Words> words() {
        return words;
    }

    List<Layout.Reading> find(Layout.Time time) throws IOException, UnreadableFileException {
        List<Layout.Reading> readings = new ArrayList<>();
        CellKind[] beyond = kindsBeyondHead();
        for (int c = 0; c < columns.width(); c++) {
            if (c == time.column() || c == time.dateColumn()) {
                continue;
            }
            CellKind type = head.type(c);
            if (columns.isSkipped(c)) {
                columns.notUsed(c, "as chosen");
            } else if (!type.isTime()) {
                Optional<Layout.Reading> found = findReading(c, type == CellKind.EMPTY ? beyond[c] : type);
                if (found.isPresent()) {
                    readings.add(found.get());
                }
            }
        }
        if (readings.isEmpty() && !notes.hasQuestions()) {
            throw notes.refusal(
                    IntakeMessage.NO_MEASURING_COLUMN,
                    "",
                    Sentence.of(
                            "no column holds a temperature or a pressure. Its columns are: %s. Expected numbers under"
                                    + " a header with a unit, as T1 (°C) or p_kPa.",
                            columns.allNames()));
        }
        return readings;
    }

    private Optional<Layout.Reading> findReading(int c, CellKind type) throws UnreadableFileException {
        Heading heading = columns.heading(c);
        Optional<MeasuringUnit> chosen = columns.chosenUnit(c);
        Optional<MeasuringUnit> inFile = heading.unit().isPresent() ? heading.unit() : unitBehind(c);
        if (chosen.isEmpty() && inFile.isEmpty()) {
            if (heading.otherUnit().isPresent()) {
                columns.notUsed(c, "is in " + heading.otherUnit().get() + ", neither temperature nor pressure");
            } else if (heading.elapsed().isPresent()) {
                columns.notUsed(c, "counts time as well");
            } else if (type == CellKind.EMPTY) {
                if (!heading.full().isEmpty()) {
                    columns.notUsed(c, "holds no value");
                }
            } else if (!type.isNumeric()) {
                words.add(new Layout.Words(c, "column " + columns.place(c)));
                columns.notUsed(
                        c, Sentence.of("holds words such as \"%s\"", Sentence.cut(head.cell(head.firstData(), c))));
            } else if (heading.namesRunningNumber() && isCounting(c)) {
                columns.notUsed(c, "numbers the rows");
            } else {
                askUnit(c);
            }
            return Optional.empty();
        }
        MeasuringUnit unit = chosen.isPresent() ? chosen.get() : inFile.orElseThrow();
        String how = chosen.isPresent()
                ? "as chosen"
                : heading.unit().isPresent()
                        ? "by the header \"" + heading.full() + "\""
                        : "written behind the numbers";
        if (chosen.isPresent() && inFile.isPresent() && !chosen.get().isSameUnitAs(inFile.get())) {
            notes.refuseProfile(
                    "unit:" + columns.name(c),
                    "column " + columns.place(c),
                    chosen.get().symbol(),
                    "the file says " + inFile.get().symbol());
            notes.remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + columns.place(c),
                    Sentence.of(
                            "The file says %s, the choice says %s; the choice counts.",
                            inFile.get().symbol(), chosen.get().symbol()));
        }
        Optional<PressureReference> reference = referenceOf(c, unit, inFile);
        notes.explain(Sentence.of(
                "column %s: %s in %s%s, %s",
                columns.place(c),
                unit.quantity().name().toLowerCase(Locale.ROOT),
                unit.symbol(),
                unit.quantity() == Quantity.TEMPERATURE ? "" : said(reference),
                how));
        if (unit.quantity() == Quantity.PRESSURE && reference.isEmpty()) {
            notes.remark(
                    IntakeMessage.PRESSURE_REFERENCE_OPEN,
                    Rank.NOTE,
                    "column " + columns.place(c),
                    "The file does not say whether this pressure is absolute or gauge. It has to be declared before it"
                            + " is used.");
        }
        return Optional.of(new Layout.Reading(c, columns.name(c), unit, reference, "column " + columns.place(c)));
    }

    /**
     * For every column that is empty in the head and whose header leaves open what it is: the first cell behind the head
     * that says something. All are looked for in one pass.
     */
    private CellKind[] kindsBeyondHead() throws IOException, UnreadableFileException {
        CellKind[] found = new CellKind[columns.width()];
        Arrays.fill(found, CellKind.EMPTY);
        boolean[] isOpen = new boolean[columns.width()];
        int[] open = {0};
        for (int c = 0; c < columns.width(); c++) {
            Heading heading = columns.heading(c);
            isOpen[c] = head.type(c) == CellKind.EMPTY
                    && !heading.full().isEmpty()
                    && heading.isSilent()
                    && columns.chosenUnit(c).isEmpty()
                    && !columns.isSkipped(c);
            open[0] += isOpen[c] ? 1 : 0;
        }
        if (open[0] > 0 && head.isCut()) {
            int start = head.lastLine();
            table.each(row -> {
                for (int c = 0; row.line > start && c < isOpen.length; c++) {
                    if (isOpen[c] && !row.isEmpty(c)) {
                        CellKind kind = looker.look(row.text(c));
                        if (!kind.isNeutral()) {
                            found[c] = kind;
                            isOpen[c] = false;
                            open[0]--;
                        }
                    }
                }
                return open[0] > 0;
            });
        }
        return found;
    }

    private static String said(Optional<PressureReference> reference) {
        return reference.isEmpty()
                ? " (absolute or gauge not told)"
                : reference.get() == PressureReference.ABSOLUTE ? " absolute" : " gauge";
    }

    private Optional<PressureReference> referenceOf(int c, MeasuringUnit unit, Optional<MeasuringUnit> inFile)
            throws UnreadableFileException {
        if (unit.quantity() != Quantity.PRESSURE) {
            return Optional.empty();
        }
        Optional<PressureReference> byFile = inFile.isPresent() ? inFile.get().reference() : Optional.empty();
        Optional<PressureReference> chosen = columns.chosenFor(choices.references(), c);
        if (chosen.isEmpty()) {
            chosen = unit.reference();
        }
        if (chosen.isPresent() && byFile.isPresent() && !chosen.equals(byFile)) {
            boolean isOfUnit = choices.isByProfile("unit:" + columns.name(c));
            notes.refuseProfile(
                    (isOfUnit ? "unit:" : "reference:") + columns.name(c),
                    "column " + columns.place(c),
                    said(chosen).strip(),
                    "the file says" + said(byFile));
            notes.remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + columns.place(c),
                    Sentence.of("The file says%s, the choice says%s; the choice counts.", said(byFile), said(chosen)));
        }
        return chosen.isPresent() ? chosen : byFile;
    }

    /** The unit that stands behind every number of the column. */
    private Optional<MeasuringUnit> unitBehind(int c) {
        String same = "";
        for (int i = head.firstData(); i < head.size(); i++) {
            String cell = head.cell(i, c);
            if (head.kind(i, c) != CellKind.NUMBER) {
                continue;
            }
            String behind = looker.unitBehind(cell, DecimalMark.POINT);
            if (MeasuringUnit.find(behind).isEmpty()) {
                behind = looker.unitBehind(cell, DecimalMark.COMMA);
            }
            if (behind.isEmpty() || (!same.isEmpty() && !same.equals(behind))) {
                return Optional.empty();
            }
            same = behind;
        }
        return MeasuringUnit.find(same);
    }

    private boolean isCounting(int c) {
        NumberText number = new NumberText();
        double before = Double.NaN;
        for (int i = head.firstData(); i < head.size(); i++) {
            char[] cell = head.cell(i, c).toCharArray();
            if (!number.read(cell, 0, cell.length, DecimalMark.POINT, false)) {
                return false;
            }
            if (!Double.isNaN(before) && number.value != before + 1) {
                return false;
            }
            before = number.value;
        }
        return true;
    }

    private void askUnit(int c) {
        Heading heading = columns.heading(c);
        boolean isUnknown = !heading.unread().isEmpty();
        String firstCell = head.cell(head.firstData(), c);
        String lastCell = head.cell(head.size() - 1, c);
        String evidence = Sentence.of(
                "It holds numbers, %s in row %d and %s in row %d; ",
                firstCell, head.line(head.firstData()), lastCell, head.lastLine());
        evidence += isUnknown
                ? Sentence.of(
                        "\"%s\" in its header is no unit of temperature or pressure that the program knows.",
                        heading.unread())
                : Sentence.of("its header \"%s\" names no unit.", heading.full());
        Question question = new Question(
                "unit:" + columns.name(c),
                "What is the unit of column " + columns.place(c) + "?",
                evidence,
                heading.namesTemperature()
                        ? TEMPERATURE_ANSWERS
                        : heading.namesPressure() ? PRESSURE_ANSWERS : ALL_ANSWERS);
        if (isUnknown) {
            notes.askUnknownUnit(question);
        } else {
            notes.ask(question);
        }
    }
}
