/**
 * Recordings from delimited text, in the dialects that loggers write.
 *
 * <p>Decides what the bytes are (encoding) and what stands between the cells (delimiter), each explained in one line; what
 * the cells mean is decided in {@link org.steamwright.intake.table}. Refuses to guess: what is open is asked. Start at
 * {@link org.steamwright.intake.csv.CsvRecordings}.
 */
@NullMarked
package org.steamwright.intake.csv;

import org.jspecify.annotations.NullMarked;
