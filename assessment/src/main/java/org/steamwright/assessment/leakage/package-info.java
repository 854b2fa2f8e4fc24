/**
 * The air leakage test: pressure rise under vacuum.
 *
 * <p>Finds or takes the isolation, settling and measuring periods and gives the rate. Start at
 * {@link org.steamwright.assessment.leakage.LeakTest}.
 */
@NullMarked
package org.steamwright.assessment.leakage;

import org.jspecify.annotations.NullMarked;
