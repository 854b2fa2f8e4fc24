package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.OptionalDouble;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * How far the free chamber rose above the reference measurement point.
 *
 * <p>The first minute of the plateau is allowed {@link #FIRST_MINUTE_ALLOWANCE_KELVIN} more than the limit, so figures of
 * that minute are lowered by it before they are compared.
 */
public final class FreeChamberExcess implements Criterion<RunEvidence> {

    /**
     * By how much the limit is wider in the first 60 s of the plateau: 5 K instead of 2 K.
     *
     * @source EN 285 and HTM 01-01 part C as in the handbook, section 2, from memory, texts not seen
     */
    public static final double FIRST_MINUTE_ALLOWANCE_KELVIN = 3.0;

    private static final double FIRST_MINUTE_SECONDS = 60.0;

    @Override
    public CriterionId id() {
        return CriterionId.FREE_CHAMBER_EXCESS;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        List<CorrectedChannel> free = evidence.judged().stream()
                .filter(channel -> channel.role() == ChannelRole.FREE_CHAMBER && channel != evidence.reference())
                .toList();
        if (free.isEmpty() || !evidence.isReferenceDeclared()) {
            return Findings.notApplicable(
                    requirement,
                    "Not assessed: it takes a channel in the free chamber and one at the reference point.");
        }
        if (evidence.asRead().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no plateau.");
        }
        Plateau plateau = evidence.asRead().get();
        double worst = Double.NEGATIVE_INFINITY;
        double excess = 0;
        double moment = plateau.reachedSeconds();
        CorrectedChannel hottest = free.get(0);
        for (CorrectedChannel channel : free) {
            int to = channel.axis().indexAtOrBefore(plateau.endSeconds());
            for (int i = channel.axis().indexAtOrAfter(plateau.reachedSeconds()); i <= to; i++) {
                double seconds = channel.axis().at(i);
                double difference = channel.at(i) - evidence.reference().valueAt(seconds);
                double compared = seconds - plateau.reachedSeconds() <= FIRST_MINUTE_SECONDS
                        ? difference - FIRST_MINUTE_ALLOWANCE_KELVIN
                        : difference;
                if (compared > worst) {
                    worst = compared;
                    excess = difference;
                    moment = seconds;
                    hottest = channel;
                }
            }
        }
        Figure figure = Figure.withDoubt(
                worst, DifferenceDoubt.of(hottest, evidence.reference()), Unit.KELVIN, DifferenceDoubt.BASIS);
        Evidence place = new Evidence(
                List.of(hottest.name()),
                OptionalDouble.of(plateau.reachedSeconds()),
                OptionalDouble.of(plateau.endSeconds()),
                OptionalDouble.of(moment));
        boolean isFirstMinute = moment - plateau.reachedSeconds() <= FIRST_MINUTE_SECONDS;
        String sentence = "Channel %s stood %s above the reference measurement point at %s%s."
                .formatted(
                        hottest.name(),
                        Figures.shown(excess, Unit.KELVIN, Comparison.AT_MOST),
                        Figures.moment(moment),
                        isFirstMinute ? ", in the first minute, where 3 K more are allowed" : "");
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }
}
