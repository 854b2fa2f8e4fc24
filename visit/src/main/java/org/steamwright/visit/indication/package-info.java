/**
 * The steriliser's own indication held against the reference, and its steam penetration tests read together.
 *
 * <p>Decides whether what the display or the printout says can be believed within its tolerance. Changes no verdict of a
 * run. Start at {@link org.steamwright.visit.indication.IndicationCheck}.
 */
@NullMarked
package org.steamwright.visit.indication;

import org.jspecify.annotations.NullMarked;
