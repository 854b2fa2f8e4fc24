/**
 * From the rows of a table to a recording, whatever file the rows came from.
 *
 * <p>A table is looked at twice: its head decides the layout (decimal mark, header, meaning of each column), then all
 * rows are read by that layout. Each decision is explained in one line. What the table leaves open is asked, what
 * contradicts itself is refused; no row is dropped without a remark. Knows no file format: a reader of one implements
 * {@link org.steamwright.intake.table.Table} and hands over cells of text. Start at {@link
 * org.steamwright.intake.table.TableRecordings}.
 */
@NullMarked
package org.steamwright.intake.table;

import org.jspecify.annotations.NullMarked;
