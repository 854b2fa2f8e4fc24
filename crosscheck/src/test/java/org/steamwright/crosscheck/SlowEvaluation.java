package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestRun;

/**
 * A second evaluation of a thermometric run, written from the definitions (handbook sections 2 to 6, 9 and 12), brute
 * force and slow, with no line taken from the engine.
 *
 * <p>It answers the criteria that rest on the plateau and the evidence. What needs the phases of the cycle (air removal,
 * drying, rates of pressure) it leaves open: {@link #findings()} has no answer for them.
 */
final class SlowEvaluation {

    private final TestRun run;
    private final CriteriaSet set;
    private final double low;
    private final double high;
    private final List<SlowPoint> points;
    private final List<SlowPoint> judged = new ArrayList<>();
    private final List<SlowPoint> measured = new ArrayList<>();
    private final Map<CriterionId, SlowFinding> findings = new EnumMap<>(CriterionId.class);
    private List<SlowPlateau> plateaus = List.of();
    private List<SlowPlateau> lowered = List.of();
    private List<SlowPlateau> raised = List.of();

    SlowEvaluation(TestRun run, CriteriaSet set) {
        this.run = run;
        this.set = set;
        low = run.cycle().sterilizingTemperature().celsius();
        high = low
                + set.findCycle(low)
                        .flatMap(CriteriaSet.CycleLimits::bandWidth)
                        .map(Limit::value)
                        .orElse(Double.POSITIVE_INFINITY);
        points = new SlowCorrection(run, set).points();
        for (SlowPoint point : points) {
            boolean isMeasured = point.role() == ChannelRole.REFERENCE_POINT
                    || point.role() == ChannelRole.FREE_CHAMBER
                    || point.role() == ChannelRole.LOAD
                    || point.role() == ChannelRole.CHALLENGE_PACK;
            if (isMeasured) {
                measured.add(point);
            }
            if (isMeasured || (point.role() == ChannelRole.THEORETICAL && set.isTheoreticalInBand())) {
                judged.add(point);
            }
        }
        evaluate();
    }

    /** The answers, by criterion. */
    Map<CriterionId, SlowFinding> findings() {
        return findings;
    }

    /** The plateau as read; empty list without one. */
    List<SlowPlateau> plateau() {
        return plateaus;
    }

    /** Fail before invalid before pass. */
    static RunOutcome verdict(List<Outcome> deciding) {
        if (deciding.contains(Outcome.FAIL)) {
            return RunOutcome.FAIL;
        }
        return deciding.stream().allMatch(outcome -> outcome == Outcome.PASS) ? RunOutcome.PASS : RunOutcome.INVALID;
    }

    private void evaluate() {
        List<SlowPoint> reference = judged.stream()
                .filter(point -> point.role() == ChannelRole.REFERENCE_POINT)
                .limit(1)
                .toList();
        if (!reference.isEmpty()) {
            plateaus = plateau(reference.get(0), 0);
            lowered = plateau(reference.get(0), -1);
            raised = plateau(reference.get(0), 1);
        }
        new SlowEvidence(run, set, points, judged, plateaus, low).judge(findings);
        holdingTime();
        temperatures();
        equilibrationTime();
        penetrationTime();
        spread();
        fluctuation();
        saturationDifference();
    }

    private List<SlowPlateau> plateau(SlowPoint reference, int sign) {
        List<SlowPoint> moved = judged.stream()
                .map(point -> point.raised(sign * point.expanded()))
                .toList();
        return SlowPlateau.find(moved.get(judged.indexOf(reference)), moved, low, high);
    }

    private Optional<Requirement> asked(CriterionId id) {
        return Optional.ofNullable(set.requirements().get(id)).filter(requirement -> requirement.use() != Use.OFF);
    }

    private void judge(CriterionId id, Optional<Limit> limit, double figure, double lowEnd, double highEnd) {
        Optional<Requirement> requirement = asked(id);
        if (requirement.isEmpty()) {
            findings.put(id, SlowFinding.of(id, Outcome.NOT_ASSESSED));
            return;
        }
        Optional<Limit> inForce = requirement.get().use() == Use.REPORTS ? Optional.empty() : limit;
        findings.put(
                id,
                SlowFinding.judged(
                        id, figure, lowEnd, highEnd, inForce, requirement.get().rule()));
    }

