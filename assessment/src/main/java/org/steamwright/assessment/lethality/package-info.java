/**
 * Lethality: the time at a reference temperature that would have done the same.
 *
 * <p>Never without reference temperature and z, and never able to turn a fail into a pass: no criterion
 * reads it. Start at {@link org.steamwright.assessment.lethality.Lethality}.
 */
@NullMarked
package org.steamwright.assessment.lethality;

import org.jspecify.annotations.NullMarked;
