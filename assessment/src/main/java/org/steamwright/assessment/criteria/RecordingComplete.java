package org.steamwright.assessment.criteria;

import java.util.List;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.PlateauFinder;

/**
 * Whether the recording shows the whole cycle: the reference point colder than steam before the plateau, and below the
 * sterilization temperature again after.
 *
 * <p>A recording that ends in the hold can't show what came next, however good it looks up to there.
 */
public final class RecordingComplete implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.RECORDING_COMPLETE;
    }

    /** How near to its highest value a recording without a plateau may not end, in kelvin. Own choice, no source. */
    private static final double STILL_HOT_KELVIN = 5.0;

    /** A chamber hotter than this was heated before the recording began, in °C. Own choice, no source. */
    private static final double STEAM_CELSIUS = 100.0;

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        CorrectedChannel reference = evidence.reference();
        double first = reference.axis().first();
        double last = reference.axis().last();
        Evidence whole = Evidence.stretch(List.of(reference.name()), first, last);
        if (evidence.asRead().isEmpty()) {
            double highest = highest(reference);
            double end = lastValue(reference);
            if (highest > STEAM_CELSIUS && end > highest - STILL_HOT_KELVIN) {
                return Findings.invalid(
                        requirement,
                        whole,
                        "The recording ends at %s while the chamber is still at its hottest, %s. Record until the end of the cycle."
                                .formatted(Figures.moment(last), Figures.shown(end, Unit.CELSIUS)));
            }
            return Findings.met(
                    requirement,
                    whole,
                    "The recording runs from %s to %s and ends cooler than it was."
                            .formatted(Figures.moment(first), Figures.moment(last)));
        }
        Plateau plateau = evidence.asRead().get();
        if (plateau.reachedSeconds() <= first) {
            return Findings.invalid(
                    requirement,
                    whole,
                    "The recording begins at sterilization temperature: when the plateau began can not be known. Start the recording before the cycle.");
        }
        if (!hasBegunBefore(evidence, plateau)) {
            return Findings.invalid(
                    requirement,
                    whole,
                    "The recording begins at %s with the chamber already at %s: what came before the plateau was not recorded. Start the recording before the cycle."
                            .formatted(Figures.moment(first), Figures.shown(reference.at(0), Unit.CELSIUS)));
        }
        double release = evidence.band().lowCelsius() - PlateauFinder.RELEASE_KELVIN;
        for (int i = reference.axis().indexAtOrAfter(plateau.endSeconds()); i < reference.size(); i++) {
            if (reference.at(i) < release) {
                return Findings.met(
                        requirement,
                        whole,
                        "The recording begins before the plateau and goes on until the chamber has cooled.");
            }
        }
        return Findings.invalid(
                requirement,
                whole,
                "The recording ends at %s while the chamber is still at sterilization temperature. Record until the end of the cycle."
                        .formatted(Figures.moment(last)));
    }

    /** Whether the reference point was seen below the plateau and colder than steam before it; a missing value is not. */
    private static boolean hasBegunBefore(RunEvidence evidence, Plateau plateau) {
        CorrectedChannel reference = evidence.reference();
        double begin = Math.min(evidence.band().lowCelsius(), STEAM_CELSIUS);
        int reached = reference.axis().indexAtOrAfter(plateau.reachedSeconds());
        for (int i = 0; i < reached; i++) {
            if (reference.at(i) < begin) {
                return true;
            }
        }
        return false;
    }

    private static double highest(CorrectedChannel channel) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < channel.size(); i++) {
            if (channel.at(i) > highest) {
                highest = channel.at(i);
            }
        }
        return highest;
    }

    private static double lastValue(CorrectedChannel channel) {
        int i = channel.size() - 1;
        while (i > 0 && Double.isNaN(channel.at(i))) {
            i--;
        }
        return channel.at(i);
    }
}
