package org.steamwright.intake.table;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds the decimal mark; asks for it where every number can be read both ways. */
final class DecimalFinder {

    private final Table table;
    private final TableHead head;
    private final ReadingChoices choices;
    private final ReadingNotes notes;
    private final CellKind.Looker looker = new CellKind.Looker();

    DecimalFinder(Table table, TableHead head, ReadingChoices choices, ReadingNotes notes) {
        this.table = table;
        this.head = head;
        this.choices = choices;
        this.notes = notes;
    }

    /**
     * How numbers are written.
     *
     * @param isGroupingProven whether some number can only be read with the other mark between thousands
     */
    record Decimal(DecimalMark mark, boolean isGroupingProven) {}

    Decimal find(List<Layout.Reading> readings) throws IOException, UnreadableFileException {
        DecimalEvidence evidence = new DecimalEvidence();
        for (int i = head.firstData(); i < head.size(); i++) {
            for (int c = 0; c < head.cells(i).size(); c++) {
                if (head.kind(i, c) == CellKind.NUMBER) {
                    evidence.look(head.cell(i, c), head.line(i), ceilingOf(c, readings));
                }
            }
        }
        if (!evidence.isDecided() && head.isCut()) {
            int start = head.lastLine();
            table.each(row -> {
                if (row.line > start) {
                    for (int c = 0; c < row.count; c++) {
                        String cell = row.text(c);
                        if (looker.look(cell) == CellKind.NUMBER) {
                            evidence.look(cell, row.line, ceilingOf(c, readings));
                        }
                    }
                }
                return !evidence.isDecided();
            });
        }
        if (choices.decimalMark().isPresent()) {
            DecimalMark mark = choices.decimalMark().get();
            Optional<DecimalMark> proven = evidence.isDecided() ? evidence.mark(table.delimiter()) : Optional.empty();
            if (proven.isPresent() && proven.get() != mark) {
                notes.refuseProfile(
                        "decimal-mark",
                        "",
                        mark.name().toLowerCase(Locale.ROOT),
                        "the numbers are written with a " + proven.get().name().toLowerCase(Locale.ROOT) + ", "
                                + evidence.shown());
            }
            notes.explain("decimal " + mark.name().toLowerCase(Locale.ROOT) + ", as chosen");
            return new Decimal(mark, evidence.isGroupingProven());
        }
        if (table.decimalMark().isPresent()) {
            DecimalMark mark = table.decimalMark().get();
            notes.explain("decimal " + mark.name().toLowerCase(Locale.ROOT) + ", fixed by the format of the file");
            return new Decimal(mark, false);
        }
        Optional<DecimalMark> mark = evidence.mark(table.delimiter());
        if (mark.isEmpty()) {
            notes.ask(new Question(
                    "decimal-mark",
                    "Is the decimal mark a point or a comma?",
                    evidence.shown(),
                    List.of("point", "comma")));
        } else {
            notes.explain(Sentence.of(
                    "decimal %s%s: %s",
                    mark.get().name().toLowerCase(Locale.ROOT),
                    evidence.isGroupingProven()
                            ? ", " + mark.get().other().name().toLowerCase(Locale.ROOT) + " between thousands"
                            : "",
                    evidence.shown()));
        }
        return new Decimal(mark.orElse(DecimalMark.POINT), evidence.isGroupingProven());
    }

    /** Above this no reading of the column can lie: a number that would be above it is not grouped in thousands. */
    private static double ceilingOf(int c, List<Layout.Reading> readings) {
        for (Layout.Reading reading : readings) {
            if (reading.cell() == c) {
                return reading.unit().quantity() == Quantity.TEMPERATURE
                        ? DecimalEvidence.HIGHEST_CELSIUS / reading.unit().differenceToInside(1)
                        : DecimalEvidence.HIGHEST_KILOPASCAL / reading.unit().differenceToInside(1);
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
