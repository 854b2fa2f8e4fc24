package org.steamwright.assessment.cycle;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;

/**
 * The phases that were found, and beside them those that follow from borders which somebody stated.
 *
 * @param foundFrom the quantity they were found in
 * @param phases that were found, in order of time; whatever was stated
 * @param pulses of the air removal, in order of time
 * @param stated what follows from stated borders; empty if none were stated
 */
public record Phases(Quantity foundFrom, List<Phase> phases, List<Pulse> pulses, Optional<StatedPhases> stated) {

    /** Phases of which no border was stated. */
    public Phases(Quantity foundFrom, List<Phase> phases, List<Pulse> pulses) {
        this(foundFrom, phases, pulses, Optional.empty());
    }

    public Phases {
        phases = List.copyOf(phases);
        pulses = List.copyOf(pulses);
    }

    /** The phase of that kind, if the cycle had one. */
    public Optional<Phase> find(Phase.Kind kind) {
        return phases.stream().filter(phase -> phase.kind() == kind).findFirst();
    }

    /**
     * The same phases with stated borders beside them.
     *
     * @param borders may be empty
     * @param firstSeconds first sample of the recording
     * @param lastSeconds last sample
     */
    public Phases withStated(List<StatedBorder> borders, double firstSeconds, double lastSeconds) {
        return new Phases(
                foundFrom,
                phases,
                pulses,
                borders.isEmpty()
                        ? Optional.empty()
                        : Optional.of(StatedPhases.of(phases, borders, firstSeconds, lastSeconds)));
    }

    /** The phase as stated; empty if none of its borders was stated, or the borders can't stand. */
    public Optional<Phase> findStated(Phase.Kind kind) {
        return stated.filter(all -> !all.bordersOf(kind).isEmpty()).flatMap(all -> all.find(kind));
    }

    /** Moment of that border as it was found; empty if the phase was not found. */
    public Optional<Double> foundBorder(Phase.Kind kind, StatedBorder.End end) {
        return StatedPhases.whole(phases, kind)
                .map(phase -> end == StatedBorder.End.FROM ? phase.fromSeconds() : phase.toSeconds());
    }
}
