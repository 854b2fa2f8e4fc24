package org.steamwright.assessment.criteria;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.calibration.TraceCorrection;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;

/**
 * Whether the sensors that are judged were alive during the plateau: no missing value, no gap, no stuck value, not at the
 * end of their range, nothing impossible.
 */
public final class SensorsAlive implements Criterion<RunEvidence> {

    /** A value that stands still this long while the others move is stuck, in seconds. Own choice, no source. */
    private static final double STUCK_SECONDS = 60.0;

    /** How far the others have to move meanwhile, in kelvin. Own choice, no source. */
    private static final double OTHERS_MOVE_KELVIN = 5.0;

    /** How long before the plateau a value stands still if it was stuck all the time, in seconds. Own choice. */
    private static final double BEFORE_SECONDS = 10.0;

    private static final double IMPOSSIBLE_CELSIUS = 160.0;
    private static final double IMPOSSIBLE_KILOPASCAL = 600.0;

    @Override
    public CriterionId id() {
        return CriterionId.SENSORS_ALIVE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        Stretch stretch = stretch(evidence);
        List<String> faults = new ArrayList<>();
        List<String> names = new ArrayList<>();
        for (CorrectedChannel channel : evidence.measuredAndPressure()) {
            Optional<String> fault = absent(channel, stretch).or(() -> untrusted(channel, stretch, evidence));
            if (fault.isPresent()) {
                faults.add(fault.get());
                names.add(channel.name());
            }
        }
        if (faults.isEmpty()) {
            return Findings.met(
                    requirement,
                    Evidence.stretch(evidence.judgedNames(), stretch.fromSeconds(), stretch.toSeconds()),
                    "Every sensor delivered: nothing missing, nothing stuck, nothing at the end of its range.");
        }
        return Findings.invalid(
                requirement,
                Evidence.stretch(names, stretch.fromSeconds(), stretch.toSeconds()),
                String.join(" ", faults));
    }

    /**
     * Channels whose values themselves are wrong (stuck, at the end of their range, impossible, not of the declared kind),
     * with the theoretical temperature if the pressure is among them. A channel that only lacks samples is not: those it has are good.
     */
    public static Set<String> untrusted(RunEvidence evidence) {
        Stretch stretch = stretch(evidence);
        Set<String> names = new HashSet<>();
        for (CorrectedChannel channel : evidence.measuredAndPressure()) {
            if (untrusted(channel, stretch, evidence).isPresent()) {
                names.add(channel.name());
            }
        }
        evidence.corrected().pressure().ifPresent(pressure -> {
            if (!PressureAgreesWithOpenDoor.isTrusted(evidence)) {
                names.add(pressure.name());
            }
            if (names.contains(pressure.name())) {
                names.add(TraceCorrection.THEORETICAL_NAME);
            }
        });
        return names;
    }

    /** The plateau, or the whole recording where there is none. */
    private static Stretch stretch(RunEvidence evidence) {
        return evidence.asRead()
                .map(plateau -> new Stretch(plateau.reachedSeconds(), plateau.endSeconds()))
                .orElseGet(() -> new Stretch(
                        evidence.reference().axis().first(),
                        evidence.reference().axis().last()));
    }

    private static Optional<String> absent(CorrectedChannel channel, Stretch stretch) {
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        if (from > to) {
            return Optional.of("Channel %s has no sample in the plateau.".formatted(channel.name()));
        }
        return missing(channel, from, to).or(() -> gap(channel, from, to));
    }

    private static Optional<String> untrusted(CorrectedChannel channel, Stretch stretch, RunEvidence evidence) {
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        return impossible(channel, from, to)
                .or(() -> rangeEnd(channel, from, to))
                .or(() -> stuck(channel, stretch, evidence));
    }

    private static Optional<String> missing(CorrectedChannel channel, int from, int to) {
        int missing = 0;
        int first = -1;
        for (int i = from; i <= to; i++) {
            if (Double.isNaN(channel.at(i))) {
                missing++;
                first = first < 0 ? i : first;
            }
        }
        return missing == 0
                ? Optional.empty()
                : Optional.of("Channel %s has no value in %s of %s samples of the plateau, first at %s."
                        .formatted(
                                channel.name(),
                                missing,
                                to - from + 1,
                                Figures.moment(channel.axis().at(first))));
    }

    /** A gap inside the plateau, or one that reaches into it. */
    private static Optional<String> gap(CorrectedChannel channel, int from, int to) {
        for (int i = from; i <= Math.min(to + 1, channel.size() - 1); i++) {
            if (channel.axis().isGapBefore(i)) {
                return Optional.of("Channel %s has no sample between %s and %s."
                        .formatted(
                                channel.name(),
                                Figures.moment(channel.axis().at(i - 1)),
                                Figures.moment(channel.axis().at(i))));
            }
        }
        return Optional.empty();
    }

