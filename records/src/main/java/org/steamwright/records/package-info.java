/**
 * What must not be lost: register, visits, signed issues and their files, for years.
 *
 * <p>Decides that a fact changes only through the journal, that acknowledged means kept, and that signed means fixed.
 * Refuses to interpret facts: the domain does that. Works on SQLite (one file, the default) and on PostgreSQL. Start at
 * {@link org.steamwright.records.Records}; signatures are in {@code signing}, the search for damage in {@code verify}.
 */
@NullMarked
package org.steamwright.records;

import org.jspecify.annotations.NullMarked;
