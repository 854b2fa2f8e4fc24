package org.steamwright.assessment.criteria;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;

/**
 * Whether any point dipped below the sterilization temperature while all stood together.
 *
 * <p>Looks from the first to the last steady stretch of all points, so that a dip counts even where the rest of the
 * holding time is long enough, and flicker at arrival does not. Doubt is taken by looking again with every point lowered
 * by its expanded uncertainty: the lowest reading itself always stands near the limit, because the first one in is.
 */
public final class LowestTemperature implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.LOWEST_TEMPERATURE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        Optional<Stretch> together = evidence.asRead().flatMap(Plateau::together);
        Optional<Extreme> found = together.flatMap(stretch -> Extreme.findLowest(evidence.judged(), stretch));
        if (together.isEmpty() || found.isEmpty()) {
            return Findings.missing(
                    requirement,
                    "Not assessed: there was no steady stretch with every point at %s °C."
                            .formatted(Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS)));
        }
        Extreme lowest = found.get();
        // lowered points that never stand together leave nothing that could be relied on
        double lowered = Double.isNaN(evidence.loweredLowest())
                ? lowest.value() - lowest.channel().expanded().value()
                : evidence.loweredLowest();
        Figure figure = new Figure(
                lowest.value(),
                Math.min(lowest.value(), lowered),
                lowest.value() + lowest.channel().expanded().value(),
                Unit.CELSIUS,
                "found again with every point lowered by its expanded uncertainty");
        Limit limit = new Limit(Comparison.AT_LEAST, evidence.band().lowCelsius(), Unit.CELSIUS, requirement.source());
        boolean isMet = limit.isMetBy(figure.value());
        String sentence = "%s was %s, channel %s at %s%s."
                .formatted(
                        isMet
                                ? "The lowest reading while all points stood together"
                                : "A point dipped: the lowest reading",
                        Figures.shown(lowest.value(), Unit.CELSIUS, Comparison.AT_LEAST),
                        lowest.channel().name(),
                        Figures.moment(lowest.seconds()),
                        isMet ? "" : "; %s °C are required".formatted(Figures.plain(limit.value(), Unit.CELSIUS)));
        return Findings.judged(
                requirement,
                limit,
                figure,
                Evidence.at(
                        lowest.channel().name(),
                        lowest.seconds(),
                        together.get().fromSeconds(),
                        together.get().toSeconds()),
                sentence);
    }

    /** Lowest value of any of the points while they stood together, in °C; NaN if they never stood together. */
    public static double lowestTogether(Iterable<CorrectedChannel> points, Optional<Plateau> plateau) {
        return plateau.flatMap(Plateau::together)
                .flatMap(together -> Extreme.findLowest(points, together))
                .map(Extreme::value)
                .orElse(Double.NaN);
    }
}
