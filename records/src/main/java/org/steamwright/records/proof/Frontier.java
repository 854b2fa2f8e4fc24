package org.steamwright.records.proof;

import java.util.ArrayList;
import java.util.List;

/**
 * The right edge of a growing Merkle tree: the roots of its complete subtrees, largest first. Adding an entry costs as many
 * hashes as there are trailing ones in the old size, one on the average.
 */
public final class Frontier {

    /** Hears of each subtree that an added entry completes, smallest first. */
    @FunctionalInterface
    public interface Completed {

        /**
         * @param level height, 0 for an entry
         * @param index place among the subtrees of that height
         * @param hash root of the subtree
         */
        void subtree(int level, long index, Hash hash);
    }

    private final List<Hash> peaks;
    private long size;

    /** Edge of a tree without entries. */
    public Frontier() {
        this(0, List.of());
    }

    /**
     * @param size number of entries
     * @param peaks roots of the complete subtrees, largest first: one for each one in the binary form of the size
     */
    public Frontier(long size, List<Hash> peaks) {
        if (peaks.size() != Long.bitCount(size)) {
            throw new IllegalArgumentException(
                    "%s entries have %s complete subtrees, not %s".formatted(size, Long.bitCount(size), peaks.size()));
        }
        this.size = size;
        this.peaks = new ArrayList<>(peaks);
    }

    /** A copy that can be added to without touching this one. */
    public Frontier copy() {
        return new Frontier(size, peaks);
    }

    /** Number of entries. */
    public long size() {
        return size;
    }

    /** Adds the hash of one entry. */
    public void add(Hash leaf, Completed completed) {
        Hash hash = leaf;
        long index = size;
        int level = 0;
        completed.subtree(0, index, hash);
        while ((index & 1) == 1) {
            hash = Hash.ofNode(peaks.remove(peaks.size() - 1), hash);
            index >>= 1;
            level++;
            completed.subtree(level, index, hash);
        }
        peaks.add(hash);
        size++;
    }

    /** Adds the hash of one entry. */
    public void add(Hash leaf) {
        add(leaf, (level, index, hash) -> {});
    }

    /** Head of the tree as it stands. */
    public TreeHead head() {
        if (peaks.isEmpty()) {
            return TreeHead.EMPTY;
        }
        Hash root = peaks.get(peaks.size() - 1);
        for (int i = peaks.size() - 2; i >= 0; i--) {
            root = Hash.ofNode(peaks.get(i), root);
        }
        return new TreeHead(size, root);
    }
}
