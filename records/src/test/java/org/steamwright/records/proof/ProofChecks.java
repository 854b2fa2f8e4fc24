package org.steamwright.records.proof;

import java.util.ArrayList;
import java.util.List;

/**
 * Checks proofs as whoever was given them would: from the proof and the heads alone.
 *
 * @source RFC 9162, sections 2.1.3.2 (inclusion) and 2.1.4.2 (consistency); from memory, held to published vectors
 */
public final class ProofChecks {

    private ProofChecks() {}

    /** Whether the entry with that hash stood in the journal with that head. */
    public static boolean isIncluded(InclusionProof proof, Hash leaf, TreeHead head) {
        if (proof.size() != head.size()) {
            return false;
        }
        long at = proof.index();
        long last = proof.size() - 1;
        Hash hash = leaf;
        for (Hash neighbour : proof.path()) {
            if (last == 0) {
                return false;
            }
            if ((at & 1) == 1 || at == last) {
                hash = Hash.ofNode(neighbour, hash);
                while ((at & 1) == 0 && at != 0) {
                    at >>= 1;
                    last >>= 1;
                }
            } else {
                hash = Hash.ofNode(hash, neighbour);
            }
            at >>= 1;
            last >>= 1;
        }
        return last == 0 && hash.equals(head.root());
    }

    /** Whether the journal of the second head begins with the journal of the first. */
    public static boolean isConsistent(ConsistencyProof proof, TreeHead first, TreeHead second) {
        if (proof.first() != first.size() || proof.second() != second.size()) {
            return false;
        }
        if (first.size() == 0) {
            return proof.path().isEmpty() && first.equals(TreeHead.EMPTY);
        }
        if (first.size() == second.size()) {
            return proof.path().isEmpty() && first.root().equals(second.root());
        }
        List<Hash> path = new ArrayList<>(proof.path());
        if (Long.bitCount(first.size()) == 1) {
            path.add(0, first.root());
        }
        if (path.isEmpty()) {
            return false;
        }
        long at = first.size() - 1;
        long last = second.size() - 1;
        while ((at & 1) == 1) {
            at >>= 1;
            last >>= 1;
        }
        Hash shorter = path.get(0);
        Hash longer = path.get(0);
        for (Hash neighbour : path.subList(1, path.size())) {
            if (last == 0) {
                return false;
            }
            if ((at & 1) == 1 || at == last) {
                shorter = Hash.ofNode(neighbour, shorter);
                longer = Hash.ofNode(neighbour, longer);
                while ((at & 1) == 0 && at != 0) {
                    at >>= 1;
                    last >>= 1;
                }
            } else {
                longer = Hash.ofNode(longer, neighbour);
            }
            at >>= 1;
            last >>= 1;
        }
        return last == 0 && shorter.equals(first.root()) && longer.equals(second.root());
    }
}
