/**
 * The tables under the record, on either engine.
 *
 * <p>Decides how a submission becomes durable in one transaction: entries, tree, facts, and what is derived from them.
 * Refuses to start where the engine does not promise to keep what it acknowledged. Everything here is internal to the
 * module. Start at {@link org.steamwright.records.store.Ledger}, then {@link org.steamwright.records.store.Database}.
 */
@NullMarked
package org.steamwright.records.store;

import org.jspecify.annotations.NullMarked;
