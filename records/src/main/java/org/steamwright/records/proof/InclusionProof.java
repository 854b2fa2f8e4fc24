package org.steamwright.records.proof;

import java.util.List;

/**
 * That one entry stands at its place in a journal of a given size.
 *
 * @param index number of the entry, from 0
 * @param size entries of the journal
 * @param path hashes of the neighbours on the way from the entry to the root
 * @source RFC 9162, section 2.1.3
 */
public record InclusionProof(long index, long size, List<Hash> path) {

    public InclusionProof {
        if (index < 0 || index >= size) {
            throw new IllegalArgumentException("entry %s is not among %s entries".formatted(index, size));
        }
        path = List.copyOf(path);
    }
}
