/**
 * Who and what a visit is about: clinic, sterilizer, people.
 *
 * <p>Holds identities as they were at the time of the visit. Decides nothing. Start at
 * {@link org.steamwright.visit.register.Sterilizer}.
 */
@NullMarked
package org.steamwright.visit.register;

import org.jspecify.annotations.NullMarked;
