package org.steamwright.records.verify;

import java.util.List;
import org.steamwright.records.proof.TreeHead;

/**
 * What was looked at and what was found.
 *
 * @param head of the journal as computed anew from its entries
 * @param entries journal entries looked at
 * @param facts facts looked at
 * @param files files hashed
 * @param issues signed issues checked
 * @param reassessed issues whose result was computed again
 * @param notReassessed issues whose version of the assessment is not at hand; not counted as equal
 * @param differences everything that is not as it was kept
 * @param remarks what should be known and is no damage
 */
public record Verification(
        TreeHead head,
        long entries,
        long facts,
        long files,
        long issues,
        long reassessed,
        long notReassessed,
        List<Difference> differences,
        List<String> remarks) {

    public Verification {
        differences = List.copyOf(differences);
        remarks = List.copyOf(remarks);
    }

    /** Whether nothing differs. What was not computed again is not vouched for: see {@link #notReassessed}. */
    public boolean isGood() {
        return differences.isEmpty();
    }
}
