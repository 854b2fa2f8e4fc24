package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;

/**
 * What disagreeing clocks do to a figure that needs channels of several loggers.
 *
 * <p>Whatever rule the criteria set judges by, a clock's doubt is always counted: it is a doubt of the evidence and not of
 * the measurement. A figure that passes or fails only if the clocks are right to the second is invalid.
 */
final class ClockDoubt {

    private static final double[] NO_SHIFT = {0};

    private ClockDoubt() {}

    /** The finding, or invalid if the clocks leave it open. */
    static Finding settled(Finding finding, Optional<Limit> limit, double better, double worse, double halfWidth) {
        if (halfWidth == 0 || limit.isEmpty()) {
            return finding;
        }
        boolean isPassOpen = (finding.outcome() == Outcome.PASS || finding.outcome() == Outcome.UNDECIDED)
                && !limit.get().isMetBy(worse);
        boolean isFailOpen = finding.outcome() == Outcome.FAIL && limit.get().isMetBy(better);
        return isPassOpen || isFailOpen
                ? finding.revised(Outcome.INVALID, finding.sentence() + " " + sentence(halfWidth))
                : finding;
    }

    /** What the clocks leave, in a sentence. */
    static String sentence(double halfWidth) {
        return Double.isInfinite(halfWidth)
                ? "The clocks of these recordings were never compared, so this says nothing."
                : "The clocks of these recordings agree only within %s, which leaves it open."
                        .formatted(Figures.shown(halfWidth, Unit.SECONDS, Comparison.AT_MOST));
    }

    /** Words for the basis of a figure; blank on one clock. */
    static String basis(double halfWidth) {
        return halfWidth == 0
                ? ""
                : Double.isInfinite(halfWidth)
                        ? "; clocks never compared"
                        : ", and %s for the clocks"
                                .formatted(Figures.shown(halfWidth, Unit.SECONDS, Comparison.AT_MOST));
    }

    /** Moments beside one another that are compared, for channels whose clocks leave that half-width. */
    static double[] shifts(double halfWidth) {
        return halfWidth == 0 || Double.isInfinite(halfWidth)
                ? NO_SHIFT
                : new double[] {0, -halfWidth, -halfWidth / 2, halfWidth / 2, halfWidth};
    }

    /**
     * The latest arrival of some points after the reference point, in seconds, with the clock of every other logger moved by
     * its half-width.
     *
     * @param sign 1 for as late as the clocks allow, -1 for as early, 0 for as stamped
     */
    static double latest(RunEvidence evidence, Plateau plateau, List<CorrectedChannel> points, int sign) {
        double latest = 0;
        for (CorrectedChannel point : points) {
            Optional<Crossing> crossing = plateau.findCrossing(point.name());
            if (crossing.isPresent()) {
                double seconds = crossing.get().sampleSeconds() - plateau.reachedSeconds();
                double moved = sign == 0 ? 0 : sign * evidence.clockHalfWidth(evidence.reference(), point);
                latest = Math.max(latest, seconds + moved);
            }
        }
        return latest;
    }

    /** Whether points that never arrived were looked for in a plateau of which their own clock knows nothing. */
    static boolean isAbsenceOpen(RunEvidence evidence, List<String> absent) {
        return evidence.judged().stream()
                .filter(point -> absent.contains(point.name()))
                .filter(point -> Double.isInfinite(evidence.clockHalfWidth(evidence.reference(), point)))
                .anyMatch(point -> hasReached(point, evidence.band().lowCelsius()));
    }

    private static boolean hasReached(CorrectedChannel point, double celsius) {
        for (int i = 0; i < point.size(); i++) {
            if (point.at(i) >= celsius) {
                return true;
            }
        }
        return false;
    }
}
