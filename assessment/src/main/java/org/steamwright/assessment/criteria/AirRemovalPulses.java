package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.PhaseFinder;
import org.steamwright.assessment.cycle.Pulse;
import org.steamwright.assessment.trace.Quantity;

/**
 * Whether the chamber was evacuated as often and as deep as the cycle is declared to do before its plateau.
 *
 * <p>Counted in the recorded pressure only: without one, evacuations can be missed.
 */
public final class AirRemovalPulses implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.AIR_REMOVAL_PULSES;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.cycle().airRemovalPulses().isEmpty()) {
            return Findings.notApplicable(
                    requirement, "Not assessed: the cycle was declared without a number of evacuations.");
        }
        int declared = evidence.cycle().airRemovalPulses().getAsInt();
        if (declared == 0) {
            return Findings.notApplicable(requirement, "Not assessed: the cycle is declared without evacuation.");
        }
        if (evidence.phases().foundFrom() != Quantity.PRESSURE) {
            return Findings.missing(
                    requirement, "Not assessed: without a recorded pressure evacuations can not be counted.");
        }
        double deepEnough =
                evidence.cycle().pulseDepth().orElse(PhaseFinder.EVACUATION_SHARE * evidence.ambientKilopascal());
        double doubt = evidence.corrected().pressure().orElseThrow().expanded().value();
        List<Pulse> found = evidence.phases().pulses();
        Optional<Phase> stated = evidence.phases().findStated(Phase.Kind.AIR_REMOVAL);
        List<Pulse> pulses = stated.map(phase -> within(found, phase)).orElse(found);
        Limit limit = new Limit(Comparison.AT_LEAST, declared, Unit.COUNT, DeclaredCycle.source(evidence.cycle()));
        Figure figure = new Figure(
                deeper(pulses, deepEnough),
                deeper(pulses, deepEnough - doubt),
                deeper(pulses, deepEnough + doubt),
                Unit.COUNT,
                "pulses near the depth limit counted either way");
        String sentence = "%s of %s declared evacuations reached %s or deeper%s%s."
                        .formatted(
                                (int) figure.value(),
                                declared,
                                Figures.shown(deepEnough, Unit.KILOPASCAL),
                                stated.isPresent()
                                        ? " by the stated border, %s as found".formatted(deeper(found, deepEnough))
                                        : "",
                                pulses.isEmpty() ? "" : "; the shallowest stopped at " + shallowest(pulses))
                + StatedWords.of(evidence.phases(), Phase.Kind.AIR_REMOVAL);
        return Findings.judged(
                requirement,
                limit,
                figure,
                Evidence.stretch(
                        List.of(evidence.corrected().pressure().orElseThrow().name()),
                        stated.map(Phase::fromSeconds)
                                .orElse(evidence.reference().axis().first()),
                        stated.map(Phase::toSeconds)
                                .orElse(evidence.asRead()
                                        .map(plateau -> plateau.reachedSeconds())
                                        .orElse(evidence.reference().axis().last()))),
                sentence);
    }

    /** Pulses whose deepest moment lies in the phase, both ends in. */
    private static List<Pulse> within(List<Pulse> pulses, Phase phase) {
        return pulses.stream()
                .filter(pulse ->
                        pulse.depthSeconds() >= phase.fromSeconds() && pulse.depthSeconds() <= phase.toSeconds())
                .toList();
    }

    private static int deeper(List<Pulse> pulses, double kilopascal) {
        int count = 0;
        for (Pulse pulse : pulses) {
            if (pulse.depth() <= kilopascal) {
                count++;
            }
        }
        return count;
    }

    private static String shallowest(List<Pulse> pulses) {
        double highest = 0;
        for (Pulse pulse : pulses) {
            highest = Math.max(highest, pulse.depth());
        }
        return Figures.shown(highest, Unit.KILOPASCAL, Comparison.AT_MOST);
    }
}
