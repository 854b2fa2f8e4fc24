package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;

/** Whether any measured point rose above the sterilization temperature band at any time of the plateau. */
public final class HighestTemperature implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.HIGHEST_TEMPERATURE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        Optional<Plateau> plateau = evidence.asRead();
        if (plateau.isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no plateau.");
        }
        Stretch stretch =
                new Stretch(plateau.get().reachedSeconds(), plateau.get().endSeconds());
        Optional<Extreme> found = Extreme.findHighest(evidence.measured(), stretch);
        if (found.isEmpty()) {
            return Findings.missing(requirement, "Not assessed: no point has a sample in the plateau.");
        }
        Extreme highest = found.get();
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (CorrectedChannel channel : evidence.measured()) {
            double doubt = channel.expanded().value();
            double own = Extreme.findHighest(List.of(channel), stretch)
                    .map(Extreme::value)
                    .orElse(Double.NEGATIVE_INFINITY);
            low = Math.max(low, own - doubt);
            high = Math.max(high, own + doubt);
        }
        Figure figure = new Figure(
                highest.value(), low, high, Unit.CELSIUS, "expanded uncertainty of each channel; the worst end of any");
        Evidence place =
                Evidence.at(highest.channel().name(), highest.seconds(), stretch.fromSeconds(), stretch.toSeconds());
        String measured = "The highest reading of the plateau was %s, channel %s at %s"
                .formatted(
                        Figures.shown(highest.value(), Unit.CELSIUS, Comparison.AT_MOST),
                        highest.channel().name(),
                        Figures.moment(highest.seconds()));
        if (Double.isInfinite(evidence.band().highCelsius())) {
            return Findings.reported(
                    requirement, figure, place, measured + "; the criteria set states no upper limit of the band.");
        }
        Source source = evidence.limits()
                .flatMap(CriteriaSet.CycleLimits::bandWidth)
                .map(Limit::source)
                .orElse(requirement.source());
        Limit limit = new Limit(Comparison.AT_MOST, evidence.band().highCelsius(), Unit.CELSIUS, source);
        return Findings.judged(
                requirement,
                limit,
                figure,
                place,
                measured + "; the band ends at %s °C.".formatted(Figures.plain(limit.value(), Unit.CELSIUS)));
    }
}
