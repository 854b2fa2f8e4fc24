/**
 * The register of an office from files and to files: {@code register.yaml}, tables of machines, and the two data files it is used with.
 *
 * <p>Decides what their words mean and refuses to guess: all problems of a file are told at once, a row that can't be
 * understood is refused whole. Changes nothing by itself: a table gives a list of changes that somebody applies. Start at
 * {@link org.steamwright.intake.register.RegisterFile}.
 */
@NullMarked
package org.steamwright.intake.register;

import org.jspecify.annotations.NullMarked;
