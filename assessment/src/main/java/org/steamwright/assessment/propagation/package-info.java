/**
 * From the budgets of single readings to intervals of the figures that decide.
 *
 * <p>Says between which ends the truth of a figure is held to lie with a probability of 95 %, by the law
 * of propagation (JCGM 100) or by drawing (JCGM 101). Refuses to judge: limits and rules are the
 * criteria's. Start at {@link org.steamwright.assessment.propagation.Propagation}.
 */
@NullMarked
package org.steamwright.assessment.propagation;

import org.jspecify.annotations.NullMarked;
