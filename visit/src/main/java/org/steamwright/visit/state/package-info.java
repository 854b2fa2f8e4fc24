/**
 * Through which states a visit goes, and what has to be there for each step.
 *
 * <p>Decides what may follow what and what a step needs; keeps no record and signs nothing. Start at
 * {@link org.steamwright.visit.state.VisitState}.
 */
@NullMarked
package org.steamwright.visit.state;

import org.jspecify.annotations.NullMarked;