    private void judge(CriterionId id, double figure, double lowEnd, double highEnd) {
        judge(id, asked(id).flatMap(Requirement::limit), figure, lowEnd, highEnd);
    }

    private void notAssessed(CriterionId id) {
        findings.put(id, SlowFinding.of(id, Outcome.NOT_ASSESSED));
    }

    private static double holding(List<SlowPlateau> plateau) {
        return plateau.isEmpty() ? 0 : plateau.get(0).holdingSeconds();
    }

    private void holdingTime() {
        double asRead = holding(plateaus);
        double least = Math.min(asRead, Math.min(holding(lowered), holding(raised)));
        double most = Math.max(asRead, Math.max(holding(lowered), holding(raised)));
        Optional<Limit> limit = set.findCycle(low).map(CriteriaSet.CycleLimits::holdingTime);
        judge(CriterionId.MINIMUM_HOLDING_TIME, limit, asRead, least, most);
    }

    private void temperatures() {
        Optional<Requirement> lowest = asked(CriterionId.LOWEST_TEMPERATURE);
        if (plateaus.isEmpty() || plateaus.get(0).together.isEmpty() || lowest.isEmpty()) {
            notAssessed(CriterionId.LOWEST_TEMPERATURE);
        } else {
            double value = Double.POSITIVE_INFINITY;
            double doubt = 0;
            List<Double> together = plateaus.get(0).together;
            for (SlowPoint point : judged) {
                for (double reading : point.samples()
                        .subMap(together.get(0), true, together.get(1), true)
                        .values()) {
                    if (reading < value) {
                        value = reading;
                        doubt = point.expanded();
                    }
                }
            }
            Limit limit = new Limit(
                    Comparison.AT_LEAST, low, Unit.CELSIUS, lowest.get().source());
            judge(CriterionId.LOWEST_TEMPERATURE, Optional.of(limit), value, value - doubt, value + doubt);
        }
        Optional<Requirement> highest = asked(CriterionId.HIGHEST_TEMPERATURE);
        if (plateaus.isEmpty() || highest.isEmpty()) {
            notAssessed(CriterionId.HIGHEST_TEMPERATURE);
            return;
        }
        double value = Double.NEGATIVE_INFINITY;
        double doubt = 0;
        for (SlowPoint point : measured) {
            for (double reading : point.samples()
                    .subMap(plateaus.get(0).reached, true, plateaus.get(0).end, true)
                    .values()) {
                if (reading > value) {
                    value = reading;
                    doubt = point.expanded();
                }
            }
        }
        Optional<Limit> limit = Double.isInfinite(high)
                ? Optional.empty()
                : Optional.of(new Limit(
                        Comparison.AT_MOST, high, Unit.CELSIUS, highest.get().source()));
        judge(CriterionId.HIGHEST_TEMPERATURE, limit, value, value - doubt, value + doubt);
    }

    private void equilibrationTime() {
        if (plateaus.isEmpty()) {
            notAssessed(CriterionId.EQUILIBRATION_TIME);
            return;
        }
        SlowPlateau plateau = plateaus.get(0);
        if (plateau.equilibrated.isEmpty()) {
            judge(
                    CriterionId.EQUILIBRATION_TIME,
                    Double.POSITIVE_INFINITY,
                    Double.POSITIVE_INFINITY,
                    Double.POSITIVE_INFINITY);
            return;
        }
        double step = judged.stream().mapToDouble(SlowPoint::usualStep).max().orElseThrow();
        double value = plateau.equilibrated.getAsDouble() - plateau.reached;
        double least = value - step;
        double most = value + step;
        for (List<SlowPlateau> other : List.of(lowered, raised)) {
            double others = other.isEmpty() || other.get(0).equilibrated.isEmpty()
                    ? Double.POSITIVE_INFINITY
                    : other.get(0).equilibrated.getAsDouble() - other.get(0).reached;
            least = Math.min(least, others);
            most = Math.max(most, others);
        }
        judge(CriterionId.EQUILIBRATION_TIME, value, Math.max(0, least), most);
    }

