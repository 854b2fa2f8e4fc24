package org.steamwright.records.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.proof.Frontier;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.MerkleProofs;

/**
 * The Merkle tree in the tables: hashes of entries, and of every fourth level above them. Any other complete subtree follows
 * from at most eight of these, so a proof costs a few dozen rows and the tree a sixteenth of the journal.
 */
public final class TreeTable {

    /** Levels between two that are kept. */
    public static final int STEP = 4;

    static final String INSERT = "insert into tree (level, place, hash) values (?, ?, ?)";

    private TreeTable() {}

    /** The right edge of the tree over the first {@code size} entries. */
    static Frontier frontier(Session session, long size) throws SQLException {
        List<Hash> peaks = new ArrayList<>();
        long from = 0;
        for (int level = Long.SIZE - 2; level >= 0; level--) {
            if ((size >> level & 1) == 1) {
                peaks.add(root(session, level, from >> level));
                from += 1L << level;
            }
        }
        return new Frontier(size, peaks);
    }

    /** Root of a complete subtree. */
    static Hash root(Session session, int level, long place) throws SQLException {
        int kept = level - level % STEP;
        long width = 1L << (level - kept);
        long first = place << (level - kept);
        List<Hash> row = kept == 0
                ? session.list(
                        result -> Hash.ofBytes(result.getBytes(1)),
                        "select hash from journal where nr >= ? and nr < ? order by nr",
                        first,
                        first + width)
                : session.list(
                        result -> Hash.ofBytes(result.getBytes(1)),
                        "select hash from tree where level = ? and place >= ? and place < ? order by place",
                        (long) kept,
                        first,
                        first + width);
        if (row.size() != width) {
            throw new RecordsException(
                    RecordsMessage.STORE_DAMAGED,
                    "the tree over the journal lacks hashes of level %s from place %s. Don't write to the store; verify it, and restore the last good backup to a new place."
                            .formatted(kept, first));
        }
        while (row.size() > 1) {
            List<Hash> above = new ArrayList<>();
            for (int i = 0; i < row.size(); i += 2) {
                above.add(Hash.ofNode(row.get(i), row.get(i + 1)));
            }
            row = above;
        }
        return row.get(0);
    }

    /** The tree as the proofs want it. */
    static MerkleProofs.Subtrees subtrees(Session session) {
        return (level, place) -> {
            try {
                return root(session, level, place);
            } catch (SQLException e) {
                throw new RecordsException(
                        RecordsMessage.STORE_DAMAGED, "the tree over the journal can't be read: " + e.getMessage(), e);
            }
        };
    }
}
