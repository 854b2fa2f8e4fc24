/**
 * Copies of the record: backup, restore, and an export that is readable without the program.
 *
 * <p>Decides that a copy is called good only after it was opened, walked and compared with the head it was made at. Refuses
 * to write over anything. A backup is always one folder with a SQLite file, whatever engine it came from, so that it can be
 * opened on any computer. Start at {@link org.steamwright.records.backup.Backup}, then {@link
 * org.steamwright.records.backup.PlainExport}.
 */
@NullMarked
package org.steamwright.records.backup;

import org.jspecify.annotations.NullMarked;
