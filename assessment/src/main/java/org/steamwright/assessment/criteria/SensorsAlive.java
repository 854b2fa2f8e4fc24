package org.steamwright.assessment.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * Whether the sensors that are judged were alive during the plateau: no missing value, no gap, no stuck value, not at the
 * end of their range, nothing impossible.
 */
public final class SensorsAlive implements Criterion<RunEvidence> {

    /** A value that stands still this long while the others move is stuck, in seconds. Own choice, no source. */
    private static final double STUCK_SECONDS = 60.0;

    /** How far another channel has to move meanwhile, in kelvin. Own choice, no source. */
    private static final double OTHERS_MOVE_KELVIN = 5.0;

    private static final double IMPOSSIBLE_CELSIUS = 160.0;
    private static final double IMPOSSIBLE_KILOPASCAL = 600.0;

    @Override
    public CriterionId id() {
        return CriterionId.SENSORS_ALIVE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        Stretch stretch = evidence.asRead()
                .map(plateau -> new Stretch(plateau.reachedSeconds(), plateau.endSeconds()))
                .orElseGet(() -> new Stretch(
                        evidence.reference().axis().first(),
                        evidence.reference().axis().last()));
        List<CorrectedChannel> channels = new ArrayList<>(evidence.measured());
        evidence.corrected().pressure().ifPresent(channels::add);
        List<String> faults = new ArrayList<>();
        List<String> dead = new ArrayList<>();
        for (CorrectedChannel channel : channels) {
            Optional<String> fault = fault(channel, stretch, evidence);
            if (fault.isPresent()) {
                faults.add(fault.get());
                dead.add(channel.name());
                if (channel.role() == ChannelRole.PRESSURE) {
                    evidence.corrected().find(ChannelRole.THEORETICAL).ifPresent(t -> dead.add(t.name()));
                }
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
                Evidence.stretch(dead, stretch.fromSeconds(), stretch.toSeconds()),
                String.join(" ", faults));
    }

    private static Optional<String> fault(CorrectedChannel channel, Stretch stretch, RunEvidence evidence) {
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        if (from > to) {
            return Optional.of("Channel %s has no sample in the plateau.".formatted(channel.name()));
        }
        return missing(channel, from, to)
                .or(() -> gap(channel, from, to))
                .or(() -> impossible(channel, from, to))
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
                return Optional.of("Channel %s shows %s %s at %s, which no sterilizer of this kind reaches."
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

    /** Equal values for a long time that reach into the plateau, during which another channel moved a long way. */
    private static Optional<String> stuck(CorrectedChannel channel, Stretch plateau, RunEvidence evidence) {
        if (channel.role() == ChannelRole.PRESSURE) {
            return Optional.empty();
        }
        int from = 0;
        for (int i = 1; i <= channel.size(); i++) {
            boolean isSame = i < channel.size()
                    && channel.channel().column().at(i)
                            == channel.channel().column().at(from);
            if (!isSame) {
                double begin = channel.axis().at(from);
                double end = channel.axis().at(i - 1);
                boolean isInPlateau = end >= plateau.fromSeconds() && begin <= plateau.toSeconds();
                if (isInPlateau && end - begin >= STUCK_SECONDS && hasAnotherMoved(channel, begin, end, evidence)) {
                    return Optional.of("Channel %s stands still at %s °C from %s to %s while others move."
                            .formatted(
                                    channel.name(),
                                    Figures.nearest(channel.channel().column().at(from), 2),
                                    Figures.moment(begin),
                                    Figures.moment(end)));
                }
                from = i;
            }
        }
        return Optional.empty();
    }

    private static boolean hasAnotherMoved(CorrectedChannel channel, double begin, double end, RunEvidence evidence) {
        for (CorrectedChannel other : evidence.judged()) {
            if (other.name().equals(channel.name())) {
                continue;
            }
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            int to = other.axis().indexAtOrBefore(end);
            for (int i = other.axis().indexAtOrAfter(begin); i <= to; i++) {
                if (!Double.isNaN(other.at(i))) {
                    low = Math.min(low, other.at(i));
                    high = Math.max(high, other.at(i));
                }
            }
            if (high - low > OTHERS_MOVE_KELVIN) {
                return true;
            }
        }
        return false;
    }
}
