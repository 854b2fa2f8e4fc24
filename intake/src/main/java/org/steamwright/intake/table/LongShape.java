package org.steamwright.intake.table;

import java.util.List;

/**
 * Where things stand in a table that has one row for each reading.
 *
 * @param time columns of the time: one, or that of the date and that of the time
 * @param channel column that says whose reading it is
 * @param value column of the reading
 * @param unit column of its unit, -1 if there is none
 * @param channelName what the channel is called if the column only numbers it; empty text if it names it
 * @param valueUnit unit that the header states for the readings; empty text if it does not
 * @param header cells of the header; empty if there is none
 * @param headerLine line of the header, 0 if there is none
 * @param unitLine line of a row of units below it, 0 if there is none
 * @param firstDataLine line of the first reading
 */
record LongShape(
        List<Integer> time,
        int channel,
        int value,
        int unit,
        String channelName,
        String valueUnit,
        List<String> header,
        int headerLine,
        int unitLine,
        int firstDataLine) {

    LongShape {
        time = List.copyOf(time);
        header = List.copyOf(header);
    }

    boolean hasTime(Row row) {
        for (int c : time) {
            if (row.isEmpty(c)) {
                return false;
            }
        }
        return true;
    }

    /** The time as written. */
    String time(Row row) {
        return time.size() == 1 ? row.text(time.get(0)) : row.text(time.get(0)) + " " + row.text(time.get(1));
    }

    /** What the header calls a column. */
    String name(int column) {
        return Sentence.of("%s \"%s\"", column + 1, column < header.size() ? header.get(column) : "");
    }
}
