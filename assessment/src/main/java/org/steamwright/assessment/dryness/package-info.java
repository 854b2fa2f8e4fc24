/**
 * Load dryness by mass.
 *
 * <p>Start at {@link org.steamwright.assessment.dryness.LoadDryness}.
 */
@NullMarked
package org.steamwright.assessment.dryness;

import org.jspecify.annotations.NullMarked;
