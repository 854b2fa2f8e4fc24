package org.steamwright.assessment.criteria;

import java.util.Optional;
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
        Extreme highest = Extreme.highest(evidence.measured(), stretch);
        Figure figure = Figure.withDoubt(
                highest.value(),
                highest.channel().expanded().value(),
                Unit.CELSIUS,
                "expanded uncertainty of the channel");
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
