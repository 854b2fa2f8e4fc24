package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.MeasuringUnit;

/** Finds out whether a table has one row for each reading. */
final class LongShapeFinder {

    private final TableHead head;
    private final TableHeader header;
    private final Columns columns;
    private final TimeFinder finder;

    LongShapeFinder(TableHead head, TableHeader header, Columns columns, TimeFinder finder) {
        this.head = head;
        this.header = header;
        this.columns = columns;
        this.finder = finder;
    }

    /** Where channel and reading stand, if every reading has a row of its own. */
    Optional<LongShape> find() {
        List<Integer> time = finder.columns();
        List<Integer> numbers = new ArrayList<>();
        List<Integer> words = new ArrayList<>();
        int unit = -1;
        for (int c = 0; c < columns.width(); c++) {
            Heading heading = columns.heading(c);
            if (time.contains(c) || (heading.namesRunningNumber() && heading.isSilent())) {
                continue;
            }
            if (head.type(c) == CellKind.NUMBER) {
                numbers.add(c);
            } else if (head.type(c) == CellKind.TEXT && unit < 0 && holdsUnits(c)) {
                unit = c;
            } else if (head.type(c) == CellKind.TEXT) {
                words.add(c);
            }
        }
        if (time.isEmpty() || numbers.isEmpty() || numbers.size() + words.size() < 2) {
            return Optional.empty();
        }
        int channel = channelColumn(time, words, numbers);
        numbers.remove(Integer.valueOf(channel));
        if (channel < 0 || numbers.size() != 1) {
            return Optional.empty();
        }
        int value = numbers.get(0);
        Optional<MeasuringUnit> stated = columns.heading(value).unit();
        return Optional.of(new LongShape(
                time,
                channel,
                value,
                unit,
                head.type(channel) == CellKind.NUMBER ? columns.heading(channel).full() : "",
                stated.isPresent() ? stated.get().toString() : "",
                header.cells(),
                header.nameRow() < 0 ? 0 : head.line(header.nameRow()),
                header.unitRow() < 0 ? 0 : head.line(header.unitRow()),
                head.line(head.firstData())));
    }

    private boolean holdsUnits(int column) {
        int units = 0;
        for (int i = head.firstData(); i < head.size(); i++) {
            String cell = head.cell(i, column);
            if (!cell.isEmpty() && head.isData(i)) {
                if (!Heading.isUnit(cell)) {
                    return false;
                }
                units++;
            }
        }
        return units > 0;
    }

    /** The one that is called so, or whose word changes while the time stays; -1 if there is none. */
    private int channelColumn(List<Integer> time, List<Integer> words, List<Integer> numbers) {
        int found = -1;
        for (int c : words) {
            if (changesAtOneTime(time, c) || columns.heading(c).namesChannel()) {
                if (found >= 0) {
                    return columns.heading(c).namesChannel()
                                    && !columns.heading(found).namesChannel()
                            ? c
                            : found;
                }
                found = c;
            }
        }
        for (int c : numbers) {
            if (found < 0 && columns.heading(c).namesChannel() && changesAtOneTime(time, c)) {
                found = c;
            }
        }
        return found;
    }

    private boolean changesAtOneTime(List<Integer> time, int column) {
        int changes = 0;
        int same = 0;
        for (int i = head.firstData() + 1; i < head.size(); i++) {
            boolean isSameTime = true;
            for (int c : time) {
                isSameTime &= !head.cell(i, c).isEmpty() && head.cell(i, c).equals(head.cell(i - 1, c));
            }
            if (isSameTime) {
                same++;
                changes += head.cell(i, column).equals(head.cell(i - 1, column)) ? 0 : 1;
            }
        }
        return changes >= 1 && changes * 2 > same;
    }
}
