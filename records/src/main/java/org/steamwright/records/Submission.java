package org.steamwright.records;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.steamwright.records.proof.TreeHead;

/**
 * Changes that are kept together or not at all.
 *
 * @param id made by the sender; the same submission sent again is kept once
 * @param author who makes the changes
 * @param changes in order
 * @param expectedHead head that the journal has to have; empty if any will do
 */
public record Submission(UUID id, Author author, List<Change> changes, Optional<TreeHead> expectedHead) {

    public Submission {
        changes = List.copyOf(changes);
    }

    /** Changes that may follow any other. */
    public Submission(UUID id, Author author, List<Change> changes) {
        this(id, author, changes, Optional.empty());
    }
}
