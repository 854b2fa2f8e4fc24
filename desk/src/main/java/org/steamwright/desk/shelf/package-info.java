/** Visits as they follow from their facts, kept at hand as long as the facts stay the same. */
@NullMarked
package org.steamwright.desk.shelf;

import org.jspecify.annotations.NullMarked;
