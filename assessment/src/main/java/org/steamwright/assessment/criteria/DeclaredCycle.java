package org.steamwright.assessment.criteria;

import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.cycle.CycleDefinition;

/** The source of limits that come from the declared cycle and not from a criteria set. */
final class DeclaredCycle {

    private DeclaredCycle() {}

    static Source source(CycleDefinition cycle) {
        return new Source(
                "cycle '" + cycle.name() + "' as declared for this visit",
                "",
                "",
                Provenance.USER,
                Confidence.HIGH,
                "from the maker's instructions or the steriliser's display");
    }
}
