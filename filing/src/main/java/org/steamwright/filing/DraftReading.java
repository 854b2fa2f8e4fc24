package org.steamwright.filing;

import java.util.List;
import java.util.Optional;
import org.steamwright.visit.AssessedVisit;

/**
 * What reading a visit gives that is being written. Both stand where all problems are entries that are not finished, or runs
 * whose recordings can't be assessed yet: it is assessed without them, and can't be signed.
 *
 * @param problems for which it can't be assessed yet, or not as a whole; empty if it can
 * @param assessed what follows from it, or from all of it that is finished; empty if nothing does
 */
public record DraftReading(List<DraftProblem> problems, Optional<AssessedVisit> assessed) {

    public DraftReading {
        problems = List.copyOf(problems);
        if (problems.isEmpty() && assessed.isEmpty()) {
            throw new IllegalArgumentException("a visit is assessed or has problems");
        }
    }

    /** Whether all of it was assessed. */
    public boolean isWhole() {
        return problems.isEmpty();
    }
}
