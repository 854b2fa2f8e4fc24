package org.steamwright.filing;

import java.util.List;
import java.util.Optional;
import org.steamwright.visit.AssessedVisit;

/**
 * What reading a visit gives that is being written.
 *
 * @param problems for which it can't be assessed yet; empty if it can
 * @param assessed what follows from it; empty if there are problems
 */
public record DraftReading(List<DraftProblem> problems, Optional<AssessedVisit> assessed) {

    public DraftReading {
        problems = List.copyOf(problems);
        if (problems.isEmpty() != assessed.isPresent()) {
            throw new IllegalArgumentException("a visit is either assessed or has problems");
        }
    }

    static DraftReading of(AssessedVisit assessed) {
        return new DraftReading(List.of(), Optional.of(assessed));
    }

    static DraftReading of(List<DraftProblem> problems) {
        return new DraftReading(problems, Optional.empty());
    }
}
