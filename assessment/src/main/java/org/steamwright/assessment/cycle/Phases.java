package org.steamwright.assessment.cycle;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;

/**
 * The phases that were found.
 *
 * @param foundFrom the quantity they were found in
 * @param phases in order of time
 * @param pulses of the air removal, in order of time
 */
public record Phases(Quantity foundFrom, List<Phase> phases, List<Pulse> pulses) {

    public Phases {
        phases = List.copyOf(phases);
        pulses = List.copyOf(pulses);
    }

    /** The phase of that kind, if the cycle had one. */
    public Optional<Phase> find(Phase.Kind kind) {
        return phases.stream().filter(phase -> phase.kind() == kind).findFirst();
    }
}
