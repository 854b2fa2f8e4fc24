/**
 * The steriliser's own cycle numbers between arrival and departure: what each of them was.
 *
 * <p>Finds numbers that nobody explains and numbers that are claimed twice; asks nobody and guesses nothing. Start at
 * {@link org.steamwright.visit.cycles.CycleLedger}.
 */
@NullMarked
package org.steamwright.visit.cycles;

import org.jspecify.annotations.NullMarked;
