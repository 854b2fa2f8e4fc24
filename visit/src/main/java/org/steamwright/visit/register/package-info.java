/**
 * Who and what the work is about: as found at one visit, and as the office keeps it through all of them.
 *
 * <p>Holds identities and histories, counts cycles through resets, and compares a table of machines with what is kept.
 * Decides nothing about dates: that is {@code org.steamwright.visit.due}. For a visit start at
 * {@link org.steamwright.visit.register.Sterilizer}, for the office at {@link org.steamwright.visit.register.Register}.
 */
@NullMarked
package org.steamwright.visit.register;

import org.jspecify.annotations.NullMarked;
