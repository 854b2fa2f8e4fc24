package org.steamwright.intake.table;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.ElapsedUnit;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds the column that tells the time, and how. */
final class TimeFinder {

    private final TableHead head;
    private final TableHeader header;
    private final Columns columns;
    private final ReadingChoices choices;
    private final ReadingNotes notes;

    TimeFinder(TableHead head, TableHeader header, Columns columns, ReadingChoices choices, ReadingNotes notes) {
        this.head = head;
        this.header = header;
        this.columns = columns;
        this.choices = choices;
        this.notes = notes;
    }

    Layout.Time find() throws UnreadableFileException {
        List<Integer> stamps = columns.columnsOf(CellKind.STAMP);
        List<Integer> dates = columns.columnsOf(CellKind.DATE);
        List<Integer> clocks = columns.columnsOf(CellKind.TIME);
        if (!stamps.isEmpty()) {
            int chosen = stamps.get(0);
            for (int c : stamps) {
                if (columns.heading(c).namesUtc() && !columns.heading(chosen).namesUtc()) {
                    chosen = c;
                }
            }
            return told(Layout.TimeKind.STAMP, chosen, chosen, ElapsedUnit.SECOND, "date and time");
        }
        if (!dates.isEmpty() && !clocks.isEmpty()) {
            return told(
                    Layout.TimeKind.DATE_AND_TIME,
                    clocks.get(0),
                    dates.get(0),
                    ElapsedUnit.SECOND,
                    "time, date in column " + columns.place(dates.get(0)));
        }
        if (!clocks.isEmpty()) {
            int chosen = clocks.get(0);
            return told(
                    Layout.TimeKind.CLOCK,
                    chosen,
                    chosen,
                    ElapsedUnit.SECOND,
                    "hours, minutes and seconds without a date");
        }
        for (int c = 0; c < columns.width(); c++) {
            if (head.type(c).isNumeric() && isElapsed(c)) {
                return numbers(c);
            }
        }
        throw notes.refusal(
                IntakeMessage.NO_TIME_COLUMN,
                "",
                Sentence.of(
                        "no column tells the time%s. Its columns are: %s. Expected a date and time, a time of day, or"
                                + " elapsed time in a column called time, elapsed or t with its unit, as t_s or Time"
                                + " (min). Export with the time column.",
                        dates.isEmpty() ? "" : " of day; column " + columns.place(dates.get(0)) + " has the date only",
                        columns.allNames()));
    }

    /** Columns that tell the time: one, or that of the date and that of the time; none if none does. */
    List<Integer> columns() {
        List<Integer> stamps = columns.columnsOf(CellKind.STAMP);
        List<Integer> dates = columns.columnsOf(CellKind.DATE);
        List<Integer> clocks = columns.columnsOf(CellKind.TIME);
        if (!stamps.isEmpty()) {
            return List.of(stamps.get(0));
        }
        if (!clocks.isEmpty()) {
            return dates.isEmpty() ? List.of(clocks.get(0)) : List.of(dates.get(0), clocks.get(0));
        }
        for (int c = 0; c < columns.width(); c++) {
            if (head.type(c).isNumeric() && isElapsed(c)) {
                return List.of(c);
            }
        }
        return List.of();
    }

    private boolean isElapsed(int column) {
        if (columns.isSkipped(column)) {
            return false;
        }
        Heading heading = columns.heading(column);
        return heading.elapsed().isPresent()
                || (heading.isSilent()
                        && heading.unread().isEmpty()
                        && (heading.namesTime() || heading.namesUnixTime()))
                || (header.isMissing() && column == 0 && isRising(column));
    }

    private Layout.Time numbers(int column) throws UnreadableFileException {
        Heading heading = columns.heading(column);
        Optional<ElapsedUnit> unit = choices.timeUnit().isPresent() ? choices.timeUnit() : heading.elapsed();
        if (choices.timeUnit().isPresent()
                && heading.elapsed().isPresent()
                && !choices.timeUnit().equals(heading.elapsed())) {
            notes.refuseProfile(
                    "time-unit",
                    "column " + columns.place(column),
                    choices.timeUnit().get().symbol(),
                    "its header says " + heading.elapsed().get().symbol());
            notes.remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + columns.place(column),
                    Sentence.of(
                            "The header says that time is in %s, the choice says %s; the choice counts.",
                            heading.elapsed().get().symbol(),
                            choices.timeUnit().get().symbol()));
        }
        if (unit.isEmpty()) {
            String firstCell = head.cell(head.firstData(), column);
            String lastCell = head.cell(head.size() - 1, column);
            notes.ask(new Question(
                    "time-unit",
                    "In which unit does column " + columns.place(column) + " count time?",
                    Sentence.of(
                            "It goes from %s in row %d to %s in row %d and its header \"%s\" names no unit.%s",
                            firstCell,
                            head.line(head.firstData()),
                            lastCell,
                            head.lastLine(),
                            heading.full(),
                            isLikeDayNumber(firstCell)
                                    ? " It looks like the day number of a spreadsheet: format the column as date and"
                                            + " time there, and export again."
                                    : ""),
                    List.of("s", "min", "h", "ms", "unix-s", "unix-ms")));
        }
        return told(
                Layout.TimeKind.NUMBER,
                column,
                column,
                unit.orElse(ElapsedUnit.SECOND),
                "numbers in " + (unit.isPresent() ? unit.get().symbol() : "an unknown unit"));
    }

    private static boolean isLikeDayNumber(String cell) {
        return cell.length() > 6
                && (cell.startsWith("4") || cell.startsWith("5"))
                && (cell.charAt(5) == '.' || cell.charAt(5) == ',');
    }

    private boolean isRising(int column) {
        double before = Double.NEGATIVE_INFINITY;
        NumberText number = new NumberText();
        for (int i = head.firstData(); i < head.size(); i++) {
            char[] c = head.cell(i, column).toCharArray();
            if (!number.read(c, 0, c.length, DecimalMark.POINT, false) || number.value <= before) {
                return false;
            }
            before = number.value;
        }
        return true;
    }

    private Layout.Time told(Layout.TimeKind kind, int column, int dateColumn, ElapsedUnit unit, String what) {
        boolean isUtc = columns.heading(column).namesUtc()
                || columns.heading(dateColumn).namesUtc();
        notes.explain(Sentence.of(
                "time in column %s: %s%s", columns.place(column), what, isUtc ? ", in UTC by its header" : ""));
        for (int c = 0; c < columns.width(); c++) {
            if (c != column && c != dateColumn && head.type(c).isTime()) {
                columns.notUsed(c, "also holds time; column " + columns.place(column) + " is used");
            }
        }
        return new Layout.Time(kind, column, dateColumn, unit, isUtc);
    }
}
