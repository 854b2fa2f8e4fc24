/**
 * Proofs about the journal as a Merkle tree.
 *
 * <p>Makes what shows that an entry stood in the journal of which a head was printed, and that a longer journal still begins
 * with the shorter one. Needs nothing but the JDK, no store and no file, so that anybody can compute a printed head with it.
 * Refuses to decide who wrote an entry: that is said by signatures. Start at {@link
 * org.steamwright.records.proof.MerkleProofs}, then {@link org.steamwright.records.proof.Frontier}.
 */
@NullMarked
package org.steamwright.records.proof;

import org.jspecify.annotations.NullMarked;
