/**
 * Uncertainty budgets in the manner of JCGM 100.
 *
 * <p>Decides how contributions combine and how a coverage factor is found. Refuses to guess a
 * contribution that nobody declared. Start at {@link org.steamwright.assessment.uncertainty.Budget}.
 */
@NullMarked
package org.steamwright.assessment.uncertainty;

import org.jspecify.annotations.NullMarked;
