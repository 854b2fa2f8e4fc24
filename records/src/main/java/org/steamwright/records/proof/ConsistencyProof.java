package org.steamwright.records.proof;

import java.util.List;

/**
 * That a longer journal begins with all entries of a shorter one, unaltered.
 *
 * @param first entries of the shorter journal
 * @param second entries of the longer one
 * @param path hashes from which both roots can be made
 * @source RFC 9162, section 2.1.4
 */
public record ConsistencyProof(long first, long second, List<Hash> path) {

    public ConsistencyProof {
        if (first < 0 || first > second) {
            throw new IllegalArgumentException("%s entries are no beginning of %s".formatted(first, second));
        }
        path = List.copyOf(path);
    }
}
