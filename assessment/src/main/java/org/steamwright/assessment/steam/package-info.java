/**
 * Saturated steam: pressure and temperature of the boiling line, and what air does to it.
 *
 * <p>Two formulas are offered, because documents use both; which one was used is part of every result.
 * Start at {@link org.steamwright.assessment.steam.SaturationCurve}.
 */
@NullMarked
package org.steamwright.assessment.steam;

import org.jspecify.annotations.NullMarked;
