package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Plateau.Excursion;
import org.steamwright.assessment.cycle.Plateau.StretchEnd;
import org.steamwright.assessment.cycle.PlateauFinder;
import org.steamwright.assessment.cycle.Stretch;

/**
 * Whether every point stood inside the band without a break for as long as is required.
 *
 * <p>The limit is the criteria set's for this temperature, or the declared holding time where that is longer or the set
 * has none. The figure is the longest unbroken stretch as read; its doubt comes from finding it again with every point
 * lowered and raised by its expanded uncertainty. If the stretch is too short only because samples are missing or the
 * recording ends, the answer is invalid and not a fail: the sterilizer may have done better.
 */
public final class MinimumHoldingTime implements Criterion<RunEvidence> {

    /** From when on a late arrival is named as the reason, in seconds. Own choice; it changes the sentence only. */
    private static final double LATE_SECONDS = 15.0;

    private static final double MILLISECONDS = 1000.0;

    @Override
    public CriterionId id() {
        return CriterionId.MINIMUM_HOLDING_TIME;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        Optional<Limit> required = limit(evidence);
        if (required.isEmpty()) {
            return Findings.missing(
                    requirement,
                    "Not assessed: neither the criteria set nor the declared cycle states a holding time for %s."
                            .formatted(Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS) + " °C"));
        }
        Limit limit = required.get();
        String needed = Figures.plain(limit.value(), Unit.SECONDS) + " s";
        if (evidence.asRead().isEmpty()) {
            return noPlateau(evidence, requirement, limit);
        }
        Plateau plateau = evidence.asRead().get();
        Figure figure = figure(evidence, plateau);
        Optional<Stretch> holding = plateau.holding();
        Evidence place = Evidence.stretch(
                end(plateau).channel().isEmpty()
                        ? evidence.judgedNames()
                        : List.of(end(plateau).channel()),
                holding.map(Stretch::fromSeconds).orElse(plateau.reachedSeconds()),
                holding.map(Stretch::toSeconds).orElse(plateau.endSeconds()));
        String held = Figures.shown(figure.value(), Unit.SECONDS, Comparison.AT_LEAST);
        String sentence = limit.isMetBy(figure.value())
                ? "Every point stood inside the band for %s without a break; %s are required.".formatted(held, needed)
                : "Every point stood inside the band for only %s without a break; %s are required. %s"
                        .formatted(held, needed, why(plateau));
        double interval = evidence.longestInterval();
        // both ends may lie beyond their samples, and a fall between two samples is not seen at all
        Finding finding = SamplingDoubt.settled(
                Findings.judged(requirement, limit, figure, place, sentence),
                limit,
                figure.value() + 2 * interval,
                0,
                interval);
        if (finding.outcome() == Outcome.FAIL && limit.isMetBy(possibleSeconds(evidence))) {
            return finding.revised(
                    Outcome.INVALID,
                    sentence
                            + " What was not recorded, or not by a sensor that can be trusted, may have been inside the band, which leaves it open.");
        }
        double clocks = clocks(evidence);
        if (clocks == 0) {
            return finding;
        }
        double better = Math.min(figure.value() + clocks, possibleOnOwnClocks(evidence));
        return ClockDoubt.settled(finding, Optional.of(limit), better, figure.value() - clocks, clocks);
    }

    /** The longer of what the set and the declared cycle ask; of equal ones the set's, which has a document. */
    public static Optional<Limit> limit(RunEvidence evidence) {
        Optional<Limit> ofSet = evidence.limits().map(CriteriaSet.CycleLimits::holdingTime);
        Optional<Limit> declared = declared(evidence.cycle());
        if (ofSet.isPresent() && declared.isPresent()) {
            return declared.get().value() > ofSet.get().value() ? declared : ofSet;
        }
        return ofSet.or(() -> declared);
    }

    private static Optional<Limit> declared(CycleDefinition cycle) {
        return cycle.holdingTime()
                .map(time -> new Limit(
                        Comparison.AT_LEAST,
                        time.toMillis() / MILLISECONDS,
                        Unit.SECONDS,
                        DeclaredCycle.source(cycle)));
    }

    private static Figure figure(RunEvidence evidence, Plateau plateau) {
        double value = plateau.holdingSeconds();
        double lowered = evidence.lowered().map(Plateau::holdingSeconds).orElse(0.0);
        double raised = evidence.raised().map(Plateau::holdingSeconds).orElse(0.0);
        double clocks = clocks(evidence);
        return new Figure(
                value,
                Math.max(0, Math.min(value, Math.min(lowered, raised)) - clocks),
                Math.max(value, Math.max(lowered, raised)) + clocks,
                Unit.SECONDS,
                "found again with every point lowered and raised by its expanded uncertainty"
                        + ClockDoubt.basis(clocks));
    }

    /**
     * By how much the clocks of several loggers may shorten or lengthen the stretch that all share: with two by the half-width
     * between them, since only one end can move; with more both ends can.
     */
    private static double clocks(RunEvidence evidence) {
        double largest = evidence.clockHalfWidth(evidence.judged());
        long others = evidence.judged().stream()
                .mapToDouble(point -> evidence.clockHalfWidth(evidence.reference(), point))
                .filter(halfWidth -> halfWidth > 0)
                .distinct()
                .count();
        return others > 1 ? 2 * largest : largest;
    }

    /** Longest holding time that each logger leaves possible by its own points alone, whatever the others' clocks. */
    private static double possibleOnOwnClocks(RunEvidence evidence) {
        double shortest = Double.POSITIVE_INFINITY;
        for (CorrectedChannel first : evidence.judged()) {
            List<CorrectedChannel> together = evidence.judged().stream()
                    .filter(point -> evidence.clockHalfWidth(first, point) == 0)
                    .toList();
            shortest = Math.min(shortest, new PlateauFinder(first, together, evidence.band()).possibleHoldingSeconds());
        }
        return shortest;
    }

    /**
     * Longest holding time that the evidence leaves possible, in seconds: what was not recorded counts as inside, and
     * channels whose values are wrong are left out.
     */
    private static double possibleSeconds(RunEvidence evidence) {
        Set<String> untrusted = SensorsAlive.untrusted(evidence);
        List<CorrectedChannel> trusted = evidence.judged().stream()
                .filter(point -> !untrusted.contains(point.name()))
                .toList();
        if (!trusted.contains(evidence.reference())) {
            return Double.POSITIVE_INFINITY;
        }
        return new PlateauFinder(evidence.reference(), trusted, evidence.band()).possibleHoldingSeconds();
    }

    private static StretchEnd end(Plateau plateau) {
        return plateau.holdingEnd();
    }

    private static Finding noPlateau(RunEvidence evidence, Requirement requirement, Limit limit) {
        double highest = Double.NEGATIVE_INFINITY;
        double moment = evidence.reference().axis().first();
        for (int i = 0; i < evidence.reference().size(); i++) {
            if (evidence.reference().at(i) > highest) {
                highest = evidence.reference().at(i);
                moment = evidence.reference().axis().at(i);
            }
        }
        double raised = evidence.raised().map(Plateau::holdingSeconds).orElse(0.0);
        return Findings.judged(
                requirement,
                limit,
                new Figure(0, 0, raised, Unit.SECONDS, "no plateau was found"),
                Evidence.at(
                        evidence.reference().name(),
                        moment,
                        evidence.reference().axis().first(),
                        evidence.reference().axis().last()),
                "The reference measurement point never reached %s °C; its highest reading was %s at %s."
                        .formatted(
                                Figures.plain(evidence.band().lowCelsius(), Unit.CELSIUS),
                                Figures.shown(highest, Unit.CELSIUS, Comparison.AT_LEAST),
                                Figures.moment(moment)));
    }

    private static String why(Plateau plateau) {
        if (plateau.holding().isEmpty()) {
            return plateau.latecomers().isEmpty()
                    ? "The points were never inside the band together."
                    : "Channel %s never reached it.".formatted(String.join(", ", plateau.latecomers()));
        }
        if (isLateArrival(plateau)) {
            return "All points stood together only from %s on: channel %s came last, %s after the reference measurement point."
                    .formatted(
                            Figures.moment(plateau.holding().get().fromSeconds()),
                            slowest(plateau).channel(),
                            Figures.shown(
                                    plateau.holding().get().fromSeconds() - plateau.reachedSeconds(),
                                    Unit.SECONDS,
                                    Comparison.AT_MOST));
        }
        // a stretch that begins late is short because of what broke the one before it
        StretchEnd end = plateau.breakBefore().orElse(end(plateau));
        String at = Figures.moment(end.atSeconds());
        return switch (end.reason()) {
            case BELOW -> dipOrEnd(plateau, end);
            case ABOVE -> "Channel %s rose above the band at %s.".formatted(end.channel(), at);
            case GAP -> "Samples of channel %s are missing before %s.".formatted(end.channel(), at);
            case MISSING -> "Channel %s has no value at %s.".formatted(end.channel(), at);
            case END_OF_RECORDING -> "The recording ends at %s while all points still stood in the band.".formatted(at);
            case NONE -> "The points were never inside the band together.";
        };
    }

    /** Whether the stretch is short because it began late, and not because something broke it. */
    private static boolean isLateArrival(Plateau plateau) {
        double from = plateau.holding().orElseThrow().fromSeconds();
        boolean isFirstTogether = plateau.together().map(Stretch::fromSeconds).orElse(from) >= from;
        return isFirstTogether
                && end(plateau).atSeconds() > plateau.endSeconds()
                && from - plateau.reachedSeconds() > LATE_SECONDS;
    }

    private static Crossing slowest(Plateau plateau) {
        Crossing slowest = plateau.crossings().get(0);
        for (Crossing crossing : plateau.crossings()) {
            if (crossing.sampleSeconds() > slowest.sampleSeconds()) {
                slowest = crossing;
            }
        }
        return slowest;
    }

    private static String dipOrEnd(Plateau plateau, StretchEnd end) {
        for (Excursion dip : plateau.dips()) {
            if (dip.channel().equals(end.channel()) && dip.fromSeconds() == end.atSeconds()) {
                return "Channel %s fell to %s at %s and recovered; two stretches are never added up."
                        .formatted(
                                dip.channel(),
                                Figures.shown(dip.worstCelsius(), Unit.CELSIUS, Comparison.AT_LEAST),
                                Figures.moment(dip.worstSeconds()));
            }
        }
        return "Channel %s left it first, at %s.".formatted(end.channel(), Figures.moment(end.atSeconds()));
    }
}
