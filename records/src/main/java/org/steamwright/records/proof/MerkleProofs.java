package org.steamwright.records.proof;

import java.util.ArrayList;
import java.util.List;

/**
 * Makes and checks proofs. Checking needs the proof and the heads alone; making needs the roots of complete subtrees.
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
