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
        List<CorrectedChannel> points = evidence.judged();
        double widest = Double.NEGATIVE_INFINITY;
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double moment = holding.fromSeconds();
        CorrectedChannel coldest = points.get(0);
        CorrectedChannel hottest = coldest;
        double[][] doubts = doubts(points);
        double[][] clocks = clocks(evidence);
        double[] values = new double[points.size()];
        for (double instant : evidence.instants(holding)) {
            for (int i = 0; i < values.length; i++) {
                values[i] = points.get(i).valueAt(instant);
            }
            for (int i = 0; i < values.length; i++) {
                for (int j = i + 1; j < values.length; j++) {
                    double apart = Math.abs(values[i] - values[j]);
                    if (Double.isNaN(apart)) {
                        continue;
                    }
                    double closest = apart;
                    double farthest = apart;
                    for (double shift : ClockDoubt.shifts(clocks[i][j])) {
                        double beside = instant + shift;
                        if (beside < holding.fromSeconds() || beside > holding.toSeconds()) {
                            continue;
                        }
                        double moved = Math.abs(values[i] - points.get(j).valueAt(beside));
                        // NaN, as in a gap, changes neither
                        closest = moved < closest ? moved : closest;
                        farthest = moved > farthest ? moved : farthest;
                    }
                    low = Math.max(low, closest - doubts[i][j]);
                    high = Math.max(high, farthest + doubts[i][j]);
                    if (apart > widest) {
                        widest = apart;
                        moment = instant;
                        coldest = values[i] <= values[j] ? points.get(i) : points.get(j);
                        hottest = values[i] <= values[j] ? points.get(j) : points.get(i);
                    }
                }
            }
        }
        if (Double.isInfinite(widest)) {
            return Findings.missing(requirement, "Not assessed: no two points have samples at one instant.");
        }
        Figure figure = new Figure(widest, low, high, Unit.KELVIN, DifferenceDoubt.BASIS)
                .withBudget(DifferenceDoubt.budget(hottest, coldest));
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

    /** What the clocks leave to the time between each pair of points. */
    private static double[][] clocks(RunEvidence evidence) {
        List<CorrectedChannel> points = evidence.judged();
        double[][] halfWidths = new double[points.size()][points.size()];
        for (int i = 0; i < halfWidths.length; i++) {
            for (int j = 0; j < halfWidths.length; j++) {
                halfWidths[i][j] = evidence.clockHalfWidth(points.get(i), points.get(j));
            }
        }
        return halfWidths;
    }

    /** Doubt of the difference of each pair of points. */
    private static double[][] doubts(List<CorrectedChannel> points) {
        double[][] doubts = new double[points.size()][points.size()];
        for (int i = 0; i < doubts.length; i++) {
            for (int j = 0; j < doubts.length; j++) {
                doubts[i][j] = DifferenceDoubt.of(points.get(i), points.get(j));
            }
        }
        return doubts;
    }
}
