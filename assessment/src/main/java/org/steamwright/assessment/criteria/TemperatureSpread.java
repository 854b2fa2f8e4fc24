package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.OptionalDouble;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Stretch;

/** The largest difference between two judged points at one instant of the holding time. */
public final class TemperatureSpread implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.TEMPERATURE_SPREAD;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.judged().size() < 2) {
            return Findings.notApplicable(requirement, "Not assessed: a single point has no spread.");
        }
        if (evidence.holding().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no holding time.");
        }
        Stretch holding = evidence.holding().get();
        double widest = -1;
        double moment = holding.fromSeconds();
        CorrectedChannel coldest = evidence.judged().get(0);
        CorrectedChannel hottest = coldest;
        for (double instant : evidence.instants(holding)) {
            CorrectedChannel low = evidence.judged().get(0);
            CorrectedChannel high = low;
            double lowest = Double.POSITIVE_INFINITY;
            double highest = Double.NEGATIVE_INFINITY;
            for (CorrectedChannel channel : evidence.judged()) {
                double value = channel.valueAt(instant);
                if (value < lowest) {
                    lowest = value;
                    low = channel;
                }
                if (value > highest) {
                    highest = value;
                    high = channel;
                }
            }
            if (highest - lowest > widest) {
                widest = highest - lowest;
                moment = instant;
                coldest = low;
                hottest = high;
            }
        }
        Figure figure =
                Figure.withDoubt(widest, DifferenceDoubt.of(coldest, hottest), Unit.KELVIN, DifferenceDoubt.BASIS);
        Evidence place = new Evidence(
                List.of(coldest.name(), hottest.name()),
                OptionalDouble.of(holding.fromSeconds()),
                OptionalDouble.of(holding.toSeconds()),
                OptionalDouble.of(moment));
        String sentence = "The points lay at most %s apart, at %s: channel %s was coldest, %s hottest."
                .formatted(
                        Figures.shown(widest, Unit.KELVIN, Comparison.AT_MOST),
                        Figures.moment(moment),
                        coldest.name(),
                        hottest.name());
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }
}
