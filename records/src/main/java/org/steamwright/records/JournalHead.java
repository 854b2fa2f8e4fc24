package org.steamwright.records;

import java.time.Instant;
import org.steamwright.records.proof.TreeHead;

/**
 * The journal as it stood after a submission: what is printed on documents and kept elsewhere.
 *
 * @param tree number of entries and the hash over all of them
 * @param at when the last of them was made
 */
public record JournalHead(TreeHead tree, Instant at) {

    /** Before the first entry. */
    public static final JournalHead EMPTY = new JournalHead(TreeHead.EMPTY, Instant.EPOCH);
}
