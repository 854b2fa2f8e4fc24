package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;

/**
 * The largest distance of any measured point from its own mean in the holding time.
 *
 * <p>One sensor is compared with itself, so its calibration cancels; what is left of the doubt strikes every reading anew:
 * resolution and noise.
 */
public final class TemperatureFluctuation implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.TEMPERATURE_FLUCTUATION;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.holding().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no holding time.");
        }
        Stretch holding = evidence.holding().get();
        Optional<ChannelStatistics> worst = Optional.empty();
        double low = 0;
        double high = 0;
        for (CorrectedChannel point : evidence.measured()) {
            Optional<ChannelStatistics> found = ChannelStatistics.find(point, holding);
            if (found.isEmpty()) {
                continue;
            }
            double fluctuation = found.get().fluctuation();
            double doubt = ofOneReading(point).expanded().value();
            low = Math.max(low, fluctuation - doubt);
            high = Math.max(high, fluctuation + doubt);
            if (worst.isEmpty() || fluctuation > worst.get().fluctuation()) {
                worst = found;
            }
        }
        if (worst.isEmpty()) {
            return Findings.missing(requirement, "Not assessed: no point has a sample in the holding time.");
        }
        return finding(
                requirement,
                worst.get(),
                new Figure(
                        worst.get().fluctuation(),
                        low,
                        high,
                        Unit.KELVIN,
                        "what strikes every reading anew; the calibration of each channel cancels"),
                holding);
    }

    /** What strikes every reading anew; the resolution alone where nothing else is known. */
    private static Budget ofOneReading(CorrectedChannel point) {
        String quantity = "one reading of " + point.name() + " against its mean";
        return point.budget()
                .map(budget -> budget.perReading(quantity))
                .orElseGet(() -> Budget.of(
                        quantity,
                        "K",
                        List.of(Contribution.resolution(
                                "resolution of the recording",
                                point.channel().column().resolution(),
                                "recording"))));
    }

    private static Finding finding(Requirement requirement, ChannelStatistics worst, Figure figure, Stretch holding) {
        Evidence place =
                Evidence.at(worst.channel(), worst.fluctuationSeconds(), holding.fromSeconds(), holding.toSeconds());
        String sentence = "Channel %s moved most: %s from its mean of %s, at %s."
                .formatted(
                        worst.channel(),
                        Figures.shown(worst.fluctuation(), Unit.KELVIN, Comparison.AT_MOST),
                        Figures.shown(worst.mean(), Unit.CELSIUS),
                        Figures.moment(worst.fluctuationSeconds()));
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }
}
