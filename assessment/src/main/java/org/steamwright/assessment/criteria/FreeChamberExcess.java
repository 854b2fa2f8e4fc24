package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.OptionalDouble;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * How far the free chamber rose above the reference measurement point.
 *
 * <p>A criteria set may allow more in the first minute of the plateau: figures of that minute are lowered by the difference
 * of the two limits before they are compared with the one that holds afterwards.
 */
public final class FreeChamberExcess implements Criterion<RunEvidence> {

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
        double allowance = firstMinuteAllowance(requirement);
        double worst = Double.NEGATIVE_INFINITY;
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double excess = 0;
        double moment = plateau.reachedSeconds();
        CorrectedChannel hottest = free.get(0);
        for (CorrectedChannel channel : free) {
            double doubt = DifferenceDoubt.of(channel, evidence.reference());
            double[] shifts = ClockDoubt.shifts(evidence.clockHalfWidth(channel, evidence.reference()));
            int to = channel.axis().indexAtOrBefore(plateau.endSeconds());
            for (int i = channel.axis().indexAtOrAfter(plateau.reachedSeconds()); i <= to; i++) {
                double seconds = channel.axis().at(i);
                double difference = channel.at(i) - evidence.reference().valueAt(seconds);
                double compared = seconds - plateau.reachedSeconds() <= FIRST_MINUTE_SECONDS
                        ? difference - allowance
                        : difference;
                if (Double.isNaN(compared)) {
                    continue;
                }
                double least = compared;
                double most = compared;
                for (double shift : shifts) {
                    if (seconds + shift < plateau.reachedSeconds() || seconds + shift > plateau.endSeconds()) {
                        continue;
                    }
                    double moved = compared
                            + evidence.reference().valueAt(seconds)
                            - evidence.reference().valueAt(seconds + shift);
                    // NaN, as in a gap, changes neither
                    least = moved < least ? moved : least;
                    most = moved > most ? moved : most;
                }
                low = Math.max(low, least - doubt);
                high = Math.max(high, most + doubt);
                if (compared > worst) {
                    worst = compared;
                    excess = difference;
                    moment = seconds;
                    hottest = channel;
                }
            }
        }
        if (Double.isInfinite(worst)) {
            return Findings.missing(requirement, "Not assessed: no sample of the free chamber lies in the plateau.");
        }
        Figure figure = new Figure(worst, low, high, Unit.KELVIN, DifferenceDoubt.BASIS)
                .withBudget(DifferenceDoubt.budget(hottest, evidence.reference()));
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
                        isFirstMinute && allowance > 0
                                ? ", in the first minute, where %s more are allowed"
                                        .formatted(Figures.shown(allowance, Unit.KELVIN))
                                : "");
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }

    /** By how much the limit of the first minute is wider than the one afterwards, in kelvin. */
    private static double firstMinuteAllowance(Requirement requirement) {
        if (requirement.limit().isEmpty() || requirement.secondLimit().isEmpty()) {
            return 0;
        }
        return requirement.secondLimit().get().value()
                - requirement.limit().get().value();
    }
}
