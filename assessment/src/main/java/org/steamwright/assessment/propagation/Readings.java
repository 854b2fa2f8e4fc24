package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.PlateauFinder;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.verdict.RunEvaluation;

/**
 * The readings of a thermometric run around its plateau, with what both ways of propagation need to know of them.
 *
 * <p>Points are numbered: measured points first, in the order of the trace, the theoretical temperature last if there is one.
 */
final class Readings {

    /** What is kept of the recording before and after the plateau, in seconds. */
    private static final double MARGIN_SECONDS = 90;

    private final List<CorrectedChannel> points = new ArrayList<>();
    private final int measured;
    private final int judged;
    private final int reference;
    private final Band band;
    private final Optional<Plateau> plateau;
    private final double[][] covariances;

    Readings(RunEvaluation evaluation) {
        CriteriaSet set = evaluation.criteriaSet();
        double sterilizing = evaluation.run().cycle().sterilizingTemperature().celsius();
        band = new Band(
                sterilizing,
                sterilizing
                        + set.findCycle(sterilizing)
                                .flatMap(CriteriaSet.CycleLimits::bandWidth)
                                .map(Limit::value)
                                .orElse(Double.POSITIVE_INFINITY));
        plateau = evaluation.plateau();
        points.addAll(evaluation.corrected().measuredInChamber());
        measured = points.size();
        int first = 0;
        for (int i = measured - 1; i >= 0; i--) {
            if (points.get(i).role() == ChannelRole.REFERENCE_POINT) {
                first = i;
            }
        }
        reference = first;
        evaluation.corrected().find(ChannelRole.THEORETICAL).ifPresent(points::add);
        judged = set.isTheoreticalInBand() ? points.size() : measured;
        plateau.ifPresent(found -> points.replaceAll(
                point -> trimmed(point, found.reachedSeconds() - MARGIN_SECONDS, found.endSeconds() + MARGIN_SECONDS)));
        covariances = new double[points.size()][points.size()];
        for (int i = 0; i < covariances.length; i++) {
            for (int j = 0; j < covariances.length; j++) {
                covariances[i][j] = covarianceOf(i, j);
            }
        }
    }

    private static CorrectedChannel trimmed(CorrectedChannel point, double fromSeconds, double toSeconds) {
        int from = point.axis().indexAtOrAfter(fromSeconds);
        int to = point.axis().indexAtOrBefore(toSeconds);
        int size = Math.max(1, to - from + 1);
        from = Math.min(from, point.size() - size);
        double[] seconds = new double[size];
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            seconds[i] = point.axis().at(from + i);
            values[i] = point.at(from + i);
        }
        Channel whole = point.channel();
        Column column = new Column(
                whole.column().name(),
                whole.column().quantity(),
                whole.column().reference(),
                whole.column().unitInFile(),
                values,
                whole.column().resolution());
        Channel part = new Channel(
                whole.name(),
                whole.role(),
                whole.position(),
                whole.instrument(),
                whole.reference(),
                TimeAxis.ofSeconds(seconds),
                column);
        return new CorrectedChannel(part, values, point.instrument(), point.budget());
    }

    /** Number of points, the theoretical temperature among them. */
    int size() {
        return points.size();
    }

    /** Number of measured points; they are the first. */
    int measured() {
        return measured;
    }

    /** Number of points that have to stand in the band; they are the first. */
    int judged() {
        return judged;
    }

    int reference() {
        return reference;
    }

    Band band() {
        return band;
    }

    /** As read. */
    Optional<Plateau> plateau() {
        return plateau;
    }

    Optional<Stretch> holding() {
        return plateau.flatMap(Plateau::holding);
    }

    CorrectedChannel point(int number) {
        return points.get(number);
    }

    List<CorrectedChannel> points() {
        return points;
    }

    /** Numbers of the points in a challenge pack. */
    List<Integer> packs() {
        List<Integer> packs = new ArrayList<>();
        for (int i = 0; i < judged; i++) {
            if (points.get(i).role() == ChannelRole.CHALLENGE_PACK) {
                packs.add(i);
            }
        }
        return packs;
    }

    /** The judged points with other values. */
    Optional<Plateau> plateau(List<CorrectedChannel> others) {
        return new PlateauFinder(others.get(reference), others.subList(0, judged), band).find();
    }

    /** Standard deviation of noise and resolution of one reading of a point, in kelvin. */
    double noise(int number) {
        return points.get(number)
                .budget()
                .map(budget -> budget.perReading("").combined())
                .orElse(0.0);
    }

    /** Covariance of the errors for the whole run of two points, in square kelvin; 0 if there is no such point. */
    double covariance(int a, int b) {
        if (a < 0 || b < 0) {
            return 0;
        }
        return covariances[a][b];
    }

    private double covarianceOf(int a, int b) {
        Optional<Budget> one = points.get(a).budget();
        Optional<Budget> other = points.get(b).budget();
        if (one.isEmpty() || other.isEmpty()) {
            return 0;
        }
        return a == b
                ? one.get().systematic() * one.get().systematic()
                : one.get().covariance(other.get());
    }
}
