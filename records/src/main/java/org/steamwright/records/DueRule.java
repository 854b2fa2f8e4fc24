package org.steamwright.records;

import java.util.List;

/** The domain's rule by which due dates follow from facts; a pure function. */
@FunctionalInterface
public interface DueRule {

    /** Nothing ever falls due. */
    DueRule NONE = (sterilizer, visits) -> List.of();

    /**
     * Due dates of a sterilizer.
     *
     * @param sterilizer with its facts
     * @param visits those that name it in their fact {@code sterilizer}, newest first
     * @return at most one for each reason
     */
    List<DueDate> due(Subject sterilizer, List<Subject> visits);
}
