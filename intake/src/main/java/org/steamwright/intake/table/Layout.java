package org.steamwright.intake.table;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.quantity.TemperatureUnit;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.ElapsedUnit;
import org.steamwright.intake.MeasuringUnit;

/**
 * How the rows of a file are to be read.
 *
 * @param delimiter mark between cells
 * @param decimal mark in numbers
 * @param isGroupingProven whether the other mark is known to stand between thousands
 * @param firstDataLine line of the first row with readings
 * @param width cells that a full row has
 * @param header names as written, empty if the file has none
 * @param time where the time stands
 * @param readings the columns to read
 * @param words columns of words that are no readings
 * @param explanation one line per decision
 * @param remarks what was odd
 */
record Layout(
        char delimiter,
        DecimalMark decimal,
        boolean isGroupingProven,
        int firstDataLine,
        int width,
        List<String> header,
        Time time,
        List<Reading> readings,
        List<Words> words,
        List<String> explanation,
        List<Remark> remarks) {

    Layout {
        header = List.copyOf(header);
        readings = List.copyOf(readings);
        words = List.copyOf(words);
        explanation = List.copyOf(explanation);
        remarks = List.copyOf(remarks);
    }

    /** What the time column holds. */
    enum TimeKind {
        /** Date and time in one cell. */
        STAMP,
        /** Date in one cell, time in another. */
        DATE_AND_TIME,
        /** hh:mm:ss, of the day or elapsed; both give the same axis. */
        CLOCK,
        /** Plain numbers in a unit of time. */
        NUMBER
    }

    /**
     * Where the time stands.
     *
     * @param kind what the cells hold
     * @param column cell with the time, or the whole stamp
     * @param dateColumn cell with the date; equal to {@code column} unless the kind is DATE_AND_TIME
     * @param unit unit of plain numbers
     * @param isUtc whether the header says that the clock runs in UTC
     */
    record Time(TimeKind kind, int column, int dateColumn, ElapsedUnit unit, boolean isUtc) {
        /** The time of a row as written. */
        String text(Row row) {
            return dateColumn == column ? row.text(column) : row.text(dateColumn) + " " + row.text(column);
        }

        /** Whether every row tells its date. */
        boolean hasDate() {
            return kind == TimeKind.STAMP || kind == TimeKind.DATE_AND_TIME;
        }
    }

    /**
     * A column of words.
     *
     * @param cell its place in the row, from 0
     * @param where column number and name, for messages
     */
    record Words(int cell, String where) {}

    /**
     * A column to read.
     *
     * @param cell its place in the row, from 0
     * @param name unique in the file
     * @param unit of its numbers
     * @param reference absolute or gauge if known
     * @param where column number and name, for messages
     * @param isInside whether the unit is the program's own, so that nothing is converted
     */
    record Reading(
            int cell,
            String name,
            MeasuringUnit unit,
            Optional<PressureReference> reference,
            String where,
            boolean isInside) {

        Reading(int cell, String name, MeasuringUnit unit, Optional<PressureReference> reference, String where) {
            this(
                    cell,
                    name,
                    unit,
                    reference,
                    where,
                    unit.isSameUnitAs(MeasuringUnit.of(TemperatureUnit.CELSIUS))
                            || unit.isSameUnitAs(MeasuringUnit.of(PressureUnit.KILOPASCAL)));
        }
    }
}
