/**
 * How long a record has to be kept.
 *
 * <p>Decides nothing about deletion: the program has no way to delete a fact or a file, and a date that has passed only
 * says that no rule of the list asks for more. Rules are data with their sources, editable beside the program; the longest
 * applicable wins. Start at {@link org.steamwright.records.retention.Retention}.
 */
@NullMarked
package org.steamwright.records.retention;

import org.jspecify.annotations.NullMarked;
