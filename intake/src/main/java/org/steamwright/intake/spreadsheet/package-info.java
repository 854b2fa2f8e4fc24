/**
 * Recordings from workbooks (Office Open XML, .xlsx), read as they lie in the file.
 *
 * <p>Decides what may be unpacked at all, which sheet holds the recording, and how a cell is written as text: a day number
 * becomes a date and time, a number keeps its fifteen digits. Refuses to compute: of a formula only the value stored with
 * it is taken, and said to be so. Everything about columns, units, time and questions is decided by the same code that
 * reads delimited text. Start at {@link org.steamwright.intake.spreadsheet.SpreadsheetRecordings}.
 */
@NullMarked
package org.steamwright.intake.spreadsheet;

import org.jspecify.annotations.NullMarked;
