package org.steamwright.intake.table;

import java.util.List;

/**
 * The rows above the readings that name the columns.
 *
 * @param cells of the row with the names; empty if there is none
 * @param headings what each column's heading says
 * @param names what each column is called: each name once
 * @param nameRow row of the names in the head of the table, -1 if there is none
 * @param unitRow row of the units, -1 if there is none
 */
record TableHeader(List<String> cells, List<Heading> headings, List<String> names, int nameRow, int unitRow) {

    TableHeader {
        cells = List.copyOf(cells);
        headings = List.copyOf(headings);
        names = List.copyOf(names);
    }

    boolean isMissing() {
        return cells.isEmpty();
    }
}
