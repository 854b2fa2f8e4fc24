/**
 * What every reader of files shares: the choices that settle a doubt, the questions that ask for one, and the messages.
 *
 * <p>Decides how a unit is spelled in a file and how trouble is told: what was found, where, what was expected and how to
 * mend it. Refuses to guess: what a file leaves open is a {@link org.steamwright.intake.Question} until a {@link
 * org.steamwright.intake.ReadingChoices} answers it. Never writes, but for a reading profile that is to be kept. Start at {@link
 * org.steamwright.intake.Recordings}.
 */
@NullMarked
package org.steamwright.intake;

import org.jspecify.annotations.NullMarked;
