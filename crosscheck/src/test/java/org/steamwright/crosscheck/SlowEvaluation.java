package org.steamwright.crosscheck;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
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

    /** The verdict of the findings that the set lets decide; those that are left open come from elsewhere. */
    RunOutcome verdict(Map<CriterionId, Outcome> leftOpen) {
        List<Outcome> deciding = new ArrayList<>();
        for (Requirement requirement : set.requirements().values()) {
            if (requirement.use() != Use.DECIDES) {
                continue;
            }
            SlowFinding finding = findings.get(requirement.id());
            if (finding == null) {
                Outcome outcome = leftOpen.get(requirement.id());
                if (outcome != null) {
                    deciding.add(outcome);
                }
            } else if (finding.counts()) {
                deciding.add(finding.outcome());
            }
        }
        return verdict(deciding);
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
        if (reference.isEmpty()) {
            throw new IllegalArgumentException("the slow evaluation needs a reference point");
        }
        plateaus = plateau(reference.get(0), 0);
        lowered = plateau(reference.get(0), -1);
        raised = plateau(reference.get(0), 1);
        SlowEvidence evidence = new SlowEvidence(run, set, points, judged, plateaus, low);
        evidence.judge(findings);
        holdingTime(reference.get(0), evidence.untrusted());
        lowestTemperature();
        highestTemperature();
        equilibrationTime();
        penetrationTime();
        spread();
        fluctuation();
        saturationDifference();
        takeBackWhatRestsOn(evidence.untrusted());
    }

    /** A fail that a dead sensor or a wrongly declared pressure decided says nothing about the sterilizer. */
    private void takeBackWhatRestsOn(Set<String> untrusted) {
        for (SlowFinding finding : List.copyOf(findings.values())) {
            boolean isSaid = finding.outcome() == Outcome.FAIL || finding.outcome() == Outcome.UNDECIDED;
            boolean rests = finding.channels().stream().anyMatch(untrusted::contains)
                    || (finding.id() == CriterionId.SATURATION_DIFFERENCE && untrusted.contains("theoretical"));
            // the holding time answers for itself
            boolean isTakenBack = finding.id().group() != CriterionId.Group.EVIDENCE
                    && finding.id() != CriterionId.MINIMUM_HOLDING_TIME;
            if (isSaid && rests && isTakenBack) {
                findings.put(finding.id(), finding.with(Outcome.INVALID));
            }
        }
    }

    private List<SlowPlateau> plateau(SlowPoint reference, int sign) {
        List<SlowPoint> moved = moved(sign);
        return SlowPlateau.find(moved.get(judged.indexOf(reference)), moved, low, high);
    }

    private List<SlowPoint> moved(int sign) {
        return judged.stream()
                .map(point -> point.raised(sign * point.expanded()))
                .toList();
    }

    private Optional<Requirement> asked(CriterionId id) {
        return Optional.ofNullable(set.requirements().get(id)).filter(requirement -> requirement.use() != Use.OFF);
    }

    private void judge(
            CriterionId id, Optional<Limit> limit, double figure, double lowEnd, double highEnd, Set<String> channels) {
        Optional<Requirement> requirement = asked(id);
        if (requirement.isEmpty()) {
            notAssessed(id);
            return;
        }
        Optional<Limit> inForce = requirement.get().use() == Use.REPORTS ? Optional.empty() : limit;
        findings.put(
                id,
                SlowFinding.judged(
                        id, figure, lowEnd, highEnd, inForce, requirement.get().rule(), channels));
    }

    private void judge(CriterionId id, double figure, double lowEnd, double highEnd, Set<String> channels) {
        judge(id, asked(id).flatMap(Requirement::limit), figure, lowEnd, highEnd, channels);
    }

    private void notAssessed(CriterionId id) {
        findings.put(id, SlowFinding.of(id, Outcome.NOT_ASSESSED));
    }

    private static double holding(List<SlowPlateau> plateau) {
        return plateau.isEmpty() ? 0 : plateau.get(0).holdingSeconds();
    }

    private void holdingTime(SlowPoint reference, Set<String> untrusted) {
        double asRead = holding(plateaus);
        double least = Math.min(asRead, Math.min(holding(lowered), holding(raised)));
        double most = Math.max(asRead, Math.max(holding(lowered), holding(raised)));
        Optional<Limit> ofSet = set.findCycle(low).map(CriteriaSet.CycleLimits::holdingTime);
        Optional<Limit> declared = run.cycle()
                .holdingTime()
                .map(time ->
                        new Limit(Comparison.AT_LEAST, time.toMillis() / 1000.0, Unit.SECONDS, InventedSets.SOURCE));
        Optional<Limit> limit = declared.filter(
                        own -> ofSet.isEmpty() || own.value() > ofSet.get().value())
                .or(() -> ofSet);
        Set<String> channels = new TreeSet<>();
        if (plateaus.isEmpty()) {
            channels.add(reference.name());
        } else if (plateaus.get(0).holding.isEmpty()) {
            judged.forEach(point -> channels.add(point.name()));
        } else {
            channels.addAll(plateaus.get(0).ended);
        }
        judge(CriterionId.MINIMUM_HOLDING_TIME, limit, asRead, least, most, channels);
        SlowFinding finding = findings.getOrDefault(
                CriterionId.MINIMUM_HOLDING_TIME,
                SlowFinding.of(CriterionId.MINIMUM_HOLDING_TIME, Outcome.NOT_ASSESSED));
        boolean isShort = finding.outcome() == Outcome.FAIL && !plateaus.isEmpty();
        if (isShort && SlowFinding.meets(possibleSeconds(reference, untrusted), limit.orElseThrow())) {
            findings.put(finding.id(), finding.with(Outcome.INVALID));
        }
        if (!plateaus.isEmpty() && limit.isPresent()) {
            openIfCoarse(CriterionId.MINIMUM_HOLDING_TIME, limit.get(), asRead + 2 * longestStep(), 0);
        }
    }

    /** Fewer than six steps in a limit don't tell what lies within a step of it. */
    private void openIfCoarse(CriterionId id, Limit limit, double better, double worse) {
        SlowFinding finding = findings.get(id);
        if (finding == null || limit.value() / longestStep() >= 6) {
            return;
        }
        boolean isOpen = switch (finding.outcome()) {
            case PASS, UNDECIDED -> !SlowFinding.meets(worse, limit);
            case FAIL -> SlowFinding.meets(better, limit);
            default -> false;
        };
        if (isOpen) {
            findings.put(id, finding.with(Outcome.INVALID));
        }
    }

    /** In favour of the doubt: what was not recorded counts as inside, points whose values are wrong are left out. */
    private double possibleSeconds(SlowPoint reference, Set<String> untrusted) {
        if (untrusted.contains(reference.name())) {
            return Double.POSITIVE_INFINITY;
        }
        List<SlowPoint> trusted = judged.stream()
                .filter(point -> !untrusted.contains(point.name()))
                .toList();
        return SlowPlateau.possibleSeconds(reference, trusted, low, high);
    }

    private void lowestTemperature() {
        Optional<Requirement> requirement = asked(CriterionId.LOWEST_TEMPERATURE);
        if (plateaus.isEmpty() || plateaus.get(0).together.isEmpty() || requirement.isEmpty()) {
            notAssessed(CriterionId.LOWEST_TEMPERATURE);
            return;
        }
        double value = Double.POSITIVE_INFINITY;
        double expanded = 0;
        String channel = "";
        for (SlowPoint point : judged) {
            for (double reading : within(point, plateaus.get(0).together).values()) {
                if (reading < value) {
                    value = reading;
                    expanded = point.expanded();
                    channel = point.name();
                }
            }
        }
        double least = value;
        if (lowered.isEmpty() || lowered.get(0).together.isEmpty()) {
            least = value - expanded;
        } else {
            for (SlowPoint point : moved(-1)) {
                for (double reading : within(point, lowered.get(0).together).values()) {
                    least = Math.min(least, reading);
                }
            }
        }
        Limit limit = new Limit(
                Comparison.AT_LEAST, low, Unit.CELSIUS, requirement.get().source());
        judge(CriterionId.LOWEST_TEMPERATURE, Optional.of(limit), value, least, value + expanded, Set.of(channel));
    }

    private void highestTemperature() {
        Optional<Requirement> requirement = asked(CriterionId.HIGHEST_TEMPERATURE);
        if (plateaus.isEmpty() || requirement.isEmpty()) {
            notAssessed(CriterionId.HIGHEST_TEMPERATURE);
            return;
        }
        double value = Double.NEGATIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        double expanded = 0;
        String channel = "";
        List<Double> stretch = List.of(plateaus.get(0).reached, plateaus.get(0).end);
        for (SlowPoint point : measured) {
            for (double reading : within(point, stretch).values()) {
                most = Math.max(most, reading + point.expanded());
                if (reading > value) {
                    value = reading;
                    expanded = point.expanded();
                    channel = point.name();
                }
            }
        }
        if (Double.isInfinite(high)) {
            // the set says that it decides and states no limit: an open question, never a pass
            notAssessed(CriterionId.HIGHEST_TEMPERATURE);
            return;
        }
        Limit limit = new Limit(
                Comparison.AT_MOST, high, Unit.CELSIUS, requirement.get().source());
        judge(CriterionId.HIGHEST_TEMPERATURE, Optional.of(limit), value, value - expanded, most, Set.of(channel));
    }

    /** The samples of a point inside a stretch, both ends included, without the missing ones. */
    private static SortedMap<Double, Double> within(SlowPoint point, List<Double> stretch) {
        TreeMap<Double, Double> inside = new TreeMap<>();
        point.samples().subMap(stretch.get(0), true, stretch.get(1), true).forEach((moment, value) -> {
            if (!Double.isNaN(value)) {
                inside.put(moment, value);
            }
        });
        return inside;
    }

    private double longestStep() {
        return judged.stream().mapToDouble(SlowPoint::usualStep).max().orElseThrow();
    }

    private void equilibrationTime() {
        if (plateaus.isEmpty()) {
            notAssessed(CriterionId.EQUILIBRATION_TIME);
            return;
        }
        SlowPlateau plateau = plateaus.get(0);
        double latest = Double.NEGATIVE_INFINITY;
        Set<String> last = new TreeSet<>();
        for (SlowPoint point : judged) {
            double arrival = arrival(point, plateau);
            if (arrival > latest) {
                latest = arrival;
                last.clear();
                last.add(point.name());
            } else if (arrival == latest && Double.isInfinite(arrival)) {
                last.add(point.name());
            }
        }
        if (plateau.equilibrated.isEmpty()) {
            Optional<Requirement> requirement = asked(CriterionId.EQUILIBRATION_TIME);
            Outcome outcome = requirement.isEmpty() || requirement.get().use() == Use.REPORTS
                    ? Outcome.NOT_ASSESSED
                    : Outcome.FAIL;
            findings.put(
                    CriterionId.EQUILIBRATION_TIME,
                    SlowFinding.of(
                            CriterionId.EQUILIBRATION_TIME, outcome, Double.isInfinite(latest) ? last : Set.of()));
            return;
        }
        double value = plateau.equilibrated.getAsDouble() - plateau.reached;
        double least = value - longestStep();
        double most = value + longestStep();
        for (List<SlowPlateau> other : List.of(lowered, raised)) {
            double others = other.isEmpty() || other.get(0).equilibrated.isEmpty()
                    ? Double.POSITIVE_INFINITY
                    : other.get(0).equilibrated.getAsDouble() - other.get(0).reached;
            least = Math.min(least, others);
            most = Math.max(most, others);
        }
        judge(CriterionId.EQUILIBRATION_TIME, value, Math.max(0, least), most, last);
        Optional<Limit> limit = asked(CriterionId.EQUILIBRATION_TIME).flatMap(Requirement::limit);
        if (limit.isPresent()) {
            openIfCoarse(
                    CriterionId.EQUILIBRATION_TIME,
                    limit.get(),
                    Math.max(0, value - longestStep()),
                    value + longestStep());
        }
    }

    /** When a point stood at Ts, the moment of reaching if it was there already; infinite if it never came. */
    private double arrival(SlowPoint point, SlowPlateau plateau) {
        if (point.isInside(plateau.reached, low, Double.POSITIVE_INFINITY)) {
            return plateau.reached;
        }
        for (Map.Entry<Double, Double> sample :
                within(point, List.of(plateau.reached, plateau.end)).entrySet()) {
            if (sample.getValue() >= low) {
                return sample.getKey();
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    private void penetrationTime() {
        List<SlowPoint> packs = judged.stream()
                .filter(point -> point.role() == ChannelRole.CHALLENGE_PACK)
                .toList();
        if (packs.isEmpty()) {
            findings.put(CriterionId.PENETRATION_TIME, SlowFinding.notApplicable(CriterionId.PENETRATION_TIME));
            return;
        }
        if (plateaus.isEmpty()) {
            notAssessed(CriterionId.PENETRATION_TIME);
            return;
        }
        SlowPoint slowest = packs.get(0);
        for (SlowPoint pack : packs) {
            if (arrival(pack, plateaus.get(0)) > arrival(slowest, plateaus.get(0))) {
                slowest = pack;
            }
        }
        double value = arrival(slowest, plateaus.get(0)) - plateaus.get(0).reached;
        double least = value - longestStep();
        double most = value + longestStep();
        for (int sign : new int[] {-1, 1}) {
            List<SlowPlateau> other = sign < 0 ? lowered : raised;
            double others = other.isEmpty()
                    ? Double.POSITIVE_INFINITY
                    : arrival(slowest.raised(sign * slowest.expanded()), other.get(0)) - other.get(0).reached;
            least = Math.min(least, others);
            most = Math.max(most, others);
        }
        judge(CriterionId.PENETRATION_TIME, value, Math.max(0, least), most, Set.of(slowest.name()));
        Optional<Limit> limit = asked(CriterionId.PENETRATION_TIME).flatMap(Requirement::limit);
        if (limit.isPresent()) {
            openIfCoarse(
                    CriterionId.PENETRATION_TIME,
                    limit.get(),
                    Math.max(0, value - longestStep()),
                    value + longestStep());
        }
    }

    /** Moments of any judged point in the holding stretch, ends included. */
    private TreeSet<Double> momentsInHolding() {
        TreeSet<Double> moments = new TreeSet<>();
        for (SlowPoint point : judged) {
            moments.addAll(within(point, plateaus.get(0).holding).keySet());
        }
        return moments;
    }

    private boolean hasHolding() {
        return !plateaus.isEmpty() && !plateaus.get(0).holding.isEmpty();
    }

    private void spread() {
        if (judged.size() < 2) {
            findings.put(CriterionId.TEMPERATURE_SPREAD, SlowFinding.notApplicable(CriterionId.TEMPERATURE_SPREAD));
            return;
        }
        if (!hasHolding()) {
            notAssessed(CriterionId.TEMPERATURE_SPREAD);
            return;
        }
        double widest = Double.NEGATIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        double least = Double.NEGATIVE_INFINITY;
        Set<String> pair = Set.of();
        for (double moment : momentsInHolding()) {
            for (SlowPoint hot : judged) {
                for (SlowPoint cold : judged) {
                    if (hot == cold) {
                        continue;
                    }
                    double difference = hot.at(moment) - cold.at(moment);
                    double doubt = SlowLine.expandedDifference(hot.lines(), cold.lines());
                    most = Math.max(most, difference + doubt);
                    least = Math.max(least, difference - doubt);
                    if (difference > widest) {
                        widest = difference;
                        pair = Set.of(hot.name(), cold.name());
                    }
                }
            }
        }
        judge(CriterionId.TEMPERATURE_SPREAD, widest, least, most, pair);
    }

    private void fluctuation() {
        if (!hasHolding()) {
            notAssessed(CriterionId.TEMPERATURE_FLUCTUATION);
            return;
        }
        double largest = Double.NEGATIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        String channel = "";
        for (SlowPoint point : measured) {
            List<Double> readings =
                    List.copyOf(within(point, plateaus.get(0).holding).values());
            BigDecimal sum = BigDecimal.ZERO;
            for (double reading : readings) {
                sum = sum.add(new BigDecimal(reading));
            }
            if (readings.isEmpty()) {
                continue;
            }
            double mean = sum.divide(BigDecimal.valueOf(readings.size()), MathContext.DECIMAL128)
                    .doubleValue();
            double doubt = ofOneReading(point);
            for (double reading : readings) {
                double distance = Math.abs(reading - mean);
                most = Math.max(most, distance + doubt);
                if (distance > largest) {
                    largest = distance;
                    channel = point.name();
                }
            }
        }
        judge(CriterionId.TEMPERATURE_FLUCTUATION, largest, largest, most, Set.of(channel));
    }

    /** A sensor compared with itself: only what strikes every reading anew is left; the resolution without a certificate. */
    private double ofOneReading(SlowPoint point) {
        if (point.lines().isEmpty()) {
            return run.trace().channels().stream()
                            .filter(own -> own.name().equals(point.name()))
                            .mapToDouble(own -> own.column().resolution())
                            .findFirst()
                            .orElseThrow()
                    / Math.sqrt(3);
        }
        return SlowLine.expanded(
                point.lines().stream().filter(SlowLine::isPerReading).toList());
    }

    private void saturationDifference() {
        List<SlowPoint> theoretical = points.stream()
                .filter(point -> point.role() == ChannelRole.THEORETICAL)
                .toList();
        if (!hasHolding() || theoretical.isEmpty()) {
            notAssessed(CriterionId.SATURATION_DIFFERENCE);
            return;
        }
        double largest = Double.NEGATIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        double least = Double.NEGATIVE_INFINITY;
        String channel = "";
        for (SlowPoint point : measured) {
            double doubt = SlowLine.expandedDifference(
                    point.lines(), theoretical.get(0).lines());
            for (Map.Entry<Double, Double> sample :
                    within(point, plateaus.get(0).holding).entrySet()) {
                double difference =
                        Math.abs(sample.getValue() - theoretical.get(0).at(sample.getKey()));
                if (Double.isNaN(difference)) {
                    continue;
                }
                most = Math.max(most, difference + doubt);
                least = Math.max(least, difference - doubt);
                if (difference > largest) {
                    largest = difference;
                    channel = point.name();
                }
            }
        }
        if (Double.isInfinite(largest)) {
            findings.put(
                    CriterionId.SATURATION_DIFFERENCE,
                    SlowFinding.of(
                            CriterionId.SATURATION_DIFFERENCE,
                            asked(CriterionId.SATURATION_DIFFERENCE)
                                            .filter(requirement -> requirement.use() != Use.REPORTS)
                                            .isPresent()
                                    ? Outcome.INVALID
                                    : Outcome.NOT_ASSESSED));
            return;
        }
        judge(CriterionId.SATURATION_DIFFERENCE, largest, least, most, Set.of(channel));
    }
}
