package org.steamwright.assessment.cycle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.ChannelRuns.Ended;
import org.steamwright.assessment.cycle.Plateau.Excursion;
import org.steamwright.assessment.cycle.Plateau.StretchEnd;
import org.steamwright.assessment.cycle.Plateau.StretchEnd.Reason;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * Finds the plateau of a cycle by its sterilization temperature, never as the first flat part.
 *
 * <p>A candidate begins when the reference measurement point reaches the lower limit and goes on until that point falls
 * more than {@link #RELEASE_KELVIN} below it. Conditioning steps below the band are no candidates; a positive pulse that
 * touches the band is one, and loses to the candidate with the longest holding time.
 *
 * @source definitions of equilibration and holding time as in the handbook, section 2; the release is our own choice
 */
public final class PlateauFinder {

    /** How far the reference measurement point may fall below the limit before the plateau counts as over, in kelvin. */
    public static final double RELEASE_KELVIN = 1.0;

    /**
     * Lengths that differ by no more than this are equal, in seconds, and of equal stretches the first counts: otherwise the
     * rounding of a clock reading would choose between them.
     */
    static final double EQUAL_SECONDS = 1e-6;

    private final CorrectedChannel reference;
    private final List<CorrectedChannel> judged;
    private final Band band;

    /**
     * @param reference the reference measurement point; also one of {@code judged}
     * @param judged every point that has to stand in the band, at least one
     * @param band sterilization temperature band
     */
    public PlateauFinder(CorrectedChannel reference, List<CorrectedChannel> judged, Band band) {
        if (judged.isEmpty()) {
            throw new IllegalArgumentException("no point to judge");
        }
        this.reference = reference;
        this.judged = List.copyOf(judged);
        this.band = band;
    }

    /** The plateau; empty if the reference measurement point never reached the lower limit. */
    public Optional<Plateau> find() {
        List<Ended> inBand = ChannelRuns.together(judged, band);
        List<Ended> atTemperature = ChannelRuns.together(judged, band.open());
        Optional<Plateau> best = Optional.empty();
        for (Stretch candidate : candidates()) {
            Plateau plateau = plateau(candidate, inBand, atTemperature);
            if (best.isEmpty() || isBetter(plateau, best.get())) {
                best = Optional.of(plateau);
            }
        }
        return best;
    }

    /**
     * Longest holding time that the recording leaves possible in any candidate, in seconds: as if everything that was not
     * recorded (missing values, gaps, what lies beyond the end) had been inside the band. Infinite if the recording ends
     * inside; 0 without a candidate.
     */
    public double possibleHoldingSeconds() {
        List<Ended> possible = ChannelRuns.togetherIfUnknownWereInside(judged, band);
        double longest = 0;
        for (Stretch candidate : candidates()) {
            longest = Math.max(longest, longest(within(candidate, possible)));
        }
        return longest;
    }

    private static boolean isBetter(Plateau plateau, Plateau best) {
        double byHolding = plateau.holdingSeconds() - best.holdingSeconds();
        if (Math.abs(byHolding) > EQUAL_SECONDS) {
            return byHolding > 0;
        }
        double byLength =
                (plateau.endSeconds() - plateau.reachedSeconds()) - (best.endSeconds() - best.reachedSeconds());
        return byLength > EQUAL_SECONDS;
    }

    private List<Stretch> candidates() {
        List<Stretch> candidates = new ArrayList<>();
        TimeAxis axis = reference.axis();
        int from = -1;
        int last = -1;
        for (int i = 0; i < reference.size(); i++) {
            double value = reference.at(i);
            if (value >= band.lowCelsius()) {
                if (from < 0) {
                    from = i;
                }
                last = i;
            } else if (from >= 0 && value < band.lowCelsius() - RELEASE_KELVIN) {
                candidates.add(new Stretch(axis.at(from), axis.at(last)));
                from = -1;
            }
        }
        if (from >= 0) {
            candidates.add(new Stretch(axis.at(from), axis.at(last)));
        }
        return candidates;
    }

    private Plateau plateau(Stretch candidate, List<Ended> inBand, List<Ended> atTemperature) {
        List<Ended> held = within(candidate, inBand);
        Optional<Ended> longest = Optional.empty();
        Optional<StretchEnd> breakBefore = Optional.empty();
        Optional<StretchEnd> previousEnd = Optional.empty();
        for (Ended stretch : held) {
            if (longest.isEmpty()
                    || stretch.stretch().seconds() > longest.get().stretch().seconds() + EQUAL_SECONDS) {
                longest = Optional.of(stretch);
                breakBefore = previousEnd;
            }
            previousEnd = Optional.of(stretch.end());
        }
        List<Ended> hot = within(candidate, atTemperature);
        Optional<Stretch> together = steady(hot);
        List<Crossing> crossings = new ArrayList<>();
        List<String> latecomers = new ArrayList<>();
        for (CorrectedChannel channel : judged) {
            findCrossing(channel, candidate).ifPresentOrElse(crossings::add, () -> latecomers.add(channel.name()));
        }
        return new Plateau(
                candidate.fromSeconds(),
                candidate.toSeconds(),
                hot.stream().findFirst().map(first -> first.stretch().fromSeconds()),
                together,
                longest.map(Ended::stretch),
                longest.map(Ended::end).orElse(new StretchEnd(Reason.NONE, "", candidate.fromSeconds())),
                breakBefore,
                crossings,
                latecomers,
                together.map(this::dips).orElse(List.of()));
    }

    /** The parts of the stretches that lie inside the candidate. */
    private List<Ended> within(Stretch candidate, List<Ended> stretches) {
        List<Ended> inside = new ArrayList<>();
        for (Ended ended : stretches) {
            double from = Math.max(ended.stretch().fromSeconds(), candidate.fromSeconds());
            double to = Math.min(ended.stretch().toSeconds(), candidate.toSeconds());
            if (from <= to) {
                inside.add(new Ended(new Stretch(from, to), ended.end()));
            }
        }
        return inside;
    }

    /** Length of the longest stretch in seconds; infinite for one that reaches the end of the recording. */
    private static double longest(List<Ended> stretches) {
        double longest = 0;
        for (Ended ended : stretches) {
            boolean isCut = ended.end().reason() == Reason.END_OF_RECORDING;
            longest = Math.max(
                    longest, isCut ? Double.POSITIVE_INFINITY : ended.stretch().seconds());
        }
        return longest;
    }

    private static Optional<Stretch> steady(List<Ended> hot) {
        double from = Double.NaN;
        double to = Double.NaN;
        for (Ended ended : hot) {
            if (ended.stretch().seconds() >= Plateau.STEADY_SECONDS - EQUAL_SECONDS) {
                if (Double.isNaN(from)) {
                    from = ended.stretch().fromSeconds();
                }
                to = ended.stretch().toSeconds();
            }
        }
        return Double.isNaN(from) ? Optional.empty() : Optional.of(new Stretch(from, to));
    }

    /** When a point arrived: the begin of its first run at temperature that is not over before the candidate begins. */
    private Optional<Crossing> findCrossing(CorrectedChannel channel, Stretch candidate) {
        for (Ended run : ChannelRuns.of(channel, band.open())) {
            if (run.stretch().toSeconds() >= candidate.fromSeconds()
                    && run.stretch().fromSeconds() <= candidate.toSeconds()) {
                double sample = run.stretch().fromSeconds();
                return Optional.of(new Crossing(channel.name(), sample, interpolated(channel, sample)));
            }
        }
        return Optional.empty();
    }

    private double interpolated(CorrectedChannel channel, double sample) {
        int index = channel.axis().indexAtOrAfter(sample);
        if (index == 0 || channel.axis().isGapBefore(index) || Double.isNaN(channel.at(index - 1))) {
            return sample;
        }
        double before = channel.at(index - 1);
        double t0 = channel.axis().at(index - 1);
        return t0 + (sample - t0) * (band.lowCelsius() - before) / (channel.at(index) - before);
    }

    private List<Excursion> dips(Stretch together) {
        List<Excursion> dips = new ArrayList<>();
        for (CorrectedChannel channel : judged) {
            TimeAxis axis = channel.axis();
            int i = axis.indexAtOrAfter(together.fromSeconds());
            while (i < channel.size() && axis.at(i) <= together.toSeconds()) {
                if (channel.at(i) < band.lowCelsius()) {
                    int from = i;
                    int worst = i;
                    while (i + 1 < channel.size() && channel.at(i + 1) < band.lowCelsius()) {
                        i++;
                        if (channel.at(i) < channel.at(worst)) {
                            worst = i;
                        }
                    }
                    dips.add(new Excursion(
                            channel.name(), axis.at(from), axis.at(i), channel.at(worst), axis.at(worst)));
                }
                i++;
            }
        }
        dips.sort((one, other) -> Double.compare(one.fromSeconds(), other.fromSeconds()));
        return dips;
    }
}
