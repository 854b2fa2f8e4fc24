/**
 * The phases of a cycle and its plateau, found in the trace with the cycle's own definition.
 *
 * <p>Decides where things begin and end; judges nothing against a limit. Boundaries are the times of
 * real samples, interpolated crossings stand beside them for information only. Start at
 * {@link org.steamwright.assessment.cycle.PlateauFinder}.
 */
@NullMarked
package org.steamwright.assessment.cycle;

import org.jspecify.annotations.NullMarked;
