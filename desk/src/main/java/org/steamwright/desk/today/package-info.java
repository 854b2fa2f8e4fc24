/** The first page: visits that are being written, indicators to read, what is due and what blocks. */
@NullMarked
package org.steamwright.desk.today;

import org.jspecify.annotations.NullMarked;
