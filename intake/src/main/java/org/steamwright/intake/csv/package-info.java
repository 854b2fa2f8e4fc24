/**
 * Recordings from delimited text, in the dialects that loggers write.
 *
 * <p>A file is looked at twice: its head decides the layout (encoding, delimiter, decimal mark, header, meaning of each
 * column), then all rows are read by that layout. Each decision is explained in one line. What the file leaves open is
 * asked, what contradicts itself is refused; no row is dropped without a remark. Refuses to judge values: that a reading
 * is plausible is not decided here. Start at {@link org.steamwright.intake.csv.CsvRecordings}.
 */
@NullMarked
package org.steamwright.intake.csv;

import org.jspecify.annotations.NullMarked;
