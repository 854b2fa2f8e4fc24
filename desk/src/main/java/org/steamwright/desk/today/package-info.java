/**
 * The first page: visits that are being written, indicators to read, what is due and what blocks.
 *
 * <p>It decides nothing. A visit stands here as long as it is not signed, with the first sentence of its answer and the points
 * that are open.
 */
@NullMarked
package org.steamwright.desk.today;

import org.jspecify.annotations.NullMarked;