    private static Optional<String> impossible(CorrectedChannel channel, int from, int to) {
        double ceiling = channel.role() == ChannelRole.PRESSURE ? IMPOSSIBLE_KILOPASCAL : IMPOSSIBLE_CELSIUS;
        for (int i = from; i <= to; i++) {
            if (channel.at(i) > ceiling || channel.at(i) < 0) {
                return Optional.of("Channel %s shows %s %s at %s, which no steriliser of this kind reaches."
                        .formatted(
                                channel.name(),
                                Figures.nearest(channel.at(i), 1),
                                channel.channel().column().quantity().unit(),
                                Figures.moment(channel.axis().at(i))));
            }
        }
        return Optional.empty();
    }

    private static Optional<String> rangeEnd(CorrectedChannel channel, int from, int to) {
        double end = channel.instrument().map(ReferenceInstrument::rangeHigh).orElse(Double.POSITIVE_INFINITY);
        for (int i = from; i <= to; i++) {
            if (channel.channel().column().at(i) >= end) {
                return Optional.of("Channel %s stands at the end of its range, %s %s, at %s."
                        .formatted(
                                channel.name(),
                                Figures.nearest(end, 1),
                                channel.channel().column().quantity().unit(),
                                Figures.moment(channel.axis().at(i))));
            }
        }
        return Optional.empty();
    }

    /**
     * Equal values for a long time that reach into the plateau while most witnesses moved a long way: still there when
     * the others have left, or there from well before the plateau to its end. A steady plateau with a late pack is neither.
     */
    private static Optional<String> stuck(CorrectedChannel channel, Stretch plateau, RunEvidence evidence) {
        Column column = channel.channel().column();
        int from = 0;
        for (int i = 1; i <= channel.size(); i++) {
            if (i < channel.size() && column.at(i) == column.at(from)) {
                continue;
            }
            double begin = channel.axis().at(from);
            double end = channel.axis().at(i - 1);
            boolean isInPlateau = end >= plateau.fromSeconds() && begin <= plateau.toSeconds();
            if (isInPlateau && end - begin >= STUCK_SECONDS) {
                Stretch still = new Stretch(begin, end);
                boolean isThroughout = begin <= plateau.fromSeconds() - BEFORE_SECONDS && end >= plateau.toSeconds();
                if (count(channel, evidence, other -> hasMoved(other, still))
                        && (isThroughout || count(channel, evidence, other -> hasLeft(other, plateau, end)))) {
                    return Optional.of("Channel %s stands still at %s %s from %s to %s while others move."
                            .formatted(
                                    channel.name(),
                                    Figures.nearest(column.at(from), 2),
                                    column.quantity().unit(),
                                    Figures.moment(begin),
                                    Figures.moment(end)));
                }
            }
            from = i;
        }
        return Optional.empty();
    }

    /**
     * Whether more than half of the other witnesses do; a single one may itself be at fault. Witnesses are the measured
     * points, and for them the theoretical temperature too.
     */
    private static boolean count(
            CorrectedChannel channel, RunEvidence evidence, Predicate<CorrectedChannel> condition) {
        List<CorrectedChannel> others = new ArrayList<>(evidence.measured());
        if (channel.role() != ChannelRole.PRESSURE) {
            evidence.corrected().find(ChannelRole.THEORETICAL).ifPresent(others::add);
        }
        others.removeIf(other -> other.name().equals(channel.name()));
        return 2 * others.stream().filter(condition).count() > others.size();
    }

    private static boolean hasMoved(CorrectedChannel point, Stretch stretch) {
        Optional<Extreme> lowest = Extreme.findLowest(List.of(point), stretch);
        Optional<Extreme> highest = Extreme.findHighest(List.of(point), stretch);
        return lowest.isPresent()
                && highest.isPresent()
                && highest.get().value() - lowest.get().value() > OTHERS_MOVE_KELVIN;
    }

    /** Whether the point fell well below the highest temperature that it had in the plateau, up to a moment. */
    private static boolean hasLeft(CorrectedChannel point, Stretch plateau, double moment) {
        return Extreme.findHighest(List.of(point), plateau)
                .filter(highest -> highest.seconds() < moment)
                .filter(highest -> Extreme.findLowest(List.of(point), new Stretch(highest.seconds(), moment))
                        .filter(lowest -> highest.value() - lowest.value() > OTHERS_MOVE_KELVIN)
                        .isPresent())
                .isPresent();
    }
}
