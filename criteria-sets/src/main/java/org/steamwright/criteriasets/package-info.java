/**
 * The preset criteria sets as data files, and the reader of a user's own.
 *
 * <p>Decides what a file may say and in which unit; refuses what it does not know, with file, line and
 * remedy. It judges nothing, and its presets are editable defaults with a label of provenance each, never
 * quotations from a licensed document. Start at {@link org.steamwright.criteriasets.Presets}.
 */
@NullMarked
package org.steamwright.criteriasets;

import org.jspecify.annotations.NullMarked;
