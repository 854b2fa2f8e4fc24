package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.trace.ChannelRole;

/** How long after the reference measurement point the challenge pack reached the sterilization temperature. */
public final class PenetrationTime implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.PENETRATION_TIME;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        List<CorrectedChannel> inPacks = evidence.judged().stream()
                .filter(channel -> channel.role() == ChannelRole.CHALLENGE_PACK)
                .toList();
        List<String> packs = inPacks.stream().map(CorrectedChannel::name).toList();
        if (packs.isEmpty()) {
            return Findings.notApplicable(requirement, "Not assessed: no channel was declared in a challenge pack.");
        }
        if (!evidence.isReferenceDeclared()) {
            return Findings.missing(
                    requirement, "Not assessed: no channel was declared at the reference measurement point.");
        }
        if (evidence.asRead().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no plateau.");
        }
        Plateau plateau = evidence.asRead().get();
        List<String> late =
                packs.stream().filter(plateau.latecomers()::contains).toList();
        if (!late.isEmpty()) {
            Evidence absence = Evidence.stretch(late, plateau.reachedSeconds(), plateau.endSeconds());
            String never = "The challenge pack (channel %s) never reached %s °C during the plateau."
                    .formatted(
                            String.join(", ", late),
                            Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS));
            return ClockDoubt.isAbsenceOpen(evidence, late)
                    ? Findings.invalid(
                            requirement, absence, never + " " + ClockDoubt.sentence(Double.POSITIVE_INFINITY))
                    : Findings.failed(requirement, absence, never);
        }
        Crossing last = slowest(packs, plateau).orElseThrow();
        double seconds = last.sampleSeconds() - plateau.reachedSeconds();
        double clocks = evidence.clockHalfWidth(inPacks);
        Figure figure = ArrivalDoubt.figure(
                Math.max(0, seconds),
                evidence.longestInterval(),
                evidence.lowered().flatMap(p -> after(p, last.channel())),
                evidence.raised().flatMap(p -> after(p, last.channel())),
                clocks);
        Evidence place =
                Evidence.at(last.channel(), last.sampleSeconds(), plateau.reachedSeconds(), plateau.endSeconds());
        String sentence = seconds > 0
                ? "The challenge pack (channel %s) reached %s °C %s after the reference measurement point."
                        .formatted(
                                last.channel(),
                                Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS),
                                Figures.shown(seconds, Unit.SECONDS, Comparison.AT_MOST))
                : "The challenge pack (channel %s) was there with or before the reference measurement point."
                        .formatted(last.channel());
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : ClockDoubt.settled(
                        SamplingDoubt.settled(
                                Findings.judged(requirement, requirement.limit().get(), figure, place, sentence),
                                requirement.limit(),
                                Math.max(0, seconds),
                                evidence.longestInterval()),
                        requirement.limit(),
                        ClockDoubt.latest(evidence, plateau, inPacks, -1),
                        ClockDoubt.latest(evidence, plateau, inPacks, 1),
                        clocks);
    }

    private static Optional<Crossing> slowest(List<String> packs, Plateau plateau) {
        Optional<Crossing> slowest = Optional.empty();
        for (Crossing crossing : plateau.crossings()) {
            if (packs.contains(crossing.channel())
                    && (slowest.isEmpty()
                            || crossing.sampleSeconds() > slowest.get().sampleSeconds())) {
                slowest = Optional.of(crossing);
            }
        }
        return slowest;
    }

    private static Optional<Double> after(Plateau plateau, String channel) {
        return plateau.findCrossing(channel).map(crossing -> crossing.sampleSeconds() - plateau.reachedSeconds());
    }
}
