package org.steamwright.records.proof;

import java.util.ArrayList;
import java.util.List;

/**
 * Makes proofs, from the roots of complete subtrees. Checking one needs the proof and the heads alone and is for whoever was
 * given them: the tests hold a check of their own, which shares nothing with this but the hashes.
 *
 * @source RFC 9162, sections 2.1.3 (inclusion) and 2.1.4 (consistency); from memory, held to published vectors and to a naive
 *     re-computation in the tests
 */
public final class MerkleProofs {

    /** Roots of complete subtrees of a journal. */
    @FunctionalInterface
    public interface Subtrees {

        /**
         * Root of the complete subtree over the entries from {@code index << level}, {@code 1 << level} of them.
         *
         * @param level height, 0 for an entry
         * @param index place among the subtrees of that height
         */
        Hash root(int level, long index);
    }

    private MerkleProofs() {}

    /** The proof that entry {@code index} stands in the first {@code size} entries. */
    public static InclusionProof inclusion(long index, long size, Subtrees subtrees) {
        List<Hash> path = new ArrayList<>();
        long from = 0;
        long to = size;
        long at = new InclusionProof(index, size, List.of()).index();
        while (to - from > 1) {
            long middle = from + split(to - from);
            if (at < middle) {
                path.add(0, root(middle, to, subtrees));
                to = middle;
            } else {
                path.add(0, root(from, middle, subtrees));
                from = middle;
            }
        }
        return new InclusionProof(index, size, path);
    }

    /** The proof that the first {@code second} entries begin with the first {@code first}. */
    public static ConsistencyProof consistency(long first, long second, Subtrees subtrees) {
        List<Hash> path = new ArrayList<>();
        ConsistencyProof empty = new ConsistencyProof(first, second, path);
        if (first == 0 || first == second) {
            return empty;
        }
        long from = 0;
        long to = second;
        boolean isWhole = true;
        while (first != to) {
            long middle = from + split(to - from);
            if (first <= middle) {
                path.add(0, root(middle, to, subtrees));
                to = middle;
            } else {
                path.add(0, root(from, middle, subtrees));
                from = middle;
                isWhole = false;
            }
        }
        if (!isWhole) {
            path.add(0, root(from, to, subtrees));
        }
        return new ConsistencyProof(first, second, path);
    }

    /** Root over the entries from {@code from} to {@code to}, the last not included; {@code from} begins a subtree. */
    public static Hash root(long from, long to, Subtrees subtrees) {
        long count = to - from;
        if (Long.bitCount(count) == 1 && from % count == 0) {
            int level = Long.numberOfTrailingZeros(count);
            return subtrees.root(level, from >> level);
        }
        long middle = from + split(count);
        return Hash.ofNode(root(from, middle, subtrees), root(middle, to, subtrees));
    }

    /** The largest power of two below {@code count}. */
    private static long split(long count) {
        return Long.highestOneBit(count - 1);
    }
}
