package org.steamwright.intake.table;

import org.steamwright.intake.UnreadableFileException;

/** Gets every row of a table in turn. */
public interface RowTaker {

    /**
     * Takes a row.
     *
     * @param row reused for the next one: take what you need
     * @return false if no more rows are wanted
     * @throws UnreadableFileException if the row shows that the file gives no recording
     */
    boolean take(Row row) throws UnreadableFileException;

    /** The mark in the numbers that are read out of the rows, so that a reader may read them on its way. */
    default char decimalMark() {
        return '.';
    }
}
