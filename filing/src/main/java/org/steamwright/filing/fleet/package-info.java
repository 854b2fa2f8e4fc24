/**
 * Figures of many visits beside each other: of one steriliser over the years, and of its family.
 *
 * <p>Decides which figure of a visit stands for it, and when a line through such figures meets its limit. Refuses to judge: a
 * trend is a reason to look, never a verdict. Start at {@link org.steamwright.filing.fleet.Trend}.
 */
@NullMarked
package org.steamwright.filing.fleet;

import org.jspecify.annotations.NullMarked;
