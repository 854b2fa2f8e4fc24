/**
 * The visit folder: {@code visit.yaml} and the recordings beside it, read into a visit; and a single recording without one.
 *
 * <p>Decides what the words of the file mean and which column of which recording is which channel. Refuses to guess: a
 * quantity without its unit, a pressure of unknown kind, a name that leads nowhere are problems with a line and a remedy, and all
 * problems of a file are told at once. It judges nothing and writes nothing. Start at
 * {@link org.steamwright.intake.folder.VisitFolder}; the accepted keys are listed in
 * {@code org.steamwright.intake.folder.Shape} and described in {@code visit.schema.json}. What is wrong is a
 * {@link org.steamwright.intake.folder.Problem} with a {@link org.steamwright.intake.folder.Flaw}: data, and said for the file.
 */
@NullMarked
package org.steamwright.intake.folder;

import org.jspecify.annotations.NullMarked;
