package org.steamwright.assessment.criteria;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.uncertainty.Contribution;

/**
 * The largest distance of any measured point from its own mean in the holding time.
 *
 * <p>One sensor is compared with itself, so its calibration cancels; what is left of the doubt is its resolution.
 */
public final class TemperatureFluctuation implements Criterion<RunEvidence> {

    private static final double COVERAGE_FACTOR = 2.0;

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
        double largest = -1;
        ChannelStatistics worst = ChannelStatistics.of(evidence.reference(), holding);
        CorrectedChannel channel = evidence.reference();
        for (CorrectedChannel point : evidence.measured()) {
            ChannelStatistics statistics = ChannelStatistics.of(point, holding);
            if (statistics.fluctuation() > largest) {
                largest = statistics.fluctuation();
                worst = statistics;
                channel = point;
            }
        }
        double resolution = channel.channel().column().resolution();
        Figure figure = Figure.withDoubt(
                worst.fluctuation(),
                COVERAGE_FACTOR
                        * Contribution.resolution("resolution", resolution, "recording")
                                .standardUncertainty(),
                Unit.KELVIN,
                "resolution of the channel; its calibration cancels");
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
