package org.steamwright.assessment.criteria;

import java.util.List;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;

/**
 * How long after the reference measurement point every other point reached the sterilization temperature.
 *
 * <p>Sampled moments decide. The true time may differ by one sampling interval either way, which is part of the doubt; too
 * long an interval for the limit leaves it open ({@link SamplingDoubt}).
 */
public final class EquilibrationTime implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.EQUILIBRATION_TIME;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (!evidence.isReferenceDeclared()) {
            return Findings.missing(
                    requirement, "Not assessed: no channel was declared at the reference measurement point.");
        }
        if (evidence.asRead().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no plateau.");
        }
        Plateau plateau = evidence.asRead().get();
        if (plateau.equilibratedSeconds().isEmpty()) {
            String late = plateau.latecomers().isEmpty()
                    ? "The points never stood at %s °C together."
                            .formatted(Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS))
                    : "Channel %s never reached %s °C during the plateau."
                            .formatted(
                                    String.join(", ", plateau.latecomers()),
                                    Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS));
            Evidence absence = Evidence.stretch(plateau.latecomers(), plateau.reachedSeconds(), plateau.endSeconds());
            return ClockDoubt.isAbsenceOpen(evidence, plateau.latecomers())
                    ? Findings.invalid(requirement, absence, late + " " + ClockDoubt.sentence(Double.POSITIVE_INFINITY))
                    : Findings.failed(requirement, absence, late);
        }
        double seconds = plateau.equilibrationSeconds().orElseThrow();
        double clocks = evidence.clockHalfWidth(evidence.judged());
        Figure figure = ArrivalDoubt.figure(
                seconds,
                evidence.longestInterval(),
                evidence.lowered().flatMap(Plateau::equilibrationSeconds),
                evidence.raised().flatMap(Plateau::equilibrationSeconds),
                clocks);
        Crossing last = last(plateau);
        Evidence place = Evidence.at(
                last.channel(), plateau.equilibratedSeconds().get(), plateau.reachedSeconds(), plateau.endSeconds());
        String sentence = seconds > 0
                ? "Every point stood at temperature %s after the reference measurement point; channel %s came last."
                        .formatted(Figures.shown(seconds, Unit.SECONDS, Comparison.AT_MOST), last.channel())
                : "Every point was at temperature when the reference measurement point reached it.";
        if (requirement.limit().isEmpty()) {
            return Findings.reported(requirement, figure, place, sentence);
        }
        // readings that flicker around the limit make it later than the last first arrival
        double flicker = Math.max(0, seconds - ClockDoubt.latest(evidence, plateau, evidence.judged(), 0));
        return ClockDoubt.settled(
                SamplingDoubt.settled(
                        Findings.judged(requirement, requirement.limit().get(), figure, place, sentence),
                        requirement.limit(),
                        seconds,
                        evidence.longestInterval()),
                requirement.limit(),
                flicker + ClockDoubt.latest(evidence, plateau, evidence.judged(), -1),
                flicker + ClockDoubt.latest(evidence, plateau, evidence.judged(), 1),
                clocks);
    }

    private static Crossing last(Plateau plateau) {
        List<Crossing> crossings = plateau.crossings();
        Crossing last = crossings.get(0);
        for (Crossing crossing : crossings) {
            if (crossing.sampleSeconds() > last.sampleSeconds()) {
                last = crossing;
            }
        }
        return last;
    }
}