    private void penetrationTime() {
        List<SlowPoint> packs = judged.stream()
                .filter(point -> point.role() == ChannelRole.CHALLENGE_PACK)
                .toList();
        if (plateaus.isEmpty() || packs.isEmpty()) {
            notAssessed(CriterionId.PENETRATION_TIME);
            return;
        }
        SlowPlateau plateau = plateaus.get(0);
        double slowest = 0;
        for (SlowPoint pack : packs) {
            double crossing = Double.POSITIVE_INFINITY;
            for (Map.Entry<Double, Double> sample : pack.samples()
                    .subMap(plateau.reached, true, plateau.end, true)
                    .entrySet()) {
                if (sample.getValue() >= low) {
                    crossing = sample.getKey();
                    break;
                }
            }
            slowest = Math.max(slowest, crossing - plateau.reached);
        }
        double step = packs.stream().mapToDouble(SlowPoint::usualStep).max().orElseThrow();
        judge(CriterionId.PENETRATION_TIME, slowest, Math.max(0, slowest - step), slowest + step);
    }

    /** Moments of any judged point in the holding stretch, ends included. */
    private TreeSet<Double> momentsInHolding() {
        List<Double> holding = plateaus.get(0).holding;
        TreeSet<Double> moments = new TreeSet<>();
        for (SlowPoint point : judged) {
            moments.addAll(point.samples()
                    .subMap(holding.get(0), true, holding.get(1), true)
                    .keySet());
        }
        return moments;
    }

    private boolean hasHolding() {
        return !plateaus.isEmpty() && !plateaus.get(0).holding.isEmpty();
    }

    private void spread() {
        if (!hasHolding()) {
            notAssessed(CriterionId.TEMPERATURE_SPREAD);
            return;
        }
        double widest = Double.NEGATIVE_INFINITY;
        double doubt = 0;
        for (double moment : momentsInHolding()) {
            for (SlowPoint hot : judged) {
                for (SlowPoint cold : judged) {
                    double difference = hot.at(moment) - cold.at(moment);
                    if (difference > widest) {
                        widest = difference;
                        doubt = hot == cold ? 0 : Math.hypot(hot.expanded(), cold.expanded());
                    }
                }
            }
        }
        judge(CriterionId.TEMPERATURE_SPREAD, widest, widest - doubt, widest + doubt);
    }

    private void fluctuation() {
        if (!hasHolding()) {
            notAssessed(CriterionId.TEMPERATURE_FLUCTUATION);
            return;
        }
        List<Double> holding = plateaus.get(0).holding;
        double largest = Double.NEGATIVE_INFINITY;
        for (SlowPoint point : measured) {
            List<Double> readings = List.copyOf(point.samples()
                    .subMap(holding.get(0), true, holding.get(1), true)
                    .values());
            double mean =
                    readings.stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN);
            for (double reading : readings) {
                largest = Math.max(largest, Math.abs(reading - mean));
            }
        }
        judge(CriterionId.TEMPERATURE_FLUCTUATION, largest, largest, largest);
    }

    private void saturationDifference() {
        List<SlowPoint> theoretical = points.stream()
                .filter(point -> point.role() == ChannelRole.THEORETICAL)
                .toList();
        if (!hasHolding() || theoretical.isEmpty()) {
            notAssessed(CriterionId.SATURATION_DIFFERENCE);
            return;
        }
        List<Double> holding = plateaus.get(0).holding;
        double largest = Double.NEGATIVE_INFINITY;
        double doubt = 0;
        for (SlowPoint point : measured) {
            for (Map.Entry<Double, Double> sample : point.samples()
                    .subMap(holding.get(0), true, holding.get(1), true)
                    .entrySet()) {
                double difference =
                        Math.abs(sample.getValue() - theoretical.get(0).at(sample.getKey()));
                if (difference > largest) {
                    largest = difference;
                    doubt = Math.hypot(point.expanded(), theoretical.get(0).expanded());
                }
            }
        }
        if (Double.isInfinite(largest)) {
            notAssessed(CriterionId.SATURATION_DIFFERENCE);
            return;
        }
        judge(CriterionId.SATURATION_DIFFERENCE, largest, Math.max(0, largest - doubt), largest + doubt);
    }
}
